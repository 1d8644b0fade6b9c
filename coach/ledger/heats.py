"""What the heats of a step under way do: they take scale, and move the sizes that were read or not."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from math import isfinite, sqrt
from typing import NamedTuple

from coach.forms import Form, FormError
from coach.ledger.belief import Belief, Change
from coach.ledger.degrees import likely_past
from coach.ledger.hand import HAND_SCATTER_MM, scatter_mm
from coach.ledger.plan import Plan
from coach.ledger.settling import reset, scaled_off, worked_again_share
from coach.ledger.working import cannot, operation_on, scaled_form, work_of
from coach.ledger.workpiece import SCALE, Heats, Workpiece, size_name, volume_name
from coach.operations import Operation, Work
from coach.operations.base import ROUNDS
from coach.operations.shape import NOTHING
from coach.recipe.model import Step


def scaling_forms(plan: Plan, step: Step, start: Workpiece, begun: Workpiece) -> dict[str, Form]:
    """The solids before a step of the zones that its heats scale.

    Where metal beyond a cut has left, the scale of the ends and of the length came off that: the size cut to
    stands, by all that is there once the step is begun, before its first heat. Of what is split its branches
    scale, as they are then.
    """
    before = {zone: start if start.zones[zone].has_form else begun for zone in plan.by_step[step.number]}
    forms = {zone: had.form(zone) for zone, had in before.items() if zone in step.heated}
    return {
        zone: form
        for zone, form in forms.items()
        if not operation_on(step, zone).FIXES or begun.volume_mm3(zone) >= form.volume_mm3() * (1.0 - 1e-9)
    }


def scaled(
    plan: Plan,
    workpiece: Workpiece,
    step: Step,
    start: Mapping[str, Form],
    heats: float | Heats,
    minutes: float | None = None,
    before_cut: float = 0.0,
) -> Workpiece:
    """Heats of a step that is under way: only their scale comes off, by logged minutes or the usual ones.

    It takes the solid of each zone that scales at the start of the step, so that heats marked one by one take
    in all what the plan reckons for them. Of what is cut as long as the metal needs it, that share of them
    that was not planned makes it thinner and the cut longer.
    """
    heats, by = heats if isinstance(heats, Heats) else Heats(heats)
    for stage in plan.by_step[step.number].values():
        zone = stage.zone
        todo, cut_to = operation_on(step, zone), zone not in start
        if heats <= 0.0 or zone not in step.heated or (cut_to and not todo.FIXES):
            continue
        state = workpiece.zones[zone]
        factor = workpiece.scale_factor()
        work = work_of(plan.recipe, step, state, {}, heats=heats, scale_factor=factor, minutes=minutes)
        if work.face_loss_mm == 0.0:
            continue
        volume = workpiece.volume_mm3(zone)
        layer_mm, form = work.heats * work.face_loss_mm, workpiece.form(zone)
        if cut_to:
            scale = volume * (1.0 - scaled_form(form, stage.sheds, layer_mm).volume_mm3() / form.volume_mm3())
            scale *= 1.0 - before_cut
        else:
            scale = _scale_mm3(todo, start[zone], form, volume, work, step)
        moves = {}
        for part in state.parts:
            name = volume_name(part)
            share = workpiece.belief.mean(name) / volume
            slopes = {name: 1.0 - scale / volume, SCALE: -share * scale / factor}
            slopes |= {quantity: -share * scale * slope / heats for quantity, slope in by.items()}
            moves[name] = Change(workpiece.belief.mean(name) - share * scale, slopes)
        for dimension, shed in stage.sheds.items():
            name = size_name(zone, dimension)
            if name in workpiece.belief:
                as_it_is = Change(workpiece.belief.mean(name), {name: 1.0})
                moves[name] = scaled_off(as_it_is, shed * layer_mm, workpiece)
        workpiece = workpiece._replace(belief=workpiece.belief.predict(moves))
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


def unplanned(step: Step, heats: float, believed: Mapping[str, float]) -> float:
    """Whether one heat more is one too many before a cut whose length nobody has read: 1, or 0."""
    is_cut = any(name.endswith(".length") for name in believed)
    return float(heats >= step.heats and not is_cut)


class SoFar(NamedTuple):
    """What was read of a step's sizes so far."""

    asked: Collection[str]  # the sizes that the step works to, as "zone.dimension"
    believed: Mapping[str, float]  # the last believed reading of each size, cold
    worked: Collection[str]  # zones in which more was done than was read
    outset: Belief  # what was believed of the sizes before anything was read in the step
    at_end: Belief | None = None  # where the step leaves them if nothing is read; None while it is going on


class _Size:
    """A size that a step works to, as it is believed before more work."""

    def __init__(
        self,
        plan: Plan,
        now: Workpiece,
        step: Step,
        name: str,
        at_end: Belief | None = None,
        *,
        is_read: bool = True,
    ) -> None:
        zone, self.dimension = name.rsplit(".", 1)
        self.name = name
        self.stage, self.limits = plan.by_step[step.number][zone], step.targets[self.dimension]
        self.size_mm, self.doubt_mm = now.belief.mean(name), now.belief.doubt(name)
        self.variance = now.belief.variance(name)
        aim_mm = self.limits.nominal
        self.at_target = Change(aim_mm, {}, scatter_mm(self.limits, aim_mm) ** 2)
        ends_mm = at_end.mean(name) if at_end is not None and not is_read else aim_mm
        # Gone past before the step, by whatever name it was read there: no heat brings it back.
        self.was_past = self.stage.is_past(self.dimension, ends_mm, aim_mm)
        # What no heat moves is known better than what is worked.
        if at_end is not None and (self.stage.leaves(self.dimension) or self.was_past):
            self.at_target = Change(at_end.mean(name), {}, at_end.variance(name))
        self.loosened_mm = max(HAND_SCATTER_MM, scatter_mm(self.limits, self.size_mm))

    def again_share(self) -> float:
        """How surely it is worked on to its target, if it was read."""
        return worked_again_share(self.stage, self.dimension, self.size_mm, self.limits, self.doubt_mm)

    def gone_share(self) -> float:
        """How surely it is past its target and outside, if it was not read."""
        limits, off_mm = self.limits, self.size_mm - self.limits.nominal
        if not self.stage.is_past(self.dimension, self.size_mm, limits.nominal):
            return 0.0
        reach_mm = limits.high - limits.nominal if off_mm > 0.0 else limits.nominal - limits.low
        return likely_past(abs(off_mm), reach_mm, self.doubt_mm) if isfinite(reach_mm) else 0.0

    def moved(self, to: Change, share: float, loosened_mm2: float, *, is_old: bool = False) -> Change:
        """It set otherwise with this share, else left where it is, only less well known.

        The mixture of the two by its first two moments. But where it was read before that work, and so
        `is_old`, it is not less known than what was not read at all, and is set otherwise for certain.
        """
        kept = 1.0 - share
        total = kept * (self.variance + loosened_mm2) + share * to.variance
        total += kept * share * (self.size_mm - to.mean) ** 2
        if is_old:
            total = min(total, to.variance)
        slope = min(kept, sqrt(total / self.variance)) if self.variance else kept
        own = max(total - slope**2 * self.variance, 0.0)
        mean = kept * self.size_mm + share * to.mean
        return Change(mean, {self.name: slope} if slope else NOTHING, own)


def worked_on(
    plan: Plan,
    now: Workpiece,
    step: Step,
    names: Sequence[str],
    *,
    least_mm: float = 0.0,
    home: Collection[str] = (),
    at_end: Belief | None = None,
) -> Workpiece:
    """Sizes that were read and have been under the hammer since: known less well than they were.

    One that is not there yet is on its way, or at its target where it is brought `home`.
    """
    changes = {}
    for name in names:
        size = _Size(plan, now, step, name, at_end)
        aim_mm = size.limits.nominal
        on_its_way = max(scatter_mm(size.limits, size.size_mm), 0.5 * abs(size.size_mm - aim_mm))
        to = size.at_target if name in home else Change(aim_mm, {}, on_its_way**2)
        loosened_mm2 = max(size.loosened_mm, least_mm) ** 2
        changes[name] = size.moved(to, size.again_share(), loosened_mm2, is_old=True)
    return reset(now, changes) if changes else now


def hammered(
    plan: Plan, now: Workpiece, step: Step, so_far: SoFar, *, home: Collection[str] = ()
) -> Workpiece:
    """A heat's work on every zone that was measured in this step.

    A size that was not read itself moved too: what a reading of another size said of it no longer holds.
    Those that are brought `home` by the last work of a finished step come to their targets.
    """
    measured = {name.rsplit(".", 1)[0] for name in so_far.believed} | {*so_far.worked}
    under = [name for name in sorted(so_far.asked) if name.rsplit(".", 1)[0] in measured]
    changes = {}
    for name in under:
        if name not in so_far.believed:
            size = _Size(plan, now, step, name, so_far.at_end, is_read=False)
            outset = Change(so_far.outset.mean(name), {}, so_far.outset.variance(name))
            to = size.at_target if name in home else outset
            changes[name] = size.moved(to, 1.0 - size.gone_share(), size.loosened_mm**2)
    if changes:
        now = reset(now, changes)
    read = [name for name in under if name in so_far.believed]
    return worked_on(plan, now, step, read, home=home, at_end=so_far.at_end)


def left_shares(plan: Plan, now: Workpiece, step: Step, names: Iterable[str]) -> dict[str, float]:
    """How surely the step in hand leaves each of these sizes, which were read in it, where it is."""
    return {name: 1.0 - _Size(plan, now, step, name).again_share() for name in names}


def worked_to_the_end(
    plan: Plan,
    now: Workpiece,
    step: Step,
    asked: Collection[str],
    read: Collection[str],
    as_read: Collection[str],
    hammered_on: float,
    at_end: Belief,
) -> Workpiece:
    """The sizes that a step asks for, at its end: what is not there yet comes to its target.

    As surely as it is `hammered_on` in heats to come, what is there, as far as it was `read`, lies under the
    hammer with the rest of its zone. A zone whose every size is as it was read, and has nothing more to go,
    is not hammered on.
    What the step leaves where it was is as `at_end`, where it comes to lie if nothing is read.
    """
    sizes = [_Size(plan, now, step, name, at_end, is_read=name in read) for name in sorted(asked)]
    again = {size.name: size.again_share() if size.name in read else 1.0 for size in sizes}
    under: dict[str, float] = {}  # how surely each zone is hammered on
    for size in sizes:
        share = again[size.name] if size.name in as_read else 1.0
        under[size.stage.zone] = max(under.get(size.stage.zone, 0.0), share)
    changes, moved = {}, {}
    for size in sizes:
        share, loosened_mm2 = again[size.name], 0.0
        if size.name in read:
            loosened_mm2 = under[size.stage.zone] * hammered_on * size.loosened_mm**2
        else:
            share -= size.gone_share()
        is_old = size.name not in as_read if size.name in read else size.was_past
        if share or loosened_mm2 or is_old:
            changes[size.name] = size.moved(size.at_target, share, loosened_mm2, is_old=is_old)
            under_hammer = under[size.stage.zone] * hammered_on
            moved[size.name] = 1.0 if is_old else share + (1.0 - share) * under_hammer
    return reset(now, changes, moved) if changes else now
