"""How a bevel will curve and widen its bar, before it is forged and after its first heat is measured."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Final, NamedTuple

from coach.finish.bevel import (
    USUAL_SHARE,
    Calibrated,
    bevel,
    bevel_range,
    calibrated,
    predicted,
    radius_from_sagitta_mm,
    share_from_radius,
)
from coach.quantities import Shown, write_length, write_share
from coach.reckoner.asking.reading import NotReckoned, TypedBar, write_fine

_BEFORE: Final = (
    "Nobody has published a measured bevel: the radius is known to a factor of two at best, until the first "
    "bevel heat has been measured and given as --sagitta, --chord and --measured-width."
)
_BY_RADIUS: Final = (
    "From the curve alone it is taken that all of the difference lies in the share of the metal that went "
    "lengthwise; give --measured-width as well."
)
_NOT_FOLLOWED: Final = (
    "What the hammer straightens in between, twist and uneven heat are not followed; the back is taken to "
    "keep its length."
)


class MeasuredHeat(NamedTuple):
    """What was measured after a bevel heat, in mm."""

    edge_mm: float  # as thick as that heat left it
    sagitta_mm: float
    chord_mm: float
    width_mm: float | None


class CalibratedBevelView(NamedTuple):
    """What the measured heat says of the whole bevel."""

    radius_measured: float  # of the back
    radius_measured_text: str
    share: float  # of the displaced metal that went into the length
    share_text: str
    factor: float | None  # measured curvature over the reckoned one; None without a measured width
    width: float  # of the bar, once the whole bevel is forged
    width_text: str
    radius: float  # of the back then
    radius_text: str
    pre_curve: float  # bent the other way to this radius beforehand, it would end straight
    pre_curve_text: str


class BevelView(NamedTuple):
    """What forging a bevel does to a straight bar."""

    section: str  # the bar as shown
    edge: float  # how thick the edge is forged
    edge_text: str
    bevel: float  # how far the bevel reaches from it
    bevel_text: str
    share: float  # of the displaced metal that goes into the length, as assumed
    width: float  # afterwards
    width_text: str
    edge_growth: float  # how many times as long the edge becomes, by the plain model
    radius: float  # of the back
    radius_low: float  # the tightest it may curve to
    radius_high: float  # the widest, by the plain model
    radius_text: str
    pre_curve: float  # radius of the back, bent the other way beforehand, that ends straight
    pre_curve_low: float | None  # None where it is tighter than the bar can be bent
    pre_curve_high: float  # the widest
    pre_curve_text: str
    measured: CalibratedBevelView | None  # once a heat was measured
    remarks: tuple[str, ...]  # sentences on what was assumed


def bevelling(
    bar: TypedBar,
    edge_mm: float,
    shown: Shown,
    *,
    bevel_mm: float | None = None,
    share: float = USUAL_SHARE,
    measured: MeasuredHeat | None = None,
) -> BevelView:
    """The curve and the widening of a bar; without a width, the bevel takes the whole width of the bar.

    Raises NotReckoned for a bar without four sides and FinishError for sizes that make no bevel. Source:
    derived, with factor and share of judgement, by `coach.finish.bevel`.

    >>> round(bevelling(TypedBar("flat", (40.0, 6.0)), 1, Shown(), bevel_mm=20).radius_high, 3)
    163.293
    """
    if not bar.has_four_sides:
        raise NotReckoned(
            f"A bevel is reckoned on square and flat bars, not on {bar.words}; give its section as "
            "width by thickness."
        )
    bevel_mm = bar.width_mm if bevel_mm is None else bevel_mm
    sizes = bar.width_mm, bar.thickness_mm, edge_mm, bevel_mm
    first = bevel(*sizes, share)
    found = bevel_range(*sizes, share)
    say = partial(write_length, shown=shown)
    tightest_mm = found.tightest_pre_curve_mm
    least = "as tight as it will bend" if tightest_mm is None else say(tightest_mm)
    told = None if measured is None else _calibrated(bar, edge_mm, bevel_mm, measured, shown)
    return BevelView(
        section=str(bar.words),
        edge=edge_mm,
        edge_text=write_fine(edge_mm, shown),
        bevel=bevel_mm,
        bevel_text=say(bevel_mm),
        share=share,
        width=bar.width_mm + first.widening_mm,
        width_text=say(bar.width_mm + first.widening_mm),
        edge_growth=first.edge_growth,
        radius=found.likely_radius_mm,
        radius_low=found.tightest_radius_mm,
        radius_high=found.widest_radius_mm,
        radius_text=f"about {say(found.likely_radius_mm)}, somewhere from {say(found.tightest_radius_mm)} to "
        f"{say(found.widest_radius_mm)}",
        pre_curve=found.likely_pre_curve_mm,
        pre_curve_low=tightest_mm,
        pre_curve_high=found.widest_pre_curve_mm,
        pre_curve_text=f"about {say(found.likely_pre_curve_mm)}, somewhere from {least} to "
        f"{say(found.widest_pre_curve_mm)}",
        measured=told,
        remarks=tuple(_remarks(share, measured)),
    )


def _calibrated(
    bar: TypedBar, edge_mm: float, bevel_mm: float, measured: MeasuredHeat, shown: Shown
) -> CalibratedBevelView:
    forged = bar.width_mm, bar.thickness_mm, measured.edge_mm, bevel_mm
    radius_mm = radius_from_sagitta_mm(measured.chord_mm, measured.sagitta_mm)
    if measured.width_mm is None:
        learned = Calibrated(share_from_radius(*forged, radius_mm), 1.0)
    else:
        learned = calibrated(*forged, width_after_mm=measured.width_mm, radius_mm=radius_mm)
    found = predicted(learned, bar.width_mm, bar.thickness_mm, edge_mm, bevel_mm)
    say = partial(write_length, shown=shown)
    return CalibratedBevelView(
        radius_measured=radius_mm,
        radius_measured_text=say(radius_mm),
        share=learned.share,
        share_text=write_share(learned.share),
        factor=None if measured.width_mm is None else learned.factor,
        width=found.width_mm,
        width_text=say(found.width_mm),
        radius=found.radius_mm,
        radius_text=say(found.radius_mm),
        pre_curve=found.pre_curve_mm,
        pre_curve_text=say(found.pre_curve_mm),
    )


def _remarks(share: float, measured: MeasuredHeat | None) -> Iterator[str]:
    if measured is None:
        yield _BEFORE
        yield f"It is taken that {write_share(share)} of the displaced metal goes lengthwise (judgement)."
    elif measured.width_mm is None:
        yield _BY_RADIUS
    yield _NOT_FOLLOWED
