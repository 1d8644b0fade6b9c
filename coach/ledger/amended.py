"""A recipe, a plan and a workpiece as they are once a way back is taken."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from coach.forms import FormError
from coach.ledger.amendment import REMAINS, Again, Amendment, not_there
from coach.ledger.belief import Change
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.step_again import in_bath, put_in, spoiled, step_again, title_again
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import Workpiece, at_stock, size_name, volume_name
from coach.recipe.model import Loss, Recipe, Step

#: No cut is surer than this, mm (judgement).
_LEAST_CUT_DOUBT_MM = 0.1


def amended_recipe(recipe: Recipe, amendment: Amendment) -> Recipe:
    """The recipe as the job follows it from here on."""
    drawing = dict(recipe.drawing)
    for new in amendment.limits:
        zone = drawing[new.zone]
        if new.dimension == REMAINS:
            drawing[new.zone] = zone._replace(remains_mm=new.limits.low)
            continue
        drawing[new.zone] = zone._replace(limits={**zone.limits, new.dimension: new.limits})
    for allowance in amendment.allowances:
        drawing[allowance.zone] = drawing[allowance.zone]._replace(allowance_share=allowance.share)
    for back in amendment.taken_back:
        for steel in [steel for steel, weld in recipe.welds.items() if weld.zones[0] == back.zone]:
            taken_mm = drawing[steel].taken_back_mm + back.length_mm
            drawing[steel] = drawing[steel]._replace(taken_back_mm=taken_mm)
    steps: list[Step] = list(recipe.steps)
    for target in amendment.targets:
        step = steps[target.step - 1]
        steps[target.step - 1] = step._replace(targets={**step.targets, target.dimension: target.limits})
    for bath in amendment.baths:
        steps[bath.step - 1] = in_bath(steps[bath.step - 1], bath.quench)
    for loss in amendment.losses:
        steps[loss.step - 1] = steps[loss.step - 1]._replace(loses=Loss(length_mm=loss.length_mm))
    for heats in amendment.heats:
        steps[heats.step - 1] = steps[heats.step - 1]._replace(heats=heats.heats, heats_said=True)
    anew = {one.zone for one in amendment.cut_anew}
    again = [(one.after, _done_again(steps[one.like - 1], one, anew)) for one in amendment.again]
    for one in amendment.again:
        if _is_of(steps[one.like - 1], anew):
            steps[one.like - 1] = spoiled(steps[one.like - 1])
    numbered = (step._replace(number=at) for at, step in enumerate(put_in(steps, again), start=1))
    return recipe._replace(drawing=drawing, steps=tuple(numbered))


def _is_of(step: Step, anew: set[str]) -> bool:
    return bool(anew) and anew >= {*step.zones}


def _done_again(step: Step, one: Again, anew: set[str]) -> Step:
    """A step as it is put in; of a piece that is cut anew just as the recipe has it."""
    return step._replace(title=title_again(step.title)) if _is_of(step, anew) else step_again(step, one)


def amended_plan(plan: Plan, amendment: Amendment) -> Plan:
    """The plan of the amended recipe; raises LedgerError where the job or the metal cannot follow it."""
    if stranger := not_there(plan.recipe, len(plan.recipe.steps), amendment):
        raise LedgerError(f"A way back that was taken changes {stranger}, which this job has not.")
    if amendment._replace(moved=(), regained=(), off_bar=()) == Amendment():
        return plan
    try:
        return look_back(amended_recipe(plan.as_written, amendment))
    except FormError as error:
        raise LedgerError("The new sizes cannot be made: {}.", error.words) from None


def begun_again(workpiece: Workpiece, plan: Plan, anew: Collection[str]) -> Workpiece:
    """The same with these zones as lengths of their bar; how one bar's zones hang together is let go."""
    stock = at_stock(plan)
    names = {name for zone in anew for name in (volume_name(zone), *_names_of(stock, zone))}
    gone = {name for zone in anew for name in _names_of(workpiece, zone)} - names
    changes = {
        name: Change(stock.belief.mean(name), {}, stock.belief.doubt(name) ** 2)
        for name in names
        if name in stock.belief
    }
    zones = {**workpiece.zones, **{zone: stock.zones[zone] for zone in anew}}
    left = [name for name in gone if name in workpiece.belief]
    return workpiece._replace(zones=zones, belief=workpiece.belief.predict(changes, dropped=left))


def _names_of(workpiece: Workpiece, zone: str) -> Iterator[str]:
    return (size_name(zone, name) for name in workpiece.zones[zone].shape.dimensions)


def amended_workpiece(workpiece: Workpiece, amendment: Amendment, plan: Plan | None = None) -> Workpiece:
    """The metal where the way back puts it; by the plan, which a piece that is cut anew begins by."""
    if amendment.cut_anew and plan is not None:
        workpiece = begun_again(workpiece, plan, {one.zone for one in amendment.cut_anew})
    changes: dict[str, Change] = {}
    belief = workpiece.belief
    for moved in amendment.moved:
        name = volume_name(moved.zone)
        if name not in belief:
            raise LedgerError("A way back moves metal of the {}, which is in other zones by now.", moved.zone)
        changes[name] = Change(belief.mean(name) + moved.volume_mm3, {name: 1.0}, moved.doubt_mm3**2)
    for regained in amendment.regained:
        state = workpiece.zones[regained.zone]
        if regained.dimension != state.free and regained.dimension in state.shape.dimensions:
            changes[size_name(regained.zone, regained.dimension)] = Change(
                regained.size_mm, {}, regained.doubt_mm**2
            )
    zones = dict(workpiece.zones)
    for zone, _ in amendment.changed_sizes(workpiece):
        zones[zone] = zones[zone]._replace(measured=False)
    if not changes:
        return workpiece
    changed = workpiece._replace(zones=zones, belief=belief.predict(changes))
    for regained in amendment.regained:
        state = workpiece.zones[regained.zone]
        if regained.dimension == state.free and state.has_form and regained.zone in amendment.cut:
            # It is cut at a place that is measured: as good as a reading of what its metal makes then.
            there = changed.size(regained.zone, regained.dimension)
            variance = max(regained.doubt_mm, _LEAST_CUT_DOUBT_MM) ** 2
            belief = changed.belief.update(there.slopes, regained.size_mm - there.value, variance)
            # By so much shorter than it was measured it is measured still.
            zones = {**changed.zones, regained.zone: state}
            changed = changed._replace(zones=zones, belief=belief)
    return changed
