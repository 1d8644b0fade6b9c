"""Where a step leaves the sizes of a zone that the metal does not settle, with their doubts."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from math import hypot, isinf, sqrt

from coach.ledger.belief import Belief, Change
from coach.ledger.degrees import outside_share, rising
from coach.ledger.hand import HAND_SCATTER_MM, HAND_SCATTER_SHARE, scatter_mm
from coach.ledger.nominal import Stage
from coach.ledger.reading import ColdReading, Reading
from coach.ledger.running import (
    mean_thickness_mm,
    run_sizes_mm,
    runs_of,
    thickness_names,
    undressed_mm,
)
from coach.ledger.spreading import ran
from coach.ledger.verdict import Judged, Verdict
from coach.ledger.working import (
    LedgerError,
    ZoneState,
    back_from_end_mm,
    leader_of,
    operation_on,
    reshapes,
    scaled_mm,
    settled_by,
    state_after,
)
from coach.ledger.workpiece import SCALE, SPREAD, Workpiece, size_name
from coach.operations.shape import NOTHING
from coach.quantities import COVERAGE, Limits

#: While a step is going on, a size may be anywhere between where it was and where it is to be (judgement).
_UNDER_WAY_SHARE = 0.35
_UNDER_WAY_LEAST_SHARE = 0.06


def to_go_share(stage: Stage, dimension: str, size_mm: float, limits: Limits, doubt_mm: float) -> float:
    """How surely a size has more to go in a step: certain at its limit, not at all where surely good."""
    return max(_to_go(side, doubt_mm, 0.0) for side in _sides(stage, dimension, size_mm, limits))


def read_to_go_share(
    now: Workpiece,
    stage: Stage | None,
    reading: Reading,
    cold: ColdReading,
    judged: Judged,
    read: Collection[str],
    *,
    is_asked: bool,
) -> float:
    """How surely a size that was read has more to go; where the step does not ask for it, by its verdict.

    Then by degrees too, from a guard band beyond its limit, where that is sure, to two: by the doubt of the
    reading, and of what was `read` of the section that the limit of a length hangs on.
    """
    limits = stage.step.targets.get(reading.dimension) if stage is not None else None
    if stage is None or limits is None or not is_asked:
        is_to_go = judged.verdict is Verdict.MORE_TO_GO
        doubt_mm = hypot(cold.doubt_mm, _by_section_mm(now, reading, read)) if is_to_go else 0.0
        return outside_share(judged.beyond_mm - COVERAGE * doubt_mm, doubt_mm) if is_to_go else 0.0
    return to_go_share(stage, reading.dimension, cold.size_mm, limits, cold.doubt_mm)


def _by_section_mm(now: Workpiece, reading: Reading, read: Collection[str]) -> float:
    """How doubtful the length that the metal makes is by what was `read` of its section, mm."""
    zone = reading.zone
    mine = {name for name in read if name.rsplit(".", 1)[0] == zone}
    if reading.dimension != now.zones[zone].free or not mine:
        return 0.0
    try:
        slopes = now.free_slopes(zone, now.form(zone))
    except LedgerError:
        return 0.0
    return sqrt(now.belief.variance_of({name: by for name, by in slopes.items() if name in mine}))


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
    return rising((off_mm - from_mm) / max(certain_mm - from_mm, 1e-9))


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
        back = back_from_end_mm(self.step, after, have)
        for settled in self._settled:
            dimension = settled.dimension
            if dimension in led:
                continue
            name = size_name(self.zone, dimension)
            limits = self.step.targets[settled.source] if settled.asked else None
            aim_mm = limits.nominal if limits is not None else have[settled.source]
            source = after.shape.worked_from(dimension, aim_mm, have)
            from_mm = have[source] if source is not None else None
            across = limits is not None and from_mm is not None and stage.leaves_across(dimension)
            stays = limits is not None and from_mm is not None and stage.leaves(dimension)
            stays = stays and name not in under_way
            # The bar as it was, less what its fires take: nobody works it to anything.
            past = across or (from_mm is not None and stage.is_past(dimension, from_mm, aim_mm))
            if limits is not None and not (stays or past):
                doubt = scatter_mm(limits, aim_mm)
                if name in under_way:
                    doubt = max(doubt, _under_way_mm(from_mm or 0.0, aim_mm, wide.get(dimension, 0.0)))
                changes[name] = Change(aim_mm, variance=doubt**2)
                means[dimension] = aim_mm
                continue
            kept = settled.source if not settled.asked else source or settled.source
            shed = stage.sheds.get(dimension, 0.0) * layer_mm
            change = scaled_off(self._kept(workpiece, kept, under_way=name in under_way), shed, workpiece)
            if limits is not None and across:
                change = _loosened_to(change, workpiece, scatter_mm(limits, aim_mm) ** 2)
            elif limits is not None and stays:
                change = self._left(workpiece, dimension, change, limits)
            elif limits is not None and name not in under_way:
                change = self._hardly_past(workpiece, dimension, change, limits)
            by_mm = back.get(dimension, 0.0)
            change = change._replace(mean=change.mean + by_mm) if by_mm else change
            means[dimension] = change.mean
            is_another = dimension != settled.source or kept != dimension or kept == self.before.free
            if by_mm or is_another or change.variance or shed:
                changes[name] = change  # otherwise it is kept as it is: nothing to move
        means |= self._following(means)
        if runs is not None:
            thick, thin = mean_thickness_mm(self.before.shape, have), mean_thickness_mm(after.shape, means)
            means |= run_sizes_mm(runs, offset, have, thick, thin)
            means |= self._following(means)
        return changes, means

    def _following(self, means: Mapping[str, float]) -> dict[str, float]:
        """Where the sizes lie that follow those that are settled: a far end as thick as the near one."""
        found: dict[str, float] = {}
        for name, leader in self.followers.items():
            if leader in means or leader in found:  # a leader that has one itself stands before its followers
                found[name] = found[leader] if leader in found else means[leader]
        return found

    def _kept(self, workpiece: Workpiece, kept: str, *, under_way: bool) -> Change:
        """A size that stays what another was; moving metal loosens it, taking metal away does not."""
        estimate = workpiece.size(self.zone, kept, self.form)
        moves_metal = reshapes(self.step, self.zone) and not self.todo.FIXES
        share = HAND_SCATTER_SHARE if moves_metal else 0.0
        share = _UNDER_WAY_LEAST_SHARE if under_way else share
        return Change(estimate.value, estimate.slopes, (share * estimate.value) ** 2)

    def _left(self, workpiece: Workpiece, dimension: str, kept: Change, limits: Limits) -> Change:
        """A size that the step leaves where it is keeps what was learnt of it, but for where it is not good.

        There it is worked to its target, by degrees. And what moves metal beside it loosens it, up to where a
        hand leaves what it works: all the way where it is known no better than that.
        """
        learnt = workpiece.belief.variance_of(kept.slopes)
        worked = scatter_mm(limits, limits.nominal) ** 2
        loosened = min(kept.variance, worked)
        hold = sqrt(1.0 - loosened / worked)  # of what it was off, so that it never scatters more than worked
        variance = hold**2 * learnt + loosened
        variance += min(1.0, learnt / worked) * max(0.0, worked - variance)
        # Where the step does not ask for it nobody reads it, and nobody works what only may be out; but who
        # reads one side of a square sees the other.
        alike = (name for name, other in self.step.targets.items() if other == limits)
        looked_at = any(size_name(self.zone, name) in self.step.checks for name in (dimension, *alike))
        how = worked_again_share if looked_at else to_go_share
        share = how(self.stage, dimension, kept.mean, limits, sqrt(variance))
        left = 1.0 - share
        own = left * variance + share * worked + left * share * (kept.mean - limits.nominal) ** 2
        own -= (left * hold) ** 2 * learnt
        slopes = (
            {name: left * hold * slope for name, slope in kept.slopes.items()} if left * hold else NOTHING
        )
        return Change(left * kept.mean + share * limits.nominal, slopes, max(own, 0.0))

    def _hardly_past(self, workpiece: Workpiece, dimension: str, kept: Change, limits: Limits) -> Change:
        """A size gone past where the step takes it: where that is not sure, it is as true as a worked one.

        By degrees up to a guard band beyond, so that no hundredth of a millimetre turns the tale.
        """
        aim_mm, variance = limits.nominal, workpiece.belief.variance_of(kept.slopes) + kept.variance
        share = 1.0 - outside_share(self.stage.past_mm(dimension, kept.mean, aim_mm), sqrt(variance))
        if share <= 0.0:
            return kept
        left = 1.0 - share
        own = left * variance + share * scatter_mm(limits, aim_mm) ** 2
        own -= left**2 * (variance - kept.variance)
        return Change(kept.mean, {name: left * slope for name, slope in kept.slopes.items()}, max(own, 0.0))


def _loosened_to(change: Change, workpiece: Workpiece, most_mm2: float) -> Change:
    """A size that bending loosens, but no further than to where a hand leaves one that it works."""
    learnt = workpiece.belief.variance_of(change.slopes)
    return change._replace(variance=min(change.variance, max(most_mm2 - learnt, 0.0)))


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


def followed(
    belief: Belief, state: ZoneState, followers: Mapping[str, str], shares: Mapping[str, float] = NOTHING
) -> Belief:
    """Sizes brought to where their leaders are; each differs from its leader by chance, if it can at all.

    The `shares` are how surely, by the belief's name of a leader; for certain where it is not among them.
    Where that is not sure a size is left as it was known too: the mixture by its first two moments.
    """
    for name, leader in followers.items():
        own, source = size_name(state.zone, name), size_name(state.zone, leader)
        is_one = state.shape.one_with(name) is not None
        chance_mm = 0.0 if is_one else HAND_SCATTER_MM
        share = 1.0 if is_one or own not in belief else shares.get(source, 1.0)
        left = 1.0 - share
        apart_mm2 = belief.variance_of({own: 1.0, source: -1.0}) if left else 0.0
        apart_mm2 += (belief.mean(own) - belief.mean(source)) ** 2 if left else 0.0
        mean_mm = share * belief.mean(source) + (left * belief.mean(own) if left else 0.0)
        slopes = {source: share, own: left} if left else {source: 1.0}
        change = Change(mean_mm, slopes, share * chance_mm**2 + share * left * apart_mm2)
        belief = belief.predict({own: change})
    return belief


def run_and_followed(
    belief: Belief, state: ZoneState, followers: Mapping[str, str], shares: Mapping[str, float] = NOTHING
) -> Belief:
    """Sizes brought to where their leaders are, and those that run to where the thickness takes them.

    A far thickness that goes with the near one settles first, and what it goes with before it: what runs
    hangs on both.
    """
    thick = thickness_names(state.shape)
    led = {leader for name, leader in followers.items() if name in thick}
    first = {name: leader for name, leader in followers.items() if name in thick or name in led}
    rest = {name: leader for name, leader in followers.items() if name not in first}
    return followed(ran(followed(belief, state, first, shares), state), state, rest, shares)


def reset(
    workpiece: Workpiece, changes: Mapping[str, Change], shares: Mapping[str, float] = NOTHING
) -> Workpiece:
    """Sizes worked to somewhere else, and as surely, by the `shares` of each, what goes with them."""
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
        belief = run_and_followed(belief, state, moved, shares)
    return workpiece._replace(belief=belief)
