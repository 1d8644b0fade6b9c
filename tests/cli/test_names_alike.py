"""A name with a letter of another alphabet in it is told as that, and no honest one is refused."""

from __future__ import annotations

import pytest

from coach.bench.glance import JobSummary
from coach.log.status import JobStatus
from coach.screens.shop_rows import own_name
from tests.cli.conftest import Coach

CYRILLIC_A = "\N{CYRILLIC SMALL LETTER A}"
TOLD = "(with U+0430, CYRILLIC SMALL LETTER A, in it)"
IN_A_LIST = "(U+0430)"
ALIKE = f"h{CYRILLIC_A}tchet"


def test_a_job_whose_name_mixes_alphabets_says_so_as_it_is_begun_and_brought_in(coach: Coach) -> None:
    said = coach("begin", "first-hook", "--name", ALIKE)
    assert said.code == 0
    assert f"Job {ALIKE} {TOLD} is begun" in " ".join(said.out.split())
    coach("export", ALIKE, str(coach.home / "job.jsonl"))
    other = ("--shop", str(coach.home / "other.sqlite"))
    brought_in = coach("import", str(coach.home / "job.jsonl"), *other)
    assert f"Job {ALIKE} {TOLD} is imported" in " ".join(brought_in.out.split())


def test_jobs_whose_names_look_alike_are_told_apart_in_lists(coach: Coach) -> None:
    coach("begin", "first-hook", "--name", "hatchet")
    coach("begin", "first-hook", "--name", ALIKE)
    for words in (["jobs"], ["jobs"], ["jobs", "--all"]):  # read anew, as remembered, and all of them
        rows = [" ".join(row.split()) for row in coach(*words).out.splitlines()]
        assert [row.partition(" under way")[0] for row in rows] == [f"{ALIKE} {IN_A_LIST}", "hatchet"]
    assert f"hatchet, {ALIKE} {IN_A_LIST}" in coach("where", "xyz").err
    assert f"hatchet, {ALIKE} {IN_A_LIST}" in coach("where", "h").err


def test_the_shops_rows_tell_such_names_apart() -> None:
    hook = JobSummary("first-hook", "First hook", JobStatus.UNDER_WAY, 1, 5, "Square the bar", "", "")
    assert own_name(hook._replace(job=ALIKE)) == f"{ALIKE} {IN_A_LIST}"
    titled = hook._replace(job=f"b{CYRILLIC_A}r", title=f"B{CYRILLIC_A}r")  # its recipe is called so
    assert own_name(titled) == f"b{CYRILLIC_A}r {IN_A_LIST}"


@pytest.mark.parametrize(
    "name",
    [
        "крюк-1",
        "άγκιστρο",
        "կեռ",
        "דלת",
        "خطاف",
        "斧",
        "かぎ-鉤-カギ",
        "고리",
        "हुक",
        "ตะขอ",
        "કુહાડી",
        "møller-2",
        "größe",
        "żuraw",
    ],
)
def test_a_name_in_one_alphabet_is_taken_and_nothing_is_said_of_it(coach: Coach, name: str) -> None:
    said = coach("begin", "first-hook", "--name", name)
    assert said.code == 0, said.err
    assert "U+" not in said.out
    assert "U+" not in coach("jobs").out


@pytest.mark.parametrize(
    "name",
    [
        "h\N{COMBINING SHORT SOLIDUS OVERLAY}ook",
        "hook\N{VARIATION SELECTOR-16}",
        "h\N{DEVANAGARI VOWEL SIGN U}ook",
        "\N{DEVANAGARI VOWEL SIGN U}",
        "\N{MONGOLIAN LETTER A}\N{MONGOLIAN FREE VARIATION SELECTOR ONE}",
        "\N{KHMER LETTER KA}\N{KHMER VOWEL INHERENT AQ}",
        "-\N{THAI CHARACTER SARA I}",
    ],
)
def test_a_sign_that_is_of_no_letter_before_it_or_is_not_seen_is_in_no_name(coach: Coach, name: str) -> None:
    said = coach("begin", "first-hook", f"--name={name}")
    assert said.code == 2
    assert "cannot be a job's name" in said.err
