"""How a step moves what is believed of its zones: the same work as the plan's, with its doubts."""

from __future__ import annotations

from collections.abc import Collection
from math import erf, exp, pi, sqrt

from coach.forms import Form, FormError
from coach.ledger.belief import Belief, Change
from coach.ledger.hand import cut_scatter_mm
from coach.ledger.in_cleft import stands_out_mm
from coach.ledger.landing import carried
from coach.ledger.margins import noted_as_laid
from coach.ledger.nominal import Stage
from coach.ledger.parting import parted
from coach.ledger.plan import Plan
from coach.ledger.settling import Passage, followed, run_and_followed
from coach.ledger.spreading import names_before, with_before
from coach.ledger.wander import wandered
from coach.ledger.wanting import as_cut_free
from coach.ledger.working import (
    ZoneState,
    cannot,
    fixed_free_mm,
    layer_of,
    reshapes,
    scaled_form,
    work_of,
    worked_by,
)
from coach.ledger.workpiece import (
    FULLNESS,
    OWN_FULLNESS_SHARE,
    SCALE,
    Heats,
    Workpiece,
    size_name,
    volume_name,
    volume_slope,
)
from coach.operations import Does
from coach.operations.does import Cause
from coach.recipe.model import Step

#: Step for the numeric slope of what is left with the volume before, as a share (our choice).
_STEP_SHARE = 1e-3


def step_on(
    plan: Plan,
    workpiece: Workpiece,
    step: Step,
    *,
    heats: float | None = None,
    under_way: Collection[str] = (),
) -> Workpiece:
    """Every zone that a step works or heats, moved on by it.

    Where no heats are given it takes those planned or, once that is known, as many as this shop takes for
    them. The sizes `under_way`, as "zone.dimension", are still being worked and so only roughly known. Raises
    LedgerError: the metal cannot make what the step asks for.
    """
    count = workpiece.heats_to_come(step) if heats is None else Heats(heats)
    for stage in plan.by_step[step.number].values():
        workpiece = _Forged(plan, workpiece, stage, count, under_way).done()
    return wandered(plan, workpiece, step)


def chance_name(zone: str) -> str:
    """The belief's name for how far what the latest step took of a zone is off, mm³; until the next step."""
    return f"{zone} taken by chance"


class _Forged(Passage):
    """One zone on its way through a step, with what that does to its metal."""

    def __init__(
        self, plan: Plan, workpiece: Workpiece, stage: Stage, heats: Heats, under_way: Collection[str]
    ) -> None:
        super().__init__(workpiece, stage)
        self._plan, self._recipe = plan, plan.recipe
        self._begun = self._begin(plan, workpiece)
        self._heats = heats
        layer_mm = layer_of(plan.recipe, self.step, heats.number, self._begun.scale_factor())
        self._changes, means_mm = self.sizes_left(self._begun, under_way, layer_mm)
        self._volume_mm3 = self._begun.volume_mm3(self.zone)
        if stage.lays is not None:
            self._volume_mm3 += self._begun.volume_mm3(stage.lays)
        self._work = work_of(
            plan.recipe,
            self.step,
            self.after,
            means_mm,
            heats=heats.number,
            scale_factor=self._begun.scale_factor(),
            free_mm=self._free_to_fix(plan),
        )
        self._worked = worked_by(self.step, self.zone, self.form, self._volume_mm3, self._work)

    def done(self) -> Workpiece:
        """The workpiece with the zone moved on."""
        after, lays = self.after, self.stage.lays
        if self.todo.FIXES and (self._work.free_mm is not None or Does.CUTS_FREE not in self.todo.DOES):
            belief = self._fixed()
        else:
            belief = run_and_followed(self._flowed(), after, self.followers)
        moved = self._begun._replace(zones={**self._begun.zones, self.zone: after}, belief=belief)
        if self.step.parts and self.zone in self.step.zones:
            moved = parted(self._recipe, moved, self.step)
        moved = carried(moved, self.stage)
        return _joined(moved, lays, self._with_steel(lays)) if lays is not None else moved

    def _with_steel(self, lays: str) -> ZoneState:
        """The zone once steel is laid on it, as it is in a cleft or on a face."""
        ahead = (
            one.after.shape for one in self._plan.stages[self.zone] if one.step.number > self.step.number
        )
        steel, shape = self._begun.form(lays), self.after.shape
        out_mm = stands_out_mm(self.step, steel, self._worked.form, shape, ahead)
        return self.after._replace(stands_out_mm=out_mm)

    def _begin(self, plan: Plan, workpiece: Workpiece) -> Workpiece:
        """What an earlier step took is settled: nobody weighs its slug any more; and what it spread from."""
        stale = [*names_before(workpiece, self.zone), chance_name(self.zone)]
        if any(name in workpiece.belief for name in stale):
            workpiece = workpiece._replace(belief=workpiece.belief.predict({}, dropped=stale))
        if self.stage.lays is not None:
            workpiece = noted_as_laid(workpiece, self.stage.lays)
        runs = self.after.runs
        return workpiece if runs is None else with_before(workpiece, self.zone, runs, self.form)

    def _free_to_fix(self, plan: Plan) -> float | None:
        """The free dimension that a cut or a grind is to reach, if any.

        A cut without a stated length leaves what the rest of the job needs, at the section that its heats
        leave, taken or not; where nothing forges it any more, the length that the plan cuts.
        """
        stated = fixed_free_mm(self.step, self.after)
        if stated is None and Does.CUTS_FREE in self.todo.DOES:
            if (as_drawn := as_cut_free(plan, self.stage)) is not None:
                return as_drawn.nominal
            try:
                return self._once_heated().solved("length", self.stage.after_mm3).size_mm("length")
            except FormError as error:
                raise cannot(self.step, error) from None
        return stated

    def _once_heated(self) -> Form:
        """What the zone is before the step, less what all of its planned heats scale off the section."""
        layer_mm = layer_of(self._recipe, self.step, self.step.heats, self._begun.scale_factor())
        return scaled_form(self.form, self.stage.sheds, layer_mm)

    def _flowed(self) -> Belief:
        """The metal goes where it can: the volume, less what is lost, settles the free dimension."""
        belief, gone, volume = self._begun.belief, self.lost_sizes(), self._volume_mm3
        taken = self._worked.taken_mm3
        full, own = self._fuller(belief)
        if not taken and not own:
            return belief.predict(self._changes, dropped=gone)
        scale = taken.get(Cause.SCALE, 0.0)
        doubt = self.todo.TAKEN_DOUBT_SHARE * (sum(taken.values()) - scale)
        more = volume * (1.0 + _STEP_SHARE)
        with_more = worked_by(self.step, self.zone, self.form, more, self._work)
        through = (with_more.volume_mm3 - self._worked.volume_mm3) / (more - volume)
        moves = dict(self._changes)
        chance = chance_name(self.zone)
        if doubt:
            belief = belief.predict({chance: Change(0.0, variance=doubt**2)})
        for part in self.after.parts:
            name = volume_name(part)
            share = belief.mean(name) / volume
            slopes = {name: through}
            if scale:
                slopes[SCALE] = -share * scale / self._begun.scale_factor()
                for quantity, slope in self._heats.slopes.items():
                    slopes[quantity] = -share * scale * slope / self._heats.number
            if doubt:
                slopes[chance] = -share
            left_mm3 = share * self._worked.volume_mm3
            if full is not None:
                slopes = {quantity: slope / full for quantity, slope in slopes.items()}
                slopes[FULLNESS] = -left_mm3 / full**2
            moves[name] = Change(left_mm3 / (full or 1.0), slopes, (own * left_mm3) ** 2)
        return belief.predict(moves, dropped=gone)

    def _fuller(self, belief: Belief) -> tuple[float | None, float]:
        """How many times as full as before the step leaves a section, where that changes, and its own doubt.

        A volume is what its sizes make it: metal that bulges over them is in none of them.
        """
        if FULLNESS not in belief or not reshapes(self.step, self.zone) or self.todo.FIXES:
            return None, 0.0
        return None if self.before.hammered else 1.0 + belief.mean(FULLNESS), OWN_FULLNESS_SHARE

    def _fixed(self) -> Belief:
        """Metal is taken away to reach the sizes: the volume left follows from them."""
        zone, after, form = self.zone, self.after, self._worked.form
        free_name = f"{zone} free size"
        reached = self._reached(form.size_mm(after.free))
        belief = self._begun.belief.predict({**self._changes, free_name: reached})
        belief = followed(belief, after, self.followers)
        slopes = {free_name: volume_slope(form, after.free)}
        for dimension in after.shape.own_dimensions:
            if dimension != after.free:
                slopes[size_name(zone, dimension)] = volume_slope(form, dimension)
        volume = self._begun.volume_mm3(zone)
        moves = {}
        for part in after.parts:
            share = belief.mean(volume_name(part)) / volume
            part_slopes = {name: share * slope for name, slope in slopes.items()}
            moves[volume_name(part)] = Change(share * self._worked.volume_mm3, part_slopes)
        return belief.predict(moves, dropped=[*self.lost_sizes(), free_name])

    def _reached(self, left_mm: float) -> Change:
        """The free dimension once metal was taken away to reach it: the target, or less if there was less.

        The lesser of two Gaussian quantities, by its first two moments (C. E. Clark, "The greatest of a
        finite set of random variables", Operations Research 9, 1961), so that the doubt does not jump where
        the metal only just reaches. The mean is that of the walk itself.
        """
        free, free_mm = self.after.free, self._work.free_mm
        if free not in self.before.shape.dimensions:  # a round is cut from a plate that is no round
            cut_mm = cut_scatter_mm(self.step.targets.get(free), free_mm) if free_mm is not None else 0.0
            return Change(left_mm, variance=cut_mm**2)
        there = self._begun.size(self.zone, free)
        if free_mm is None:
            return Change(left_mm, there.slopes)
        reach = cut_scatter_mm(self.step.targets.get(free), free_mm)
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


def _joined(workpiece: Workpiece, lays: str, holds: ZoneState) -> Workpiece:
    """Laid steel has no form of its own from its weld on, only its volume."""
    laid = workpiece.zones[lays]
    names = [size_name(lays, d) for d in laid.shape.dimensions if d != laid.free]
    zones = {**workpiece.zones, holds.zone: holds, lays: laid._replace(within=holds.zone)}
    return workpiece._replace(zones=zones, belief=workpiece.belief.predict({}, dropped=names))
