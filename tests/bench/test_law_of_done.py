"""What is said just before a step is done is what is said just after it."""

from __future__ import annotations

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from tests.bench.law_of_done import NAMES, before, places, read_at, ways_there


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=4, phases=(Phase.generate,), derandomize=True)
@given(data=st.data())
def test_the_end_of_a_step_changes_nothing_of_what_is_said(name: str, data: st.DataObject) -> None:
    number, measured = data.draw(st.sampled_from(ways_there(name)))
    job = before(name, number, measured=measured).heated()
    if not (asked := job.asked()):
        assert job.told() == job.done().told()
        return
    off = data.draw(st.sampled_from(sorted(asked)))
    size_mm = data.draw(st.sampled_from([one for one in places(asked[off]) if one > 0.0]))
    read = read_at(job, off, size_mm)
    if not read.has_more_to_go:
        assert read.told() == read.done().told()


#: Each once told one thing before its step was done and another after it.
BROKEN = [
    ("bolt-tongs", 5, ("arm 1 jaw", "length"), 32.0),  # on its limit, with nothing left to work
    ("drawknife", 2, ("left tang", "length"), 102.69),  # too long, with a taper ahead
    ("first-hook", 7, ("plate", "width"), 19.32),  # over, with a hole to be punched ahead
    ("first-hook", 8, ("plate", "hole_length"), 6.0),  # on its limit, believed a hair beyond
    ("first-hook", 8, ("plate", "width"), 14.0),  # a take-up size on its limit
    ("hedging-hatchet", 6, ("blade", "length"), 44.89),  # longer already than it may be in the end
]


@pytest.mark.parametrize(("name", "number", "off", "size_mm"), BROKEN)
def test_what_was_told_otherwise_once_is_told_alike(
    name: str, number: int, off: tuple[str, str], size_mm: float
) -> None:
    read = read_at(before(name, number, measured=True).heated(), off, size_mm)
    assert not read.has_more_to_go
    assert read.told() == read.done().told()


def test_what_the_drawing_refuses_of_a_steel_stays_refused_once_it_is_laid_on() -> None:
    drawn = 4  # the adze's face
    job = before("carpenters-adze", drawn, measured=False).heated()
    job = read_at(job, ("face", "thickness"), 8.0).done()
    while True:
        told = job.told()
        assert told.verdict == "off plan"
        assert told.rows["face.thickness"] == "under"
        if job.state.step is None:
            break
        job = job.done()
