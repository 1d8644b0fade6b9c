"""A hay fork that was split off its middle: what the tines have is one bar's, and no heat mends it.

By hand: of a bar 30 wide each tine is to be left 14.5 wide, what scales off taken away. One of 12.2 leaves
29 - 12.2 = 16.8 for the other, 2.3 off the middle; one of 16.4 leaves 12.6, 1.9 off the middle.
"""

from __future__ import annotations

import pytest

from coach.ledger.verdict import Verdict
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

SPLIT = 2


@pytest.mark.parametrize(("tine", "other", "off"), [("12.2", "16.8", "2.3"), ("16.4", "12.6", "1.9")])
def test_off_its_middle_the_other_tine_is_told_and_no_heat_is_offered(
    tine: str, other: str, off: str
) -> None:
    job = at_step_of("hay-fork", SPLIT)
    job.heat()
    job.heat()
    answer = job.read("tines.tine", tine)
    told = write(answer.beware, Shown("mm"))
    assert f"the other has about {other} mm, and the split stands {off} mm off the middle" in told
    check = next(one for one in job.standing().checks if one.name == "tines.tine")
    assert check.verdict is Verdict.OUT
    assert not [one.name for one in job.ways_back() if one.name.startswith("forge-further")]


def test_in_the_middle_nothing_is_said_of_it() -> None:
    job = at_step_of("hay-fork", SPLIT)
    assert not job.read("tines.tine", "14.6").beware
