"""The sizes of a step mean the same in whatever order they are typed; what was told of one still stands."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import permutations

import pytest
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st

from coach.bench.session import Session
from coach.ledger.verdict import Verdict
from coach.operations.measures import MARK
from coach.places import bundled_recipes
from coach.quantities import Kind
from tests.bench.jobs import at_step_of

NAMES = sorted(path.stem for path in bundled_recipes().glob("*.yaml"))


def read_in(
    name: str, step: int, heats: int, sizes: Sequence[tuple[str, str]]
) -> tuple[Session, dict[str, Verdict | None]]:
    """A job with sizes read in this order, and what was told last of each of them."""
    job, told = at_step_of(name, step), {}
    for _ in range(heats):
        job.heat()
    for size, number in sizes:
        answer = job.read(size, number)
        for check in (answer.did, *answer.others):
            told[check.name] = check.verdict  # type: ignore[union-attr]
    return job, told


def rows(job: Session) -> dict[str, tuple[object, ...]]:
    read = [one for one in job.standing().checks if one.reading is not None]
    return {
        one.name: (
            one.verdict,
            one.is_questioned,
            None
            if one.wanted is None
            else (round(one.wanted.limits.low, 3), round(one.wanted.limits.high, 3)),
        )
        for one in read
    }


# The hook's plate: 16 ±2 by the drawing, and its spreading is the last step to make it wide. By volume
# 13.2 × 5.7 × 47.3 mm are 3559 mm³, and 36.6 mm of a bar 10 mm square are 3660 mm³, less the scale.
PLATE = (("plate.width", "13.2"), ("plate.thickness", "5.7"), ("plate.length", "47.3"))


@pytest.mark.parametrize("order", list(permutations(PLATE)))
def test_a_width_under_the_drawing_s_least_is_good_in_no_order(order: Sequence[tuple[str, str]]) -> None:
    job, told = read_in("first-hook", 7, 2, order)
    assert told["plate.width"] is Verdict.MORE_TO_GO
    assert rows(job)["plate.width"][0] is Verdict.MORE_TO_GO


@pytest.mark.parametrize("beside", [(), (("plate.thickness", "5.2"),), (("plate.length", "47.3"),)])
def test_nor_is_it_while_not_all_of_its_section_is_read(beside: tuple[tuple[str, str], ...]) -> None:
    for order in permutations((("plate.width", "13.2"), *beside)):
        job, told = read_in("first-hook", 7, 2, order)
        assert told["plate.width"] is Verdict.MORE_TO_GO, order
        assert rows(job)["plate.width"][0] is Verdict.MORE_TO_GO


def test_a_width_that_its_step_may_leave_so_is_good_as_before() -> None:
    _, told = read_in("first-hook", 7, 2, (("plate.width", "15.5"),))
    assert told["plate.width"] is Verdict.GOOD


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=3, phases=(Phase.generate,), derandomize=True, deadline=None)
@given(data=st.data())
def test_rows_and_what_was_told_last_agree_in_any_order(name: str, data: st.DataObject) -> None:
    number = data.draw(st.integers(1, 14), label="step")
    heats = data.draw(st.integers(0, 2), label="heats")
    asked = [
        one
        for one in at_step_of(name, number).standing().checks
        if one.kind is Kind.LENGTH and one.wanted is not None and one.dimension != MARK
    ]
    zones = sorted({one.zone for one in asked if sum(one.zone == other.zone for other in asked) > 1})
    assume(zones)
    zone = data.draw(st.sampled_from(zones), label="zone")
    sizes = []
    for one in asked:
        if one.zone == zone and one.wanted is not None:
            share = data.draw(st.sampled_from((0.8, 0.88, 0.93, 0.97, 1.0, 1.03, 1.07, 1.12, 1.2)))
            sizes.append((one.name, f"{one.wanted.limits.nominal * share:.2f}"))
    stands = None
    for _ in range(2):
        order = data.draw(st.permutations(sizes), label="order")
        job, told = read_in(name, number, heats, order)
        now = rows(job)
        stands = now if stands is None else stands
        assert now == stands
        assert told == {size: now[size][0] for size in told}
