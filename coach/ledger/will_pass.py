"""The chance that a tool will pass: every size of its drawing inside both of its limits at the end."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import ceil, floor, isfinite, log10, sqrt
from typing import NamedTuple

from coach.forms import label
from coach.ledger.belief import Belief
from coach.ledger.box import all_between
from coach.ledger.hand import NOTHING_LANDED, Landed, scatter_mm
from coach.ledger.landing import reach_of_habit_mm
from coach.ledger.margins import Margin
from coach.ledger.nominal import Stage
from coach.ledger.verdict import conformance
from coach.ledger.workpiece import Workpiece, size_name
from coach.operations import operation
from coach.quantities import Figure, Limits, mm

#: A size that its step asks for is looked at, and worked again where it has more to go: in the end it lies as
#: if the hand scattered by this share of one go at it (judgement: a hand that lands 19 in 20 inside, and
#: mends what is left standing on the side that it works from, keeps 39 in 40).
_LOOKED_AT_SHARE = 0.9
#: A limit that is offered instead is one that is kept so often (our choice).
_KEPT_SHARE = 0.9
#: Halvings of the span that such a limit is sought in: to a four-thousandth, where two digits are told (our
#: choice).
_HALVINGS = 12
#: Less surely worked than this, a size is left as it was read (our choice).
_HARDLY = 1e-3


class LeastSure(NamedTuple):
    """The size of the drawing that is the least likely to be inside its limits at the end."""

    name: str  # as commands take it: `blade.length`
    zone: str
    dimension: str
    chance: float  # that it is inside, by itself
    kept: Figure | None = None  # ± this would be kept nine times in ten; `null` where the limits are as wide

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)


class WillPass(NamedTuple):
    """Whether the tool will be inside its drawing once every step is done."""

    chance: float  # that every size is inside both of its limits
    ceiling: float | None  # the most that the hand's scatter leaves of that; None where no step works a size
    least: LeastSure | None  # None where nothing is in doubt

    def held_to(self, so_far: float) -> WillPass:
        """It, never surer than that nothing prevents it."""
        return self._replace(chance=min(self.chance, so_far))

    def besides(self, settled: Iterable[LeastSure]) -> WillPass:
        """It, where of the sizes that are `settled` none is surer than it is as it stays."""
        least = min(settled, key=lambda one: one.chance, default=None)
        if least is None or (self.least is not None and self.least.chance <= least.chance):
            least = self.least
        return self._replace(least=least)


class HandWork(NamedTuple):
    """A size that a step ahead works to."""

    usual_mm: float  # scatter of the usual hand in one go
    looked_at: bool  # whether the step asks for it to be measured
    off_mm: float = 0.0  # how far off its target this hand stops
    factor: float = 1.0  # this hand's scatter in usual ones
    share: float = 1.0  # how surely it is worked to there; else it is left as it was read

    @property
    def times(self) -> float:
        """This hand's scatter, as it is in the end, in usual ones."""
        times = self.factor * (_LOOKED_AT_SHARE if self.looked_at else 1.0)
        return 1.0 + (times - 1.0) * self.share

    @property
    def wider(self) -> float:
        """By so much more of its usual scatter what hangs on it is off; below 0 less."""
        return (self.factor - 1.0) * self.share


def hand_work(workpiece: Workpiece, stage: Stage) -> Iterator[tuple[str, HandWork]]:
    """The sizes that a step works a zone to, as the belief names them."""
    step, state = stage.step, stage.after
    for dimension, limits in step.targets.items():
        to_metal = dimension == state.free and not operation(step.operation).FIXES
        if dimension in state.shape.dimensions and dimension not in state.linked and not to_metal:
            name = size_name(state.zone, dimension)
            usual_mm, hand = scatter_mm(limits, limits.nominal), workpiece.hand
            off_mm = hand.habit * reach_of_habit_mm(stage, dimension)
            yield name, HandWork(usual_mm, name in step.checks, off_mm=off_mm, factor=hand.factor)


def will_pass(
    belief: Belief,
    margins: Sequence[Margin],
    ahead: Mapping[str, HandWork],
    landed: Mapping[str, Landed] = NOTHING_LANDED,
) -> WillPass:
    """The chance of all margins at once, as they are believed at the end.

    Args:
        belief: as it is once every step is done.
        margins: of every size of the drawing.
        ahead: the last work of the steps ahead on every size that they work to, as the belief names it.
        landed: where the hand stopped with those that it has worked to already.
    """
    ahead = {name: work for name, work in ahead.items() if work.share > _HARDLY}
    covariance = _by_this_hand(margins, belief.covariances([one.slopes for one in margins]), ahead)
    means = [one.size_mm + _off_mm(one, ahead) for one in margins]
    _look_back(margins, means, covariance, landed)
    bounds = [(one.limits.low, one.limits.high) for one in margins]
    chance = all_between(means, covariance, bounds)
    singly = [
        conformance(mean, sqrt(max(row[at], 0.0)), one.limits)
        for at, (one, mean, row) in enumerate(zip(margins, means, covariance, strict=True))
    ]
    least = min(range(len(margins)), key=singly.__getitem__, default=None)
    ceiling = _ceiling(margins, ahead)
    return WillPass(
        chance,
        None if ceiling is None else max(ceiling, chance),
        None
        if least is None
        else _least_sure(margins[least], singly[least], means[least], covariance[least][least], ahead),
    )


def _least_sure(
    margin: Margin, chance: float, mean_mm: float, variance_mm2: float, ahead: Mapping[str, HandWork]
) -> LeastSure:
    """The size, with a limit about the same middle that would be kept, where it is still to be made."""
    limits, doubt_mm = margin.limits, sqrt(max(variance_mm2, 0.0))
    either_side = abs(limits.high - limits.nominal - (limits.nominal - limits.low)) < _HARDLY
    to_make = _work(margin, ahead) is not None or any(name in ahead for name in margin.slopes)
    kept = None
    if chance < _KEPT_SHARE and either_side and to_make and limits.contains(mean_mm):
        middle = limits.nominal
        low, high = 0.5 * limits.width, abs(mean_mm - middle) + 3.0 * doubt_mm
        for _ in range(_HALVINGS):
            half = 0.5 * (low + high)
            inside = conformance(mean_mm, doubt_mm, Limits(middle, middle - half, middle + half, True))
            low, high = (half, high) if inside < _KEPT_SHARE else (low, half)
        # Two digits of it, for it is an offer, and never less than is kept.
        place = 10.0 ** (floor(log10(high)) - 1)
        kept = mm(ceil(high / place) * place)
    return LeastSure(*_named(margin), chance, kept)


def _by_this_hand(
    margins: Sequence[Margin], covariance: list[list[float]], ahead: Mapping[str, HandWork]
) -> list[list[float]]:
    """The covariance where the sizes that steps ahead work scatter as this hand does, not as the usual one.

    What each is off grows by so many times, and with it what hangs on it: T C Tᵀ.
    """
    places = {size_name(one.zone, one.dimension): at for at, one in enumerate(margins) if one.by_hand}
    works = [_work(one, ahead) for one in margins]
    times = [work.times if work is not None else 1.0 for work in works]
    scaled = [
        [p * mine * other for p, other in zip(row, times, strict=True)]
        for row, mine in zip(covariance, times, strict=True)
    ]
    wider = {name: work.wider / work.times for name, work in ahead.items() if work.wider and name in places}
    for at, one in enumerate(margins):  # what hangs on them is off by so much more of each
        met = [(places[name], by * wider[name]) for name, by in one.slopes.items() if name in wider]
        if works[at] is not None or not met:
            continue
        more = [sum(by * scaled[place][other] for place, by in met) for other in range(len(margins))]
        own = sum(by * more[place] for place, by in met)
        scaled[at] = [p + by for p, by in zip(scaled[at], more, strict=True)]
        for row, p in zip(scaled, scaled[at], strict=True):
            row[at] = p
        scaled[at][at] += more[at] + own
    return scaled


def _look_back(
    margins: Sequence[Margin],
    means: list[float],
    covariance: list[list[float]],
    landed: Mapping[str, Landed],
) -> None:
    """Take in that the hand has worked sizes to their targets: a reading of each, by the scalar update."""
    for at, one in enumerate(margins):
        stop = landed.get(size_name(one.zone, one.dimension)) if one.by_hand else None
        if stop is None:
            continue
        row = list(covariance[at])
        total = row[at] + stop.variance_mm2
        off_mm = stop.size_mm - means[at]
        for other, along in enumerate(row):
            if along:
                means[other] += along * off_mm / total
                covariance[other] = [
                    p - along * q / total for p, q in zip(covariance[other], row, strict=True)
                ]


def _work(one: Margin, ahead: Mapping[str, HandWork]) -> HandWork | None:
    return ahead.get(size_name(one.zone, one.dimension)) if one.by_hand else None


def _off_mm(one: Margin, ahead: Mapping[str, HandWork]) -> float:
    """What comes to a size, itself or by its section, for where this hand stops."""
    own = _work(one, ahead)
    if own is not None:
        return own.share * own.off_mm
    met = ((by, ahead[name]) for name, by in one.slopes.items() if name in ahead)
    return sum(by * work.share * work.off_mm for by, work in met)


def _named(one: Margin) -> tuple[str, str, str]:
    return size_name(one.zone, one.dimension), one.zone, one.dimension


def _ceiling(margins: Sequence[Margin], ahead: Mapping[str, HandWork]) -> float | None:
    """What the hand keeps of the sizes ahead if nothing else is in doubt and each is aimed at its middle.

    A length that follows from its section hangs on how true that is worked.
    """
    rows: list[tuple[dict[str, float], float]] = []
    for one in margins:
        own = size_name(one.zone, one.dimension)
        by_hand = {n: by for n, by in one.slopes.items() if by and n in ahead}
        if _work(one, ahead) is not None:
            by_hand = {own: 1.0}
        if by_hand and isfinite(one.limits.width):
            rows.append((by_hand, 0.5 * one.limits.width))
    if not any(rows):
        return None if not ahead else 1.0
    variances = {name: work.share * (work.usual_mm * work.times) ** 2 for name, work in ahead.items()}
    covariance = [
        [sum(by * theirs.get(name, 0.0) * variances[name] for name, by in row.items()) for theirs, _ in rows]
        for row, _ in rows
    ]
    return all_between([0.0] * len(rows), covariance, [(-half, half) for _, half in rows])
