"""A temperature typed where a warp is asked for is no warp: nothing is bent by more than it is long.

By hand: the drawknife is a blade of 202 mm between two tangs of some 115 mm, no 840 mm together.
"""

from __future__ import annotations

import pytest

from coach.bench.entering import EntryFault
from tests.bench.jobs import at_step_of


@pytest.mark.parametrize(("number", "size"), [(13, "blade.warp"), (10, "blade.bow"), (7, "blade.wind")])
def test_a_number_beyond_the_length_of_the_piece_is_not_entered(number: int, size: str) -> None:
    job = at_step_of("drawknife", number)
    before = job.history()[-1].number
    with pytest.raises(EntryFault, match=r"cannot be 840 mm: the piece that it is of is about \d+ mm long"):
        job.read(size, "840")
    assert job.history()[-1].number == before
    job.read(size, "4")
    assert job.history()[-1].number == before + 1


def test_the_temperature_itself_is_taken() -> None:
    job = at_step_of("drawknife", 13)
    job.read("blade.temperature", "840")
    assert any(check.reading is not None for check in job.standing().checks)
