"""How long a step's metal can be worked, how long it must soak, and about how many heats that makes."""

from __future__ import annotations

from functools import cache
from math import exp, inf, log
from typing import NamedTuple

from coach.fire.blows import HAND_HAMMER, BlowsAndHeats, Striker, forging_work_j, reckon
from coach.fire.cooling import (
    AT_THE_ANVIL,
    STILL_AIR,
    CoolingCurve,
    CoolingSection,
    Surroundings,
    cooling_curve,
    soaking_minutes,
)
from coach.fire.limits import HeatsInCommon, burns_above, common_range, too_cold
from coach.fire.scale import LOWEST_C
from coach.forms import CrossSection, Form, FormError
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.upset_heats import driven_up, heats_to_upset
from coach.ledger.working import LEAST_CARBON_SHARE
from coach.metals.cooling_steel import TURNS_FROM_C, cooling_steel, turns_from_c
from coach.metals.grade import grade
from coach.metals.grade_file import Grade
from coach.metals.thermal import HIGHEST_AUSTENITE_C
from coach.operations import Does, operation
from coach.operations.does import HeatKind
from coach.quantities import Figure, seconds
from coach.quantities.refusal import OutOfRange
from coach.recipe.model import Recipe, Step

#: A weld takes hold in the first so many °C below its heat, where no range is published (judgement).
_WELD_TAKES_C = 50.0
#: A fire is so much hotter than the heat that is wanted, and the middle may lag so far behind it (judgement).
_FIRE_ABOVE_C, _MIDDLE_LAG_C = 50.0, 25.0
#: A piece colder than this when it goes in counts as cold (judgement).
_COLD_C = 300.0
#: A heat is hot for at least so many minutes; beyond the most, it was left lying and the fire has died down
#: (judgement).
_LEAST_MINUTES, MOST_MINUTES = 0.25, 60.0
#: Where a step's reckoned heats would scale its metal away, it is planned with so many (judgement).
MOST_HEATS = 40
#: Standard uncertainty of the time to work, as a share: how long it lies on the anvil counts for a quarter to
#: three quarters rather than for half, and iron is not always as black as it is taken (judgement).
_TIME_DOUBT_SHARE = 0.12
#: Below this much reduction there is no work worth reckoning (judgement).
_LEAST_REDUCTION = 1.02
#: Places along a zone at which its section is looked at (our choice).
_PLACES = 16


class HotWork(NamedTuple):
    """A step's time at the fire and out of it."""

    section: CoolingSection  # of the zone that cools first
    start_c: float  # as it leaves the fire
    stop_c: float  # back to the fire
    together: HeatsInCommon  # what the alloys in the heat stand
    curve: CoolingCurve | None  # None where nothing is published for it
    burns: str  # which alloy the step's own heat would burn, "" for none

    @property
    def working(self) -> Figure | None:
        """How long the metal can be worked; None where it cannot be told."""
        if self.curve is None:
            return None
        return seconds(self.curve.seconds, _TIME_DOUBT_SHARE * self.curve.seconds)


def section_of(form: Form, bare_ends: tuple[bool, bool] = (False, False)) -> CoolingSection:
    """How a zone's solid loses heat; an end that its neighbour covers loses none."""
    surface = form.side_surface_mm2()
    surface += form.end_area_mm2("start") * bare_ends[0] + form.end_area_mm2("finish") * bare_ends[1]
    per_surface = form.volume_mm3() / surface
    try:
        outline = form.section(form.length_mm / 2.0).outline
        half = 0.5 * min(max(axis) - min(axis) for axis in zip(*outline, strict=True))
    except FormError:
        half = per_surface
    return CoolingSection(per_surface, max(half, per_surface))


def grades_in(plan: Plan, step: Step, *, hardens: bool = False) -> tuple[Grade, ...]:
    """The alloys that lie in the fire in a step's heats; of layers, where it `hardens`, the one that does."""
    zones = step.metal
    stages = plan.by_step[step.number]
    parts = {part for zone in zones for part in (stages[zone].after.parts if zone in stages else (zone,))}
    pieces = [plan.recipe.piece_of(part) for part in parts]
    names = {metal for piece in pieces for metal in ((piece.metal,) if hardens else piece.shares)}
    return tuple(grade(name) for name in sorted(names))


def steels_of(plan: Plan, step: Step) -> tuple[Grade, ...]:
    """The metals that a treatment is for: not iron, nor what only lies in the fire beside the zone.

    Of layers that are quenched or tempered it is the one with the most carbon.
    """
    found = grades_in(
        plan, step._replace(heated=()), hardens=step.does(Does.QUENCHES) or step.does(Does.TEMPERS)
    )
    return tuple(
        metal for metal in found if metal.carbon_share is None or metal.carbon_share >= LEAST_CARBON_SHARE
    )


def hot_work(plan: Plan, step: Step) -> HotWork | None:
    """A step's time at its heat; None for cold work, for a treatment and where no temperature is said."""
    if (
        not step.heats
        or step.temperature_c is None
        or step.heat_kind not in (HeatKind.FORGING, HeatKind.WELDING)
    ):
        return None
    stages = [stage for stage in plan.by_step[step.number].values() if stage.zone in step.zones]
    if not stages:
        return None
    sections = (section_of(stage.form_before, stage.before.bare_ends) for stage in stages)
    section = min(sections, key=lambda one: one.volume_per_surface_mm)
    grades = grades_in(plan, step)
    welding = step.heat_kind is HeatKind.WELDING
    together = common_range(grades, welding=welding)
    start = step.temperature_c
    stop = (
        _coldest_c(grades, start)
        if operation(step.operation).LIGHT
        else _stop_c(together, start, welding=welding)
    )
    floor = max(_floors_c(grades), default=stop)
    # Hardened steel may be straightened at a tempering heat; iron is never struck so cold.
    warm = operation(step.operation).LIGHT and start <= floor
    if not warm or steels_of(plan, step) == ():
        stop = max(stop, floor)
    # Of several metals, as the one that keeps its heat the longest to itself.
    turns_c = min(map(turns_from_c, grades), default=TURNS_FROM_C)
    curve = _curve(section, start, stop, AT_THE_ANVIL, turns_c) if stop < start else None
    burns = next((one.name for one in grades if burns_above(one, start) is not None), "")
    return HotWork(section, start, stop, together, curve, burns)


def _stop_c(together: HeatsInCommon, start_c: float, *, welding: bool) -> float:
    low = together.low.value if together.low is not None else None
    if welding:
        return low if low is not None and low < start_c else start_c - _WELD_TAKES_C
    # Where nothing is known of a scrap steel, the coldest that carbon steel is worked at (from memory).
    usual = 800.0 if low is None else low
    return usual if usual < start_c else start_c - _WELD_TAKES_C


def _coldest_c(grades: tuple[Grade, ...], start_c: float) -> float:
    """Bending and straightening are light work, and go on to where not one blow may fall (from memory)."""
    return min(max((800.0, *_floors_c(grades))), start_c - _WELD_TAKES_C)


def _floors_c(grades: tuple[Grade, ...]) -> list[float]:
    """Below which not one blow may fall on each, °C, where that is known."""
    stops = (too_cold(one).stop_below for one in grades)
    return [stop.value for stop in stops if stop is not None]


@cache
def _curve(
    section: CoolingSection,
    start_c: float,
    stop_c: float,
    surroundings: Surroundings,
    turns_c: float = TURNS_FROM_C,
) -> CoolingCurve | None:
    try:
        return cooling_curve(section, start_c, stop_c, surroundings, cooling_steel(start_c, turns_c))
    except OutOfRange:
        return None


@cache
def soak_minutes(section: CoolingSection, heat_c: float, from_c: float) -> float | None:
    """Minutes in the fire until the middle has come to a heat within 25 °C; None where it cannot be told."""
    fire, margin = heat_c + _FIRE_ABOVE_C, _FIRE_ABOVE_C + _MIDDLE_LAG_C
    colder = HIGHEST_AUSTENITE_C, max(HIGHEST_AUSTENITE_C - heat_c, 0.0) + _MIDDLE_LAG_C
    for fire_c, margin_c in ((fire, margin), colder):
        try:
            return soaking_minutes(section, fire_c, margin_c, max(from_c, 20.0))
        except OutOfRange:
            continue
    return None


def minutes_hot(hot: HotWork, in_fire_minutes: float, away_seconds: float | None) -> float:
    """How long a piece that lay in the fire was hot enough to scale, minutes.

    `away_seconds` is how long it had been out before; None when it went in cold.
    """
    from_c = 20.0
    curve = _curve(hot.section, hot.start_c, _COLD_C, STILL_AIR)
    if away_seconds is not None and curve is not None and away_seconds < curve.seconds:
        # To the nearest fifty degrees, so that a job's heats need few reckonings (our choice).
        from_c = 50.0 * round(curve.at(away_seconds).middle_c / 50.0)
    warming = _warming_minutes(hot.section, hot.start_c, from_c)
    return min(max(in_fire_minutes - warming, _LEAST_MINUTES), MOST_MINUTES)


@cache
def _warming_minutes(section: CoolingSection, heat_c: float, from_c: float) -> float:
    """Minutes in the fire until a piece scales; 0 where it is that warm or nothing can be told."""
    if from_c >= LOWEST_C:
        return 0.0
    fire_c = max(heat_c, LOWEST_C) + _FIRE_ABOVE_C
    try:
        return soaking_minutes(section, fire_c, fire_c - LOWEST_C, max(from_c, 20.0))
    except OutOfRange:
        return 0.0


def reduction_of(stage: Stage) -> float:
    """How many times the section, or the mean thickness where that is more, goes into what it was."""
    before, after = stage.form_before.sizes_mm(), stage.form_after.sizes_mm()
    longer = thinner = 1.0
    if "length" in before and "length" in after:
        per_length = stage.form_before.volume_mm3() / before["length"]
        longer = per_length / (stage.form_after.volume_mm3() / after["length"])
    if "thickness" in before and "thickness" in after:
        thinner = _thinner(stage.form_before, stage.form_after)
    return max(longer, thinner, 1.0 / longer, 1.0)


def _thinner(before: Form, after: Form) -> float:
    """How many times as thin a zone becomes, as the mean of all its metal, by logarithms; may be below 1.

    The work goes into each part by how far that is thinned: of a taper most into its thin end, and the more
    the wider that is.
    """
    if not any(_is_uneven(form) for form in (before, after)):
        return before.sizes_mm()["thickness"] / after.sizes_mm()["thickness"]
    thinned = whole = 0.0
    for share in ((place + 0.5) / _PLACES for place in range(_PLACES)):
        had, left = (form.section(share * form.length_mm) for form in (before, after))
        thinned += left.area_mm2 * log(_thick_mm(had) / _thick_mm(left))
        whole += left.area_mm2
    return exp(thinned / whole)


def _is_uneven(form: Form) -> bool:
    return "length" in form.DIMENSIONS and ("end_thickness" in form.DIMENSIONS or form.STATIONS)


def _thick_mm(section: CrossSection) -> float:
    heights = [height for _, height in section.outline]
    return max(heights) - min(heights)


def heats_by(plan: Plan, step: Step, hot: HotWork, striker: Striker = HAND_HAMMER) -> BlowsAndHeats | None:
    """Blows and heats to make a step's reduction; None where there is none or it cannot be reckoned.

    The work goes by the mean of the heat, the softest alloy counting as the hardest of them.
    """
    if hot.curve is None or not step.does(Does.HAMMERS_A_SECTION):
        return None
    work = 0.0
    mean_c = 0.5 * (hot.start_c + hot.stop_c)
    try:
        for zone in step.zones:
            stage = plan.by_step[step.number][zone]
            ratio = reduction_of(stage)
            if ratio < _LEAST_REDUCTION:
                continue
            volume = stage.form_after.volume_mm3()
            work += max(forging_work_j(one, mean_c, volume, ratio, 1.0) for one in grades_in(plan, step))
        return reckon(work, striker, hot.curve.seconds) if work else None
    except (OutOfRange, ValueError, KeyError):
        return None


def reckoned_heats(plan: Plan, step: Step) -> int | None:
    """The heats of a step by hand hammer; None where it says its own, or where none can be reckoned.

    What is driven up takes as many as its length is driven up in, however little the work is.
    """
    if step.heats_said:
        return None
    hot = hot_work(plan, step)
    found = heats_by(plan, step, hot) if hot is not None else None
    driven = max((heats_to_upset(one) for one in driven_up(plan, step)), default=0)
    if found is None:
        return driven if driven > step.heats else None
    return max(found.heats, driven)


def with_reckoned_heats(plan: Plan, most: float = inf) -> Recipe:
    """A plan's recipe with the heats that it does not say reckoned by hand hammer, where that can be done.

    No step is given more than `most` of them.
    """
    steps = []
    for step in plan.recipe.steps:
        heats = reckoned_heats(plan, step)
        steps.append(step if heats is None else step._replace(heats=int(min(heats, most))))
    return plan.recipe._replace(steps=tuple(steps))
