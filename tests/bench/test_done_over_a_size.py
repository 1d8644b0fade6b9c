"""What a script sees when a step is finished."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from tests.bench.jobs import begun
from tests.bench.test_what_readings_mean import PEG, finished


def peg(*sizes: str, insist: bool = True) -> Session:
    session = begun(PEG)
    for size in sizes:
        session.read(*size.split("="), insist=insist)
    return session


def test_a_step_that_ends_with_its_sizes_good_is_good_news() -> None:
    assert not peg("point.side=8", "point.length=90").done().bad_news


@pytest.mark.parametrize("size", ["point.side=6.9", "point.length=99"])
def test_a_step_that_ends_over_a_size_gone_past_or_out_is_bad_news(size: str) -> None:
    assert peg(size).done().bad_news


def test_a_step_that_ends_over_a_questioned_size_is_bad_news_though_the_job_is_on_plan() -> None:
    session = peg("point.length=8.8", insist=False)
    assert session.standing().verdict == "on plan"
    assert session.done().bad_news


def test_what_was_not_read_or_has_more_to_go_is_left_to_the_smith() -> None:
    assert not peg().done().bad_news
    # Read as the bar is called: a thinner one would be bad news of the metal.
    assert not peg("point.side=8", "shank.side=12").done().bad_news, "a step ahead works the shank"


def test_the_last_step_is_good_news_only_where_the_tool_is_on_plan() -> None:
    session = finished("shank.length=120")
    session.back()
    assert not session.done().bad_news
    session.read("shank.length", "131.8", insist=True)
    session.back()
    assert session.done().bad_news, "on its limit it is not surely inside"
