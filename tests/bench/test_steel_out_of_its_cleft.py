"""Steel welded in a cleft stands out of it thinner than the iron: the head is longer for it, not heavier."""

from __future__ import annotations

import pytest

from coach.bench.checks import Check
from coach.bench.losing import LossAsked
from coach.bench.planned import planned_tool
from coach.bench.session import Session
from coach.ledger.verdict import Verdict
from tests.bench.jobs import at_step_of


def welded(length: str) -> Session:
    """The hatchet at its weld, three heats done: a bit of 32.2, with steel of some 33 driven in by 21."""
    job = at_step_of("hedging-hatchet", 12)
    job.read("bit.length", "32.2")
    for _ in range(7):
        job.done()
    for _ in range(3):
        job.heat()
    for name, size in (("width", "50"), ("thickness", "14.5"), ("length", length)):
        job.read(f"bit.{name}", size)
    return job


def check_of(job: Session, name: str) -> Check:
    return next(check for check in job.standing().checks if check.name == name)


@pytest.mark.parametrize("length", ["37", "41.6", "43.2", "44"])
def test_a_bit_as_long_as_iron_and_steel_laid_end_to_end_is_believed(length: str) -> None:
    # 32.2 + 32 − 21 = 43.2 with the steel as it was laid; 37 where all of it is beaten to one block.
    assert check_of(welded(length), "bit.length").verdict is Verdict.GOOD


def test_such_a_length_makes_no_metal() -> None:
    def spare_mm(job: Session) -> float:
        return next(one.spare.value for one in job.standing().spares if one.zone == "bit")

    # As a block, 43.2 instead of 37 would be a sixth more metal: 6.2 × 58 / 37 = 9.7 mm in the end.
    assert spare_mm(welded("43.2")) - spare_mm(welded("37")) < 7.0


def test_a_bit_longer_than_both_laid_end_to_end_is_questioned() -> None:
    assert [check.name for check in welded("52").standing().questioned] == ["bit.length"]


def test_the_length_wanted_and_expected_at_the_weld_is_that_with_the_steel_standing_out() -> None:
    job = at_step_of("hedging-hatchet", 19)
    check = check_of(job, "bit.length")
    assert check.wanted is not None
    assert check.expected is not None
    assert 38.0 < check.wanted.limits.nominal < 43.5
    assert check.expected.value == pytest.approx(check.wanted.limits.nominal, abs=0.5)


def test_the_plan_leaves_that_length_too_and_says_what_it_is_in_one_section() -> None:
    job = at_step_of("hedging-hatchet", 19)
    for number in (19, 21):
        step = next(one for one in planned_tool(job.plan).steps if one.step.number == number)
        left = next(one for one in step.after if one.name == "bit.length")
        assert left.beaten is not None
        assert left.size.value > left.beaten.value + 3.0
        if number == 19:
            expected = check_of(job, "bit.length").expected
            assert expected is not None
            assert left.size.value == pytest.approx(expected.value, abs=0.5)
    spread = next(one for one in planned_tool(job.plan).steps if one.step.number == 22)
    assert all(one.beaten is None for one in spread.after)  # its form says its own end


def test_what_remains_of_the_steel_is_part_of_the_bit_that_holds_it() -> None:
    job = at_step_of("hedging-hatchet", 26)
    job.lose(LossAsked("bit", "5", "burnt"))
    sizes = {size.name: size.expected.value for size in job.standing().sizes}
    # 33.3 of iron and steel laid end to end, 32.3 + 33.3 - 21 = 44.6, stretched to 63: 47; 5 burnt, 1 ground.
    assert sizes["edge.remains"] == pytest.approx(33.3 / 44.6 * 63.1 - 6.0, abs=2.5)
    assert sizes["edge.remains"] < sizes["bit.length"] - 5.0


@pytest.mark.parametrize("length", ["31", "32", "32.6", "33", "33.5"])
def test_a_length_that_the_metal_may_well_be_enough_for_is_not_out(length: str) -> None:
    # Cut 27 long, 6 less than planned: whether the steel stands out or is beaten in, nobody has read.
    job = at_step_of("hedging-hatchet", 9)
    job.read("bit.length", "27", insist=True)
    for _ in range(10):
        job.done()
    for _ in range(4):
        job.heat()
    for name, size in (("thickness", "14.6"), ("width", "50.2"), ("length", length)):
        job.read(f"bit.{name}", size)
    spare = next(one.spare for one in job.standing().spares if one.zone == "bit")
    assert check_of(job, "bit.length").verdict is not Verdict.OUT or spare.value < 0.0
