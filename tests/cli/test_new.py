"""`coach new` asks, proposes, shows and writes a recipe that passes check, over nothing that is there."""

from __future__ import annotations

import io
import json
import shlex
from pathlib import Path

import pytest

from coach.drafting.answers import Answers, CannotDraft
from coach.drafting.checked import Draft
from coach.drafting.draft import drafted
from tests.cli.conftest import Coach

ANSWERS = """\
name: Wall hook
metal: mild steel
bar: square 10
zones:
  tip: square 8 to 3, long 90
  shank: square 8, long 110
"""


def given(folder: Path, text: str = ANSWERS) -> str:
    path = folder / "answers.yaml"
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_from_a_file_of_answers_it_writes_a_recipe_that_passes_check(coach: Coach, tmp_path: Path) -> None:
    path = tmp_path / "hook.yaml"
    told = coach("new", str(path), "--from", given(tmp_path))
    assert told.code == 0, told.err
    words = " ".join(told.out.split())
    assert "The finished body" in words
    assert "shorter than it will be drawn" in words
    assert "Where the doubt comes from" in words
    assert ": ok, Wall hook, 4 steps" in coach("check", str(path)).out
    again = coach("new", str(path), "--from", given(tmp_path))
    assert again.code
    assert "--force" in again.err
    assert coach("new", str(path), "--from", given(tmp_path), "--force").code == 0


def test_one_question_at_a_time_can_be_gone_back_on(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed = [
        *("Wall hook", "", "mild stel", "mild steel", "square 10"),
        *("tip: square 8 to 3, lnog 90", "tip: square 8 to 3, long 90", "shank: square 9, long 110", "<"),
        *("shank: square 8, long 110", "", "", "", ""),
    ]
    monkeypatch.setattr("sys.stdin", io.StringIO("\n".join(typed) + "\n"))
    path = tmp_path / "hook.yaml"
    told = coach("new", str(path))
    assert told.code == 0, told.err
    assert "the nearest is mild steel" in told.err
    assert "did you mean long?" in told.err
    text = path.read_text(encoding="utf-8")
    assert "shank: square 8, long 110" in text
    assert "square 9" not in text


def test_where_no_recipe_follows_in_the_end_nothing_that_was_answered_is_lost(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    refused = [CannotDraft("No such tool.")]

    def once(answers: Answers) -> Draft:
        if refused:
            raise refused.pop()
        return drafted(answers)

    typed = ("Wall hook", "", "mild steel", "square 10", "tip: square 8 to 3, long 90", "", "", "", "", "")
    path = tmp_path / "hook.yaml"
    monkeypatch.setattr("coach.drafting.draft.drafted", once)
    monkeypatch.setattr("sys.stdin", io.StringIO("\n".join(typed) + "\n"))
    told = coach("new", str(path))
    assert "No such tool." in told.err
    assert "The last question once more" in told.err
    assert path.exists()


def test_answers_that_end_too_soon_are_said(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("Wall hook\n"))
    told = coach("new", str(tmp_path / "hook.yaml"))
    assert told.code
    assert "The answers end before" in told.err
    assert not (tmp_path / "hook.yaml").exists()


def test_like_another_a_fifth_larger_and_from_another_bar(coach: Coach, tmp_path: Path) -> None:
    for name, more in (("large", ("--scale", "1.2")), ("round", ("--bar", "round 14"))):
        path = tmp_path / f"{name}.yaml"
        assert coach("new", str(path), "--like", "first-hook", *more).code == 0
        assert ": ok, First hook, 9 steps" in coach("check", str(path)).out


def test_an_outline_with_one_known_size_becomes_a_profile(coach: Coach, tmp_path: Path) -> None:
    svg = tmp_path / "leaf.svg"
    svg.write_text(
        '<svg xmlns="http://www.w3.org/2000/svg">'
        '<path d="M0,-2 C40,-10 80,-10 120,-5 L120,5 C80,10 40,10 0,2 Z"/></svg>',
        encoding="utf-8",
    )
    path = tmp_path / "leaf.yaml"
    known = ("--long", "240", "--thick", "6", "--bar", "30 x 8")
    assert coach("new", str(path), "--outline", str(svg), *known).code == 0
    (one,) = json.loads(coach("check", str(path), "--json").out)["recipes"]
    assert (one["ok"], one["title"], one["verdict"]) == (True, "Leaf", "on plan")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--like", "first-hook"), "--scale 1.2, or --bar"),
        (("--like", "first-hook", "--scale", "big"), "is no scale"),
        (("--scale", "1.2"), "give it with --like"),
        (("--long", "240"), "give it with --outline"),
        (("--outline", "none.svg"), "add --long, --thick and --bar"),
        (("--outline", "none.svg", "--long", "240", "--thick", "6", "--bar", "30 x 8"), "none.svg"),
        (("--from", "none.yaml"), "none.yaml"),
        (("--from", "none.yaml", "--like", "first-hook"), "three ways to begin"),
    ],
)
def test_what_does_not_go_together_is_said_in_one_sentence(
    coach: Coach, tmp_path: Path, words: tuple[str, ...], told: str
) -> None:
    said = coach("new", str(tmp_path / "x.yaml"), *words)
    assert said.code
    assert told in " ".join(said.err.split())
    assert "coach failed" not in said.err
    assert not (tmp_path / "x.yaml").exists()


@pytest.mark.parametrize("name", ["hooks/hook.yaml", "my hooks/hook.yaml"])
def test_what_to_type_next_names_the_file_where_it_lies(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / name).parent.mkdir(exist_ok=True)
    told = coach("new", "--from", given(tmp_path), name)
    typed = shlex.split(" ".join(told.out.split()).rpartition("Look it over, then: ")[2].removesuffix("."))
    assert typed[:2] == ["coach", "check"]
    assert ": ok, Wall hook" in coach(*typed[1:]).out


def test_a_file_without_a_name_is_refused_and_none_is_named_instead(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    answers = given(tmp_path)
    before = {*tmp_path.iterdir()}
    said = coach("new", "--from", answers, "")
    assert said.code == 2
    assert "A file cannot have a name of blanks" in said.err
    assert {*tmp_path.iterdir()} - before == set()


def test_what_a_larger_one_says_besides_is_told(coach: Coach, tmp_path: Path) -> None:
    written = tmp_path / "large.yaml"
    answer = coach("new", str(written), "--like", "hedging-hatchet", "--scale", "1.5")
    told = " ".join(answer.out.split())
    assert "What its advice says of sizes is as it was." in told
    assert "Its bars are the next that are rolled: for your own add --bar." in told
    assert "bar: 60 x 40 " in written.read_text(encoding="utf-8")  # by hand 54 x 37.5: EN 10058, from memory
