"""What the coach says of a reading and of the whole piece, and why."""

from __future__ import annotations

from enum import StrEnum
from math import erf, inf, nan, sqrt
from typing import NamedTuple

from coach.quantities import COVERAGE, NOTHING, Figure, Limit, Limits, Wanted, Words, mm

#: On plan: so surely within its limits, as ISO 14253-1:2017 asks of a decision unless another share is agreed
#: (confirmed second-hand).
ON_PLAN_CHANCE = 0.95
#: Tight down to here, off plan below: one piece in five outside (judgement).
TIGHT_CHANCE = 0.80


class Verdict(StrEnum):
    """A size against its limits."""

    GOOD = "good"
    MORE_TO_GO = "more to go"
    GONE_PAST = "gone past"
    PAST_STEP = "past step"  # but inside what a later step or the drawing asks
    OUT = "out"
    UNSURE = "unsure"


class PlanState(StrEnum):
    """The whole piece against the drawing."""

    ON_PLAN = "on plan"
    TIGHT = "tight"
    OFF_PLAN = "off plan"


class SizeState(StrEnum):
    """A finished size as it is expected, against what the drawing allows."""

    GOOD = "good"
    UNDER = "under"
    OVER = "over"

    @classmethod
    def of(cls, size_mm: float, limits: Limits) -> SizeState:
        """What a size is, whatever its doubt."""
        if size_mm < limits.low:
            return cls.UNDER
        return cls.OVER if size_mm > limits.high else cls.GOOD


class Judged(NamedTuple):
    """A verdict with how far the size is outside its limits, or could be, and whether the gauge can tell."""

    verdict: Verdict
    beyond_mm: float  # outside the nearer limit; 0 inside
    too_coarse: bool  # no reading by this gauge could ever be good
    below: bool  # it lies on the low side


def judge(size: float, doubt: float, limits: Limits, *, grows: bool | None, dressed: bool = False) -> Judged:
    """Judge a reading by the guard-banded decision rule (ISO 14253-1:2017, JCGM 106:2012).

    Good inside the limits shrunk by the guard band, one-sided 95 %; outside beyond the limits grown by it;
    unsure between. Beyond a limit on the side that the work still closes is more to go, sure or not; on the
    other it has gone past.

    Args:
        size: the reading, cold.
        doubt: its combined standard uncertainty.
        limits: what is wanted.
        grows: True when the step makes the size bigger, False when smaller, None when it is not worked.
        dressed: whether a size that the step makes bigger can be hammered back when it has run too far.
    """
    guard = COVERAGE * doubt
    low, high = limits.low, limits.high
    below = size < low or (size <= high and size - low < high - size)
    beyond = max(low - size, size - high, 0.0)
    too_coarse = limits.is_two_sided and low + guard > high - guard
    if low + guard <= size <= high - guard:
        verdict = Verdict.GOOD
    elif beyond > 0.0 and grows is not None and (dressed or below == grows):
        verdict = Verdict.MORE_TO_GO  # which costs nothing where it is not sure
    elif beyond <= guard:
        verdict = Verdict.UNSURE
    else:
        verdict = Verdict.OUT if grows is None else Verdict.GONE_PAST
    return Judged(verdict, beyond, too_coarse, below)


def beyond_surely(size: float, doubt: float, limits: Limits) -> bool:
    """Whether a size lies outside its limits by more than the guard band: nearer, nothing is proven of it."""
    return max(limits.low - size, size - limits.high) > COVERAGE * doubt


def conformance(size: float, doubt: float, limits: Limits) -> float:
    """Probability that a size with that standard uncertainty lies within its limits (JCGM 106:2012, 7)."""
    return at_most(limits.high, size, doubt) - at_most(limits.low, size, doubt)


def at_most(bound: float, mean: float, doubt: float) -> float:
    """Probability that a Gaussian quantity is at most a bound."""
    if bound == inf:
        return 1.0
    if bound == -inf:
        return 0.0
    if doubt <= 0.0:
        return 1.0 if mean <= bound else 0.0
    return 0.5 * (1.0 + erf((bound - mean) / (doubt * sqrt(2.0))))


def state_for_size(chance: float, seems: SizeState) -> PlanState:
    """What a job is called for one size; as long as that seems to be inside, it is not off plan."""
    state = plan_state(chance)
    return PlanState.TIGHT if seems is SizeState.GOOD and state is PlanState.OFF_PLAN else state


def plan_state(chance: float) -> PlanState:
    """What a chance of making the drawing is called."""
    if chance >= ON_PLAN_CHANCE:
        return PlanState.ON_PLAN
    return PlanState.TIGHT if chance >= TIGHT_CHANCE else PlanState.OFF_PLAN


class Why(StrEnum):
    """What is wrong, or what comes nearest to it."""

    SHORT = "short of metal"  # it may not be enough
    UNDER = "stays under"  # and no step ahead puts it right
    OVER = "stays over"
    NEAR = "stays near a limit"  # inside, but not for sure
    FULL = "full section"  # metal enough, in a section fuller than drawn
    TIGHTEST = "tightest"  # metal enough, least of it here
    ENOUGH = "enough"  # nothing is drawn for the metal to show in


class Reason(NamedTuple):
    """Why a zone stands as it does, or the whole job by the zone that decides."""

    why: Why  # what is wrong, or what comes nearest to it
    zone: str = ""  # whose size it is; empty where the metal is enough for every zone
    dimension: str = ""  # the size
    #: how far that is beyond the bound: of metal above the least, of a size over its limit; negative below
    beyond: Figure = mm(nan)
    bound: Figure = mm(nan)  # the least, or the limit, that the drawing allows
    wanted: Wanted | None = None  # what the drawing wants of the size, whose limit that is
    #: the size that decides, as `coach read` takes it, where nobody has measured the one that seems wrong
    measure: str = ""
    is_read: bool = False  # whether the size itself was read, and stood by against what was reckoned
    read_as: Figure | None = None  # what was read of it then, cold; `null` where it was not
    #: whether it would be sure enough by itself, and is the least sure of several that together are not
    of_several: bool = False
    fire: Figure | None = None  # how many times the scale reckoned the fire takes, where it is a hungry one
    before: Words = NOTHING  # what is told before it: a test that failed
    besides: Words = NOTHING  # what is told behind it: a skin that the stone leaves

    @property
    def size(self) -> Figure:
        """What the size comes to."""
        return mm(self.bound.value + self.beyond.value, self.beyond.doubt)

    @property
    def comes_to(self) -> Figure | None:
        """What it comes to, where heats or work make another size of what was read; None where none does."""
        read, size = self.read_as, self.size
        if read is None or abs(size.value - read.value) <= (read.doubt or 0.0):
            return None
        return size

    @property
    def limit(self) -> Limit | Figure:
        """The bound, as one of the limits where those are known."""
        limits = self.wanted.limits if self.wanted is not None else None
        if self.wanted is None or limits is None or self.bound.value not in (limits.low, limits.high):
            return self.bound
        return Limit(self.wanted, low=self.bound.value == limits.low)
