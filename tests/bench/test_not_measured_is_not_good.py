"""Where the verdict hangs on what nobody measured, no row calls that good, and the sheet says the same."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.bench.sizes_came import SizeVerdict
from coach.telling.page import Tone
from coach.telling.sizes import sizes_table, tone_of
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of


def told(job: Session) -> dict[str, str]:
    sizes = job.standing().sizes
    table = sizes_table(sizes, Shown("mm"))
    return {size.name: row.cells[-1] for size, row in zip(sizes, table.rows, strict=True)}


@pytest.mark.parametrize("name", ["first-hook", "cold-chisel", "strap-hinge"])
@pytest.mark.parametrize("left", [0, 1])
def test_what_is_not_surely_inside_and_was_not_measured_is_told_so_in_the_last_step(
    name: str, left: int
) -> None:
    job = at_step_of(name, 99 if left == 0 else 1)
    steps = job.standing().steps
    job = job if left == 0 else at_step_of(name, steps)
    rows, sheet = told(job), {one.name: one for one in job.sheet().sizes}
    unsure = [one for one in job.standing().sizes if not one.measured and one.chance < 0.95]
    assert unsure
    for size in unsure:
        assert rows[size.name] in ("not measured", size.state.value)
        assert rows[size.name] != "good"
        assert tone_of(size) is not Tone.PLAIN
        assert sheet[size.name].verdict is SizeVerdict.NOT_MEASURED


def test_while_a_step_ahead_works_it_a_size_is_told_as_it_is_expected() -> None:
    assert "not measured" not in told(at_step_of("first-hook", 2)).values()


def test_once_it_is_measured_it_is_told_as_that() -> None:
    job = at_step_of("first-hook", 9)
    assert told(job)["shank.length"] == "not measured"
    job.read("shank.length", "110")
    assert told(job)["shank.length"] == "good"
