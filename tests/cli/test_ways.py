"""The ways back by command: listed, taken by name or by its beginning, and struck out."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Coach
from tests.screens.stage import PEG


@pytest.fixture
def thin(coach: Coach, tmp_path: Path) -> str:
    """A job whose shank came out too thin."""
    recipe = tmp_path / "peg.yaml"
    recipe.write_text(PEG, encoding="utf-8")
    job = coach.job(str(recipe))
    coach("done", job)
    assert coach("read", job, "shank.side=8.5", "--insist").code == 1
    return job


def names(coach: Coach, job: str) -> list[str]:
    listed = coach("ways", job, "--json").values["ways"]
    assert isinstance(listed, list)
    return [str(remedy["name"]) for remedy in listed]


def test_a_job_on_plan_needs_no_way_out(coach: Coach) -> None:
    job = coach.job()
    told = coach("ways", job)
    assert told.code == 0
    assert told.out.endswith("Nothing is wrong that needs a way back.\n")
    assert coach("ways", job, "--json").values == {"job": job, "ways": []}


def test_a_job_off_plan_lists_its_ways_back_the_best_first(coach: Coach, thin: str) -> None:
    told = coach("ways", thin)
    assert told.code == 1
    assert told.out.startswith("Off plan, under 1 %: Shank: the side comes out at")
    assert names(coach, thin) == ["accept-shank-side", "upset-shank-side", "start-again"]
    places = [told.out.index(f"({name})") for name in names(coach, thin)]
    assert places == sorted(places)
    assert "over 99 %; 2 extra heats; with care" in told.out
    assert "buckles" in told.out
    assert max(map(len, told.out.splitlines())) <= 80


def test_more_work_on_a_job_on_plan_is_no_bad_news(coach: Coach, tmp_path: Path) -> None:
    recipe = tmp_path / "peg.yaml"
    recipe.write_text(PEG, encoding="utf-8")
    job = coach.job(str(recipe))
    coach("read", job, "point.side=10")
    told = coach("ways", job)
    assert told.code == 0
    assert names(coach, job) == ["forge-further-point-side"]
    assert "Forge the point side 2 mm further" in told.out


@pytest.mark.parametrize("typed", ["upset-shank-side", "upset", "Upset Shank", "upset_shank_side"])
def test_a_remedy_is_taken_by_its_name_or_its_beginning(coach: Coach, thin: str, typed: str) -> None:
    told = coach("take", thin, typed)
    assert told.code == 0, told.err
    assert told.out.startswith("Upset the shank back to 10 mm side: taken.")
    assert "%: The metal is enough" in told.out
    assert "heat 0 of 3" in told.out
    assert coach("ways", thin).code == 0
    struck = coach("strike", thin)
    assert struck.out.startswith("Struck out: way back: Upset the shank back to 10 mm side.")
    assert coach("ways", thin).code == 1


def test_the_answer_in_json_is_that_of_any_entry(coach: Coach, thin: str) -> None:
    chance = coach("ways", thin, "--json").values["ways"][0]["chance"]  # type: ignore[index]
    told = coach("take", thin, "accept", "--json")
    assert list(told.values) == ["job", "answers", "standing"]
    assert told.part("standing", "chance") == chance
    assert told.part("standing", "verdict") == "on plan"
    answers = told.values["answers"]
    assert isinstance(answers, list)
    assert answers[0]["entry"] == told.part("standing", "last_entry")
    assert answers[0]["bad_news"] is False


def test_starting_again_sets_the_job_aside_and_says_so(coach: Coach, thin: str) -> None:
    told = coach("take", thin, "start-again", "--json")
    assert told.code == 0
    assert told.part("standing", "state") == "set aside"
    answers = told.values["answers"]
    assert isinstance(answers, list)
    assert answers[0]["sentence"].startswith("This job is set aside.")
    assert answers[0]["entry"] == told.part("standing", "last_entry")


def test_a_name_that_is_none_or_more_than_one_is_refused_with_those_there_are(
    coach: Coach, thin: str
) -> None:
    entries = coach("where", thin, "--json").values["last_entry"]
    wrong = coach("take", thin, "harder")
    assert (wrong.code, wrong.out) == (2, "")
    for name in names(coach, thin):
        assert name in wrong.err
    assert coach("take", thin, "").code == 2
    assert coach("where", thin, "--json").values["last_entry"] == entries


def test_where_nothing_is_wrong_nothing_can_be_taken(coach: Coach) -> None:
    job = coach.job()
    refused = coach("take", job, "upset")
    assert refused.code == 2
    assert "nothing is wrong" in refused.err
