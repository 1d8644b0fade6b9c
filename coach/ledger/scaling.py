"""What the heats of a step that is under way take off as scale, one by one."""

from __future__ import annotations

from collections.abc import Mapping

from coach.forms import Form, FormError
from coach.ledger.belief import Change
from coach.ledger.plan import Plan
from coach.ledger.working import Heating, cannot, operation_on, work_of
from coach.ledger.workpiece import SCALE, Workpiece, volume_name
from coach.operations import Operation, Work
from coach.operations.base import ROUNDS
from coach.recipe.model import Step


def scaling_forms(step: Step, start: Mapping[str, Form], begun: Workpiece) -> dict[str, Form]:
    """The solids before a step of the zones that its heats scale.

    Where metal beyond a cut has left, the scale came off that, and the size cut to stands: by all that
    is there once the step is begun, before its first heat.
    """
    return {
        zone: form
        for zone, form in start.items()
        if zone in step.heated
        and not (operation_on(step, zone).FIXES and begun.volume_mm3(zone) < form.volume_mm3() * (1.0 - 1e-9))
    }


def scaled(
    plan: Plan,
    workpiece: Workpiece,
    step: Step,
    start: Mapping[str, Form],
    heats: float,
    minutes: float | None = None,
) -> Workpiece:
    """Heats of a step that is under way: only their scale comes off, by logged minutes or the usual ones.

    It takes the solid of each zone that scales at the start of the step, so that heats marked one by one take
    in all what the plan reckons for them.
    """
    for stage in plan.by_step[step.number].values():
        zone = stage.zone
        if zone not in start or heats <= 0.0:
            continue
        state = workpiece.zones[zone]
        factor = workpiece.scale_factor()
        work = work_of(plan.recipe, step, state, {}, Heating(heats, factor, minutes))
        if work.face_loss_mm == 0.0:
            continue
        volume = workpiece.volume_mm3(zone)
        scale = _scale_mm3(operation_on(step, zone), start[zone], workpiece.form(zone), volume, work, step)
        moves = {}
        for part in state.parts:
            name = volume_name(part)
            share = workpiece.belief.mean(name) / volume
            slopes = {name: 1.0 - scale / volume, SCALE: -share * scale / factor}
            moves[name] = Change(workpiece.belief.mean(name) - share * scale, slopes)
        workpiece = Workpiece(workpiece.zones, workpiece.belief.predict(moves))
    return workpiece


def _scale_mm3(todo: Operation, before: Form, now: Form, volume_mm3: float, work: Work, step: Step) -> float:
    """What heats of a step take, by the surface that they leave, as the step's own work reckons it."""
    scale = 0.0
    try:
        for _ in range(ROUNDS):
            after = now.solved(work.free, volume_mm3 - scale)
            scale = work.heats * work.face_loss_mm * todo.scaling_surface_mm2(before, after, work)
    except FormError as error:
        raise cannot(step, error) from None
    return scale
