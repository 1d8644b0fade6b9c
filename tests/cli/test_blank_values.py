"""An option whose value is blank, as of a variable that is not set, is refused and never guessed."""

from __future__ import annotations

import pytest

from coach.cli.line import command_of, verbs
from coach.quantities.takes import Typed
from tests.cli.conftest import Coach

#: What is typed besides, so that nothing but the value is wrong.
BESIDE = {
    "ahead": ["JOB"],
    "begin": ["first-hook"],
    "bevel": ["round 25", "2"],
    "blows": ["25", "100", "--to", "20", "--at", "1100"],
    "cooling": ["25"],
    "done": ["JOB"],
    "edge": ["--thickness", "6"],
    "expansion": ["100", "--at", "900"],
    "fire": ["JOB"],
    "fit": ["JOB", "30"],
    "haft": ["30", "--wood", "ash"],
    "heat": ["JOB"],
    "length": ["ring", "--stock", "10"],
    "lost": ["JOB", "tip=2"],
    "new": ["x.yaml"],
    "next-time": ["JOB"],
    "note": ["JOB", "a note"],
    "paper": ["first-hook", "--out", "x.pdf"],
    "picture": ["JOB"],
    "plan": ["first-hook"],
    "read": ["JOB", "tip.mark=30.6"],
    "sheet": ["JOB"],
    "soaking": ["25", "--fire", "1200"],
    "spread": ["25", "--to", "20"],
    "photo": ["JOB", "x.png"],
    "take": ["JOB", "start-again"],
    "temper": ["C45"],
    "weight": ["25"],
}
OPTIONS = [
    (verb, take.name)
    for verb in verbs()
    for take in command_of(verb).TAKES
    if take.name.startswith("-") and take.typed is not Typed.FLAG
]


@pytest.mark.parametrize(("verb", "option"), OPTIONS)
def test_an_option_whose_value_is_blank_is_refused_by_its_name(coach: Coach, verb: str, option: str) -> None:
    job = coach.job()
    beside = [job if word == "JOB" else word for word in BESIDE.get(verb, [])]
    if option in beside:
        del beside[beside.index(option) : beside.index(option) + 2]
    before = coach("history", job).out
    # Of these the bare option means something, which `--hot=` is no other than.
    for value in (" ", "--") if option in ("--hot", "--part") else ("", " ", "--"):
        said = coach(verb, *beside, f"{option}={value}")
        assert (said.code, said.out) == (2, ""), (value, said)
        assert len(said.err.splitlines()) == 1
        assert "still to be given" not in said.err
    assert coach("history", job).out == before


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            ["read", "JOB", "tip.mark=30.6", "--at", ""],
            "Nothing is named for --at: leave it out, or type TIME",
        ),
        (["lost", "JOB", "tip=2", "--by", " "], "Nothing is named for --by: leave it out, or type"),
        (["begin", "first-hook", "--bar", ""], "Nothing is named for --bar: leave it out, or type"),
        (["picture", "JOB", "--piece="], "Nothing is named for --piece: leave it out, or type"),
        (["colour", ""], "Nothing is named for COLOUR_OR_TEMPERATURE: leave it out"),
        (["export", "JOB", ""], "A file cannot have a name of blanks"),
        (["restore", ""], "blanks name no file"),
        (["where", "JOB", "--units="], "--units"),
    ],
)
def test_what_is_blank_is_told_with_what_to_type_instead(coach: Coach, words: list[str], told: str) -> None:
    job = coach.job()
    said = coach(*(job if word == "JOB" else word for word in words))
    assert (said.code, said.out) == (2, "")
    assert told in said.err


@pytest.mark.parametrize("option", ["--shop", "--units"])
@pytest.mark.parametrize("words", [["jobs"], ["where", "JOB"], []])
def test_an_option_of_every_command_takes_no_end_of_options_for_its_value(
    coach: Coach, option: str, words: list[str]
) -> None:
    job = coach.job()
    line = [job if word == "JOB" else word for word in words]
    for asked in ([*line, f"{option}=--"], [f"{option}=--", *line]):
        said = coach(*asked)
        assert (said.code, said.out) == (2, ""), said
        assert f"Nothing is named for {option}: leave it out, or type " in said.err


def test_an_end_of_options_is_still_an_end_of_options(coach: Coach) -> None:
    job = coach.job()
    assert coach("note", job, "--", "--heats=--").code == 0
    assert "--heats=--" in coach("history", job).out
