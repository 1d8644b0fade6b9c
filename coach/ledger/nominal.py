"""A zone's way from bar to finish in plain numbers, everything going as the recipe says."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import inf
from typing import NamedTuple

from coach.forms import Form, FormError, form_kind
from coach.ledger.branching import Split, branch_form, slit_of
from coach.ledger.running import mean_thickness_mm, run_sizes_mm, runs_of
from coach.ledger.working import (
    ZoneState,
    back_from_end_mm,
    bar_form,
    cannot,
    fixed_free_mm,
    layer_of,
    reshapes,
    scaled_mm,
    settled_by,
    shed_by,
    starting_state,
    state_after,
    targets_of,
    work_of,
    worked_by,
    zone_steps,
)
from coach.operations import operation
from coach.operations.does import Cause, Does
from coach.quantities import Limits
from coach.recipe.model import Recipe, Step

#: Below this share a size counts as unchanged by a step (our choice).
_SAME_SHARE = 0.005
#: A size that a plan makes smaller by less than this share is not worked smaller (judgement).
_PLAY_SHARE = 0.03
#: A thickness may be asked for this share above what there is, for its tolerance and the bar's (judgement).
THICKER_SHARE = 0.05
#: Between these shares of what is asked for across a bar that is bent it stays as it is: scaled by its
#: heats, or rolled a little heavier (judgement).
LEFT_ACROSS, MORE_ACROSS = 0.9, 1.05
#: A width that is hammered in to less than this share gives thickness what the smith lets it (judgement).
_SQUEEZED_SHARE = 0.6
#: An edge stands light dressing up to this many times its thickness; beyond, it folds (common practice,
#: no source).
_DRESSED_UP_TO = 8.0


class Stage(NamedTuple):
    """One step's planned effect on one zone."""

    step: Step
    zone: str
    before: ZoneState
    after: ZoneState
    form_before: Form
    form_after: Form
    before_mm3: float  # without what the step lays on
    after_mm3: float
    laid_mm3: float
    taken_mm3: Mapping[Cause, float]
    grows: frozenset[str]  # the sizes asked for that this step makes bigger; the others get smaller
    dressed: frozenset[str]  # those of them that can be dressed back when they have run too far
    sheds: Mapping[str, float]  # how much its scale changes the sizes it does not work, per mm off every face

    @property
    def lays(self) -> str | None:
        """The zone that the step lays on this one; None when it lays none here."""
        return self.step.lays if self.zone in self.step.zones else None

    def works(self, dimension: str) -> bool:
        """Whether the step makes anything of a size: asks for it, changes it, or leaves it to the metal."""
        if not reshapes(self.step, self.zone):
            return False
        if dimension == self.after.free or dimension in self.step.targets:
            return True
        have, left = self.form_before.sizes_mm().get(dimension), self.form_after.sizes_mm().get(dimension)
        return have != left and dimension not in self.sheds

    def changes_mm(self, dimension: str) -> float:
        """How much bigger the step makes a size, all going as planned; below 0 smaller."""
        have, left = self.form_before.sizes_mm().get(dimension), self.form_after.sizes_mm().get(dimension)
        return left - have if have is not None and left is not None else 0.0

    def shrinks(self, dimension: str) -> bool:
        """Whether the step makes a size plainly smaller, by more than its scale and a plan's own play."""
        have = self.form_before.sizes_mm().get(dimension, 0.0)
        return self.changes_mm(dimension) < -_PLAY_SHARE * have

    def leaves(self, dimension: str) -> bool:
        """Whether the step leaves a size as it was, but for its scale; also one that had another name."""
        have, left = self.form_before.sizes_mm(), self.form_after.sizes_mm()
        was = have.get(dimension)
        if was is None and dimension in left:
            was = have.get(
                self.after.shape.worked_from(dimension, left[dimension], have) or "", left[dimension]
            )
        return was is None or abs(left.get(dimension, was) - was) <= _SAME_SHARE * was

    def leaves_across(self, dimension: str) -> bool:
        """Whether a size that it asks for lies across a bent bar, which the step only lets its fires thin."""
        return dimension in self.sheds and is_across(self.step, self.after, dimension)

    def drives(self, dimension: str, moved_mm: float) -> bool:
        """Whether its hammer work takes what the metal makes of the zone that way: longer or shorter."""
        if dimension != self.after.free or operation(self.step.operation).FIXES:
            return False
        return self.changes_mm(dimension) * moved_mm >= 0.0

    def is_past(self, dimension: str, size_mm: float, target_mm: float) -> bool:
        """Whether a size has gone beyond where the step would take it and cannot be hammered back."""
        return self.past_mm(dimension, size_mm, target_mm) > 0.0

    def past_mm(self, dimension: str, size_mm: float, target_mm: float) -> float:
        """By how much it has; below 0 where it has not."""
        if dimension in self.dressed:
            return -inf
        if dimension == "length" and dimension in self.grows and self.leaves(dimension):
            # It is asked for as it is, and no hammer that does not gather makes it shorter.
            return abs(size_mm - target_mm) - _SAME_SHARE * target_mm
        return size_mm - target_mm if dimension in self.grows else target_mm - size_mm


def nominal_stage(
    recipe: Recipe, step: Step, before: ZoneState, form: Form, volume_mm3: float, laid_mm3: float
) -> Stage:
    """One step on one zone, all as planned; raises LedgerError where the metal cannot give what it asks."""
    after = state_after(step, before)
    have = form.sizes_mm()
    settled = settled_by(step, before, after)
    kept = kept_by(step, before, after, have)
    asked = targets_of(step, before.zone)
    sizes = {
        one.dimension: have[kept[one.dimension]] if one.dimension in kept else asked[one.source]
        for one in settled
    }
    sheds, layer_mm = shed_by(step, after, kept), layer_of(recipe, step, step.heats)
    sizes |= {name: scaled_mm(sizes[name], shed, layer_mm) for name, shed in sheds.items()}
    back = back_from_end_mm(step, after, have)
    sizes |= {name: sizes[name] + by_mm for name, by_mm in back.items() if name in kept}
    aims = {one.dimension: asked[one.source] for one in settled if one.asked}
    grows = frozenset(name for name, aim_mm in aims.items() if grows_in(step, name, aim_mm, after, have))
    runs = runs_of(step, before, after, form, settled)
    if runs is not None:
        after = after._replace(runs=runs)
        thick, thin = mean_thickness_mm(before.shape, have), mean_thickness_mm(after.shape, sizes)
        sizes |= run_sizes_mm(runs, 0.0, have, thick, thin)
    work = work_of(recipe, step, after, sizes, heats=step.heats, free_mm=fixed_free_mm(step, after))
    worked = worked_by(step, before.zone, form, volume_mm3 + laid_mm3, work)
    return Stage(
        step,
        before.zone,
        before,
        after,
        form,
        worked.form,
        volume_mm3,
        worked.volume_mm3,
        laid_mm3,
        worked.taken_mm3,
        grows,
        frozenset(name for name in grows if _can_be_dressed(step, name, sizes)),
        sheds,
    )


def _can_be_dressed(step: Step, dimension: str, sizes_mm: Mapping[str, float]) -> bool:
    """Whether an edge that has run too wide stands being hammered back in the step that spread it."""
    if operation(step.operation).BITE_SHARE is None or dimension not in ("width", "end_width"):
        return False
    thickness = sizes_mm.get(dimension.replace("width", "thickness"), sizes_mm.get("thickness"))
    return thickness is not None and sizes_mm[dimension] <= _DRESSED_UP_TO * thickness


def grows_in(step: Step, dimension: str, size_mm: float, after: ZoneState, have: Mapping[str, float]) -> bool:
    """Whether reaching a size means making it bigger; a hole grows unless it is plainly meant to close.

    A thickness grows where metal is gathered or laid on; elsewhere one that is asked for a little above what
    there is says what its bar and its tolerance leave.
    """
    todo = operation(step.operation)
    if todo.FIXES and "hole" in dimension:
        return True  # no file and no stone makes a hole smaller
    if todo.FIXES and dimension in have and form_kind(after.shape.kind).SHEDS.get(dimension, 0.0) < 0.0:
        return False  # nor anything else larger
    if dimension == "length" and dimension in have and not (todo.FIXES or todo.GATHERS):
        # And no hammer makes a length shorter that it does not gather, unless the recipe itself says so.
        return size_mm > have[dimension] * (1.0 - _SAME_SHARE)
    source = after.shape.worked_from(dimension, size_mm, have)
    same = 1.0 - _SAME_SHARE if "hole" in dimension else 1.0 + _SAME_SHARE
    gains = todo.GATHERS or todo.FIXES or step.lays is not None or _is_squeezed(step, dimension, have)
    if "thickness" in dimension and not gains:
        same = 1.0 + THICKER_SHARE
    return source is None or size_mm > have[source] * same


def _is_squeezed(step: Step, dimension: str, have: Mapping[str, float]) -> bool:
    """Whether blows on its edges make a bar thicker: its width is hammered in much further than it wants."""
    across = dimension.replace("thickness", "width")
    if across == dimension or across not in step.targets or across not in have:
        return False
    return step.targets[across].nominal < _SQUEEZED_SHARE * have[across]


def kept_by(step: Step, before: ZoneState, after: ZoneState, have: Mapping[str, float]) -> dict[str, str]:
    """The sizes that a step leaves as they are, each with the name of what it was.

    Those that it does not ask for, and those that are smaller already than it would make them; and what lies
    across the bar of what it bends, winds, rolls or closes, where that is near what is asked for.
    """
    kept = {}
    for one in settled_by(step, before, after):
        name, source = one.dimension, one.source
        if one.asked:
            aim_mm = step.targets[source].nominal
            source = after.shape.worked_from(name, aim_mm, have) or ""
            left = bool(source) and _is_left_across(step, name, after, have[source], step.targets[one.source])
            if not left and (
                not source or have[source] >= aim_mm or grows_in(step, name, aim_mm, after, have)
            ):
                continue
        kept[name] = source
    return kept


def _is_left_across(step: Step, dimension: str, after: ZoneState, has_mm: float, asked: Limits) -> bool:
    """Whether it lies across the bar of a bent form whose section the step leaves, for it bends or closes it.

    It has so much where that is asked for. A weld dresses its lap alone, and a bend nothing.
    """
    if not is_across(step, after, dimension) or has_mm < LEFT_ACROSS * asked.nominal:
        return False
    return has_mm <= MORE_ACROSS * asked.nominal or (asked.is_two_sided and asked.contains(has_mm))


def is_across(step: Step, after: ZoneState, dimension: str) -> bool:
    """Whether a size lies across the bar of a bent form that a step bends or closes."""
    form = form_kind(after.shape.kind)
    if not form.BENT or form.SHEDS.get(dimension, 0.0) >= 0.0:
        return False
    return step.does(Does.CLOSES) or bool(operation(step.operation).KEEPS_SECTION)


def split_form(recipe: Recipe, zone: str, stage: Stage, volume_mm3: float) -> Form:
    """What a branch begins as, of so much metal, after the stage that splits it off."""
    split = Split(stage.before.shape, stage.form_before.sizes_mm(), slit_of(stage.step))
    try:
        return branch_form(recipe, zone, split, volume_mm3)
    except FormError as error:
        raise cannot(stage.step, error) from None


def walk(
    recipe: Recipe,
    zone: str,
    start_mm3: float,
    laid_mm3: Mapping[str, float],
    split: Stage | None = None,
) -> list[Stage]:
    """Every stage of a zone from the volume that it starts with: of its bar, or of what was `split`.

    `laid_mm3` is the volume at its weld of each zone that is laid on another.
    """
    state = starting_state(recipe, zone)
    form = bar_form(recipe, zone, start_mm3) if split is None else split_form(recipe, zone, split, start_mm3)
    volume = start_mm3
    stages: list[Stage] = []
    for step in zone_steps(recipe, zone):
        laid = laid_mm3[step.lays] if step.lays is not None and zone in step.zones else 0.0
        stage = _as_before(nominal_stage(recipe, step, state, form, volume, laid), stages)
        stages.append(stage)
        state, form, volume = stage.after, stage.form_after, stage.after_mm3
    return stages


def _as_before(stage: Stage, behind: Sequence[Stage]) -> Stage:
    """A stage; where its step does once more what one did before, it works what is there as that one did.

    As planned nothing is left for it, and nothing says which way: it is there for what came out otherwise.
    """
    step = stage.step
    for one in reversed(behind):
        same = one.step.operation == step.operation and one.step.zones == step.zones
        if same and step.targets and one.step.targets == step.targets:
            there = {name for name in step.targets if stage.leaves(name)}
            return stage._replace(
                grows=(stage.grows - there) | (one.grows & there),
                dressed=(stage.dressed - there) | (one.dressed & there),
            )
    return stage


def surplus_mm3(recipe: Recipe, zone: str, stages: list[Stage], wanted_mm3: float) -> float:
    """Metal beyond what a zone needs, given its walk.

    A step that fixes the free dimension by taking metal away asks for so much before it, and what is beyond
    that leaves the piece there: the first such step counts, unless it leaves too little for another. Without
    one it is the finished volume.
    """
    beyond = []
    for stage in stages:
        free_mm = fixed_free_mm(stage.step, stage.after)
        if free_mm is None:
            continue
        sizes = {k: v for k, v in stage.form_after.sizes_mm().items() if k != stage.after.free}
        work = work_of(recipe, stage.step, stage.after, sizes, heats=0.0, free_mm=free_mm)
        before = stage.form_before
        scale = stage.taken_mm3.get(Cause.SCALE, 0.0)
        beyond.append(operation(stage.step.operation).surplus_mm3(before, stage.before_mm3 - scale, work))
    if beyond:
        return beyond[0] if min(beyond) >= 0.0 else min(beyond)
    return (stages[-1].after_mm3 if stages else 0.0) - wanted_mm3
