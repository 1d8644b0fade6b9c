"""What a magnet and the heat read beside it say of each other, and of what was quenched from there."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from coach.ledger.course import HeatMark, Mark, Outcome
from coach.ledger.hot_work import steels_of
from coach.ledger.plan import Plan
from coach.ledger.reading import QUESTIONED_BEYOND
from coach.operations.shop_test import MadeOn, Result
from coach.quantities import NOTHING, Figure, Words, as_words, celsius, say
from coach.recipe.model import Step

_MAGNET: Final = "magnet"
_NOT_FROM_THERE: Final = "from the {} read before no quench hardens it, for below about {} it does not turn"


def past_the_magnet(heat: Outcome) -> bool:
    """Whether a heat was read so hot that no steel pulls a magnet there, all it can be off besides."""
    from coach.metals.hardening import CURIE_C

    reading = heat.mark.reading
    return reading.size_mm - QUESTIONED_BEYOND * reading.heat_doubt_c > CURIE_C


def still_pulls(read: Outcome, magnet: Outcome, marks: Sequence[Mark]) -> Words:
    """No iron pulls above its Curie point; of another heat the temperature says nothing."""
    from coach.metals.hardening import CURIE_C

    between = marks[marks.index(read.mark) : marks.index(magnet.mark)]
    if any(isinstance(one, HeatMark) for one in between) or not past_the_magnet(read):
        return NOTHING
    told = "at the {} read before no steel pulls a magnet, all let go at {} at the latest"
    return say(told, celsius(read.mark.reading.size_mm), celsius(CURIE_C))


def pulls_still(plan: Plan, step: Step, read: Outcome, magnet: Outcome, marks: Sequence[Mark]) -> Words:
    """All steel pulls below where it begins to turn; of another heat the temperature says nothing."""
    turns = _under_its_turning(plan, step, read, magnet, marks)
    told = "at the {} read before a magnet holds: below about {} no steel of its kind lets go"
    return NOTHING if turns is None else say(told, celsius(read.mark.reading.size_mm), turns)


def let_go_before(
    plan: Plan, step: Step, magnet: Outcome | None, heat: Outcome, marks: Sequence[Mark]
) -> Words:
    """A heat surely below where a steel turns, of which a magnet let go before in the same heat."""
    if magnet is None or Result.of(magnet.mark.reading.size_mm) is not Result.PASS:
        return NOTHING
    turns_c = _turns_c(plan, step, (magnet, heat), marks)
    if turns_c is None or not _is_surely_below(heat, turns_c):
        return NOTHING
    told = "a magnet let go of it before in this heat, and below about {} no steel of its kind lets go"
    return say(told, celsius(turns_c))


def not_turned(
    plan: Plan, step: Step, read: Outcome, magnet: Outcome | None, then: Outcome, marks: Sequence[Mark]
) -> Words:
    """What has not turned does not harden: its heat was surely below that, or below it with the magnet
    holding.
    """
    if (turns := _under_its_turning(plan, step, read, then, marks)) is not None:
        return say(_NOT_FROM_THERE, celsius(read.mark.reading.size_mm), turns)
    return _pulled_below(plan, step, read, magnet, then, marks) if magnet is not None else NOTHING


def _pulled_below(
    plan: Plan, step: Step, read: Outcome, magnet: Outcome, then: Outcome, marks: Sequence[Mark]
) -> Words:
    """What has not turned does not harden: a magnet held, and the heat was below where it turns."""
    turns_c = _turns_c(plan, step, (read, magnet, then), marks)
    pulled = Result.of(magnet.mark.reading.size_mm) is Result.FAIL
    if not pulled or turns_c is None or read.mark.reading.size_mm >= turns_c:
        return NOTHING
    told = "at {} a magnet held, and below about {} it does not turn: no quench hardens it from there"
    return say(told, celsius(read.mark.reading.size_mm), celsius(turns_c))


def _under_its_turning(
    plan: Plan, step: Step, read: Outcome, then: Outcome, marks: Sequence[Mark]
) -> Figure | None:
    """Where the steel of a step begins to turn, where a heat of it was read surely below that and no other
    heat was taken from then on to another reading; else None.
    """
    turns_c = _turns_c(plan, step, (read, then), marks)
    return celsius(turns_c) if turns_c is not None and _is_surely_below(read, turns_c) else None


def _is_surely_below(read: Outcome, turns_c: float) -> bool:
    heat = read.mark.reading
    return heat.size_mm + QUESTIONED_BEYOND * heat.heat_doubt_c < turns_c


def _turns_c(plan: Plan, step: Step, read: Sequence[Outcome], marks: Sequence[Mark]) -> float | None:
    """Where the steel of a step begins to turn, °C; None where that is not known of all of it, and where a
    heat was taken between these readings.
    """
    from coach.metals.transformation import is_beyond_alloys, lower_critical

    places = [marks.index(one.mark) for one in read]
    between = marks[min(places) : max(places)]
    steels = steels_of(plan, step)
    known = [one for one in steels if one.composition and not is_beyond_alloys(one.nominal)]
    if not known or len(known) < len(steels) or any(isinstance(one, HeatMark) for one in between):
        return None
    return min(lower_critical(one.nominal).celsius for one in known)


def pulls_cold(plan: Plan, step: Step, zone: str, marks: Sequence[Mark]) -> Words:
    """Hard steel that lies in no fire pulls a magnet, as all steel does but one of much alloy."""
    from coach.ledger.shop_test_of import steel_of
    from coach.metals.transformation import is_beyond_alloys

    steels = steels_of(plan, step)
    if not steels or any(not one.composition or is_beyond_alloys(one.nominal) for one in steels):
        return NOTHING
    in_fire = any(isinstance(one, HeatMark) for one in marks)
    if in_fire or steel_of(plan, step, zone, _MAGNET) is not MadeOn.HARD:
        return NOTHING
    return as_words("a magnet holds on hard steel, cold and at any heat of a temper")
