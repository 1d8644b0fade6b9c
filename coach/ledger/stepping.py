"""How a step moves what is believed of its zones: the same work as the plan's, with its doubts."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from math import erf, exp, pi, sqrt

from coach.forms import Form, FormError
from coach.ledger.belief import Belief, Change
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.running import mean_thickness_mm, run_sizes_mm, runs_of, undressed_mm
from coach.ledger.spreading import names_before, ran, with_before
from coach.ledger.working import (
    LedgerError,
    Settled,
    ZoneState,
    fixed_free_mm,
    leader_of,
    operation_on,
    reshapes,
    settled_by,
    state_after,
    work_of,
)
from coach.ledger.workpiece import SCALE, SPREAD, Workpiece, size_name, volume_name, volume_slope
from coach.operations import Does, Operation, Work, Worked
from coach.quantities import Limits
from coach.recipe.model import Step

#: Hand work to a size: its scatter where no limits are stated (common practice, no source).
HAND_SCATTER_SHARE = 0.02
HAND_SCATTER_MM = 0.3
#: Nineteen pieces in twenty land within the limits that a smith works to: half the width is two of these.
_LIMIT_WIDTHS = 4.0
#: While a step is going on, a size may be anywhere between where it was and where it is to be.
_UNDER_WAY_SHARE = 0.35
_UNDER_WAY_LEAST_SHARE = 0.06
#: How well a length is cut (common practice, no source).
_CUT_SCATTER_MM = 1.0
#: Step for the numeric slope of what is left with the volume before, as a share.
_STEP_SHARE = 1e-3


def scatter_mm(limits: Limits | None, size_mm: float) -> float:
    """Standard uncertainty of a size that was worked to a target and not measured."""
    if limits is not None and limits.is_two_sided and limits.width > 0.0:
        return max(limits.width / _LIMIT_WIDTHS, 0.05)
    return max(HAND_SCATTER_MM, HAND_SCATTER_SHARE * size_mm)


def step_on(
    plan: Plan,
    workpiece: Workpiece,
    step: Step,
    *,
    heats: float | None = None,
    under_way: Collection[str] = (),
) -> Workpiece:
    """Every zone that a step works or heats, moved on by it.

    Args:
        plan: the plan the step belongs to.
        workpiece: everything as it is before the step.
        step: the step.
        heats: heats to count; None takes the planned ones.
        under_way: sizes, as "zone.dimension", that are still being worked and so are only roughly known.

    Raises:
        LedgerError: the metal cannot make what the step asks for.
    """
    for stage in plan.by_step[step.number].values():
        count = float(step.heats) if heats is None else heats
        workpiece = stage_on(plan, workpiece, stage, count, under_way)
    return workpiece


def stage_on(
    plan: Plan, workpiece: Workpiece, stage: Stage, heats: float, under_way: Collection[str] = ()
) -> Workpiece:
    """One zone moved on by one step; see `step_on`."""
    step, zone = stage.step, stage.zone
    before = workpiece.zones[zone]
    form = workpiece.form(zone)
    after = state_after(step, before)
    laid_mm3 = 0.0
    if step.lays is not None and zone in step.zones:
        laid_mm3 = workpiece.volume_mm3(step.lays)
    stale = [*names_before(workpiece, zone), chance_name(zone)]
    if any(name in workpiece.belief for name in stale):
        # What an earlier step took is settled: nobody weighs its slug any more; and what it spread from.
        workpiece = workpiece._replace(belief=workpiece.belief.predict({}, dropped=stale))
    settled = settled_by(step, before, after)
    runs = runs_of(step, before, after, form, settled)
    running = () if runs is None else tuple(name for name, _ in runs.sizes)
    followers = _followers(settled, after)
    led = {*followers, *running}
    changes, means = _settled_changes(workpiece, stage, settled, led, after, form, under_way)
    if runs is not None:
        workpiece = with_before(workpiece, zone, runs, form)
        after = after._replace(runs=runs)
        thick = mean_thickness_mm(before.shape, form.sizes_mm())
        thin = mean_thickness_mm(after.shape, means)
        means |= run_sizes_mm(runs, workpiece.belief.mean(SPREAD), form.sizes_mm(), thick, thin)
    for name, leader in followers.items():  # a leader may itself have one: it stands before its followers
        means[name] = means[leader]
    free_mm = _free_to_fix(stage, after, form)
    todo = operation_on(step, zone)
    volume = workpiece.volume_mm3(zone) + laid_mm3
    factor = workpiece.scale_factor()
    work = work_of(plan.recipe, step, after, means, heats=heats, scale_factor=factor, free_mm=free_mm)
    worked = _worked(todo, form, volume, work, step)
    old_sizes = [size_name(zone, d) for d in before.shape.dimensions if d != before.free]
    new_sizes = {size_name(zone, d) for d in after.shape.dimensions if d != after.free}
    gone = [name for name in old_sizes if name not in new_sizes]
    if todo.FIXES and (free_mm is not None or Does.CUTS_FREE not in todo.DOES):
        belief = _fixed(workpiece, after, changes, followers, gone, worked, free_mm, step)
    else:
        belief = _flowed(workpiece, after, changes, gone, todo, form, volume, work, worked, step)
        belief = followed(ran(belief, after), after, followers)
    zones = {**workpiece.zones, zone: after}
    if step.lays is not None and zone in step.zones:
        laid = workpiece.zones[step.lays]
        names = [size_name(step.lays, d) for d in laid.shape.dimensions if d != laid.free]
        belief = belief.predict({}, dropped=names)
        zones[step.lays] = laid._replace(laid_on=zone)
    return Workpiece(zones, belief)


def chance_name(zone: str) -> str:
    """The belief's name for how far what the latest step took of a zone is off, mm³; until the next step."""
    return f"{zone} taken by chance"


def _worked(todo: Operation, form: Form, volume_mm3: float, work: Work, step: Step) -> Worked:
    try:
        return todo.work(form, volume_mm3, work)
    except FormError as error:
        raise LedgerError(f"Step {step.number}, {step.title}: {error}") from None


def _settled_changes(
    workpiece: Workpiece,
    stage: Stage,
    settled_sizes: Sequence[Settled],
    followers: Collection[str],
    after: ZoneState,
    form: Form,
    under_way: Collection[str],
) -> tuple[dict[str, Change], dict[str, float]]:
    """How every settled size comes out of the old ones, and their means by dimension."""
    step, zone = stage.step, stage.zone
    # Cutting and grinding take metal away and leave the sizes they do not ask for as they were.
    moves_metal = reshapes(step, zone) and not operation_on(step, zone).FIXES
    free_before = workpiece.zones[zone].free
    have = form.sizes_mm()
    left = stage.form_after.sizes_mm()
    wide = undressed_mm(step, after.shape, have, left, workpiece.belief.mean(SPREAD)) if under_way else {}
    changes: dict[str, Change] = {}
    means: dict[str, float] = {}
    for settled in settled_sizes:
        if settled.dimension in followers:
            continue
        name = size_name(zone, settled.dimension)
        limits = step.targets[settled.source] if settled.asked else None
        aim_mm = limits.nominal if limits is not None else have[settled.source]
        source = after.shape.worked_from(settled.dimension, aim_mm, have)
        if limits is not None and (
            source is None or not stage.is_past(settled.dimension, have[source], limits.nominal)
        ):
            doubt = scatter_mm(limits, limits.nominal)
            if name in under_way:
                way_left = abs((have[source] if source else 0.0) - limits.nominal)
                doubt = max(doubt, _UNDER_WAY_SHARE * way_left, _UNDER_WAY_LEAST_SHARE * limits.nominal)
                # Between here and there it may spread as far as it runs by itself before it is dressed back.
                doubt = max(doubt, 0.5 * (wide.get(settled.dimension, 0.0) - limits.nominal))
            changes[name] = Change(limits.nominal, variance=doubt**2)
            means[settled.dimension] = limits.nominal
            continue
        kept = settled.source if not settled.asked else source or settled.source
        estimate = workpiece.size(zone, kept, form)
        loosened = (HAND_SCATTER_SHARE * estimate.value) ** 2 if moves_metal else 0.0
        if name in under_way:
            loosened = (_UNDER_WAY_LEAST_SHARE * estimate.value) ** 2
        if settled.dimension == settled.source and not loosened and kept != free_before:
            means[settled.dimension] = estimate.value  # kept as it is: nothing to move
            continue
        changes[name] = Change(estimate.value, estimate.slopes, loosened)
        means[settled.dimension] = estimate.value
    return changes, means


def _followers(settled_sizes: Sequence[Settled], after: ZoneState) -> dict[str, str]:
    """The sizes that a step leaves wherever it leaves their leader, each with its leader."""
    found: dict[str, str] = {}
    for settled in settled_sizes:
        name = settled.dimension
        leader = leader_of(after.shape, name) if name in after.linked else None
        if leader is not None and (settled.asked or after.shape.one_with(name) is not None):
            found[name] = leader
    return found


def followed(belief: Belief, state: ZoneState, followers: Mapping[str, str]) -> Belief:
    """Sizes brought to where their leaders are; each differs from its leader by chance, if it can at all."""
    for name, leader in followers.items():
        source = size_name(state.zone, leader)
        chance_mm = 0.0 if state.shape.one_with(name) is not None else HAND_SCATTER_MM
        change = Change(belief.mean(source), {source: 1.0}, chance_mm**2)
        belief = belief.predict({size_name(state.zone, name): change})
    return belief


def reset(workpiece: Workpiece, changes: Mapping[str, Change]) -> Workpiece:
    """Sizes worked to somewhere else, and with them the sizes that go with them."""
    belief = workpiece.belief.predict(changes)
    for zone in dict.fromkeys(name.rsplit(".", 1)[0] for name in changes):
        state = workpiece.zones[zone]
        moved = {
            name: leader
            for name in state.shape.dimensions
            if name in state.linked
            and (leader := leader_of(state.shape, name)) is not None
            and size_name(zone, state.leader(name)) in changes
        }
        belief = followed(ran(belief, state), state, moved)
    return Workpiece(workpiece.zones, belief)


def _free_to_fix(stage: Stage, after: ZoneState, form: Form) -> float | None:
    """The free dimension that a cut or a grind is to reach, if any.

    A cut without a stated length leaves what the rest of the job needs, at the section the zone has now.
    """
    stated = fixed_free_mm(stage.step, after)
    if stated is not None:
        return stated
    if stage.step.does(Does.CUTS_FREE) and stage.zone in stage.step.zones:
        try:
            return form.solved("length", stage.after_mm3).size_mm("length")
        except FormError as error:
            raise LedgerError(f"Step {stage.step.number}, {stage.step.title}: {error}") from None
    return None


def _flowed(
    workpiece: Workpiece,
    after: ZoneState,
    changes: Mapping[str, Change],
    gone: Collection[str],
    todo: Operation,
    form: Form,
    volume_mm3: float,
    work: Work,
    worked: Worked,
    step: Step,
) -> Belief:
    """The metal goes where it can: the volume, less what is lost, settles the free dimension."""
    belief = workpiece.belief
    taken = worked.taken_mm3
    if not taken:
        return belief.predict(changes, dropped=gone)
    scale = taken.get("scale", 0.0)
    other = sum(taken.values()) - scale
    doubt = todo.TAKEN_DOUBT_SHARE * other
    more = volume_mm3 * (1.0 + _STEP_SHARE)
    through = (_worked(todo, form, more, work, step).volume_mm3 - worked.volume_mm3) / (more - volume_mm3)
    factor = workpiece.scale_factor()
    moves = dict(changes)
    chance = chance_name(after.zone)
    if doubt:
        belief = belief.predict({chance: Change(0.0, variance=doubt**2)})
    for part in after.parts:
        name = volume_name(part)
        share = belief.mean(name) / volume_mm3
        slopes = {name: through}
        if scale:
            slopes[SCALE] = -share * scale / factor
        if doubt:
            slopes[chance] = -share
        moves[name] = Change(share * worked.volume_mm3, slopes)
    return belief.predict(moves, dropped=gone)


def _fixed(
    workpiece: Workpiece,
    after: ZoneState,
    changes: Mapping[str, Change],
    followers: Mapping[str, str],
    gone: Collection[str],
    worked: Worked,
    free_mm: float | None,
    step: Step,
) -> Belief:
    """Metal is taken away to reach the sizes: the volume left follows from them."""
    zone, free = after.zone, after.free
    form = worked.form
    free_name = f"{zone} free size"
    first = dict(changes)
    first[free_name] = _reached(workpiece, after, worked.form.size_mm(free), free_mm, step)
    belief = followed(workpiece.belief.predict(first), after, followers)
    slopes = {free_name: volume_slope(form, free)}
    for dimension in after.shape.own_dimensions:
        if dimension != free:
            slopes[size_name(zone, dimension)] = volume_slope(form, dimension)
    volume = workpiece.volume_mm3(zone)
    moves = {}
    for part in after.parts:
        share = belief.mean(volume_name(part)) / volume
        part_slopes = {name: share * slope for name, slope in slopes.items()}
        moves[volume_name(part)] = Change(share * worked.volume_mm3, part_slopes)
    return belief.predict(moves, dropped=[*gone, free_name])


def _reached(
    workpiece: Workpiece, after: ZoneState, left_mm: float, free_mm: float | None, step: Step
) -> Change:
    """The free dimension once metal was taken away to reach it: the target, or less if there was less.

    The lesser of two Gaussian quantities, by its first two moments (C. E. Clark, "The greatest of a finite
    set of random variables", Operations Research 9, 1961), so that the doubt does not jump where the metal
    only just reaches. The mean is that of the walk itself.
    """
    zone, free = after.zone, after.free
    if free not in workpiece.zones[zone].shape.dimensions:
        return Change(left_mm)
    there = workpiece.size(zone, free)
    if free_mm is None:
        return Change(left_mm, there.slopes)
    target = step.targets.get(free)
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
