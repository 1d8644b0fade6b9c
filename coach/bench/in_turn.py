"""In which order a step's sizes and tests are answered: where it quenches, by where the piece is."""

from __future__ import annotations

from coach.bench.checks import Check
from coach.bench.clock import Place
from coach.bench.judgement import Judgement
from coach.bench.standing import Standing
from coach.ledger.judging import LITTLE_OVER_C
from coach.ledger.sent_back import is_read_of_quenched
from coach.ledger.verdict import Verdict
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities.figure import Kind


def in_turn(standing: Standing) -> tuple[Check, ...]:
    """The checks of the step in hand as they are answered: what the box asks, and what is named as next.

    Before a quench comes what is read in the fire; once the piece is out to be quenched, what is tried on
    quenched steel. Otherwise they come as the recipe has them.
    """
    step, checks = standing.step, standing.checks
    if step is None or not step.quench:
        return checks
    if is_to_quench_now(standing):
        return tuple(sorted(checks, key=lambda one: not is_read_of_quenched(one.dimension)))
    if waits_for_quench(standing) or not standing.heats or is_in_fire_again(standing):
        return tuple(sorted(checks, key=lambda one: not made_in_fire(one)))
    return checks


def next_to_read(standing: Standing) -> Check | None:
    """The first of them that is still to be read, one that is questioned before all; None where all are.

    Before that, the one that nobody has read and whose reading decides what is questioned.
    """
    waits = [one for one in in_turn(standing) if one.is_open]
    doubted = next((one for one in waits if one.is_questioned), waits[0] if waits else None)
    against = doubted.reading.against.parts if doubted is not None and doubted.reading is not None else ()
    return next((one for one in waits if one.reading is None and one.label in against), doubted)


def is_to_quench_now(standing: Standing) -> bool:
    """Whether the piece is out of the fire for its quench, and nothing entered keeps it from that."""
    step = standing.step
    if step is None or not waits_for_quench(standing) or is_in_fire_again(standing):
        return False
    kept = standing.sent_back or any(map(_keeps_from_quench, standing.checks))
    return standing.heats >= step.heats_planned and not kept


def waits_for_quench(standing: Standing) -> bool:
    """Whether a heat is taken and nothing was tried since that is tried on quenched steel."""
    step = standing.step
    if step is None or not step.quench or not standing.heats:
        return False
    return all(one.reading is None or one.reading.old or made_in_fire(one) for one in standing.checks)


def is_in_fire_again(standing: Standing) -> bool:
    """Whether a piece that is to be quenched lies in the fire once more."""
    clock, step = standing.clock, standing.step
    return clock is not None and clock.place is Place.IN and step is not None and bool(step.quench)


def made_in_fire(check: Check) -> bool:
    """Whether it is read or tried while the metal heats, before any quench."""
    return (
        check.kind is Kind.TIME
        or check.kind is Kind.TEMPERATURE
        or (check.kind is Kind.TEST and SHOP_TESTS[check.dimension].as_it_heats)
    )


def failed_in_fire(check: Check) -> Verdict | None:
    """What a test of the metal as it heats says where that is: not yet; None where it says no such thing."""
    if check.kind is not Kind.TEST or not made_in_fire(check):
        return None
    judged = _judged_now(check)
    return judged.verdict if judged is not None and judged.verdict in (Verdict.OUT, Verdict.UNSURE) else None


def is_too_hot_to_quench(standing: Standing) -> bool:
    """Whether the heat read last is over what a quench wants, and nothing tells that it was quenched yet."""
    step = standing.step
    if step is None or not step.quench:
        return False
    tried = (one for one in standing.checks if one.reading is not None and not one.reading.old)
    is_quenched = any(is_read_of_quenched(one.dimension) and not one.is_questioned for one in tried)
    return not is_quenched and any(off_its_heat_c(one) > LITTLE_OVER_C for one in standing.checks)


def off_its_heat_c(heat: Check) -> float:
    """How far the heat that was read last is above what is wanted, below it where less than 0, in °C.

    While a later reading is questioned the one before it stands.
    """
    judged = _judged_now(heat)
    if heat.kind is not Kind.TEMPERATURE or heat.reading is None:
        return 0.0
    if judged is None or judged.verdict is not Verdict.OUT:
        return 0.0
    limits, read = judged.wanted.limits, heat.reading.stands or heat.reading.size
    read_c = read.value
    if read_c < limits.low and judged.outdone_by is not None:
        read_c = judged.outdone_by.value  # colder by now, and its grain as coarse as it grew
    return max(read_c - limits.high, 0.0) + min(read_c - limits.low, 0.0)


def _judged_now(check: Check) -> Judgement | None:
    """What is told of it by what was read last and counts; None where nothing does."""
    reading = check.reading
    if reading is None or reading.old:
        return None
    return reading.stands_judged or (None if reading.questioned else reading.judged)


def _keeps_from_quench(check: Check) -> bool:
    return failed_in_fire(check) is not None or off_its_heat_c(check) != 0.0
