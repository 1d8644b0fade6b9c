"""The command line is taken apart the same way wherever its options stand."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach import reckoner
from coach.cli import commands
from coach.cli.commands.read import arrange
from coach.cli.line import split, verbs, wants_json
from tests.cli.conftest import Coach


@pytest.mark.parametrize(
    ("words", "verb", "rest"),
    [
        ([], None, []),
        (["--json"], None, ["--json"]),
        (["jobs"], "jobs", []),
        (["--shop", "s.sqlite", "jobs", "--json"], "jobs", ["--shop", "s.sqlite", "--json"]),
        (["--shop=s.sqlite", "jobs"], "jobs", ["--shop=s.sqlite"]),
        (["--units", "in", "where", "hook"], "where", ["--units", "in", "hook"]),
        (["--", "jobs"], "jobs", []),
        (["--"], None, []),
        (["--json", "--"], None, ["--json"]),
        (["--shop"], None, ["--shop"]),
        (["note", "hook", "--", "-2 mm"], "note", ["hook", "--", "-2 mm"]),
    ],
)
def test_the_verb_is_found_among_the_options(words: list[str], verb: str | None, rest: list[str]) -> None:
    assert split(words) == (verb, rest)


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        (["jobs", "--json"], True),
        (["--json", "nonsense"], True),
        (["note", "hook", "--", "--json"], False),
        ([], False),
    ],
)
def test_an_answer_in_json_is_wanted_also_when_the_line_is_wrong(words: list[str], wanted: bool) -> None:
    assert wants_json(words) is wanted


@pytest.mark.parametrize(
    ("words", "arranged"),
    [
        (["hook", "--hot", "tip.width=8"], ["hook", "--hot=", "tip.width=8"]),
        (["hook", "--hot", "950C", "tip.width=8"], ["hook", "--hot", "950C", "tip.width=8"]),
        (["hook", "tip.width=8", "--hot"], ["hook", "tip.width=8", "--hot"]),
        (["hook", "--", "--hot", "a=1"], ["hook", "--", "--hot", "a=1"]),
    ],
)
def test_hot_does_not_take_a_size_for_a_heat(words: list[str], arranged: list[str]) -> None:
    assert arrange(words) == arranged


def test_every_file_of_the_commands_and_of_the_reckoner_is_a_command() -> None:
    folders = Path(str(commands.__file__)).parent, Path(str(reckoner.__file__)).parent
    names = {file.stem for folder in folders for file in folder.glob("*.py")} - {"__init__"}
    assert set(verbs()) == {name.removesuffix("_").replace("_", "-") for name in names}


@pytest.mark.parametrize("verb", verbs())
def test_every_command_shows_what_it_takes(coach: Coach, verb: str) -> None:
    said = coach(verb, "--help")
    assert said.code == 0
    assert said.out.startswith(f"usage: coach {verb}")
    assert "--shop FILE" in said.out


def test_help_lists_every_command(coach: Coach) -> None:
    said = coach("--help")
    assert said.code == 0
    listed = [line.split()[0] for line in said.out.splitlines() if line.startswith("  ") and line.strip()]
    assert set(verbs()) <= set(listed)


@pytest.mark.parametrize("words", [["--version"], ["jobs", "--version"], ["--json", "--version"]])
def test_the_version_is_told(coach: Coach, words: list[str]) -> None:
    from coach import __version__

    said = coach(*words)
    assert (said.code, said.out) == (0, f"coach {__version__}\n")


@pytest.mark.parametrize("place", ["before", "after"])
def test_common_options_stand_before_the_verb_or_after_it(coach: Coach, tmp_path: Path, place: str) -> None:
    options = ("--shop", str(tmp_path / "other.sqlite"), "--json")
    words = (*options, "begin", "first-hook") if place == "before" else ("begin", "first-hook", *options)
    assert coach(*words).values["job"] == "first-hook"
    assert (tmp_path / "other.sqlite").is_file()
    # Nothing of the job is in the usual place but what is only kept to open it sooner.
    assert [folder.name for folder in coach.home.iterdir()] == ["cache"]


@pytest.mark.parametrize("words", [["--", "--"], [""], [" ", " "]])
def test_what_is_needed_and_is_blank_is_asked_for(coach: Coach, words: list[str]) -> None:
    said = coach("note", coach.job(), *words)
    assert said.code == 2
    assert "Nothing was typed for TEXT" in said.err or "The note is empty" in said.err


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("first\u200b-hook", "(with U+200B, ZERO WIDTH SPACE, in it): did you mean first-hook?"),
        ("f\u0456rst-hook", "(with U+0456, CYRILLIC SMALL LETTER BYELORUSSIAN-UKRAINIAN I, in it): did you"),
        ("First-Hok", "'First-Hok': did you mean first-hook?"),
    ],
)
def test_a_name_that_is_refused_is_told_as_typed_with_what_is_not_seen_in_it(
    coach: Coach, typed: str, told: str
) -> None:
    coach.job()
    assert told in coach("where", typed).err
    zone = coach("read", "first-hook", f"{typed.removesuffix('-hook')}.length=3").err
    assert "There is no zone called" in zone
    assert typed.isascii() or told.partition(",")[0] in zone


def test_a_name_that_only_looks_like_the_one_typed_is_told_as_that(coach: Coach) -> None:
    coach("begin", "cold-chisel", "--name", "f\u0456rst-hook")
    assert "did you mean f\u0456rst-hook (with U+0456, CYRILLIC" in coach("where", "first-hook").err
