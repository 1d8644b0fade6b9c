"""How a step moves what is believed of its zones: the same work as the plan's, with its doubts."""

from __future__ import annotations

from collections.abc import Collection
from math import erf, exp, pi, sqrt

from coach.forms import FormError
from coach.ledger.belief import Belief, Change
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.settling import Passage, followed, passage_of, scatter_mm, sizes_left
from coach.ledger.spreading import names_before, ran, with_before
from coach.ledger.working import cannot, fixed_free_mm, operation_on, work_of, worked_by
from coach.ledger.workpiece import SCALE, Workpiece, size_name, volume_name, volume_slope
from coach.operations import Does, Worked
from coach.operations.does import Cause
from coach.recipe.model import Step

#: How well a length is cut (common practice, no source).
_CUT_SCATTER_MM = 1.0
#: Step for the numeric slope of what is left with the volume before, as a share.
_STEP_SHARE = 1e-3


def step_on(
    plan: Plan,
    workpiece: Workpiece,
    step: Step,
    *,
    heats: float | None = None,
    under_way: Collection[str] = (),
) -> Workpiece:
    """Every zone that a step works or heats, moved on by it, by its planned heats where none are given.

    The sizes `under_way`, as "zone.dimension", are still being worked and so only roughly known. Raises
    LedgerError: the metal cannot make what the step asks for.
    """
    count = float(step.heats) if heats is None else heats
    for stage in plan.by_step[step.number].values():
        workpiece = _Passing(plan, workpiece, stage, count, under_way).done()
    return workpiece


def chance_name(zone: str) -> str:
    """The belief's name for how far what the latest step took of a zone is off, mm³; until the next step."""
    return f"{zone} taken by chance"


class _Passing:
    """One zone on its way through one step."""

    def __init__(
        self, plan: Plan, workpiece: Workpiece, stage: Stage, heats: float, under_way: Collection[str]
    ) -> None:
        self._passage = passage_of(workpiece, stage)
        self._step, self._zone, self._lays = stage.step, stage.zone, stage.lays
        self._todo = operation_on(stage.step, stage.zone)
        self._before = self._begun(workpiece)
        self._sizes = sizes_left(self._before, self._passage, under_way)
        self._volume_mm3 = self._before.volume_mm3(self._zone)
        if self._lays is not None:
            self._volume_mm3 += self._before.volume_mm3(self._lays)
        self._work = work_of(
            plan.recipe,
            self._step,
            self._passage.after,
            self._sizes.means_mm,
            heats=heats,
            scale_factor=self._before.scale_factor(),
            free_mm=self._free_to_fix(),
        )
        self._worked = self._forged(self._volume_mm3)

    def done(self) -> Workpiece:
        """The workpiece with the zone moved on."""
        after = self._passage.after
        if self._todo.FIXES and (self._work.free_mm is not None or Does.CUTS_FREE not in self._todo.DOES):
            belief = self._fixed()
        else:
            belief = followed(ran(self._flowed(), after), after, self._passage.followers)
        moved = Workpiece({**self._before.zones, self._zone: after}, belief)
        return _joined(moved, self._lays, self._zone) if self._lays is not None else moved

    def _begun(self, workpiece: Workpiece) -> Workpiece:
        """What an earlier step took is settled: nobody weighs its slug any more; and what it spread from."""
        stale = [*names_before(workpiece, self._zone), chance_name(self._zone)]
        if any(name in workpiece.belief for name in stale):
            workpiece = workpiece._replace(belief=workpiece.belief.predict({}, dropped=stale))
        runs = self._passage.after.runs
        return workpiece if runs is None else with_before(workpiece, self._zone, runs, self._passage.form)

    def _free_to_fix(self) -> float | None:
        """The free dimension that a cut or a grind is to reach, if any.

        A cut without a stated length leaves what the rest of the job needs, at the section the zone has now.
        """
        stated = fixed_free_mm(self._step, self._passage.after)
        if stated is None and Does.CUTS_FREE in self._todo.DOES:
            try:
                return self._passage.form.solved("length", self._passage.stage.after_mm3).size_mm("length")
            except FormError as error:
                raise cannot(self._step, error) from None
        return stated

    def _forged(self, volume_mm3: float) -> Worked:
        return worked_by(self._step, self._zone, self._passage.form, volume_mm3, self._work)

    def _flowed(self) -> Belief:
        """The metal goes where it can: the volume, less what is lost, settles the free dimension."""
        belief, gone, volume = self._before.belief, self._passage.lost_sizes(), self._volume_mm3
        taken = self._worked.taken_mm3
        if not taken:
            return belief.predict(self._sizes.changes, dropped=gone)
        scale = taken.get(Cause.SCALE, 0.0)
        doubt = self._todo.TAKEN_DOUBT_SHARE * (sum(taken.values()) - scale)
        more = volume * (1.0 + _STEP_SHARE)
        through = (self._forged(more).volume_mm3 - self._worked.volume_mm3) / (more - volume)
        moves = dict(self._sizes.changes)
        chance = chance_name(self._zone)
        if doubt:
            belief = belief.predict({chance: Change(0.0, variance=doubt**2)})
        for part in self._passage.after.parts:
            name = volume_name(part)
            share = belief.mean(name) / volume
            slopes = {name: through}
            if scale:
                slopes[SCALE] = -share * scale / self._before.scale_factor()
            if doubt:
                slopes[chance] = -share
            moves[name] = Change(share * self._worked.volume_mm3, slopes)
        return belief.predict(moves, dropped=gone)

    def _fixed(self) -> Belief:
        """Metal is taken away to reach the sizes: the volume left follows from them."""
        zone, after, form = self._zone, self._passage.after, self._worked.form
        free_name = f"{zone} free size"
        reached = _reached(self._before, self._passage, form.size_mm(after.free), self._work.free_mm)
        belief = self._before.belief.predict({**self._sizes.changes, free_name: reached})
        belief = followed(belief, after, self._passage.followers)
        slopes = {free_name: volume_slope(form, after.free)}
        for dimension in after.shape.own_dimensions:
            if dimension != after.free:
                slopes[size_name(zone, dimension)] = volume_slope(form, dimension)
        volume = self._before.volume_mm3(zone)
        moves = {}
        for part in after.parts:
            share = belief.mean(volume_name(part)) / volume
            part_slopes = {name: share * slope for name, slope in slopes.items()}
            moves[volume_name(part)] = Change(share * self._worked.volume_mm3, part_slopes)
        return belief.predict(moves, dropped=[*self._passage.lost_sizes(), free_name])


def _joined(workpiece: Workpiece, lays: str, zone: str) -> Workpiece:
    """Laid steel has no form of its own from its weld on, only its volume."""
    laid = workpiece.zones[lays]
    names = [size_name(lays, d) for d in laid.shape.dimensions if d != laid.free]
    zones = {**workpiece.zones, lays: laid._replace(laid_on=zone)}
    return Workpiece(zones, workpiece.belief.predict({}, dropped=names))


def _reached(workpiece: Workpiece, passage: Passage, left_mm: float, free_mm: float | None) -> Change:
    """The free dimension once metal was taken away to reach it: the target, or less if there was less.

    The lesser of two Gaussian quantities, by its first two moments (C. E. Clark, "The greatest of a finite
    set of random variables", Operations Research 9, 1961), so that the doubt does not jump where the metal
    only just reaches. The mean is that of the walk itself.
    """
    free = passage.after.free
    if free not in passage.before.shape.dimensions:
        return Change(left_mm)
    there = workpiece.size(passage.stage.zone, free)
    if free_mm is None:
        return Change(left_mm, there.slopes)
    target = passage.stage.step.targets.get(free)
    reach = scatter_mm(target, free_mm) if target is not None and target.stated else _CUT_SCATTER_MM
    both = sqrt(there.doubt**2 + reach**2)
    ahead = (free_mm - there.value) / both
    short = 0.5 * (1.0 + erf(ahead / sqrt(2.0)))  # the chance that the metal does not reach
    bell = exp(-0.5 * ahead**2) / sqrt(2.0 * pi)
    mean = there.value * short + free_mm * (1.0 - short) - both * bell
    square = (
        (there.doubt**2 + there.value**2) * short
        + (reach**2 + free_mm**2) * (1.0 - short)
        - (there.value + free_mm) * both * bell
    )
    own = square - mean**2 - (short * there.doubt) ** 2
    return Change(left_mm, {name: short * slope for name, slope in there.slopes.items()}, max(own, 0.0))
