"""How a bevel will curve and widen its bar, before it is forged and after its first heat is measured."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.finish.bevel import (
    USUAL_SHARE,
    BarToBevel,
    bevel_range,
    calibrated,
    predicted,
    radius_from_sagitta_mm,
)
from coach.finish.bevel import bevel as plain_bevel
from coach.quantities import Figure, Kind, Words, mm, say
from coach.quantities import share as part_of
from coach.quantities.takes import Take, plain
from coach.reckoner.asking.reading import NotReckoned, TypedBar, read_fraction
from coach.reckoner.asking.takes import bar, size
from coach.reckoner.asking.told import Told, Under

SUMMARY = "Tell how a forged bevel curves a bar, and the bend before it."
SOURCES = (
    "Sources: derived for this coach, and no measured bevel was found to confirm it; half of the metal "
    "lengthwise, 1.3 times the curve of the plain model and a span of a factor two (judgement). Measure the "
    "first bevel heat."
)
_THEN: Final = "after the first bevel heat: "
TAKES = (
    bar(),
    size("edge", "how thick the edge is forged: 1", metavar="EDGE", needed=True, may_be_nothing=True),
    size("--bevel", "how far the bevel reaches; else the whole width", metavar="WIDTH"),
    Take(
        "--share",
        "of the displaced metal, what goes lengthwise: 0.5 unless said",
        "SHARE",
        plain(read_fraction),
        usual=str(USUAL_SHARE),
    ),
    size("--sagitta", f"{_THEN}how far the back's middle stands off the straight-edge", metavar="S"),
    size("--chord", f"{_THEN}how long the straight-edge is that lies in the curve", metavar="C"),
    size("--measured-width", f"{_THEN}how wide the bar is, back to edge", metavar="WIDTH"),
    size("--measured-edge", f"{_THEN}how thick the edge is; else as aimed at", metavar="T"),
)

#: How far a sagitta read with a rule may be off, one standard uncertainty (judgement).
SAGITTA_DOUBT_MM: Final = 0.3

_BEFORE: Final = say(
    "Nobody has published a measured bevel: the radius is known to a factor of two at best, until the first "
    "bevel heat has been measured and given as --sagitta, --chord and --measured-width."
)
_BY_RADIUS: Final = say(
    "From the curve alone it is taken that all of the difference lies in the share of the metal that went "
    "lengthwise; give --measured-width as well."
)
_NOT_FOLLOWED: Final = say(
    "What the hammer straightens in between, twist and uneven heat are not followed; the back is taken to "
    "keep its length."
)


class MeasuredBevel(NamedTuple):
    """What a measured heat says of the whole bevel."""

    measured_radius: Figure  # of the back after that heat
    share: Figure  # of the displaced metal that went lengthwise
    factor: Figure | None  # how many times as sharply it curves as reckoned; None without a measured width
    width: Figure  # of the bar, once the whole bevel is forged
    radius: Figure  # of the back then
    pre_curve: Figure  # bent the other way to this radius beforehand, it would end straight


class Bevel(NamedTuple):
    """What forging a bevel does to a straight bar."""

    section: TypedBar
    edge: Figure  # how thick the edge is forged
    bevel: Figure  # how far the bevel reaches from it
    share: Figure  # of the displaced metal, what is taken to go lengthwise
    width: Figure  # what the bar becomes
    edge_growth: Figure  # how many times as long the edge becomes, by the plain model
    radius: Figure  # what its back is likely to curve to
    tightest: Figure  # the tightest it may curve to
    widest: Figure  # the widest, by the plain model
    pre_curve: Figure  # the radius of the back, bent the other way beforehand, that is likely to end straight
    pre_curve_tightest: Figure | None  # None where it is tighter than the bar can be bent
    pre_curve_widest: Figure  # the widest
    measured: MeasuredBevel | None  # once a heat was measured
    remarks: tuple[Words, ...]  # what was assumed


def reckon(
    section: TypedBar,
    edge: float,
    bevel: float | None = None,
    share: float = USUAL_SHARE,
    sagitta: float | None = None,
    chord: float | None = None,
    measured_width: float | None = None,
    measured_edge: float | None = None,
) -> Bevel:
    """The curve and the widening of a bar, sizes in mm; without a width, the bevel takes the whole bar.

    Raises NotReckoned for a bar without four sides and for half a measurement, and OutOfRange for sizes that
    make no bevel. Source: derived, with factor and share of judgement, by `coach.finish.bevel`.

    >>> round(reckon(TypedBar("flat", (40.0, 6.0)), 1, 20).widest.value, 3)
    163.293
    """
    if not section.has_four_sides:
        raise NotReckoned(
            "A bevel is reckoned on square and flat bars, not on {}; give its section as width by thickness.",
            section.words,
        )
    if (sagitta is None) != (chord is None):
        raise NotReckoned("A curve is told by both --sagitta and --chord: give the one that is missing.")
    if sagitta is None and (measured_width, measured_edge) != (None, None):
        alone = "What was measured says nothing without the curve: give --sagitta and --chord as well."
        raise NotReckoned(alone)
    bevel_mm = section.width_mm if bevel is None else bevel
    bar = BarToBevel(section.width_mm, section.thickness_mm, edge, bevel_mm)
    first = plain_bevel(bar, share)
    measured = None
    if sagitta is not None and chord is not None:
        forged = bar._replace(edge_mm=edge if measured_edge is None else measured_edge)
        measured = _measured(bar, forged, measured_width, chord, sagitta)
    return Bevel(
        section,
        Figure(edge, Kind.FINE),
        mm(bevel_mm),
        part_of(share),
        mm(section.width_mm + first.widening_mm),
        Figure(first.edge_growth, Kind.FACTOR),
        *bevel_range(bar, share),
        measured,
        tuple(_remarks(share, measured)),
    )


def told(answer: Bevel) -> Iterator[Told]:
    """The curve, and what to bend beforehand."""
    yield say(
        "{}, bevelled {} wide down to {}: the edge grows as it thins, and let be the bar curves about its "
        "back to about {}, somewhere from {} to {} of radius, and becomes about {} wide.",
        answer.section.words,
        answer.bevel,
        say("an edge of {}", answer.edge) if answer.edge.value else "nothing",
        answer.radius,
        answer.tightest,
        answer.widest,
        answer.width,
    )
    yield say(
        "To end straight, bend its back the other way beforehand to about {}, somewhere from {} to {} of "
        "radius.",
        answer.pre_curve,
        answer.pre_curve_tightest or "as tight as it will bend",
        answer.pre_curve_widest,
    )
    if (one := answer.measured) is not None:
        sharply = (
            "" if one.factor is None else say(", and it curves {} times as sharply as reckoned", one.factor)
        )
        lengthwise = "The back lies on a radius of {}: {} of the displaced metal went lengthwise{}."
        whole = (
            "The whole bevel will curve it to about {} of radius, {} wide; a bar bent to {} the other way "
            "beforehand would end straight."
        )
        yield Under(
            "By the heat that was measured",
            (
                say(lengthwise, one.measured_radius, one.share, sharply),
                say(whole, one.radius, one.width, one.pre_curve),
            ),
        )
    yield Under("", answer.remarks)


def _measured(
    bar: BarToBevel, forged: BarToBevel, width_mm: float | None, chord_mm: float, sagitta_mm: float
) -> MeasuredBevel:
    radius_mm = radius_from_sagitta_mm(chord_mm, sagitta_mm)
    learned = calibrated(forged, width_after_mm=width_mm, radius_mm=radius_mm)
    found, doubt_share = predicted(learned, bar), SAGITTA_DOUBT_MM / sagitta_mm
    radii_mm = radius_mm, found.radius_mm, found.pre_curve_mm
    then, radius, pre_curve = (mm(one_mm, doubt_share * one_mm) for one_mm in radii_mm)
    factor = None if width_mm is None else Figure(learned.factor, Kind.FACTOR)
    return MeasuredBevel(then, part_of(learned.share), factor, mm(found.width_mm), radius, pre_curve)


def _remarks(share: float, measured: MeasuredBevel | None) -> Iterator[Words]:
    if measured is None:
        yield _BEFORE
        yield say("It is taken that {} of the displaced metal goes lengthwise (judgement).", part_of(share))
    elif measured.factor is None:
        yield _BY_RADIUS
    yield _NOT_FOLLOWED
