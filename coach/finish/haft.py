"""The eye that a haft needs, and the wedge that fills it."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final, Literal, NamedTuple

from coach.finish.edge import FinishError, check_share, check_size, finite
from coach.finish.wood import Wood, shrinkage_mm
from coach.quantities.writing import write_length

Direction = Literal["length", "width"]
Kind = Literal["turned", "natural"]

#: Judgement: what a drifted eye is left smaller than the haft, on the whole size, for scale and the file
#: to take; 0.3 to 0.5 mm.
USUAL_FIT_MM: Final = 0.4

#: Judgement: how much an eye flares across its width to the far side, for one wedge to spread the haft.
USUAL_FLARE_MM: Final = 2.0

#: Judgement: how much tighter the eye of a riven haft is left, which between its two measured places may
#: be thinner still, and is pared to fit.
USUAL_UNEVEN_MM: Final = 0.5

#: Judgement: a difference of moisture too small to wait for, in per cent of the dry wood.
LEAST_DRYING_PERCENT: Final = 1.0

#: How deep the kerf is sawn, as a share of the eye's depth (from memory).
KERF_SHARE: Final = 2.0 / 3.0

#: How much thicker a wedge gets along its length: 1 in 6 (from memory).
WEDGE_SLOPE: Final = 1.0 / 6.0


class EyeFor(NamedTuple):
    """The eye to drift for a haft, in mm; `length` runs along the head from face to peen or edge."""

    hole_length_mm: float  # where the haft goes in
    hole_width_mm: float
    far_length_mm: float  # where it comes out and is wedged
    far_width_mm: float
    reasons: tuple[str, ...]  # a plain sentence each
    seat_when: str  # one plain sentence


class Wedge(NamedTuple):
    """A wedge for a kerf, in mm; it fills the flare when it is driven down its whole length."""

    thickness_mm: float  # at the head
    tip_mm: float
    length_mm: float
    angle_deg: float  # between its two faces


class Oval(NamedTuple):
    """The length and the width of an eye, or of a drift, in mm."""

    length_mm: float
    width_mm: float


def eye_for_haft(
    haft_length_mm: float,
    haft_width_mm: float,
    wood: Wood,
    moisture_now: float,
    moisture_service: float,
    tangential: Direction,
    *,
    fit_mm: float = USUAL_FIT_MM,
    kind: Kind = "turned",
    second_length_mm: float | None = None,
    second_width_mm: float | None = None,
    uneven_mm: float = USUAL_UNEVEN_MM,
    flare_length_mm: float = 0.0,
    flare_width_mm: float = USUAL_FLARE_MM,
    say: Callable[[float], str] = write_length,
) -> EyeFor:
    """The eye to drift for a haft that has been measured where it will be seated, all in mm.

    The haft is taken at the drier of its moisture now and in service, both in per cent, shrinking along
    the growth rings in the direction `tangential` and across them in the other (`shrinkage_mm`); the drift
    is smaller than that by `fit_mm` on the whole size. A natural haft, riven and not turned, is measured at
    two places: the smaller counts, and its eye is left tighter still by `uneven_mm`. The far side is wider
    by the flares. `say` writes a length for the reasons.
    Raises FinishError for a natural haft measured only once, a turned one measured twice, and an eye of
    which nothing is left.
    Source: final drift at or below the haft size, 0.3 to 0.5 mm left for finish, seated no moister than in
    service (judgement); shrinkage as `shrinkage_mm` says.

    >>> from coach.finish.wood import wood
    >>> eye = eye_for_haft(32, 20, wood("white ash"), 12, 8, "length")
    >>> round(eye.hole_length_mm, 2), round(eye.hole_width_mm, 2), round(eye.far_width_mm, 2)
    (31.27, 19.47, 21.47)
    >>> eye.seat_when
    'Let the haft dry to 8 % before it is fitted and wedged; seated at 12 % it would work loose.'
    """
    if tangential not in ("length", "width"):
        raise FinishError(
            f"The growth rings run along the length or the width of the eye, not along {tangential!r}."
        )
    check_size(fit_mm, "size left for finish", may_be_nothing=True)
    check_size(flare_length_mm, "flare of the length", may_be_nothing=True)
    check_size(flare_width_mm, "flare of the width", may_be_nothing=True)
    measured = _smaller(kind, haft_length_mm, haft_width_mm, second_length_mm, second_width_mm)
    driest = min(moisture_now, moisture_service)
    along = wood.tangential_share if tangential == "length" else wood.radial_share
    across = wood.radial_share if tangential == "length" else wood.tangential_share
    shrunk = Oval(
        shrinkage_mm(measured.length_mm, along, moisture_now, driest),
        shrinkage_mm(measured.width_mm, across, moisture_now, driest),
    )
    shrinkage_mm(measured.length_mm, along, moisture_now, moisture_service)  # refuses a wrong moisture
    tighter_mm = fit_mm
    reasons = [f"The haft measures {_by(measured, say)} at {moisture_now:g} % moisture."]
    if kind == "natural":
        check_size(uneven_mm, "unevenness of the haft", may_be_nothing=True)
        tighter_mm += uneven_mm
        reasons[0] = f"The haft measures {_by(measured, say)} at {moisture_now:g} % where it is smaller."
    if max(shrunk) > 0.0:
        reasons.append(
            f"At {driest:g} % {wood.name} will have shrunk by {say(shrunk.length_mm)} in length and "
            f"{say(shrunk.width_mm)} in width."
        )
    if kind == "natural":
        reasons.append(f"A riven haft is uneven, so the eye is left {say(uneven_mm)} tighter.")
    reasons.append(f"Another {say(fit_mm)} is left for scale and the file.")
    hole = Oval(
        measured.length_mm - shrunk.length_mm - tighter_mm, measured.width_mm - shrunk.width_mm - tighter_mm
    )
    if not min(hole) > 0.0:
        raise FinishError(
            f"Of a haft {measured.length_mm:.4g} × {measured.width_mm:.4g} mm no eye is left after shrinkage "
            f"and {tighter_mm:.4g} mm of fit; leave less for fit or take a thicker haft."
        )
    flares = [
        f"{say(flare_mm)} in {name}"
        for flare_mm, name in ((flare_length_mm, "length"), (flare_width_mm, "width"))
        if flare_mm > 0.0
    ]
    if flares:
        reasons.append(f"The far side is flared by {' and '.join(flares)} for the wedge to fill.")
    return EyeFor(
        hole.length_mm,
        hole.width_mm,
        finite(hole.length_mm + flare_length_mm, "eye"),
        finite(hole.width_mm + flare_width_mm, "eye"),
        tuple(reasons),
        _seat_when(moisture_now, moisture_service),
    )


def kerf_depth_mm(eye_depth_mm: float, share: float = KERF_SHARE) -> float:
    """How deep to saw the kerf for the wedge, in mm, for an eye of this depth: 2/3 of it (from memory).

    >>> round(kerf_depth_mm(50), 1)
    33.3
    """
    check_size(eye_depth_mm, "depth of the eye")
    check_share(share, "share of the depth")
    return eye_depth_mm * share


def wedge_for(flare_mm: float, kerf_mm: float, depth_mm: float, slope: float = WEDGE_SLOPE) -> Wedge:
    """The wedge for an eye that flares by so much, a kerf so wide and so deep, all in mm.

    What it fills is its thickness less the kerf, and that is the flare: t = kerf + flare. It thins by
    `slope` (1 in 6; the angle between its faces is atan slope) and reaches t/slope down, or the depth of
    the kerf where that is less, its tip then being t - slope × depth. Raises FinishError when such a tip
    would not enter the kerf.
    Source: the taper and the fill are usual in the trade (from memory).

    >>> made = wedge_for(2, 1.5, 33)
    >>> made.thickness_mm, round(made.length_mm, 2), round(made.angle_deg, 2)
    (3.5, 21.0, 9.46)
    """
    check_size(flare_mm, "flare of the eye")
    check_size(kerf_mm, "width of the kerf", may_be_nothing=True)
    check_size(depth_mm, "depth of the kerf")
    check_share(slope, "slope of the wedge")
    thickness_mm = finite(kerf_mm + flare_mm, "wedge")
    length_mm = min(thickness_mm / slope, depth_mm)
    tip_mm = max(thickness_mm - slope * length_mm, 0.0)
    if flare_mm > slope * depth_mm * (1.0 + 1e-12):
        raise FinishError(
            f"A wedge that fills a flare of {flare_mm:.4g} mm would be {tip_mm:.4g} mm thick at its tip and "
            f"not enter a kerf of {kerf_mm:.4g} mm; saw deeper, flare less or take a steeper wedge."
        )
    return Wedge(thickness_mm, tip_mm, length_mm, math.degrees(math.atan(slope)))


def _smaller(
    kind: str,
    length_mm: float,
    width_mm: float,
    second_length_mm: float | None,
    second_width_mm: float | None,
) -> Oval:
    """The size that counts: of a natural haft the smaller of its two places."""
    check_size(length_mm, "length of the haft")
    check_size(width_mm, "width of the haft")
    if kind == "turned":
        if second_length_mm is not None or second_width_mm is not None:
            raise FinishError("A turned haft is measured once; call it natural to give a second place.")
        return Oval(length_mm, width_mm)
    if kind != "natural":
        raise FinishError(f"A haft is turned or natural, not {kind!r}.")
    if second_length_mm is None or second_width_mm is None:
        raise FinishError(
            "A natural haft is measured at two places; give its length and width at the second."
        )
    check_size(second_length_mm, "length of the haft at the second place")
    check_size(second_width_mm, "width of the haft at the second place")
    return Oval(min(length_mm, second_length_mm), min(width_mm, second_width_mm))


def _seat_when(moisture_now: float, moisture_service: float) -> str:
    if moisture_now - moisture_service > LEAST_DRYING_PERCENT:
        return (
            f"Let the haft dry to {moisture_service:g} % before it is fitted and wedged; "
            f"seated at {moisture_now:g} % it would work loose."
        )
    if moisture_service - moisture_now > LEAST_DRYING_PERCENT:
        return (
            f"The haft can be seated now: it is drier at {moisture_now:g} % than in use at "
            f"{moisture_service:g} %, and will swell tight."
        )
    return "The haft can be seated now: it is as dry as it will be in use."


def _by(size: Oval, say: Callable[[float], str]) -> str:
    return f"{say(size.length_mm)} × {say(size.width_mm)}"
