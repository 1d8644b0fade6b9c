"""Begun from the bar that lies there: marks and cuts by it, and nothing begun on a bar that cannot do it."""

from __future__ import annotations

import json
import re
from itertools import pairwise
from pathlib import Path

import pytest

from coach.places import bundled_recipes
from tests.bench.test_spread_half_way import LIFTER
from tests.cli.conftest import Coach


def first_mark_mm(coach: Coach, *words: str) -> float:
    planned = coach("plan", "first-hook", *words).out
    return float(re.findall(r"mark at ([\d.]+) mm", planned)[0])


def test_marks_follow_the_bar_that_is_there(coach: Coach) -> None:
    """The tip's metal is the same, so its part of the bar is as the sections: 10²/16² of it, scale apart."""
    other = first_mark_mm(coach, "--bar", "square 16")
    assert other == pytest.approx(first_mark_mm(coach) * 10.0**2 / 16.0**2, rel=0.03)
    assert coach("begin", "first-hook", "--bar", "square 16").code == 0
    assert f"wanted {other:.1f}" in coach("where", "first-hook").out


@pytest.mark.parametrize("bar", ["square 16, long 400", "square 16", "square 16, long 300"])
def test_the_recipes_own_bar_changes_nothing_but_its_length(coach: Coach, tmp_path: Path, bar: str) -> None:
    path = tmp_path / "lifter.yaml"
    path.write_text(LIFTER.replace("FREE", ""), encoding="utf-8")

    def told(*words: str) -> tuple[list[str], list[str]]:
        out = coach("plan", str(path), *words).out
        return re.findall(r"mark at [\d.]+ mm", out), re.findall(r"\d+ forging heats?", out)

    assert told("--bar", bar) == told()
    marks, heats = told("--bar", "square 14")
    assert marks != told()[0]  # of another section they are others
    assert heats != told()[1]


@pytest.mark.parametrize(
    ("name", "own", "bars"),
    [
        (
            "cross-peen-hammer",
            40.0,
            ("body=square 38", "body=square 40.2", "body=square 44", "body=square 45"),
        ),
        ("first-hook", 10.0, ("square 9", "square 10.2", "square 12", "square 16", "square 20")),
    ],
)
def test_more_metal_to_move_needs_no_fewer_heats(
    coach: Coach, name: str, own: float, bars: tuple[str, ...]
) -> None:
    """What is drawn down, from thinner bars to thicker ones; the recipe's own stands between them."""

    def heats(*words: str) -> dict[str, int]:
        told = coach("plan", name, *words, "--json").part("steps")
        assert isinstance(told, list)
        steps = [one["step"] for one in told]
        drawn = [step for step in steps if step["operation"] in ("draw", "taper", "set down")]
        return {step["title"]: step["heats_planned"] for step in drawn}

    sides = [(float(bar.rpartition(" ")[2]), heats("--bar", bar)) for bar in bars]
    found = [of for _, of in sorted([*sides, (own, heats())], key=lambda one: one[0])]
    for thinner, thicker in pairwise(found):
        fewer = {title for title in thinner.keys() & thicker.keys() if thicker[title] < thinner[title]}
        assert not fewer


def test_a_bar_that_cannot_make_it_is_not_begun_in_silence(coach: Coach) -> None:
    refused = coach("begin", "first-hook", "--bar", "round 8")
    assert refused.code != 0
    assert "From that bar it is off plan before it is begun." in refused.err
    assert "upset it first" in refused.err
    assert "--anyway" in refused.err
    assert coach("jobs", "--json").part("jobs") == []
    assert coach("begin", "first-hook", "--bar", "round 8", "--anyway").code == 1  # begun, and off plan
    assert coach("where", "first-hook").code == 1


def test_a_bar_that_is_too_short_says_how_much_is_missing(coach: Coach) -> None:
    refused = coach("begin", "first-hook", "--bar", "square 10, long 60")
    assert "The bar for hook is too short: it is 60 mm long" in refused.err


def test_of_several_pieces_each_bar_says_whose_it_is(coach: Coach) -> None:
    refused = coach("begin", "carpenters-adze", "--bar", "50 x 35")
    assert "made of body, face and edge: say which one the bar is for, such as body=50 x 35." in refused.err
    assert "did you mean body?" in coach("begin", "carpenters-adze", "--bar", "bod=50 x 35").err
    begun = coach("begin", "carpenters-adze", "--bar", "body=50 x 35; edge=60 x 8", "--anyway")
    assert begun.out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--bar", "16"), "The bar “16”"),
        (("--bar", "a bit of iron"), "The bar “a bit of iron”"),
        (("--anyway",), "--anyway is for a bar that is there"),
    ],
)
def test_what_is_no_bar_is_refused_in_a_sentence(coach: Coach, words: tuple[str, ...], said: str) -> None:
    refused = coach("begin", "first-hook", *words)
    assert refused.code == 2
    assert said in refused.err


HOOKS = """\
recipe: Wall hooks
make: 3
pieces:
  hook:
    metal: mild steel
    bar: square 10, long 900
    zones:
      tip: square 8 to 3, long 90
      shank: square 8, long 110
usual: {at: light orange, kerf: 2}
steps:
  - mark out: hook
  - taper: tip
  - draw: shank
  - cut: shank, cold
"""


@pytest.fixture
def hooks(tmp_path: Path) -> str:
    path = tmp_path / "hooks.yaml"
    path.write_text(HOOKS, encoding="utf-8")
    return str(path)


@pytest.mark.parametrize(
    "bar", ["square 12, long 700", "hook=square 12, long 700", "hook 2=square 12, long 700"]
)
def test_what_is_made_several_times_is_all_taken_from_the_bar_that_is_there(
    coach: Coach, hooks: str, bar: str
) -> None:
    plan = json.loads(coach("plan", hooks, "--bar", bar, "--json").out)
    own = json.loads(coach("plan", hooks, "--json").out)
    (row,), (own_row,) = plan["rows"], own["rows"]
    assert [one["piece"] for one in row["pieces"]] == ["hook 1", "hook 2", "hook 3"]
    # The metal is the same, so the row is as the sections: 10²/12² of it, scale and kerf apart.
    assert row["length"]["value"] == pytest.approx(own_row["length"]["value"] * 100 / 144, rel=0.03)
    assert row["left_over"]["value"] == pytest.approx(700 - row["length"]["value"], abs=0.1)
    begun = coach("begin", hooks, "--bar", bar)
    assert "Job wall-hooks is begun" in begun.out


def test_of_several_from_one_bar_it_is_said_what_they_lack_together(coach: Coach, hooks: str) -> None:
    refused = coach("begin", hooks, "--bar", "square 12, long 150")
    assert refused.code != 0
    assert "hooks.yaml:6:10: The bar for hook 1, hook 2 and hook 3 is too short" in refused.err
    assert "it is 150 mm long and the job needs 2" in refused.err
    needed = float(refused.err.split("the job needs ")[1].split(" mm")[0])
    enough = int(150 / (needed / 3))  # each of the three takes as much
    assert f"It is enough for {enough} of them, {enough * needed / 3:.0f}" in refused.err.replace(
        ".0 mm", " mm"
    )
    assert "upset" not in refused.err


def test_what_the_bar_cannot_do_is_told_with_the_line_of_the_file_that_was_given(
    coach: Coach, tmp_path: Path
) -> None:
    path = tmp_path / "hatchet.yaml"
    text = (bundled_recipes() / "hedging-hatchet.yaml").read_text(encoding="utf-8")
    path.write_text(text, encoding="utf-8")
    line = text[: text.index("  - punch: eye")].count("\n") + 1
    for verb in ("plan", "begin"):
        told = coach(verb, str(path), "--bar", "body=20 x 10")
        assert told.code == 1
        assert f"hatchet.yaml:{line}:5: It cannot be made of that bar: Step " in told.err
        assert "leaves no wall" in told.err


def test_a_bar_of_another_section_is_drawn_before_it_is_twisted_or_curled(
    coach: Coach, tmp_path: Path
) -> None:
    for name, bar in (
        ("twisted-poker", "round 16"),
        ("scrolled-bracket", "scroll=25 x 10"),
    ):
        told = coach("plan", name, "--bar", bar).out
        assert "it is made of" not in told
        assert "gathers no metal" not in told


@pytest.mark.parametrize(
    "words", [["plan", "--bar", "square 12"], ["begin", "--bar", "square 12"], ["new", "--like"]]
)
def test_a_recipe_with_faults_is_told_them_whatever_bar_it_is_to_be_made_of(
    coach: Coach, tmp_path: Path, words: list[str]
) -> None:
    written = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    faulty = tmp_path / "faulty.yaml"
    faulty.write_text(written.replace("steps:", "steps:\n  - saw: nothing\n", 1), encoding="utf-8")
    said = coach(
        *words, str(faulty), *([str(tmp_path / "new.yaml"), "--scale", "2"] if "--like" in words else [])
    )
    assert "“saw” is no operation" in said.err
    assert said.code == 1
