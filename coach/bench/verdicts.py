"""One verdict for a plan and for a job: by its metal, a skin, a failed test, and in the end its sizes."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from math import isfinite
from types import MappingProxyType
from typing import Final, NamedTuple, TypeAlias

from coach.bench.settled import Settled
from coach.ledger.forecast import Forecast
from coach.ledger.verdict import (
    ON_PLAN_CHANCE,
    TIGHT_CHANCE,
    PlanState,
    Reason,
    SizeState,
    state_for_size,
)
from coach.ledger.verdict import Why as Unmet
from coach.ledger.weigh import Cannot, Finding
from coach.ledger.will_pass import WillPass
from coach.ledger.workpiece import Workpiece
from coach.ledger.zone_forecast import FinishedSize, unless_inside
from coach.quantities import NOTHING, Words, run_on, say
from coach.quantities.figure import Figure

Why: TypeAlias = Reason | Words
"""Why it stands so: the size that decides, or words."""

#: What lies beyond a limit by less than this share of its doubt may as well be inside (judgement).
_AS_WELL_INSIDE: Final = 0.2


class AtOdds(NamedTuple):
    """A length that was stood by against the reckoning."""

    measure: str  # the size of its section that decides, as `coach read` takes it
    read_as: Figure  # what was read of it, cold


_NONE_AT_ODDS: Final[Mapping[tuple[str, str], AtOdds]] = MappingProxyType({})

_ALL_DONE: Final = "every step is done, and "
_AS_DRAWN: Final = "every size{} is within the drawing"
_AS_RECKONED: Final = "what was measured{} is within the drawing; {} {} only reckoned"


def how_it_stands(
    found: Forecast | None,
    trouble: Words,
    findings: Sequence[Finding],
    settled: Iterable[Settled],
    worries: Sequence[Words],
    sizes: Iterable[FinishedSize],
    failed: Words = NOTHING,
    at_odds: Mapping[tuple[str, str], AtOdds] = _NONE_AT_ODDS,
) -> tuple[float, PlanState, Why]:
    """The chance, the verdict and its reason while there are steps ahead.

    Args:
        found: how the rest is expected to go; None where it cannot be reckoned.
        trouble: why it cannot.
        findings: what the metal cannot do in the steps ahead.
        settled: the sizes that no step ahead works any more, each with its chance.
        worries: a failed test that nothing ahead mends, a grave doubt, or a skin deeper than the stone goes.
        sizes: the drawing's, as they are told: beside one that comes out outside of it nothing is on plan.
        failed: a failed test that nothing ahead mends, which is told first whatever else is wrong.
        at_odds: sizes that were read against all that is known, each with the one to measure for it.
    """
    if found is None or trouble:
        short = next((one for one in findings if one.what is Cannot.SUFFICE), None)
        return 0.0, PlanState.OFF_PLAN, short.placed if short is not None else trouble
    cannot = next((one for one in findings if one.what is not Cannot.REMOVE_SKIN), None)
    if cannot is not None:
        return 0.0, PlanState.OFF_PLAN, run_on((failed, cannot.placed), "; ")
    chance, verdict = found.chance if isfinite(found.chance) else 0.0, found.state
    reason: Why = found.reason
    settled = tuple(settled)
    least = min(settled, key=lambda one: (one.measured_chance, not one.size.measured), default=None)
    first = least is not None and _is_told_before(least.size, reason)
    sure = least.measured_chance if least is not None else 1.0
    if least is not None and sure < ON_PLAN_CHANCE and (sure < chance or first):
        called = least.called
        was = verdict
        verdict = max(called, was, key=list(PlanState).index)
        # A size that nobody measured, and that may yet be inside, is not asked for before what is surely out.
        asks = isinstance(reason, Reason) and reason.measure and reason.why is not Unmet.NEAR
        asks = asks and was is not PlanState.ON_PLAN and not first
        # What was measured and is outside is told before what follows from it and nobody has measured.
        facts = (one.size for one in settled if one is least or (one.stays and not least.size.measured))
        told = asks or (verdict is was and not first) or any(_is_told_of(one, reason) for one in facts)
        reason = reason if told else _reason_of(least, at_odds)
    reason = _as_it_seems(reason, sizes)
    chance = min([chance, *(one.chance for one in settled)])
    soft = next((one.placed for one in findings if one.what is Cannot.REMOVE_SKIN), NOTHING)
    worry = next((one for one in (*worries, soft) if one), None)
    if verdict is PlanState.ON_PLAN and worry is not None:
        verdict, reason = PlanState.TIGHT, worry
    outside = [size for size in sizes if size.state is not SizeState.GOOD]
    if verdict is PlanState.ON_PLAN and outside:
        verdict, worst = PlanState.TIGHT, min(outside, key=lambda size: size.chance)
        told = isinstance(reason, Reason) and reason.why is Unmet.FULL and reason.zone == worst.zone
        reason = reason if told else worst.words(to_come=True)
    if failed and verdict is not PlanState.ON_PLAN and reason is not worry:
        reason = _told_after(failed, reason)
    if soft and reason is not worry:  # what is tight for its metal is soft all the same
        reason = _with_besides(reason, soft)
    return chance, verdict, reason


def beside_will_pass(
    chance: float, verdict: PlanState, reason: Why, will_pass: WillPass | None, *, most: float | None = None
) -> tuple[float, PlanState, Why]:
    """How it stands, beside how likely it will pass: what passes was prevented by nothing.

    What the metal cannot do is no matter of chance. Nor is a size that is surely out, as it was read: `most`
    is the chance of that one, and the whole has no better one. None where there is none such: then nothing is
    off plan by a chance that is called tight.
    """
    if will_pass is None or not (isinstance(reason, Reason) or chance > 0.0):
        return chance, verdict, reason
    if most is not None:
        return min(max(chance, will_pass.chance), max(chance, most)), verdict, reason
    chance = max(chance, will_pass.chance)
    if verdict is PlanState.OFF_PLAN and chance >= TIGHT_CHANCE:
        verdict = PlanState.TIGHT
    return chance, verdict, reason


def _reason_of(settled: Settled, at_odds: Mapping[tuple[str, str], AtOdds]) -> Why:
    """A size that decides; where it was read against what is known, with what is to be measured for it."""
    size = settled.size
    odd = at_odds.get((size.zone, size.dimension))
    if odd is None or size.state is SizeState.GOOD:
        return settled.words
    why = Unmet.UNDER if size.state is SizeState.UNDER else Unmet.OVER
    return size.reason(why)._replace(measure=odd.measure, is_read=True, read_as=odd.read_as)


def _as_it_seems(reason: Why, sizes: Iterable[FinishedSize]) -> Why:
    """The reason; of a size that was read, and only seems to be outside, no more than that."""
    if not isinstance(reason, Reason) or reason.measure or reason.why not in (Unmet.UNDER, Unmet.OVER):
        return reason
    of = reason.zone, reason.dimension
    size = next((one for one in sizes if (one.zone, one.dimension) == of and one.only_seems), None)
    if size is None or size.state is SizeState.GOOD:
        return reason
    return run_on((reason.before, size.words(to_come=False)), "; ")


def _told_after(failed: Words, reason: Why) -> Why:
    """A reason with a failed test before it."""
    if isinstance(reason, Reason):
        return reason._replace(before=failed)
    return run_on((failed, reason), "; ")


def _with_besides(reason: Why, soft: Words) -> Why:
    """A reason with a skin that stays behind it."""
    return reason._replace(besides=soft) if isinstance(reason, Reason) else run_on((reason, soft), ". ")


def _is_told_of(size: FinishedSize, reason: Why) -> bool:
    """Whether the reason is that size, outside of its limits as it is told."""
    return (
        isinstance(reason, Reason)
        and (reason.zone, reason.dimension) == (size.zone, size.dimension)
        and reason.why in (Unmet.UNDER, Unmet.OVER)
        and size.state is not SizeState.GOOD
    )


def _is_told_before(size: FinishedSize, reason: Why) -> bool:
    """Whether a size was measured where the reason only may be so: of metal, or of a size not measured.

    One that is outside, by what was read of others, decides, and is asked for.
    """
    if not size.measured or not isinstance(reason, Reason):
        return False
    is_out = size.state is not SizeState.GOOD
    if reason.why is Unmet.SHORT:
        return is_out or reason.zone == size.zone
    may_be_inside = abs(reason.beyond.value) < _AS_WELL_INSIDE * (reason.beyond.doubt or 0.0)
    return is_out and bool(reason.measure) and (may_be_inside or reason.why is Unmet.NEAR)


def asking_to_measure(reason: Why, now: Workpiece, measured: Collection[tuple[str, str]]) -> Why:
    """The reason; where it blames a size that only follows from what was read, with the one to measure.

    That is the size itself, if the piece has it now; else one of its zone that was not read, the one that the
    metal settles before all others. `measured` are those that were read since they were last worked, by zone
    and dimension.
    """
    if not isinstance(reason, Reason) or reason.why not in (Unmet.UNDER, Unmet.OVER, Unmet.NEAR):
        return reason
    if reason.of_several:  # of which none decides
        return reason
    zone, state = reason.zone, now.zones[reason.zone]
    read = {state.leader(dimension) for of, dimension in measured if of == zone}
    blamed = state.leader(reason.dimension)
    if not read or blamed in read or not state.has_form:
        return reason
    has = state.shape.dimensions
    unread = [name for name in (state.free, *has) if state.leader(name) not in read]
    decides = blamed if blamed in has else next(iter(unread), "")
    return reason._replace(measure=f"{zone}.{decides}" if decides else "")


def of_finished(
    sizes: Sequence[FinishedSize],
    worry: Words,
    let_go: int = 0,
    *,
    laid: Collection[str] = (),
    finished: bool = True,
) -> tuple[float, PlanState, Why]:
    """A tool that nothing shapes any more is what it is: its sizes count, not what its metal might have made.

    What was measured and is not inside is told before what nobody has measured; with it what is still to be
    put right, and how many sizes were let go: they are inside what is allowed, and not as drawn. Of steel
    that was laid on nobody can say more: it counts as it surely is beyond its limits.
    """
    chances = {size.name: unless_inside(size) if size.zone in laid else size.chance for size in sizes}
    unsure = [size for size in sizes if chances[size.name] < ON_PLAN_CHANCE]
    if not unsure:
        chance, unread = min(chances.values()), sum(not size.measured for size in sizes)
        but = f" but the {let_go if let_go > 1 else 'one'} let go" if let_go else ""
        counts = (unread, f"size{' was' if unread == 1 else 's were'}") if unread else ()
        told = (_ALL_DONE if finished else "") + (_AS_RECKONED if unread else _AS_DRAWN)
        as_drawn = say(told, but, *counts)
        return chance, *((PlanState.TIGHT, worry) if worry else (PlanState.ON_PLAN, as_drawn))
    worst = min(unsure, key=lambda size: (not size.measured, chances[size.name]))
    states = (state_for_size(chances[size.name], size.state) for size in unsure)
    verdict = max(states, key=list(PlanState).index)
    more = len(unsure) - 1
    others = f"{more} more size{' is' if more == 1 else 's are'} not surely inside" if more else ""
    words = (worst.words(to_come=False), others, worry)
    return min(chances[size.name] for size in unsure), verdict, run_on(words, "; ")
