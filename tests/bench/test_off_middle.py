"""A hay fork that was split off its middle: what the tines have is one bar's, and no heat mends it.

By hand: of a bar 30 wide each tine is to be left 14.5 wide, what scales off taken away. One of 12.2 leaves
29 - 12.2 = 16.8 for the other, 2.3 off the middle; one of 16.4 leaves 12.6, 1.9 off the middle.
"""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState, Verdict
from coach.telling.reading import reading_sentence
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

SPLIT = 2
told: list[str] = []


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
    assert check.is_beyond or check.verdict is Verdict.PAST_STEP
    assert not [one.name for one in job.ways_back() if one.name.startswith("forge-further")]


def split(*tines: tuple[str, str]) -> Session:
    """Split in two heats, and these tines read, one after the other."""
    job = at_step_of("hay-fork", SPLIT)
    job.heat()
    job.heat()
    for name, size in tines:
        told.append(write(job.read(f"tines.{name}", size).beware, Shown("mm")))
    return job


def row(job: Session, name: str) -> tuple[Verdict | None, str]:
    check = next(one for one in job.standing().checks if one.name == f"tines.{name}")
    return check.verdict, reading_sentence(check, Shown("mm"))


def test_both_tines_are_read_by_name_and_tell_how_far_off_the_split_stands() -> None:
    """By hand: 12.2 and 16.9 are 29.1 of the 29 there are; half of what they differ by is 2.35."""
    job = split(("tine", "12.2"), ("other_tine", "16.9"))
    assert "beside this one the other has 12.2 mm, and the split stands 2.4 mm off the middle" in told[-1]
    assert row(job, "tine")[0] is row(job, "other_tine")[0] is Verdict.PAST_STEP
    assert not job.standing().questioned


def test_a_tine_too_thin_for_its_length_keeps_the_job_from_being_on_plan() -> None:
    """By hand: of 11 and 18 the thin one has 11 / 14.5 of 260, 197 mm: 220 are the least that is drawn."""
    job = split(("tine", "11"), ("other_tine", "18"))
    assert row(job, "tine")[0] is row(job, "other_tine")[0] is Verdict.OUT
    standing = job.standing()
    assert standing.verdict is not PlanState.ON_PLAN
    assert "weld a piece on to it" in str(standing.reason)


def test_what_the_step_ahead_draws_both_to_is_out_for_neither() -> None:
    """By hand: both are wider than the 9 they are drawn to; the long one, 16.4 / 14.5 of what both come to,
    is over the 280 allowed by the rest.
    """
    job = split(("tine", "16.4"), ("other_tine", "12.6"))
    assert row(job, "tine")[0] is row(job, "other_tine")[0] is Verdict.PAST_STEP
    standing = job.standing()
    assert standing.verdict is PlanState.ON_PLAN
    assert not standing.to_right
    long = next(one for one in standing.sizes if one.name == "tines.length").expected.value
    assert f"cut back by {long * 16.4 / 14.5 - 280.0:.1f} mm, for the drawing allows 280 mm" in told[-1]


def test_two_tines_that_are_not_the_bar_between_them_are_questioned_until_read_so_again() -> None:
    """By hand: 16.4 and 16.4 need 32.8 of a bar of 30."""
    job = split(("tine", "16.4"), ("other_tine", "16.4"))
    assert [one.name for one in job.standing().questioned] == ["tines.other_tine"]
    said = row(job, "other_tine")[1]
    assert "both tines are of a bar of 30 mm, and with the other one it makes 32.8" in said
    job.read("tines.other_tine", "12.6")
    assert not job.standing().questioned


@pytest.mark.parametrize("first", ["16.4", "12.2"])
def test_one_thin_tine_makes_the_split_end_no_longer(first: str) -> None:
    """The end is as long as it was marked, 86.1: no chisel draws it."""
    job = split(("tine", first))
    job.read("tines.length", "86")
    assert not job.standing().questioned
    size = next(one for one in job.standing().checks if one.name == "tines.length")
    assert size.verdict is Verdict.GOOD


def test_how_long_either_comes_out_is_told() -> None:
    """Of one section, they are as long as they have metal: × 12.2 / 14.5 the one, × 16.8 / 14.5 the other."""
    job = split(("tine", "12.2"))
    long = next(one for one in job.standing().sizes if one.name == "tines.length").expected.value
    both = f"about {long * 12.2 / 14.5:.0f} mm long and the other about {long * 16.8 / 14.5:.0f} mm"
    assert f"drawn alike, this one comes out {both}" in told[-1]


def test_in_the_middle_nothing_is_said_of_it() -> None:
    job = at_step_of("hay-fork", SPLIT)
    assert not job.read("tines.tine", "14.6").beware
