"""The eye that a haft needs as its wood dries, and the wedge that fills it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Final, Literal, NamedTuple

from coach.quantities.checks import check_share, check_size, finite
from coach.quantities.errors import not_known
from coach.quantities.figure import Figure, Kind, mm
from coach.quantities.refusal import OutOfRange
from coach.quantities.words import Words, say

Direction = Literal["length", "width"]

#: Judgement: what a drifted eye is left smaller than the haft, on the whole size, for scale and the file
#: to take; 0.3 to 0.5 mm.
USUAL_FIT_MM: Final = 0.4

#: Judgement: how much an eye flares across its width to the far side, for one wedge to spread the haft.
USUAL_FLARE_MM: Final = 2.0

#: Judgement: how much tighter the eye of a riven haft is left, which between its two measured places may
#: be thinner still, and is pared to fit.
UNEVEN_MM: Final = 0.5

#: Judgement: a difference of moisture too small to wait for, in per cent of the dry wood.
LEAST_DRYING_PERCENT: Final = 1.0

#: How deep the kerf is sawn, as a share of the eye's depth (from memory).
KERF_SHARE: Final = 2.0 / 3.0

#: From here on a length is told as a rule shows it (our choice).
_RULE_FROM_MM: Final = 3.0

#: How much thicker a wedge gets along its length: 1 in 6 (from memory).
WEDGE_SLOPE: Final = 1.0 / 6.0


#: Above this moisture, in per cent of the dry wood, wood keeps its size; the usual figure of the Wood
#: Handbook, FPL-GTR-190, chapter 4 (confirmed second-hand).
FIBRE_SATURATION_PERCENT: Final = 30.0

#: Green wood can hold more water than it has substance; nothing above this is a reading of moisture
#: (judgement).
MOST_MOISTURE_PERCENT: Final = 300.0


#: No haft is drier than wood gets in the driest air, nor wetter than the greenest of the woods that hafts
#: are made of: 2.5 % at a relative humidity of 10 %, Wood Handbook, FPL-GTR-190, table 4-2; up to 95 %, its
#: table 4-1 (both from memory).
DRIEST_PERCENT: Final = 3.0
WETTEST_PERCENT: Final = 100.0

#: Drier than in use by more than so many per cent, a haft that swells in its eye is crushed there and loose
#: when it dries again (judgement).
MUCH_DRIER_PERCENT: Final = 5.0

#: No haft is thinner or thicker than this, in mm (judgement).
HAFT_MM: Final = (4.0, 150.0)


class Wood(NamedTuple):
    """A wood and what it shrinks from green to oven-dry, as shares of its green size."""

    name: str
    radial_share: float  # across the growth rings
    tangential_share: float  # along them
    source: str  # with how far it is confirmed, in brackets at its end


class Oval(NamedTuple):
    """The length and the width of a haft, or of its eye, in mm; the length runs along the head."""

    length_mm: float
    width_mm: float


class MeasuredHaft(NamedTuple):
    """A haft as it was measured where it will be seated."""

    size: Oval
    wood: Wood
    moisture: float  # per cent of the dry wood, now
    in_use: float  # and where it will be used
    rings: Direction  # the way of the eye that its growth rings run
    second: Oval | None = None  # of a natural haft, riven and not turned, at a second place

    @property
    def driest(self) -> float:
        """The drier of its two moistures."""
        return min(self.moisture, self.in_use)


class EyeFor(NamedTuple):
    """The eye to drift for a haft."""

    hole_length: Figure  # along the head where the haft goes in
    hole_width: Figure  # across it
    far_length: Figure  # along the head where it comes out and is wedged
    far_width: Figure  # across it
    reasons: tuple[Words, ...]  # what was taken off and why
    seat_when: str  # whether the haft can be seated now


class KerfAndWedge(NamedTuple):
    """The kerf and the wedge for it, which fills the flare when it is driven down its whole length."""

    depth: Figure  # how deep the eye is
    kerf_depth: Figure  # how deep to saw
    kerf: Figure  # how wide the saw cuts
    thickness: Figure  # of the wedge at its head
    tip: Figure  # at its tip
    length: Figure  # how long it is


def shrinkage_mm(
    size_mm: float,
    share: float,
    from_moisture: float,
    to_moisture: float,
) -> float:
    """What a size of wood loses, in mm, between two moistures in per cent; below 0 where it swells.

    ΔD = D (M₁ - M₂) / (M_fs / S₀ - M_fs + M₁): `size_mm` is the size D at the first moisture, `share` S₀ the
    shrinkage from green to oven-dry of the green size, and moisture above fibre saturation M_fs counts as
    fibre saturation. Raises OutOfRange for a moisture outside 0 to 300 %.
    Source: Wood Handbook, FPL-GTR-190, chapter 13, eq. (13-2), which a reckoner for log walls
    has too (confirmed second-hand); its table 13-5 agrees.

    A hickory haft of 25 mm, tangential, from 12 % to 6 %:

    >>> round(shrinkage_mm(25, wood("pignut hickory").tangential_share, 12, 6), 3)
    0.618
    """
    check_size(size_mm, "size of the wood")
    check_share(share, "shrinkage", may_be_nothing=True)
    for moisture in (from_moisture, to_moisture):
        if not 0.0 <= moisture <= MOST_MOISTURE_PERCENT:
            raise OutOfRange(
                f"A moisture of wood lies from 0 to {MOST_MOISTURE_PERCENT:g} % of its dry weight, not at "
                f"{moisture:g} %; air-dry wood has 12 to 18 %."
            )
    begins, ends = (min(one, FIBRE_SATURATION_PERCENT) for one in (from_moisture, to_moisture))
    if begins == ends or share == 0.0:
        return 0.0
    return size_mm * (begins - ends) / (FIBRE_SATURATION_PERCENT * (1.0 / share - 1.0) + begins)


def check_haft_moisture(percent: float) -> None:
    """Raises OutOfRange for a moisture, in per cent of the dry wood, that no haft has."""
    if not DRIEST_PERCENT <= percent <= WETTEST_PERCENT:
        raise OutOfRange(
            f"A haft holds from {DRIEST_PERCENT:g} to {WETTEST_PERCENT:g} % of moisture, not {percent:g} %; "
            "air-dry wood has 12 to 18 %."
        )


def wood(name: str) -> Wood:
    """The wood of this name, whatever the case and blanks; raises NotKnown, which names the nearest.

    >>> wood("White  Ash").tangential_share
    0.078
    """
    asked = " ".join(name[:120].casefold().split())
    if asked in _by_name():
        return _by_name()[asked]
    raise not_known("shrinkage for a wood", name, {one: one for one in _by_name()})


def wood_called(name: str) -> Wood:
    """The wood of this name, or the most used one that has it in its name; raises NotKnown."""
    asked = name.casefold().split()
    for one in woods():
        if asked and set(asked) <= set(one.name.split()):
            return one
    return wood(name)


def woods() -> tuple[Wood, ...]:
    """Every wood whose shrinkage is known, those most used for hafts first."""
    return tuple(_by_name().values())


def eye_for_haft(
    haft: MeasuredHaft, *, fit_mm: float = USUAL_FIT_MM, flare_mm: float = USUAL_FLARE_MM
) -> EyeFor:
    """The eye to drift for a haft, all in mm.

    The haft is taken at the drier of its two moistures, shrinking along the growth rings in the direction of
    its rings and across them in the other (`shrinkage_mm`); the drift is smaller than that by `fit_mm` on the
    whole size. Of a natural haft the smaller of its two places counts, and its eye is left tighter still by
    UNEVEN_MM. The far side is wider by the flare.
    Raises OutOfRange for what is no size or no moisture, and for an eye of which nothing is left.
    Source: final drift at or below the haft size, 0.3 to 0.5 mm left for finish, seated no moister than in
    service (judgement); shrinkage as `shrinkage_mm` says.

    >>> eye = eye_for_haft(MeasuredHaft(Oval(32, 20), wood("white ash"), 12, 8, "length"))
    >>> round(eye.hole_length.value, 2), round(eye.hole_width.value, 2), round(eye.far_width.value, 2)
    (31.25, 19.47, 21.47)
    >>> eye.seat_when
    'Let the haft dry to 8 % before it is fitted and wedged; seated at 12 % it would work loose.'
    """
    check_size(fit_mm, "size left for finish", may_be_nothing=True)
    check_size(flare_mm, "flare of the width", may_be_nothing=True)
    measured = _smaller(haft)
    shrunk = _shrunk(haft, measured)
    tighter_mm = fit_mm if haft.second is None else fit_mm + UNEVEN_MM
    hole = Oval(
        measured.length_mm - shrunk.length_mm - tighter_mm, measured.width_mm - shrunk.width_mm - tighter_mm
    )
    if not min(hole) > 0.0:
        raise OutOfRange(
            "Of a haft {} no eye is left after shrinkage and {} of fit; leave less for fit or take a thicker "
            "haft.",
            _by(measured),
            _fine(tighter_mm),
        )
    return EyeFor(
        mm(hole.length_mm),
        mm(hole.width_mm),
        mm(hole.length_mm),
        mm(finite(hole.width_mm + flare_mm, "eye")),
        tuple(_reasons(haft, shrunk, fit_mm, flare_mm)),
        _seat_when(haft.moisture, haft.in_use),
    )


def _smaller(haft: MeasuredHaft) -> Oval:
    """The size that counts: of a natural haft the smaller of its two places."""
    _check_oval(haft.size, "")
    if haft.second is None:
        return haft.size
    _check_oval(haft.second, " at the second place")
    return Oval(*map(min, haft.size, haft.second))


def _check_oval(size: Oval, where: str) -> None:
    check_size(size.length_mm, f"length of the haft{where}")
    check_size(size.width_mm, f"width of the haft{where}")
    least_mm, most_mm = HAFT_MM
    if max(size) > most_mm:
        raise OutOfRange(
            "A haft {}{} fits no tool; give the two sizes where it is to fill the eye, from {} to {}.",
            *(_by(size), where, mm(least_mm), mm(most_mm)),
        )


def _shrunk(haft: MeasuredHaft, measured: Oval) -> Oval:
    """What the haft loses on its way to the drier of its moistures."""
    for percent in (haft.moisture, haft.in_use):
        check_haft_moisture(percent)
    along, across = haft.wood.tangential_share, haft.wood.radial_share
    if haft.rings == "width":
        along, across = across, along
    return Oval(
        shrinkage_mm(measured.length_mm, along, haft.moisture, haft.driest),
        shrinkage_mm(measured.width_mm, across, haft.moisture, haft.driest),
    )


def _reasons(haft: MeasuredHaft, shrunk: Oval, fit_mm: float, flare_mm: float) -> Iterator[Words]:
    where = "" if haft.second is None else " where it is smaller"
    now = f"{haft.moisture:g} %" + (" moisture" if haft.second is None else "")
    yield say("The haft measures {} at {}{}.", _by(_smaller(haft)), now, where)
    if max(shrunk) > 0.0:
        yield say(
            "At {} {} will have shrunk by {} in length and {} in width.",
            f"{haft.driest:g} %",
            haft.wood.name,
            *map(_fine, shrunk),
        )
    if haft.second is not None:
        yield say("A riven haft is uneven, so the eye is left {} tighter.", _fine(UNEVEN_MM))
    yield say("Another {} is left for scale and the file.", _fine(fit_mm))
    if flare_mm > 0.0:
        yield say("The far side is {} wider, for the wedge to fill.", _fine(flare_mm))


def kerf_depth_mm(eye_depth_mm: float) -> float:
    """How deep to saw the kerf for the wedge, in mm, for an eye of this depth: 2/3 of it (from memory).

    >>> round(kerf_depth_mm(50), 1)
    33.3
    """
    check_size(eye_depth_mm, "depth of the eye")
    return eye_depth_mm * KERF_SHARE


def wedge_for(flare_mm: float, kerf_mm: float, eye_depth_mm: float) -> KerfAndWedge:
    """The wedge for an eye that flares by so much and is so deep, and a kerf so wide, all in mm.

    What it fills is its thickness less the kerf, and that is the flare: t = kerf + flare. It thins by
    1 in 6 (the angle between its faces is atan 1/6, 9.46°) and reaches 6 t down, or the depth of the kerf
    where that is less, its tip then being t - depth/6. Raises OutOfRange when such a tip
    would not enter the kerf.
    Source: the taper and the fill are usual in the trade (from memory).

    >>> made = wedge_for(2, 1.5, 49.5)
    >>> made.thickness.value, round(made.length.value, 2)
    (3.5, 21.0)
    """
    check_size(flare_mm, "flare of the eye")
    check_size(kerf_mm, "width of the kerf", may_be_nothing=True)
    depth_mm = kerf_depth_mm(eye_depth_mm)
    thickness_mm = finite(kerf_mm + flare_mm, "wedge")
    length_mm = min(thickness_mm / WEDGE_SLOPE, depth_mm)
    thickness, tip, kerf, flare = (
        Figure(size_mm, Kind.FINE)
        for size_mm in (thickness_mm, max(thickness_mm - WEDGE_SLOPE * length_mm, 0.0), kerf_mm, flare_mm)
    )
    if flare_mm > WEDGE_SLOPE * depth_mm * (1.0 + 1e-12):
        raise OutOfRange(
            "A wedge that fills a flare of {} would be {} thick at its tip and not enter a kerf of {}; saw "
            "deeper or flare less.",
            *(flare, tip, kerf),
        )
    return KerfAndWedge(mm(eye_depth_mm), mm(depth_mm), mm(kerf_mm), thickness, tip, mm(length_mm))


def _seat_when(moisture_now: float, moisture_service: float) -> str:
    if moisture_now - moisture_service > LEAST_DRYING_PERCENT:
        return (
            f"Let the haft dry to {moisture_service:g} % before it is fitted and wedged; "
            f"seated at {moisture_now:g} % it would work loose."
        )
    if moisture_service - moisture_now > MUCH_DRIER_PERCENT:
        return (
            f"Let the haft lie where it will be used till it holds more than {moisture_now:g} %: so dry, "
            f"it swells on its way to {moisture_service:g} %, crushes itself in the eye, and is loose when "
            "it dries again."
        )
    if moisture_service - moisture_now > LEAST_DRYING_PERCENT:
        return (
            f"The haft can be seated now: it is drier at {moisture_now:g} % than in use at "
            f"{moisture_service:g} %, and will swell tight."
        )
    return (
        f"The haft can be seated now, if {moisture_now:g} % is right: weigh it some days apart in a dry "
        "room; when it loses nothing more, it is."
    )


def _by(size: Oval) -> Words:
    return say("{} × {}", mm(size.length_mm), mm(size.width_mm))


def _fine(size_mm: float) -> Figure:
    """Shrinkage and fit are finer than a rule, in inches finer than a thirty-second."""
    return Figure(size_mm, Kind.FINE if size_mm < _RULE_FROM_MM else Kind.LENGTH)


@cache
def _by_name() -> dict[str, Wood]:
    import tomllib

    told = tomllib.loads(Path(__file__).with_name("wood.toml").read_text(encoding="utf-8"))
    return {
        name: Wood(name, radial_percent / 100.0, tangential_percent / 100.0, told["sources"][by])
        for name, (radial_percent, tangential_percent, by) in told["woods"].items()
    }
