"""What is wanted of a size at a step: the limits that a reading of it is judged by."""

from __future__ import annotations

from math import inf

from coach.forms import Form, FormError
from coach.ledger.branching import CUT_ACROSS, cut_doubt_mm, source_of
from coach.ledger.in_cleft import read_longer_mm
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.working import LedgerError, fixed_free_mm, reshapes, targets_of
from coach.ledger.workpiece import Workpiece
from coach.operations import Does, operation
from coach.operations.measures import MARK
from coach.quantities import COVERAGE, Limits
from coach.recipe.model import Step

#: A mark may be this many of its own standard uncertainties from where it should be (judgement).
_MARK_REACH = 3.0
#: One of several on a bar begins where it was planned to, unless it is so far beside it, in mm (judgement).
_AS_PLANNED_MM = 0.5
#: A section that is so little beside the plan's, as a share of its area, moves no mark (judgement).
_SECTION_SHARE = 0.01


def wanted(
    plan: Plan, now: Workpiece, step: Step, zone: str, dimension: str
) -> tuple[Limits | None, bool | None]:
    """The limits a size is judged by at a step, and whether the step makes it bigger.

    The step's own target first; at a zone that nothing will shape again, the drawing's; for the free
    dimension of a zone still to be worked, at least what holds the metal that the rest of the job needs.
    """
    state = now.zones[zone]
    if not state.has_form or is_marked_ahead(plan, step, zone):
        return None, None
    if dimension == MARK:
        piece = plan.pieces[state.piece]
        at_mm = next(one.at.value for one in piece.marks if one.ends == zone) - piece.begins.value
        if step.does(Does.MARKS_OUT):
            at_mm += _more_of_bar_mm(plan, now, step, zone)
        return _marked(plan, at_mm + begins_on_bar_mm(plan, now, state.piece)), None
    stage = plan.by_step[step.number].get(zone)
    if stage is not None and zone in step.zones and dimension in step.targets:
        free = dimension == stage.after.free and not operation(step.operation).FIXES
        parted = step.does(Does.PARTS)  # a chisel makes no half of the bar wider, nor narrower
        return step.targets[dimension], None if free or parted else dimension in stage.grows
    if stage is not None and zone in step.parts and dimension in CUT_ACROSS:
        return _as_cut(plan, step, stage, dimension), None
    working = reshapes(step, zone)
    drawn = plan.recipe.drawing[zone].limits.get(dimension)
    to_split = drawn is None and zone in plan.recipe.pieces[state.piece].branches  # as long as they need
    if not working and _is_last_shaped(plan, step, zone) and not to_split:
        return drawn, None
    if dimension != state.free:
        return None if working else _last_asked(plan, step, zone, dimension), None
    if stage is not None and working and (as_drawn := _once_taken_off(plan, stage)) is not None:
        return as_drawn, None
    try:
        enough = _enough(plan, now.form(zone), step, zone, dimension)
    except LedgerError:
        return None, None
    if enough is not None and step.does(Does.MARKS_OUT):
        enough = _marked(plan, enough.nominal)  # what one is marked too long its neighbour is too short
    return (enough.moved(read_longer_mm(state)) if enough is not None else None), None


def begins_on_bar_mm(plan: Plan, now: Workpiece, piece: str) -> float:
    """Where a piece begins on the bar that is being marked: where those before it there end, as they are."""
    if piece not in now.across:
        return 0.0
    planned_mm, is_mm = plan.pieces[piece].begins.value, now.begins_mm(piece)
    return planned_mm if abs(is_mm - planned_mm) < _AS_PLANNED_MM else is_mm


def _more_of_bar_mm(plan: Plan, now: Workpiece, step: Step, zone: str) -> float:
    """How much further along a mark lies on a bar that is thinner than the plan's; below 0 on a thicker one.

    As much metal is marked out as the plan has: the lengths go by the section that is there.
    """
    piece = plan.recipe.piece_of(zone)
    behind = (one for one in plan.recipe.steps[: step.number - 1] if not one.does(Does.MARKS_OUT))
    if any({*one.zones} & {*piece.every_zone} for one in behind):
        return 0.0
    more_mm = 0.0
    for one in piece.zones[: piece.zones.index(zone) + 1]:
        bar = plan.bar_of(one)
        there = bar.with_sizes({name: now.size(one, name).value for name in piece.stock.sizes_mm})
        share = bar.end_area_mm2("finish") / there.end_area_mm2("finish")
        more_mm += (share - 1.0) * bar.size_mm("length") if abs(share - 1.0) > _SECTION_SHARE else 0.0
    return more_mm


def is_marked_ahead(plan: Plan, step: Step, zone: str) -> bool:
    """Whether a zone is still to be marked out on its bar: nothing is wanted of it yet."""
    return any(one.does(Does.MARKS_OUT) and zone in one.zones for one in plan.recipe.steps[step.number :])


def _marked(plan: Plan, at_mm: float) -> Limits:
    reach = _MARK_REACH * plan.recipe.mark_doubt_mm
    return Limits(at_mm, at_mm - reach, at_mm + reach, True)


def centre_wanted(plan: Plan, zone: str) -> Limits | None:
    """Where along the bar the hole of a zone is punched; None where none is."""
    centres = (centre for piece in plan.pieces.values() for centre in piece.centres)
    at = next((centre.at.value for centre in centres if centre.zone == zone), None)
    return _marked(plan, at) if at is not None else None


def _as_cut(plan: Plan, step: Step, stage: Stage, dimension: str) -> Limits:
    """How wide a branch is once it is cut: as well as a cut keeps to its line."""
    whole = plan.by_step[step.number][step.zones[0]]
    reach = COVERAGE * cut_doubt_mm(whole.form_before.size_mm(source_of(whole.before.shape, dimension)))
    at_mm = stage.form_after.size_mm(dimension)
    return Limits(at_mm, at_mm - reach, at_mm + reach, True)


def _last_asked(plan: Plan, step: Step, zone: str, dimension: str) -> Limits | None:
    """What the latest step that worked to a size asked of it, where it is only looked at now.

    Less what the heats since then have scaled off it.
    """
    scaled_mm = 0.0
    for earlier in reversed(plan.recipe.steps[: step.number]):
        stage = plan.by_step[earlier.number].get(zone)
        if stage is None:
            continue
        if zone in earlier.zones and dimension in earlier.targets and reshapes(earlier, zone):
            return earlier.targets[dimension].moved(scaled_mm)
        scaled_mm += stage.changes_mm(dimension) if dimension in stage.sheds else 0.0
    return None


def is_drawn_out(stage: Stage, dimension: str) -> bool:
    """Whether a size is what the metal makes of it while a step works the section that it follows from."""
    step, zone = stage.step, stage.zone
    if dimension != stage.after.free or operation(step.operation).FIXES:
        return False
    return any(name != dimension for name in targets_of(step, zone))


def enough_at_the_end(plan: Plan, stage: Stage) -> Limits | None:
    """What is wanted of the free dimension once the section is where the step brings it."""
    return _enough(plan, stage.form_after, stage.step, stage.zone, stage.after.free)


def final_limits(plan: Plan, stage: Stage) -> Limits | None:
    """What the drawing asks of the free dimension, where after this step only saw, file and stone work it.

    By so much bigger as they still make it smaller. None where a step moves metal along it still, or brings
    the dimension itself to a size.
    """
    zone, free = stage.zone, stage.after.free
    drawn = plan.recipe.drawing[zone].limits.get(free)
    later = [one for one in plan.stages[zone] if one.step.number > stage.step.number]
    if drawn is None or any(
        fixed_free_mm(one.step, one.after) is not None
        if operation(one.step.operation).FIXES
        else not one.leaves(free)
        for one in later
        if reshapes(one.step, zone)
    ):
        return None
    taken_mm = -sum(one.changes_mm(free) for one in later)
    return drawn.moved(taken_mm)


def no_less_than_drawn(plan: Plan, stage: Stage, limits: Limits) -> Limits:
    """Limits of the free dimension once its section is where the step brings it: the drawing's least too.

    A section a little fuller than it is aimed at would hold the metal in less of it than may be: it is not
    good so, where no step ahead makes it more. As they are where the step gathers it.
    """
    final = None if stage.shrinks(stage.after.free) else final_limits(plan, stage)
    if final is None or final.low <= limits.low:
        return limits
    return Limits(max(limits.nominal, final.low), final.low, max(limits.high, final.low), limits.stated)


def once_worked(plan: Plan, step: Step, zone: str, dimension: str, limits: Limits | None) -> Limits | None:
    """What is wanted of a size at the end of a step, of a length that it draws out by the drawing too.

    A step that says itself what it wants of it is told by that, as the plan tells it.
    """
    stage = plan.by_step[step.number].get(zone)
    if limits is None or stage is None or not is_drawn_out(stage, dimension) or dimension in step.targets:
        return limits
    return no_less_than_drawn(plan, stage, limits)


def no_more_than(plan: Plan, stage: Stage, limits: Limits) -> Limits:
    """Limits of the free dimension after a step, with the most that it may be where no step ahead lessens it.

    They stay as they are where one makes it smaller by its work, or brings it to a size. What its scale takes
    it may have more.
    """
    zone, free = stage.zone, stage.after.free
    drawn = plan.recipe.drawing[zone].limits.get(free)
    later = [one for one in plan.stages[zone] if one.step.number > stage.step.number]
    shaping = [one for one in later if reshapes(one.step, zone)]
    if drawn is None or any(
        one.after.free != free
        or fixed_free_mm(one.step, one.after) is not None
        or (one.shrinks(free) and not operation(one.step.operation).FIXES and _moves_metal_out(one))
        for one in shaping
    ):
        return limits
    most_mm = drawn.high - sum(min(0.0, one.changes_mm(free)) for one in later)
    return Limits(min(limits.nominal, most_mm), min(limits.low, most_mm), min(limits.high, most_mm), True)


def _moves_metal_out(stage: Stage) -> bool:
    """Whether a step that makes a length less brings another size up for it; else its scale takes it."""
    have = stage.form_before.sizes_mm()
    after = stage.form_after.sizes_mm()
    return any(after[name] > have.get(name, 0.0) for name in after if name != stage.after.free)


def over_from(plan: Plan, step: Step, zone: str, dimension: str, limits: Limits) -> Limits | None:
    """The limits that a length drawn out is held against where it is too long, as a reading of it is judged.

    None where a step still makes it smaller, or it is worked to a size of its own.
    """
    stage = plan.by_step[step.number].get(zone)
    if stage is None or zone not in step.zones or not is_drawn_out(stage, dimension):
        return None
    if stage.shrinks(dimension):
        return None
    over = final_limits(plan, stage) or no_more_than(plan, stage, limits)
    return over if over.high < inf else None


def is_past_only_here(plan: Plan, step: Step, zone: str, dimension: str, size_mm: float) -> bool:
    """Whether a size that is past what its step works to is within what is asked of it from then on."""
    for stage in works_ahead(plan, step, zone, dimension):
        asked = stage.step.targets[dimension]
        if asked.contains(size_mm) or not stage.is_past(dimension, size_mm, asked.nominal):
            return True
    drawn = plan.recipe.drawing[zone].limits.get(dimension)
    if drawn is None:  # a form on the way: another is made of it
        made = _made_of(plan, step, zone, dimension)
        if not made:
            return not _is_last_shaped(plan, step, zone)
        return any(
            stage.step.targets[name].contains(size_mm)
            or not stage.is_past(name, size_mm, stage.step.targets[name].nominal)
            for stage, name in made
        )
    return drawn.contains(size_mm)


def _made_of(plan: Plan, step: Step, zone: str, dimension: str) -> list[tuple[Stage, str]]:
    """The sizes by another name that the next step to shape a zone makes of one that has no name after it."""
    later = (plan.by_step[one.number].get(zone) for one in plan.recipe.steps[step.number :])
    stage = next((one for one in later if one and reshapes(one.step, zone)), None)
    if stage is None or dimension in stage.after.shape.dimensions or not stage.after.shape.dimensions:
        return []
    have, worked_from = stage.form_before.sizes_mm(), stage.after.shape.worked_from
    asked = targets_of(stage.step, zone).items()
    return [
        (stage, name)
        for name, aim_mm in asked
        if name != stage.after.free
        and not stage.after.shape.follows(name)
        and worked_from(name, aim_mm, have) == dimension
    ]


def works_ahead(plan: Plan, step: Step, zone: str, dimension: str) -> list[Stage]:
    """What the steps after this one do to a zone, as far as they work to that size."""
    stages = (plan.by_step[later.number].get(zone) for later in plan.recipe.steps[step.number :])
    return [one for one in stages if one and dimension in one.step.targets and reshapes(one.step, zone)]


def _once_taken_off(plan: Plan, stage: Stage) -> Limits | None:
    """The same from a step that moves no metal itself: no thinner section makes it longer then."""
    if stage.step.does(Does.CUTS_FREE):
        return as_cut_free(plan, stage)
    return final_limits(plan, stage) if operation(stage.step.operation).FIXES else None


def as_cut_free(plan: Plan, stage: Stage) -> Limits | None:
    """What is wanted of a length that is cut where the plan has it, once only saw, file and stone work it.

    What the drawing asks of it, then, at whatever section it has; None where a step moves metal along it
    still, for there the metal counts that is cut off, or where the recipe says how long it is cut.
    """
    if fixed_free_mm(stage.step, stage.after) is not None or not stage.step.does(Does.CUTS_FREE):
        return None
    final = final_limits(plan, stage)
    if final is None:
        return None
    planned_mm = stage.form_after.size_mm(stage.after.free)
    nominal_mm = min(max(planned_mm, final.low), final.high)
    return Limits(nominal_mm, final.low, final.high, final.stated)


def _is_last_shaped(plan: Plan, step: Step, zone: str) -> bool:
    return not any(s.number > step.number and reshapes(s, zone) for s in plan.recipe.steps)


def _enough(plan: Plan, form: Form, step: Step, zone: str, dimension: str) -> Limits | None:
    """At least the size that still holds the metal needed for the drawing's least."""
    done = [s for s in plan.stages[zone] if s.step.number <= step.number]
    volume = done[-1].after_mm3 if done else plan.start_mm3[zone]
    share = plan.recipe.drawing[zone].allowance_share
    slack = plan.wanted_mm3[zone] - plan.least_mm3[zone] + volume * share / (1.0 + share)
    try:  # down to a fifth of the metal (our choice)
        nominal = form.solved(dimension, volume).size_mm(dimension)
        low = form.solved(dimension, max(volume - slack, 0.2 * volume)).size_mm(dimension)
    except FormError:
        return None
    return Limits(nominal, low, inf, True)
