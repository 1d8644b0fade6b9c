"""Where a step leaves the sizes of a zone that the metal does not settle, with their doubts."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from math import isinf

from coach.ledger.belief import Belief, Change
from coach.ledger.nominal import Stage
from coach.ledger.running import mean_thickness_mm, run_sizes_mm, runs_of, undressed_mm
from coach.ledger.spreading import ran
from coach.ledger.working import (
    ZoneState,
    leader_of,
    operation_on,
    reshapes,
    scaled_mm,
    settled_by,
    state_after,
)
from coach.ledger.workpiece import SCALE, SPREAD, Workpiece, size_name
from coach.quantities import COVERAGE, Limits

#: Hand work to a size: its scatter where no limits are stated (common practice, no source).
HAND_SCATTER_SHARE = 0.02
HAND_SCATTER_MM = 0.3
#: Nineteen pieces in twenty land within the limits that a smith works to: half the width is two of these
#: (judgement).
_LIMIT_WIDTHS = 4.0
#: While a step is going on, a size may be anywhere between where it was and where it is to be (judgement).
_UNDER_WAY_SHARE = 0.35
_UNDER_WAY_LEAST_SHARE = 0.06


def scatter_mm(limits: Limits | None, size_mm: float) -> float:
    """Standard uncertainty of a size that was worked to a target and not measured."""
    if limits is not None and limits.is_two_sided and limits.width > 0.0:
        return max(limits.width / _LIMIT_WIDTHS, 0.05)  # no hand is truer (judgement)
    return max(HAND_SCATTER_MM, HAND_SCATTER_SHARE * size_mm)


def outside_share(beyond_mm: float, doubt_mm: float) -> float:
    """How surely a size counts as outside of its limit: none at it, certain a guard band beyond.

    It rises without a corner at either end.
    """
    return _rising(beyond_mm / max(COVERAGE * doubt_mm, 1e-9))


def to_go_share(stage: Stage, dimension: str, size_mm: float, limits: Limits, doubt_mm: float) -> float:
    """How surely a size has more to go in a step: certain at its limit, not at all where surely good."""
    return max(_to_go(side, doubt_mm, 0.0) for side in _sides(stage, dimension, size_mm, limits))


def worked_again_share(
    stage: Stage, dimension: str, size_mm: float, limits: Limits, doubt_mm: float
) -> float:
    """How surely a step in hand works a size on to its target: certain where it is not surely good."""
    return max(_to_go(side, doubt_mm, 1.0) for side in _sides(stage, dimension, size_mm, limits))


def _sides(stage: Stage, dimension: str, size_mm: float, limits: Limits) -> list[tuple[float, float]]:
    """On each side that the work closes: how far off its target a size is, and how far its limit."""
    low = limits.nominal - size_mm, limits.nominal - limits.low
    high = size_mm - limits.nominal, limits.high - limits.nominal
    if dimension in stage.dressed:
        return [low, high]
    return [low if dimension in stage.grows else high]


def _to_go(side: tuple[float, float], doubt_mm: float, bands: float) -> float:
    """From a band inside the place where it is certain, so many bands inside the limit; half-way at most."""
    off_mm, limit_mm = side
    if isinf(limit_mm):
        return 0.0
    band_mm = COVERAGE * doubt_mm
    certain_mm = limit_mm - min(bands * band_mm, 0.5 * limit_mm)
    from_mm = max(certain_mm - band_mm, 0.5 * certain_mm)
    return _rising((off_mm - from_mm) / max(certain_mm - from_mm, 1e-9))


def _rising(x: float) -> float:
    x = min(1.0, max(0.0, x))
    return x * x * (3.0 - 2.0 * x)


class Passage:
    """One zone before a step and after it, without what the step takes."""

    def __init__(self, workpiece: Workpiece, stage: Stage) -> None:
        self.stage, self.step, self.zone = stage, stage.step, stage.zone
        self.todo = operation_on(self.step, self.zone)
        self.before, self.form = workpiece.zones[self.zone], workpiece.form(self.zone)  # the form is before
        after = state_after(self.step, self.before)
        self._settled = settled_by(self.step, self.before, after)
        runs = runs_of(self.step, self.before, after, self.form, self._settled)
        self.after = after._replace(runs=runs)
        #: sizes that the step leaves wherever it leaves their leader, each with that
        self.followers: dict[str, str] = {}
        for settled in self._settled:
            name = settled.dimension
            leader = leader_of(after.shape, name) if name in after.linked else None
            if leader is not None and (settled.asked or after.shape.one_with(name) is not None):
                self.followers[name] = leader

    def lost_sizes(self) -> list[str]:
        """The belief's names of the settled sizes that the zone has no more."""
        left = {size_name(self.zone, d) for d in self.after.shape.dimensions if d != self.after.free}
        had = (size_name(self.zone, d) for d in self.before.shape.dimensions if d != self.before.free)
        return [name for name in had if name not in left]

    def sizes_left(
        self, workpiece: Workpiece, under_way: Collection[str], layer_mm: float
    ) -> tuple[dict[str, Change], dict[str, float]]:
        """Where a step leaves every size that the metal does not settle.

        Those `under_way`, by the belief's names, are still being worked and so only roughly known; off every
        face of what is not worked comes a layer of scale. First how
        each comes out of the old ones, by the belief's name; then where each comes to lie, mm, by dimension,
        those that run or follow another with them.
        """
        stage, after, runs = self.stage, self.after, self.after.runs
        led = {*self.followers, *(name for name, _ in (runs.sizes if runs is not None else ()))}
        have, left = self.form.sizes_mm(), stage.form_after.sizes_mm()
        offset = workpiece.belief.mean(SPREAD)
        wide = undressed_mm(self.step, after.shape, have, left, offset) if under_way else {}
        changes: dict[str, Change] = {}
        means: dict[str, float] = {}
        for settled in self._settled:
            dimension = settled.dimension
            if dimension in led:
                continue
            name = size_name(self.zone, dimension)
            limits = self.step.targets[settled.source] if settled.asked else None
            aim_mm = limits.nominal if limits is not None else have[settled.source]
            source = after.shape.worked_from(dimension, aim_mm, have)
            from_mm = have[source] if source is not None else None
            if limits is not None and (from_mm is None or not stage.is_past(dimension, from_mm, aim_mm)):
                doubt = scatter_mm(limits, aim_mm)
                if name in under_way:
                    doubt = max(doubt, _under_way_mm(from_mm or 0.0, aim_mm, wide.get(dimension, 0.0)))
                changes[name] = Change(aim_mm, variance=doubt**2)
                means[dimension] = aim_mm
                continue
            kept = settled.source if not settled.asked else source or settled.source
            shed = stage.sheds.get(dimension, 0.0) * layer_mm
            change = scaled_off(self._kept(workpiece, kept, under_way=name in under_way), shed, workpiece)
            means[dimension] = change.mean
            if dimension != settled.source or change.variance or kept == self.before.free or shed:
                changes[name] = change  # otherwise it is kept as it is: nothing to move
        if runs is not None:
            thick, thin = mean_thickness_mm(self.before.shape, have), mean_thickness_mm(after.shape, means)
            means |= run_sizes_mm(runs, offset, have, thick, thin)
        for (
            name,
            leader,
        ) in self.followers.items():
            means[name] = means[leader]  # a leader that has one itself stands before its followers
        return changes, means

    def _kept(self, workpiece: Workpiece, kept: str, *, under_way: bool) -> Change:
        """A size that stays what another was; moving metal loosens it, taking metal away does not."""
        estimate = workpiece.size(self.zone, kept, self.form)
        moves_metal = reshapes(self.step, self.zone) and not self.todo.FIXES
        share = HAND_SCATTER_SHARE if moves_metal else 0.0
        share = _UNDER_WAY_LEAST_SHARE if under_way else share
        return Change(estimate.value, estimate.slopes, (share * estimate.value) ** 2)


def scaled_off(change: Change, shed_mm: float, workpiece: Workpiece) -> Change:
    """A size with what the scale takes off its faces, as sure as the shop's own factor on it."""
    if not shed_mm:
        return change
    slopes, factor = dict(change.slopes), workpiece.scale_factor()
    slopes[SCALE] = slopes.get(SCALE, 0.0) + shed_mm / factor
    return change._replace(mean=scaled_mm(change.mean, shed_mm, 1.0), slopes=slopes)


def _under_way_mm(from_mm: float, aim_mm: float, wide_mm: float) -> float:
    """Standard uncertainty of a size on its way: it may run wide before it is dressed back."""
    way_left = _UNDER_WAY_SHARE * abs(from_mm - aim_mm)
    return max(way_left, _UNDER_WAY_LEAST_SHARE * aim_mm, 0.5 * (wide_mm - aim_mm))


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
