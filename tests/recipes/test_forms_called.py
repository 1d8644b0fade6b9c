"""What is no form, and what is bent and to have holes: how the line is written is told, once."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.forms import forms_called, kinds
from coach.ledger.looking_back import look_back
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from tests.recipes.test_faults import faults_of

TOOL = """\
recipe: Tool
pieces:
  tool:
    metal: mild steel
    bar: 25 x 5
    zones:
      end: {zone}
      shank: 25 x 5, long 100
steps:
  - cut: shank, cold
  - {step}
"""


def told(zone: str, step: str = "straighten: shank, bow at most 1, cold") -> list[str]:
    return [write(one.message) for one in faults_of(TOOL.format(zone=zone, step=step))]


@pytest.mark.parametrize(
    ("word", "written"),
    [
        ("spring", "it is written as coil of round 8"),
        ("tray", "it is written as 30 x 8, as it lies flat: bend turns its sides up"),
        ("hoop", "it is written as ring of 40 x 6 on edge"),
        ("cone", "it is written as round 14 to 9"),
        ("tube", "it is written as socket"),
        ("dish", "a round one is a bowl, across 88, deep 26, wall 2; of any other write its plate"),
        ("curved", "what is curved across its bar is no form: write the flat that it is made of"),
        ("bent", "write the bar as it lies straight; a step bends it"),
    ],
)
def test_how_it_is_written_is_told(word: str, written: str) -> None:
    (found,) = told(f"{word}, long 90")
    assert found.startswith(f"“{word}” is no word of a zone: {written}")


@pytest.mark.parametrize(
    ("zone", "says"),
    [
        ("coil of round, inside 18, pitch 11, wound long 90", "write of, its section and its size"),
        ("coil from round 8, inside 18, pitch 11, wound long 90", "write of, its section and its size"),
        ("coil round 8, inside 18, pitch 11, wound long 90", "or of round if it is the bar"),
        ("coil of round 8, inside 18, pitch 11, wound 90", "did you mean wound length?"),
        ("coil of round 8, inside 18, 9 turns, wound long 90", "a twist is twisted 3 turns"),
        ("hollow 40 x 3, long 90", "write the flat that it is made of"),
        ("hollow 40, long 90", "write the flat that it is made of"),
        ("socket, mouth 38 x 22, wall 3, long 90", "“mouth” is one size: write each of two behind its own"),
        ("fork, root wide 30, long 90", "the sizes of a fork are tine, thickness, end tine, end thickness"),
        ("25 x 5, holes 6, long 120", "say how many and of what shape, as in three round holes 6"),
        ("25 x 5, 3 holes 6, long 120", "say how many and of what shape, as in three round holes 6"),
    ],
)
def test_a_slip_in_its_words_is_told_with_what_to_write(zone: str, says: str) -> None:
    assert any(says in one for one in told(zone)), told(zone)


def test_a_word_of_others_is_no_form_of_ours() -> None:
    assert not forms_called().keys() & kinds().keys()


NEAREST = "draw it as its bar with the holes in it, pierce that flat, and bend it by radius and angle"


def test_a_ring_with_holes_says_what_comes_nearest() -> None:
    (found,) = told("ring of 25 x 5 on edge, inside 150, four round holes 6", "bend: end, ring")
    assert found.endswith(NEAREST)


def test_a_ring_is_not_pierced_after_it_is_bent() -> None:
    text = TOOL.format(zone="ring of 25 x 5 on edge, inside 150", step="bend: end, ring")
    found = [write(one.message) for one in faults_of(text + "  - pierce: end, four round holes 6\n")]
    assert found == [f"end is a ring form by then: {NEAREST}"]


def test_what_comes_nearest_can_be_written() -> None:
    text = TOOL.format(zone="25 x 5, four round holes 6, long 490 ±9", step="pierce: end")
    plan = look_back(read_recipe(text + "  - bend: end, radius 75 ±4, angle 350 ±5\n", "tool.yaml"))
    assert [one for one in planned_tool(plan).findings if one.zone == "end"] == []


def test_a_step_that_says_hot_is_told_how_a_heat_is_said() -> None:
    (found,) = told("40 x 6, long 90 ±8", "straighten: shank, bow at most 1, hot")
    assert "a hot step says its heats or its colour, as in 1 heat, or at yellow" in found


def test_a_square_hole_goes_through_the_flat_of_its_bar_unless_it_is_said() -> None:
    text = TOOL.format(
        zone="25 x 5, square hole 7, long 90", step="punch: end, square hole 7, slug 3, 1 heat"
    )
    shape = read_recipe(text, "tool.yaml").drawing["end"].shape
    assert (shape.options["hole"], shape.options.get("through", "thickness")) == ("rectangle", "thickness")
    assert "which way" in told("25 x 5, oval hole 12 x 7, long 90")[0]
