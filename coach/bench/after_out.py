"""What is done about a reading that is out: by its operation, its side, and what it leaves of the steel."""

from __future__ import annotations

from coach.fire.limits import burns_above
from coach.forms import listed, said
from coach.forms.eyed import Eyed
from coach.ledger.cheeks import across_of
from coach.ledger.course import Outcome
from coach.ledger.hot_work import steels_of
from coach.ledger.hottest_temper import left_by
from coach.ledger.judging import is_little_over
from coach.ledger.left_soft import draw_it_back
from coach.ledger.own_curves import FILE_TEST
from coach.ledger.plan import Plan
from coach.ledger.reading import QUESTIONED_BEYOND, Reading, cold_reading
from coach.ledger.tempered import row_of
from coach.ledger.verdict import Verdict
from coach.ledger.weigh_grain import hard_besides
from coach.operations import Does, operation
from coach.operations.gauges import BY_COLOUR
from coach.operations.measures import ALIKE
from coach.operations.shop_test import Result
from coach.quantities.figure import Figure, Kind, Span, Wanted, celsius, degrees, mm, seconds
from coach.quantities.refusal import OutOfRange
from coach.quantities.words import NOTHING, Words, as_words, run_on, say
from coach.recipe.model import Step


def after_out(plan: Plan, step: Step, outcome: Outcome | None, in_hand: Step | None = None) -> Words:
    """What is done about it; nothing where it is not out, or nothing is known.

    `in_hand` where its own step is done: what can be done of it is done at a step that is still to come.
    """
    if outcome is None or outcome.judged is None:
        return NOTHING
    if outcome.mark.reading.dimension == "angle" and step.does(Does.BENDS):
        return _bent_to_angle(plan, step, outcome)
    if outcome.verdict is not Verdict.OUT:
        to_go = outcome.verdict is Verdict.MORE_TO_GO
        return _brought_back(step, outcome) if to_go else NOTHING
    if outcome.mark.reading.dimension == FILE_TEST and Result.of(outcome.mark.reading.size_mm) is Result.PASS:
        return draw_it_back(plan, outcome.mark.reading.zone)
    todo, dimension = operation(step.operation), outcome.mark.reading.dimension
    if dimension in ALIKE and dimension not in step.targets:
        return _off_the_middle(plan, step, outcome, in_hand or step)
    if outcome.too_hot:  # it is not quenched, however long it was
        return as_words(_TOO_HOT_BESIDES)
    by_side = todo.AFTER_UNDER if outcome.judged.below else todo.AFTER_OVER
    told = by_side.get(dimension) or todo.AFTER_OUT.get(dimension, NOTHING)
    if brought_back := _brought_back(step, outcome):
        return brought_back
    if dimension == "temperature" and outcome.judged.below and step.does(Does.TEMPERS):
        return _tempered_too_little(plan, step, outcome) or told
    if dimension == "temperature" and not outcome.judged.below:
        if step.does(Does.TEMPERS):
            return _tempered_too_far(plan, step, outcome)
        hottest = outcome.outdone_by or outcome.mark.reading
        if is_little_over(step, outcome._replace(mark=outcome.mark._replace(reading=hottest))):
            return as_words(_LITTLE_OVER)
        if any(burns_above(metal, hottest.size_mm) for metal in steels_of(plan, step)):
            return NOTHING  # what burnt is cut off, whatever else is done
        if step.does(Does.QUENCHES) and (hard := hard_besides(plan, step)):
            return say(_BESIDE_HARD, listed(hard), step.zones[0], listed(hard))
    return told


#: What stands out of a face, or lies below it: by how much it is brought back (elementary geometry).
_IN_FIGURES = {
    "bulge": "the crown is to come down by {}, by {} at the least",
    "hollow": "{} are to come off around it, {} at the least",
}
#: What brings a bend to its angle (common practice, no source).
_BENT_FURTHER = "Bend it {} further at orange, by the template"
_OPENED = "Open it by {} at orange, by the template"
_BEFORE = ", before it is hardened"
#: What is opened of an eye between its cheeks.
_HOLE = "hole_width"
#: What is the same but for what figures are rounded by, mm (our choice).
_SAME_MM = 1e-6
#: What a cool temper may leave as it is wanted: no more is drawn than need be (common practice, no source).
_COOLER = (
    "Cooler than the step says, {} leaves {} at {}, and {} is wanted: measure the hardness before it is "
    "tempered hotter."
)
#: What a hardening heat a little over its own costs (common practice, no source).
_LITTLE_OVER = (
    "A little over its heat its grain hardly grows: let it fall to it, out of the fire, read it again and "
    "quench it from there. If it is quenched already, look for a crack."
)
#: A heat from the cold to just over the upper critical one makes a grain fine (`coach.operations.harden`).
_BESIDE_HARD = (
    "So hot its grain grows coarse, and coarse grain cracks: do not quench it. The {} is hard already, so no "
    "whole head is normalised: let the {} cool in still air till it is black, and heat it alone to its own "
    "heat again, which makes it fine, with the {} kept cold. If it is quenched already, look for a crack, "
    "then do the same."
)
#: Where a soak was too hot besides (`coach.operations.harden`).
_TOO_HOT_BESIDES = (
    "Its heat was too high besides, which is worse: do not quench it, and do what is said of the heat."
)
#: What moves a hole that stands off the middle (common practice, no source).
_MOVED = (
    "the hole stands {} off the middle. At a full heat let the thin cheek cool, on the anvil or, where its "
    "metal does not harden, in water, and drive the drift while the thick one is hot, until {}."
)
_EACH_IS, _ALIKE = "each is {}", "both are alike"
#: Of cheeks that were read without their hole and what they are across.
_MAKE_ACROSS = (
    "{} With the hole of {} that is asked for, both make {} across, and {} is wanted: measure the hole and "
    "the {}, which decide."
)
_MOVED_LATER = (
    "the hole stands {} off the middle. Step {} opens it next: let the thin cheek cool there, on the anvil "
    "or, where its metal does not harden, in water, and drive the drift while the thick one is hot, until "
    "both are alike."
)
_NEVER_MOVED = (
    "the hole stands {} off the middle, and no step to come opens it: put in a heat for it, at which the "
    "thin cheek is cooled and the drift driven while the thick one is hot, until both are alike."
)


def _brought_back(step: Step, outcome: Outcome) -> Words:
    """What takes a bulge or a hollow out, and by how much; nothing of another size."""
    dimension = outcome.mark.reading.dimension
    by_how_much, told = _IN_FIGURES.get(dimension), operation(step.operation).AFTER_OUT.get(dimension)
    if by_how_much is None or told is None or outcome.limits is None:
        return NOTHING
    read_mm, most_mm = cold_reading(outcome.mark.reading).size_mm, outcome.limits.high
    return say("{}: {}", say(by_how_much, mm(read_mm), mm(max(read_mm - most_mm, 0.0))), told)


def _bent_to_angle(plan: Plan, step: Step, outcome: Outcome) -> Words:
    """By how much a bend is opened, or bent further; nothing where it is as wanted, or is bent still."""
    reading, limits = outcome.mark.reading, outcome.limits
    if outcome.verdict not in (Verdict.OUT, Verdict.MORE_TO_GO) or limits is None:
        return NOTHING
    ahead = plan.recipe.steps[step.number :]
    hard = any(one.does(Does.QUENCHES) and reading.zone in one.metal for one in ahead)
    told = _BENT_FURTHER if reading.size_mm < limits.nominal else _OPENED
    return say("{}{}.", say(told, degrees(abs(reading.size_mm - limits.nominal))), _BEFORE * hard)


def _off_the_middle(plan: Plan, step: Step, outcome: Outcome, in_hand: Step) -> Words:
    """How a hole that was opened to one side is brought back; nothing once something is hard."""
    if outcome.limits is None or any(one.does(Does.QUENCHES) for one in plan.recipe.steps[: in_hand.number]):
        return NOTHING
    cheek_mm, half_mm = cold_reading(outcome.mark.reading).size_mm, outcome.limits.nominal
    if outcome.other_mm is not None:
        told, other_mm = "The other cheek is {}", outcome.other_mm
    else:
        told, other_mm = "By width and hole the other cheek is {}", 2.0 * half_mm - cheek_mm
    off_mm = 0.5 * abs(other_mm - cheek_mm)
    if in_hand.number == step.number:
        across = _across_by_two(plan, step, outcome)
        until = say(_EACH_IS, mm(half_mm)) if across is None else say(_ALIKE)
        moved = say(_MOVED, mm(off_mm), until)
        if across is not None:
            moved = say(_MAKE_ACROSS, moved, *across)
    elif opens := _opened_again(plan, outcome.mark.reading.zone, in_hand):
        moved = say(_MOVED_LATER, mm(off_mm), opens)
    else:
        moved = say(_NEVER_MOVED, mm(off_mm))
    return say("{}: {}", say(told, mm(other_mm)), moved)


def _across_by_two(plan: Plan, step: Step, outcome: Outcome) -> tuple[Figure | Wanted | str, ...] | None:
    """What both cheeks make across with the hole that the step asks for, where that is not what it wants.

    The hole, both with it, what is wanted across, and how that is called. None where hole and width tell what
    the cheeks are to be, or these make up what is wanted.
    """
    reading, stage = outcome.mark.reading, plan.by_step[step.number].get(outcome.mark.reading.zone)
    if stage is None or outcome.limits is None or outcome.other_mm is None:
        return None
    both_mm = cold_reading(reading).size_mm + outcome.other_mm
    by_two = abs(both_mm - 2.0 * outcome.limits.nominal) < _SAME_MM
    if not by_two or not isinstance(stage.form_after, Eyed):
        return None
    name = across_of(stage.form_after)
    hole, across = step.targets.get(_HOLE), step.targets.get(name)
    if hole is None or across is None:
        return None
    doubt_mm = QUESTIONED_BEYOND * cold_reading(reading).doubt_mm
    if across.low - doubt_mm <= hole.high + both_mm and hole.low + both_mm <= across.high + doubt_mm:
        return None
    return mm(hole.nominal), mm(hole.nominal + both_mm), Wanted(across), said(name)


def _opened_again(plan: Plan, zone: str, in_hand: Step) -> int:
    """The step that opens the hole of an eye next, that in hand among them; 0 for none."""
    ahead = plan.recipe.steps[in_hand.number - 1 :]
    opens = (one.number for one in ahead if zone in one.zones and _HOLE in one.targets and one.heats)
    return next(opens, 0)


def _tempered_too_little(plan: Plan, step: Step, outcome: Outcome) -> Words:
    """What a temper cooler than is said leaves where that may be as hard as is wanted; else nothing."""
    asked, hottest = step.targets.get("hardness"), outcome.outdone_by or outcome.mark.reading
    if asked is None:
        return NOTHING
    for metal in steels_of(plan, step):
        row = row_of(plan, step, metal)
        left = left_by(row, hottest.size_mm, _hours(step, outcome)) if row is not None else None
        if left is None or left.hrc > asked.high:
            return NOTHING
        wanted = Span(asked.low, asked.high, Kind.HARDNESS)
        return say(_COOLER, _held(hottest, outcome), metal.name, left.words, wanted)
    return NOTHING


def _held(heat: Reading, outcome: Outcome) -> Words:
    """How hot a temper was and, where that was read, for how long."""
    if outcome.soaked_s is None:
        return say("{}", celsius(heat.size_mm))
    return say("{} for {}", celsius(heat.size_mm), seconds(outcome.soaked_s))


def _hours(step: Step, outcome: Outcome) -> float:
    """For how long a temper was held, in hours, as it was read; else as it is aimed at, or to its colour."""
    from coach.metals.tempering import RUN_HOURS, TABLE_HOURS

    if outcome.soaked_s is not None:
        return outcome.soaked_s / 3600.0
    soak, heat = step.targets.get("soak"), outcome.outdone_by or outcome.mark.reading
    hours = soak.nominal / 3600.0 if soak is not None else TABLE_HOURS
    return RUN_HOURS if heat.gauge == BY_COLOUR or (soak is None and step.colour) else hours


def _tempered_too_far(plan: Plan, step: Step, outcome: Outcome) -> Words:
    """What a temper that was too hot leaves: no cooler temper brings it back."""
    from coach.metals.tempering import past_the_table, tempered_hrc
    from coach.metals.transformation import is_beyond_alloys, lower_critical

    hottest = outcome.outdone_by or outcome.mark.reading
    for metal in steels_of(plan, step):
        if not metal.composition or is_beyond_alloys(metal.nominal):
            continue
        turns = lower_critical(metal.nominal)
        if hottest.size_mm >= turns.celsius:
            told = (
                "{} is over about {}, where {} turns: it was annealed by it, or hardened anew if it was "
                "quenched from it. Look for a crack, normalise it, harden it again and temper it."
            )
            return say(told, celsius(hottest.size_mm), celsius(turns.celsius), metal.name)
    asked, hours, heat = step.targets.get("hardness"), _hours(step, outcome), _held(hottest, outcome)
    found = [say("No cooler temper makes it harder again.")]
    for metal in steels_of(plan, step):
        row = row_of(plan, step, metal)
        try:
            left = tempered_hrc(row, hottest.size_mm, hours) if row is not None else None
        except OutOfRange:
            left = None
        if left is None:
            if row is not None and past_the_table(row, hottest.size_mm, hours):
                last_c, last_hrc = row.points[-1]
                told = "{} leaves {} no harder than about {}, with which its table ends, at {}."
                ends = Figure(last_hrc, Kind.HARDNESS)
                found.insert(0, say(told, heat, metal.name, ends, celsius(last_c)))
            continue
        is_soft = asked is not None and round(left.hrc) < asked.low
        instead = (
            say(", not {}", Span(asked.low, asked.high, Kind.HARDNESS)) if is_soft and asked else NOTHING
        )
        found.insert(0, say("{} leaves {} at {}{}.", heat, metal.name, left.words, instead))
    return run_on((*found, say("Measure the hardness; where it is too soft, harden it again and temper it.")))
