"""Where the doubt of a plan comes from: how well the size that decides is known once each step is done."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import accumulate, takewhile
from typing import NamedTuple

from coach.ledger.doubt_sources import ShareOfDoubt, shares_of_doubt
from coach.ledger.forecast import Forecast
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.verdict import Reason, Why
from coach.ledger.wander import is_hammered, neighbours
from coach.ledger.working import fixed_free_mm, layer_of, reshapes
from coach.ledger.workpiece import Workpiece, size_name, volume_slope
from coach.ledger.zone_forecast import is_unmoved, metal_of
from coach.operations import operation
from coach.quantities.figure import Figure, mm

#: These ask whether the metal suffices; the others, what a size will be.
_OF_METAL = (Why.TIGHTEST, Why.FULL, Why.SHORT)


class Decides(NamedTuple):
    """The size that a plan turns on, with its doubt where nothing is measured on the way."""

    name: str  # `bit.length`
    zone: str
    dimension: str
    doubt_marked: Figure | None  # as the bar is marked out; `null` where it has no such size yet
    doubt: Figure  # at the end
    sources: tuple[ShareOfDoubt, ...] = ()  # what that comes from, the largest share first


class Doubts(NamedTuple):
    """The size that decides, with its doubt after the steps that change it."""

    decides: Decides
    after: Mapping[int, Figure]  # by the number of the step


def where_doubt_comes_from(plan: Plan, start: Workpiece, found: Forecast) -> Doubts | None:
    """How the doubt of the size that decides grows from the marked bar to the end; None where none decides.

    Of metal, the doubt is that of its volume, told in the size that it shows in. It ends where the forecast
    settles what the size is judged by: at the last step, or before its metal is cut or ground to a stated
    length or the steel is laid on.

    `start` is the piece before the first step still to be finished, with what its bars and marks do told
    apart.
    """
    reason = found.reason
    if not isinstance(reason, Reason) or not reason.zone or reason.beyond.doubt is None:
        return None
    stages, fixed = _that_count(plan, reason.zone)
    stages = [one for one in stages if one.step.number in found.after]
    beside = [] if fixed else [at for at in _beside_after(plan, reason.zone, stages) if at in found.after]
    numbers = [*(one.step.number for one in stages), *beside]
    pieces = {0: start} | {number: found.after[number] for number in numbers}
    by_volume = (
        reason.why in _OF_METAL
        and not is_unmoved(plan, reason.zone)  # that is as long as its marks, whatever bar is between them
        and (not fixed or any(reshapes(one.step, reason.zone) for one in stages))
    )
    last = pieces[max(pieces)]
    if not last.zones[reason.zone].has_form:
        return None
    if by_volume and reason.dimension not in last.form(reason.zone).DIMENSIONS:
        return None  # a form that has not the size it is judged by, as an eye has no length
    if by_volume:
        slope = abs(volume_slope(last.form(reason.zone), reason.dimension))
        worn = {} if fixed else _worn_shares(plan, stages)
        worn |= dict.fromkeys(beside, max(worn.values(), default=0.0))
        worn[max(pieces)] = 0.0 if fixed else 1.0  # in the end all of it has come off
        known = {
            at: metal_of(plan, one, reason.zone, worn.get(at, 0.0))
            for at, one in pieces.items()
            if one.zones[reason.zone].parts  # a branch has no metal of its own before the split
        }
    else:
        slope = 1.0
        known = {
            at: one.size(reason.zone, reason.dimension)
            for at, one in pieces.items()
            if _has(one, reason.zone, reason.dimension)
        }
    after = {at: mm(size.doubt / slope) for at, size in known.items()}
    marked = after.pop(0, None)
    name, at_end = size_name(reason.zone, reason.dimension), known.get(max(pieces))
    sources = shares_of_doubt(plan, last.belief, at_end.slopes) if at_end is not None else ()
    decides = Decides(name, reason.zone, reason.dimension, marked, mm(reason.beyond.doubt), sources)
    return Doubts(decides, after)


def _that_count(plan: Plan, zone: str) -> tuple[list[Stage], bool]:
    """A zone's way as far as its metal is judged by it, and whether a stated end of it comes after."""
    stages = list(plan.stages[zone])
    shaped = [at for at, one in enumerate(stages) if reshapes(one.step, zone)]
    if shaped and fixed_free_mm(stages[shaped[-1]].step, stages[shaped[-1]].after) is not None:
        return stages[: shaped[-1]], True
    return stages, False


def _beside_after(plan: Plan, zone: str, stages: Sequence[Stage]) -> list[int]:
    """The steps after those that hammer a neighbour of the zone: a little metal goes over their shoulder."""
    last = stages[-1].step.number if stages else 0
    later = [step for step in plan.recipe.steps[last:] if is_hammered(step)]
    beside = neighbours(plan.recipe, zone)
    return [step.number for step in later if any(reshapes(step, one) for one in beside)]


def _worn_shares(plan: Plan, stages: Sequence[Stage]) -> dict[int, float]:
    """By step: how much of the scale that comes off a zone after its last shaping it has lost by then."""
    after = list(takewhile(lambda one: not _is_forged(one), reversed(stages)))[::-1]
    layers = list(accumulate(layer_of(plan.recipe, one.step, one.step.heats) for one in after))
    return {one.step.number: so_far / layers[-1] for one, so_far in zip(after, layers, strict=True) if so_far}


def _is_forged(stage: Stage) -> bool:
    return reshapes(stage.step, stage.zone) and not operation(stage.step.operation).FIXES


def _has(workpiece: Workpiece, zone: str, dimension: str) -> bool:
    state = workpiece.zones[zone]
    return state.has_form and dimension in state.shape.dimensions
