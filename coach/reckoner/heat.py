"""How long a bar stays hot out of the fire, and how long it must lie in it."""

from __future__ import annotations

from itertools import pairwise
from typing import Final, NamedTuple

from coach.fire.colours import colour_name
from coach.fire.cooling import STILL_AIR, CoolingCurve, CoolingPoint, cooling_curve
from coach.fire.glow import FIRST_GLOW_C
from coach.fire.limits import burning_limit
from coach.fire.soaking import soaking_minutes
from coach.ledger.hot_work import AT_THE_ANVIL
from coach.metals.elongation import OutOfRange
from coach.metals.grade import Grade
from coach.metals.solidus import NoSolidus
from coach.metals.thermal import HIGHEST_AUSTENITE_C, STEEL, Metal, steel
from coach.quantities import Shown, write_duration, write_temperature
from coach.reckoner.asking import NotReckoned, TypedBar

#: Judgement: the heat held (0.10), the scale's emissivity of 0.7 to 0.9 and the draught of a shop together.
COOLING_DOUBT_SHARE: Final = 0.15
#: Judgement: a fire is not one temperature all round.
SOAKING_DOUBT_SHARE: Final = 0.25
#: What goes into the fire cold.
COLD_C: Final = 20.0

_CONDUCTS_TO_C: Final = STEEL.highest_conducting_c
_ALL_ROUND: Final = (
    "It is reckoned for a bar in the fire on all sides; one that lies on the coals, or beside others, takes "
    "longer."
)
_HELD: Final = "Hotter steel conducts better than is published: where it is that hot it takes a little less."
_STEPS_C: Final = (10, 20, 25, 50, 100, 200)
_MOST_ROWS: Final = 8


class CoolingPointView(NamedTuple):
    """One line of a cooling."""

    seconds: float  # how long it has been out
    temperature_c: float  # of the surface
    temperature_text: str
    middle_c: float  # its middle
    colour: str  # what White and Taylor call it


class CoolingView(NamedTuple):
    """How long a bar takes from one heat to another."""

    section: str  # the bar as shown
    metal: str  # the grade
    from_c: float  # the heat it begins at
    from_text: str
    to_c: float  # the heat it ends at
    to_text: str
    anvil: bool  # worked at the anvil, lying on it for about half the time
    seconds: float  # how long that takes
    minutes: float  # the same in minutes
    doubt: float  # of the seconds
    text: str
    at_least: bool  # it begins hotter than can be reckoned, so that the time is a little longer
    points: tuple[CoolingPointView, ...]  # a list of moments of cooling, in order
    remarks: tuple[str, ...]  # sentences on what was assumed
    caution: str  # what can hurt, empty when nothing


class SoakingView(NamedTuple):
    """How long a bar takes to be as hot as the fire to its middle."""

    section: str  # the bar as shown
    metal: str  # the grade
    fire_c: float  # how hot the fire is
    fire_text: str
    from_c: float  # how hot the bar goes in
    from_text: str
    within: float  # °C
    within_text: str
    minutes: float  # how long that takes
    doubt: float  # of the minutes
    text: str
    remarks: tuple[str, ...]  # sentences on what was assumed


def working_curve(
    bar: TypedBar, grade: Grade, from_c: float, to_c: float, *, anvil: bool
) -> tuple[CoolingCurve, bool]:
    """The cooling of a long bar, and whether it begins hotter than can be reckoned.

    A thick bar is reckoned from 1200 °C, where the published conductivity ends. Raises ImpossibleHeat and
    OutOfRange.
    """
    surroundings = AT_THE_ANVIL if anvil else STILL_AIR
    section, metal = bar.cooling_section, steel(grade.density_kg_m3)
    try:
        return cooling_curve(section, from_c, to_c, surroundings, metal), False
    except OutOfRange:
        if not to_c < _CONDUCTS_TO_C < from_c <= HIGHEST_AUSTENITE_C:
            raise
        return cooling_curve(section, _CONDUCTS_TO_C, to_c, surroundings, metal), True


def cooling(
    bar: TypedBar,
    grade: Grade,
    shown: Shown,
    *,
    from_c: float | None = None,
    to_c: float | None = None,
    anvil: bool = False,
) -> CoolingView:
    """The seconds from one heat to another, by default from a grade's highest forging heat to its lowest.

    Raises NotReckoned where the bar would have to grow hotter or the grade's heats are not known, and as
    `working_curve` does. Source: the balance of EN 1993-1-2, by `coach.fire.cooling`.

    >>> from coach.metals.grade import grade
    >>> cooling(TypedBar("round", (20.0,)), grade("mild steel"), Shown(), from_c=1200, to_c=800).text
    '88 s'
    """
    start_c = _heat(from_c, grade.forging_high_c, grade, "highest", "--from")
    end_c = _heat(to_c, grade.forging_low_c, grade, "lowest", "--to")
    start, end = write_temperature(start_c, shown), write_temperature(end_c, shown)
    if start_c <= end_c:
        raise NotReckoned(f"A bar of {start} does not cool to {end}: give a lower --to or a higher --from.")
    curve, at_least = working_curve(bar, grade, start_c, end_c, anvil=anvil)
    remarks = []
    if at_least:
        remarks.append(
            f"It is reckoned from {write_temperature(_CONDUCTS_TO_C, shown)}, where the published figures "
            "end for so thick a bar; it lasts a little longer."
        )
    remarks += _burning(grade, start_c, shown)
    return CoolingView(
        section=bar.text(shown),
        metal=grade.name,
        from_c=start_c,
        from_text=start,
        to_c=end_c,
        to_text=end,
        anvil=anvil,
        seconds=curve.seconds,
        minutes=curve.seconds / 60.0,
        doubt=COOLING_DOUBT_SHARE * curve.seconds,
        text=write_duration(curve.seconds),
        at_least=at_least,
        points=_points(curve, shown),
        remarks=tuple(remarks),
        caution="It no longer glows there and looks cold, and it burns the hand: use the tongs."
        if end_c < FIRST_GLOW_C
        else "",
    )


def soaking(
    bar: TypedBar,
    grade: Grade,
    fire_c: float,
    shown: Shown,
    *,
    from_c: float = COLD_C,
    within_c: float = 25.0,
) -> SoakingView:
    """The minutes until the middle of a bar is within some °C of its fire.

    Where a thick bar gets hotter than 1200 °C, it counts as conducting no better than there.
    Raises NotReckoned where it is that hot already, ImpossibleHeat and OutOfRange. Source:
    `coach.fire.soaking`.

    >>> from coach.metals.grade import grade
    >>> soaking(TypedBar("square", (10.0,)), grade("mild steel"), 1250, Shown(), within_c=100).text
    '82 s'
    """
    metal, held = steel(grade.density_kg_m3), ""
    try:
        minutes = soaking_minutes(bar.cooling_section, fire_c, within_c, from_c, metal=metal)
    except OutOfRange:
        if fire_c <= _CONDUCTS_TO_C:
            raise
        metal, held = _conducting_as_at_1200_c(metal), _HELD
        minutes = soaking_minutes(bar.cooling_section, fire_c, within_c, from_c, metal=metal)
    fire, start = write_temperature(fire_c, shown), write_temperature(from_c, shown)
    if minutes == 0.0:
        raise NotReckoned(
            f"A bar of {start} is as hot already as a fire of {fire} is to make it; give a hotter --fire or "
            "a colder --from."
        )
    return SoakingView(
        section=bar.text(shown),
        metal=grade.name,
        fire_c=fire_c,
        fire_text=fire,
        from_c=from_c,
        from_text=start,
        within=within_c,
        within_text=f"{within_c * 1.8:.0f} °F" if shown.system == "in" else f"{within_c:.0f} °C",
        minutes=minutes,
        doubt=SOAKING_DOUBT_SHARE * minutes,
        text=write_duration(minutes * 60.0),
        remarks=(*_burning(grade, fire_c, shown), *((held,) if held else ()), _ALL_ROUND),
    )


def _conducting_as_at_1200_c(metal: Metal) -> Metal:
    return metal._replace(
        conductivity_w_m_k=lambda at_c: metal.conductivity_w_m_k(min(at_c, _CONDUCTS_TO_C)),
        highest_conducting_c=HIGHEST_AUSTENITE_C,
    )


def _heat(given_c: float | None, usual_c: float | None, grade: Grade, which: str, option: str) -> float:
    if given_c is not None:
        return given_c
    if usual_c is None:
        raise NotReckoned(f"The {which} forging heat of {grade.name} is not known; give {option}.")
    return usual_c


def _burning(grade: Grade, temperature_c: float, shown: Shown) -> list[str]:
    try:
        limit_c = burning_limit(grade).temperature_c
    except NoSolidus:
        return []
    if limit_c is None or temperature_c <= limit_c:
        return []
    told, limit = (write_temperature(at_c, shown) for at_c in (temperature_c, limit_c))
    return [f"{told} is above {limit}, from where {grade.name} must be feared to burn."]


def _points(curve: CoolingCurve, shown: Shown) -> tuple[CoolingPointView, ...]:
    """The cooling at its two ends and at round temperatures between them."""
    first, last = curve.points[0], curve.points[-1]
    span_c = first.surface_c - last.surface_c
    step_c = next((step for step in _STEPS_C if span_c / step <= _MOST_ROWS), _STEPS_C[-1])
    round_c = range(int(first.surface_c // step_c) * step_c, int(last.surface_c), -step_c)
    between = [at for at in round_c if last.surface_c + step_c / 2 < at < first.surface_c - step_c / 2]
    found = [first, *(_when(curve, at) for at in between), last]
    return tuple(
        CoolingPointView(
            point.seconds,
            point.surface_c,
            write_temperature(point.surface_c, shown),
            point.middle_c,
            colour_name(point.surface_c),
        )
        for point in found
    )


def _when(curve: CoolingCurve, surface_c: float) -> CoolingPoint:
    """The moment at which the surface has come down to a temperature, between two points of the curve."""
    for earlier, later in pairwise(curve.points):
        if later.surface_c <= surface_c:
            share = (earlier.surface_c - surface_c) / (earlier.surface_c - later.surface_c)
            return curve.at(earlier.seconds + share * (later.seconds - earlier.seconds))
    return curve.points[-1]
