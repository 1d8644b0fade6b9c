"""The skin that a job's heats take the carbon out of, and what is ground off to be rid of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import ceil
from typing import Final, NamedTuple

from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.running import mean_thickness_mm
from coach.ledger.working import LEAST_CARBON_SHARE, USUAL_HEATS, reshapes
from coach.metals.grade import grade
from coach.metals.skin import Lying, allowance_mm, skin_mm, spread_mm2, thinned_mm2
from coach.operations import operation
from coach.recipe.model import Step

#: The published diffusion ends where austenite does; a hotter heat counts as this: an encyclopaedia on the
#: working of iron, undated (confirmed second-hand).
_HOTTEST_C = 1394.0

Minutes = Mapping[int, Sequence[float | None]]
#: What was ground off, all faces together, mm, by step, zone and dimension.
GroundOff = Mapping[tuple[int, str, str], float]


class ReadOver(NamedTuple):
    """What was read of a treatment that was hotter or longer than its step asks for; 0 where it was not."""

    temperature_c: float = 0.0
    minutes: float = 0.0  # at its heat


_AS_ASKED: Final = ReadOver()

#: So little less than should be is as good as that: the skin is reckoned up to a quarter too deep, and a
#: tenth of sound steel is wanted under it (judgement), mm.
AS_GOOD_AS_ENOUGH_MM: Final = 0.05
#: What is to be left for the stone is told no finer than this, and upwards (judgement), mm.
GRAIN_MM: Final = 0.1


def told_upwards_mm(for_the_stone_mm: float) -> float:
    """What is to be left for the stone as it is told, mm."""
    return GRAIN_MM * ceil(for_the_stone_mm / GRAIN_MM - 1e-6)


class Grinding(NamedTuple):
    """What one step takes off the steel, with the skin that it finds."""

    step: int
    skin_mm: float  # deep on each face, where carbon falls below nine tenths
    dimension: str  # where the metal is ground off
    ground_mm: float  # off it, all faces together, everything going as planned
    faces: int  # of the steel that carry a skin

    @property
    def needed_mm(self) -> float:
        """What should be ground off that dimension: the skin of each face and a tenth of sound steel."""
        return self.faces * allowance_mm(self.skin_mm)

    @property
    def beyond_mm(self) -> float:
        """What is ground off beyond what should be; negative where the skin is deeper."""
        return self.ground_mm - self.needed_mm

    @property
    def is_enough(self) -> bool:
        """Whether the skin comes off, and by so little not a tenth of sound steel with it."""
        return self.beyond_mm >= -AS_GOOD_AS_ENOUGH_MM


class Skin(NamedTuple):
    """One steel's skin over the job."""

    steel: str  # the zone that brought the steel
    zone: str  # where it is now
    metal: str
    now_mm: float  # deep on each face, as far as the job has gone
    end_mm: float  # the same at the end of the job, if nothing were ground off
    grinding: Grinding | None  # the first step ahead that takes it off; None where none says how much
    ground_in: int | None = None  # the last step behind that took it off
    left_mm: float = 0.0  # deep at the end of the job, with everything ground off that steps say
    behind: Grinding | None = None  # the same of that last step behind


def skins(
    plan: Plan,
    finished: int = 0,
    minutes: Minutes | None = None,
    read_over: Mapping[int, ReadOver] | None = None,
    ground: GroundOff | None = None,
) -> tuple[Skin, ...]:
    """Every steel's skin.

    By Fick's second law (`coach.metals.skin`) over the time that the steel lay hot in the fire: as logged for
    the heats behind, as usual for the kind of heat for those ahead. A step that thins the steel thins its
    skin with it, by its mean thickness; one that takes metal away takes the skin first. Scale is not taken
    off, so this is the most that the fire can have done. `minutes` are, by step, those of each heat that was
    taken, hot in the fire; None for one that was not timed. `read_over` is, by step, what was read over what
    it asks for: so hot, and so long, its last heat was. `ground` is what the steps behind took off by the
    sizes before them and since; what it does not have went as planned.
    """
    over, off = read_over or {}, ground or {}
    found = (_skin(plan, steel, finished, minutes or {}, over, off) for steel in plan.recipe.drawing)
    return tuple(skin for skin in found if skin is not None)


def _skin(
    plan: Plan,
    steel: str,
    finished: int,
    minutes: Minutes,
    read_over: Mapping[int, ReadOver],
    ground: GroundOff,
) -> Skin | None:
    recipe = plan.recipe
    metal = recipe.piece_of(steel).metal
    if steel in recipe.piece_of(steel).branches:
        return None  # its branches have it
    carbon = grade(metal).carbon_share
    if carbon is None or carbon < LEAST_CARBON_SHARE:
        return None
    weld = recipe.welds.get(steel)
    in_cleft = weld is not None and "inset_mm" in weld.amounts
    spread = now = unground = 0.0
    zone = steel
    found: Grinding | None = None
    behind: Grinding | None = None
    for stage in _way(plan, steel, weld):
        step, zone = stage.step, stage.zone
        in_hand, grinds = step.number == finished + 1, operation(step.operation).FIXES
        taken = minutes.get(step.number)
        ahead = 0.0
        if zone in step.heated or steel in step.heated:
            more = spread_mm2(carbon, _lyings(step, taken, read_over.get(step.number, _AS_ASKED)))
            if in_hand and taken is not None:  # the other heats are to come
                ahead = spread_mm2(carbon, _lyings(step, [None] * max(step.heats - len(taken), 0)))
            spread, unground = spread + more, unground + more + ahead
        depth = skin_mm(spread)
        if grinds:
            across = 2 if zone == steel or in_cleft else 1
            takes = [
                Grinding(step.number, depth, name, ground.get((step.number, zone, name), off_mm), faces)
                for name, off_mm, faces in _taken_off(stage, across)
            ]
            if takes:
                least = min(takes, key=lambda one: one.beyond_mm)
                if step.number <= finished:
                    behind = least
                elif found is None:
                    found = least
                left = max(depth - takes[0].ground_mm / takes[0].faces, 0.0)
                spread *= (left / depth) ** 2 if depth > 0.0 else 0.0
        else:
            thinner = thinning(stage)
            spread, unground, ahead = (thinned_mm2(one, thinner) for one in (spread, unground, ahead))
        if step.number <= finished + 1:
            now = depth if in_hand and grinds else skin_mm(spread)  # the stone has still to go over it
        spread += ahead
    ground_in = behind.step if behind is not None else None
    return Skin(steel, zone, metal, now, skin_mm(unground), found, ground_in, skin_mm(spread), behind)


def _way(plan: Plan, steel: str, weld: Step | None) -> Iterator[Stage]:
    """The stages of a steel: its own up to the weld, then those of the zone that it lies on."""
    if (whole := plan.recipe.piece_of(steel).split_from(steel)) is not None:
        yield from (stage for stage in _way(plan, whole, None) if not stage.step.parts)
    yield from plan.stages[steel]
    if weld is not None:
        yield from (stage for stage in plan.stages[weld.zones[0]] if stage.step.number >= weld.number)


def _lyings(step: Step, minutes: Sequence[float | None] | None, over: ReadOver = _AS_ASKED) -> list[Lying]:
    usual = USUAL_HEATS.get(step.heat_kind)
    if usual is None:
        return []
    hot_c = min(step.temperature_c or usual.temperature_c, _HOTTEST_C)
    taken: Sequence[float | None] = minutes if minutes is not None else [None] * step.heats
    found = [Lying(hot_c, usual.minutes if one is None else one) for one in taken]
    if found and over != _AS_ASKED:
        longest = max(found[-1].minutes, over.minutes)
        found[-1] = Lying(min(max(hot_c, over.temperature_c), _HOTTEST_C), longest)
    return found


def thinning(stage: Stage) -> float:
    """How thin a step forges its zone, as a share of its mean thickness before; 1 where it thins nothing."""
    thick = "thickness" in stage.after.shape.dimensions
    if not thick or stage.laid_mm3 or not reshapes(stage.step, stage.zone):
        return 1.0
    before = mean_thickness_mm(stage.before.shape, stage.form_before.sizes_mm())
    after = mean_thickness_mm(stage.after.shape, stage.form_after.sizes_mm())
    return min(after / before, 1.0) if before > 0.0 else 1.0


def ground_off(stage: Stage) -> tuple[str, float] | None:
    """The dimension that a step takes metal off where the steel works, and how much; None where it says none.

    The edge's thickness of what runs out to it, else the thickness that is asked for, else what the step is
    said to lose of the length, else the thickness of an edge along the side, else the length.
    """
    asked = stage.step.targets
    before, after = stage.form_before.sizes_mm(), stage.form_after.sizes_mm()
    for name in ("end_thickness", "thickness", "edge", "length"):
        if name == "edge" and stage.step.loses.length_mm:
            return "length", stage.step.loses.length_mm
        if name in asked and name in before and name in after:
            return name, max(before[name] - after[name], 0.0)
    return None


def _taken_off(stage: Stage, across: int) -> Iterator[tuple[str, float, int]]:
    """What a step takes off the steel: where, how much and off how many faces, its broad ones first.

    What comes off the iron that a steel lies on takes nothing off the steel. A length has one end.
    """
    off = ground_off(stage)
    if off is not None:
        dimension, off_mm = off
        if dimension != "length":
            off_mm, faces = max(off_mm - stage.step.amounts.get("iron_side_mm", 0.0), 0.0), across
            yield dimension, off_mm, faces
        if dimension == "length" or stage.step.loses.length_mm:
            yield "length", stage.step.loses.length_mm or off_mm, 1
