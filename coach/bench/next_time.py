"""What a job cost most, in metal, heats and chance, at which step; and what to change for the next."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Final, NamedTuple

from coach.bench.begun_with import Known
from coach.bench.chance_fell import chance_fell, most_chance_gone
from coach.bench.edit_for_next import BeginsWith, Edit, Try, edit_of, with_lines
from coach.bench.longer_mark import beside_heats, longer_beside, longer_mark
from coach.bench.looking_back import SpareGone
from coach.bench.metal_gone import (
    Fall,
    beside_sizes,
    falls,
    fuller_size,
    is_surely_gone,
    is_worth_telling,
    left_full,
    marks_out,
    only_found_at,
    was_foreseen,
)
from coach.bench.sheet import Sheet
from coach.bench.sizes_came import SizeCame, SizeVerdict
from coach.bench.taken import MetalTaken, StepTaken
from coach.bench.wider_limits import wider
from coach.ledger.fire_after_temper import drawn_in
from coach.ledger.verdict import ON_PLAN_CHANCE, PlanState
from coach.operations import Does
from coach.operations.inspect import Inspect
from coach.quantities import mm
from coach.quantities.figure import share
from coach.quantities.refusal import Refusal
from coach.quantities.words import NOTHING, Words, run_on, say
from coach.recipe.model import Recipe, Step

#: Less than this of the chance is not worth a change (judgement).
_LEAST_CHANCE = 0.01
#: Less than this was not set aside: it is rounding (judgement).
_LEAST_G = 0.1
#: So much more chance than after the worst step is won back (judgement).
_WON_BACK = 0.05

_TOO_NEAR: Final = "too near its limit to be sure of"
_METAL_WENT: Final = "most metal went at step {}, {}: the {} had {} to spare before it and {} after"
_METAL_FOUND_GONE: Final = (
    "most metal was found gone at step {}, {}, which takes none of it: the {} was reckoned to have {} to "
    "spare before, and has {} by what was read"
)
_METAL_MARKED_OFF: Final = (
    "most metal was marked off too little at step {}, {}: the {} was to have {} to spare, and has {} by the "
    "marks as they lie"
)


class Cost(NamedTuple):
    """What one thing cost most."""

    of: str  # `metal`, `heats` or `chance`
    step: int  # at which; 0 where nothing is to be told
    title: str  # that step's
    told: Words  # the sentence
    edit: Edit | None  # `null` where nothing of the recipe would better it
    unchanged: Words = NOTHING  # why no longer mark is offered, where metal went; else empty
    beside: Words = NOTHING  # what of a longer mark is needed where the heats are changed too; else empty


class _Longer(NamedTuple):
    """What the metal cost, where a longer mark answers it, and the fall that it answers."""

    cost: Cost
    fall: Fall


class NextTime(NamedTuple):
    """A job's three costs."""

    job: str  # its name
    finished: bool  # whether every step is done; else it is so far
    costs: tuple[Cost, ...]  # of metal, of heats and of chance
    shops_own: tuple[Words, ...] = ()  # the shop's own figures that the chances go by; else published ones
    together: Edit | None = None  # all of the edits made at once; `null` where there are not two
    #: For the metal where the edit for the heats is made as well, whose heats mark their zones out for their
    #: own scale; `null` where that is enough, or where one of the two has no edit.
    metal_beside_heats: Edit | None = None


def next_time(recipe: Recipe, sheet: Sheet, gone: SpareGone, begins_with: BeginsWith) -> NextTime:
    """What a job cost most.

    Args:
        recipe: as the job was begun by it.
        sheet: what came of it.
        gone: how its spare went, at every heat.
        begins_with: what the next job of a recipe begins with of the shop and the hand.
    """
    known = begins_with(recipe)
    try_ = partial(edit_of, recipe, begins_with)
    heats = _heats(recipe, sheet, try_)
    metal, beside = _metal(recipe, sheet, gone, known, try_), None
    if heats.edit is not None and isinstance(metal, _Longer):
        beside = longer_beside(recipe, metal.fall, known, heats.edit, try_)
        metal = metal.cost._replace(beside=beside_heats(beside, heats.edit))
    found = NextTime(
        sheet.job,
        sheet.finished,
        (metal.cost if isinstance(metal, _Longer) else metal, heats, _chance(recipe, sheet, gone, try_)),
        tuple(one.in_short() for one in known),
        metal_beside_heats=beside,
    )
    offered = tuple(cost.of for cost in found.costs if cost.edit is not None)
    return found._replace(together=_together(recipe, found, offered, begins_with))


def with_edits(recipe: Recipe, found: NextTime, wanted: tuple[str, ...]) -> str:
    """The recipe's text with the edits of these costs; raises Refusal where one of them has none."""
    return with_lines(recipe, [one.line for one in _edits(found, wanted)])


def _together(
    recipe: Recipe, found: NextTime, wanted: tuple[str, ...], begins_with: BeginsWith
) -> Edit | None:
    """What those edits would do made at once, which may be more or less than each alone tells."""
    if len(wanted) < 2:
        return None
    edits = _edits(found, wanted)
    told = run_on((one.told for one in edits), "; ")
    return _if_offered(edit_of(recipe, begins_with, [one.line for one in edits], told, betters=False))


def _edits(found: NextTime, wanted: Sequence[str]) -> list[Edit]:
    """The edits of these costs; raises Refusal where one of them has none."""
    edits = {cost.of: cost.edit for cost in found.costs}
    none = next((name for name in wanted if edits.get(name) is None), None)
    if none is not None:
        raise Refusal(f"There is nothing to change for the {none}: leave it out.")
    if {"metal", "heats"} <= {*wanted}:
        edits["metal"] = found.metal_beside_heats
    return [edit for name in wanted if (edit := edits[name]) is not None]


# ── the three costs ─────────────────────────────────────────────────────────────────────────────────


def _metal(
    recipe: Recipe, sheet: Sheet, gone: SpareGone, known: tuple[Known, ...], try_: Try
) -> Cost | _Longer:
    """At which step most of a zone's spare went, as a share of what there was."""
    losses = {one.entry for one in sheet.lost}
    each = (beside_sizes(fall, sheet.sizes) for fall in falls(gone, losses))
    worth = [fall for fall in each if is_worth_telling(fall, fall.mm)]
    went = [
        fall
        for fall in worth
        if is_surely_gone(fall)
        if fall.after.entry in losses or not was_foreseen(recipe, _step(sheet, fall.step)[1], fall)
    ]
    if not went:
        told = say("no step took more metal than was planned for it")
        fall = max(worth, default=None, key=lambda fall: fall.mm)
        if fall is not None and (fuller := fuller_size(fall, sheet.sizes)) is not None:
            told = left_full(told, fall, _step(sheet, fall.step)[1], fuller)
        return Cost("metal", 0, "", _with_aside(told, sheet.metal), None)
    most = max(went, key=lambda fall: fall.gone_mm / max(fall.first.spare.value, 1.0))
    step, title = _step(sheet, most.step)
    accident = next((one for one in sheet.lost if one.entry == most.after.entry), None)
    found_there = accident is None and only_found_at(recipe, title, most.first.zone)
    marked_off = found_there and marks_out(recipe, title)
    told = say(
        _METAL_MARKED_OFF if marked_off else _METAL_FOUND_GONE if found_there else _METAL_WENT,
        step,
        title,
        most.first.label,
        most.before.spare,
        most.after.spare,
    )
    if is_worth_telling(most, most.standing_mm):
        told = say("{}, of which {} stands in its section", told, mm(most.standing_mm))
    if accident is not None:  # more bar is no cure for it
        told = say("{}, by what no step takes: {}", told, accident.title)
        return Cost("metal", step, title, _with_aside(told, sheet.metal), None)
    told = _with_aside(told, sheet.metal)
    if marked_off:
        return Cost(
            "metal",
            step,
            title,
            told,
            None,
            say("no longer mark is proposed, for those that were told give it enough"),
        )
    left = [one for one in gone.points if (one.zone, one.dimension) == most.size][-1].spare
    longer = longer_mark(recipe, most, left, known, try_)
    if isinstance(longer, Edit):
        return _Longer(Cost("metal", step, title, told, longer), most)
    return Cost("metal", step, title, told, None, say("no longer mark is proposed, for {}", longer))


def _with_aside(told: Words, metal: MetalTaken | None) -> Words:
    for mass, why in metal.set_aside if metal is not None else ():
        told = say(f"{{}}; {{}} was {why}", told, mass) if mass.value >= _LEAST_G else told
    return told


def _heats(recipe: Recipe, sheet: Sheet, try_: Try) -> Cost:
    """Which step took most heats beyond its plan; where none did, which took fewest of its own.

    Before both comes a fire that drew what was tempered. What a temper took in its oven is no heat too many.
    """
    for one in sheet.heats.steps:
        step = _by_title(recipe, one.title)
        drawn = drawn_in(recipe, step) if step is not None and one.heats else {}
        if drawn:
            zone, was = next(iter(drawn.items()))
            told = say(
                "step {}, {}, needs no fire and had one: it draws the {}, which step {}, {}, had treated",
                *(one.number, one.title, zone, was.number, was.title),
            )
            return Cost("heats", one.number, one.title, told, None)
    ovens = {step.title for step in recipe.steps if not step.heats and step.does(Does.TEMPERS)}
    done = [one for one in sheet.heats.steps if one.done and one.title not in ovens]
    done = [_beside_recipe(recipe, one) for one in done]
    over = max(done, key=_beyond, default=None)
    if over is not None and over.again and _beyond(over):
        told = say(
            "most heats beyond the plan went into step {}, {}: {}, for it was put in",
            over.number,
            over.title,
            str(over.heats),
        )
        return Cost("heats", over.number, over.title, told, None)
    if over is not None and over.heats > over.heats_planned:
        told = say(
            "most heats beyond the plan went into step {}, {}: {}, and {} planned",
            over.number,
            over.title,
            str(over.heats),
            str(over.heats_planned),
        )
        return Cost("heats", over.number, over.title, told, _with_heats(recipe, over.title, over.heats, try_))
    under = min(done, key=_beyond, default=None)
    if under is not None and 0 < under.heats < under.heats_planned:
        told = say(
            "no step took more heats than planned, and step {}, {}, took {} of {}",
            under.number,
            under.title,
            str(under.heats),
            str(under.heats_planned),
        )
        return Cost(
            "heats", under.number, under.title, told, _with_heats(recipe, under.title, under.heats, try_)
        )
    return Cost("heats", 0, "", say("every step took the heats that were planned for it"), None)


def _beside_recipe(recipe: Recipe, taken: StepTaken) -> StepTaken:
    """A step beside the recipe that the job was begun by.

    A piece that is cut anew has its steps once more, put in.
    """
    return taken._replace(again=taken.again or all(one.title != taken.title for one in recipe.steps))


def _beyond(step: StepTaken) -> int:
    """So many heats more than the job was begun with; all of a step that a way back put in."""
    return step.heats - (0 if step.again else step.heats_planned)


def _with_heats(recipe: Recipe, title: str, heats: int, try_: Try) -> Edit | None:
    """The same step of the recipe with the heats that it took; None where the job made another of it."""
    step = _by_title(recipe, title)
    if step is None:
        return None
    told = say("plan {} for step {}", f"{heats} heat{'' if heats == 1 else 's'}", step.number)
    return _if_offered(try_(f"heats {step.number} = {heats}", told, betters=False))


def _if_offered(found: Edit | Words) -> Edit | None:
    return found if isinstance(found, Edit) else None


def _by_title(recipe: Recipe, title: str) -> Step | None:
    """The step of that title; None where there is none, or more than one."""
    steps = [step for step in recipe.steps if step.title == title]
    return steps[0] if len(steps) == 1 else None


def _chance(recipe: Recipe, sheet: Sheet, gone: SpareGone, try_: Try) -> Cost:
    """At which step the chance of the whole drawing fell most, by what was told of it."""
    ends = gone.points[-1].chance if gone.points else 0.0
    fewer = any(one.verdict is SizeVerdict.NOT_MEASURED for one in sheet.sizes)
    less_sure = fewer and bool(gone.points) and gone.points[-1].reckoned - ends >= _WON_BACK
    why = ", for not every size was measured" if less_sure else ""
    most = most_chance_gone(gone)
    missed = [one for one in sheet.sizes if _missed(one)]
    unsure = (one for one in sheet.sizes if one.verdict is SizeVerdict.NOT_SURE)
    near = next(((one.label, one.came) for one in unsure if one.came is not None), ())
    edit = _wider(recipe, missed, try_)
    held_back = sheet.verdict is PlanState.TIGHT and ends >= ON_PLAN_CHANCE  # and told without a chance
    when = "in the end" if sheet.finished else "now"
    if most is None or most.fell < _LEAST_CHANCE:
        told = say("no step took any chance from the drawing")
        if missed:
            told = say("{}, but the {} came {}", told, missed[0].label, missed[0].came or NOTHING)
        elif near:
            told = say("{}, but the {} came {:±}, {}", told, *near, _TOO_NEAR)
        elif held_back:
            told = say("{}, but it is tight {}", told, when)
        elif why:
            told = say("{}; it is {:chance} in the end{}", told, share(ends), why)
        return Cost("chance", 0, "", told, edit)
    before, after = most
    step, title = _step(sheet, before.step)
    looked = any(one.operation == Inspect.NAME for one in recipe.steps if one.title == title)
    fell = chance_fell(before.chance, after.chance)
    accident = next((one for one in sheet.lost if one.entry == after.entry), None)
    if accident is not None:
        told = say("most chance went at step {}, {}, with {}: {}", step, title, accident.title, fell)
    elif looked:
        told = say("most chance was found gone at step {}, {}: {}", step, title, fell)
    else:
        told = say("most chance went at step {}, {}: {}", step, title, fell)
    if held_back and near:
        told = say("{}, and it is tight {}, for the {} came {:±}, {}", told, when, *near, _TOO_NEAR)
    elif held_back:
        told = say("{}, and it is tight {}", told, when)
    elif abs(ends - after.chance) >= _WON_BACK:
        why = why if ends < after.chance else ""
        told = say("{}, and it is {:chance} {}{}", told, share(ends), when, why)
    return Cost("chance", step, title, told, edit)


def _missed(size: SizeCame) -> bool:
    bad = (SizeVerdict.UNDER, SizeVerdict.OVER, SizeVerdict.LET_GO)
    return size.verdict in bad and size.came is not None and size.wanted is not None


def _wider(recipe: Recipe, missed: Sequence[SizeCame], try_: Try) -> Edit | None:
    return next((edit for one in wider(recipe, missed) if (edit := _if_offered(try_(*one)))), None)


def _step(sheet: Sheet, number: int) -> tuple[int, str]:
    """A step of the job by its number."""
    titles = {one.number: one.title for one in sheet.heats.steps}
    return number, titles.get(number, "")
