"""Zones that split into others, as a recipe says them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coach.bench.understood import understood
from coach.ledger.looking_back import look_back
from coach.ledger.weigh import weigh
from coach.recipe.faults import RecipeFaults
from coach.recipe.model import Branch
from coach.recipe.reader import read_recipe
from coach.recipe.spelling import spelt_out
from coach.recipe.writing import write_recipe
from coach.telling.words import write
from tests.recipes.texts import FORKED

GUIDE = Path(__file__).parents[2] / "docs" / "recipes.md"


def shares(said: str) -> list[Branch]:
    recipe = read_recipe(FORKED.replace("left and right", said), "fork.yaml")
    return list(recipe.pieces["fork"].branches["end"])


@pytest.mark.parametrize(
    ("said", "left"),
    [
        ("left and right", 0.5),
        ("left 60 % and right 40 %", 0.6),
        ("left 60 % and right", 0.6),
        ("left and right 40 %", 0.6),
        ("left 60% and right", 0.6),
        ("left 62,5 % and right", 0.625),
    ],
)
def test_shares_that_are_not_said_have_what_is_left(said: str, left: float) -> None:
    found = shares(said)
    assert [one.zone for one in found] == ["left", "right"]
    assert [one.share for one in found] == pytest.approx([left, 1 - left])


def test_the_branches_may_stand_as_a_key_below_their_zone() -> None:
    text = FORKED.replace(
        "end: 20 x 8, splits into left and right",
        "end:\n        size: 20 x 8\n        splits into: left and right",
    )
    assert read_recipe(text, "x").pieces == read_recipe(FORKED, "x").pieces


def test_only_what_is_split_lies_along_the_bar() -> None:
    piece = read_recipe(FORKED, "x").pieces["fork"]
    assert piece.zones == ("stem", "end")
    assert piece.every_zone == ("stem", "end", "left", "right")
    assert piece.finished_zones == ("stem", "left", "right")
    assert [mark.ends for mark in look_back(read_recipe(FORKED, "x")).pieces["fork"].marks] == ["stem", "end"]


def test_a_step_on_all_of_a_piece_is_on_what_there_is_of_it_then() -> None:
    text = FORKED.replace("  - split: end\n", "  - anneal: all of fork, at 680 °C\n  - split: end\n")
    recipe = read_recipe(text + "  - normalise: all of fork, at 900 °C\n", "x")
    assert recipe.steps[1].heated == ("stem", "end")
    assert recipe.steps[2].heated == ("left", "right")
    assert recipe.steps[-1].heated == ("stem", "left", "right")


def test_each_of_two_made_alike_is_split_into_its_own() -> None:
    text = FORKED.replace("    bar: 20 x 8\n", "    bar: 20 x 8\n    make: 2\n")
    recipe = read_recipe(text, "x")
    assert [one.zone for one in recipe.pieces["fork 2"].branches["fork 2 end"]] == [
        "fork 2 left",
        "fork 2 right",
    ]
    splits = [step for step in recipe.steps if step.parts]
    assert [step.parts for step in splits] == [
        ("fork 1 left", "fork 1 right"),
        ("fork 2 left", "fork 2 right"),
    ]
    plan = look_back(recipe)
    assert plan.start_mm3["fork 2 left"] == pytest.approx(3600)


def test_what_is_written_is_read_back_the_same() -> None:
    text = FORKED.replace("left and right", "left 60 % and right")
    again = write_recipe(spelt_out(text, "x"))
    assert "splits into left 60 % and right" in again
    assert read_recipe(again, "x")._replace(text="") == read_recipe(text, "x")._replace(text="")


def test_it_is_echoed_as_it_was_understood() -> None:
    told = {one.what: write(one.words) for one in understood(look_back(read_recipe(FORKED, "x")))}
    assert "splits into left 50 % and right 50 %" in told["end"]
    assert told["step 2"].startswith("split end, into left and right")
    assert "split from the end" in told["left"] or "taper" not in told["left"]


def test_the_shares_that_the_drawings_want_are_told() -> None:
    (told,) = (write(one.sentence) for one in weigh(look_back(read_recipe(FORKED, "x"))))
    # By hand: 3600 of 6480 mm³ are 56 %.
    assert "By their drawings end is split into left 56 % and right 44 %." in told


def test_a_length_that_is_said_of_what_is_split_is_held_against_what_its_branches_need() -> None:
    text = FORKED.replace("20 x 8, splits", "20 x 8, long 90, splits")
    told = " ".join(write(one.sentence) for one in weigh(look_back(read_recipe(text, "x"))))
    assert "the length of end at 45 mm when it is split, and the drawing wants 90 mm" in told


def test_the_example_of_the_guide_is_sound() -> None:
    section = GUIDE.read_text(encoding="utf-8").partition("### Branches")[2]
    found = re.search(r"```yaml\n(recipe:.*?)```", section, re.DOTALL)
    assert found is not None
    assert not weigh(look_back(read_recipe(found[1], "guide.yaml")))


def faults(text: str) -> list[str]:
    """What keeps it from being read."""
    with pytest.raises(RecipeFaults) as refused:
        read_recipe(text, "fork.yaml")
    return [write(one.message) for one in refused.value.faults]


def test_a_branch_does_not_lie_in_the_fire_of_the_step_that_splits_it_off() -> None:
    text = FORKED.replace("  - split: end\n", "  - split: end, also hot left and stem\n")
    assert faults(text) == ["left is part of end until this step has split it: leave it out here"]
    read_recipe(text.replace("left and stem", "stem"), "fork.yaml")


@pytest.mark.parametrize(("check", "hint"), [("left length", "left.length"), ("length", "left.length")])
def test_a_check_of_a_branch_is_told_as_it_is_written(check: str, hint: str) -> None:
    text = FORKED.replace("  - split: end\n", f"  - split: end\n    check: {check}\n")
    assert faults(text) == [f"say of which branch, as in {hint}"]
    read_recipe(text.replace(check, hint), "fork.yaml")
