"""A part is held against the hole that it is tried in, each of several alike against its own."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.drafting.alike import made_like
from coach.ledger.looking_back import look_back
from coach.ledger.weigh import Cannot
from coach.recipe.model import Recipe
from coach.recipe.reader import read_recipe
from coach.telling.words import write

TEXT = """\
recipe: Gate hook
pieces:
  strap:
    metal: mild steel
    bar: 30 x 6
    size: 30 x 6, long 100 ±30, {hole}
  pintle:
    metal: mild steel
    bar: {bar}
    zones:
      pin: {pin}, long 60 ±30
      shank: {bar}, long 60 ±30
steps:
  - cut: strap, cold
  - cut: shank, cold
  - punch: strap
  - draw: pin
  - {fit}
"""
FIT = "fit: pin to strap, gap at most 0.5"


def recipe_of(*, hole: str, pin: str, bar: str = "round 16", fit: str = FIT) -> str:
    return TEXT.format(hole=hole, pin=pin, bar=bar, fit=fit)


def found(text: str) -> list[tuple[int, str, int, str]]:
    """What is found of the fit: step, zone, line and words."""
    findings = planned_tool(look_back(read_recipe(text, "hook.yaml"))).findings
    return [
        (one.step, one.zone, one.line, write(one.sentence)) for one in findings if one.what is Cannot.SEAT
    ]


@pytest.mark.parametrize(
    ("hole", "pin", "bar"),
    [
        ("round hole 10", "round 14", "round 16"),
        ("round hole 10", "round 10.5", "round 16"),
        # A square of 10 mm is 14.1 mm across its corners (Pythagoras).
        ("round hole 12", "square 10", "square 16"),
        ("slot hole 12 x 6 through its thickness", "10 x 8", "square 16"),
    ],
)
@pytest.mark.parametrize("fit", [FIT, "fit: strap to pin, gap at most 0.5", "fit: pin to strap"])
def test_a_part_that_is_thicker_than_its_hole_does_not_go_in(hole: str, pin: str, bar: str, fit: str) -> None:
    ((step, _, line, words),) = found(recipe_of(hole=hole, pin=pin, bar=bar, fit=fit))
    assert (step, line) == (5, 18)
    assert "it does not go in" in words


def test_it_stands_off_by_half_the_difference() -> None:
    """(12 - 8) / 2 = 2 mm all round (by hand)."""
    ((step, zone, _, words),) = found(recipe_of(hole="round hole 12", pin="round 8"))
    assert (step, zone) == (5, "pin")
    assert "2 mm all round" in words
    assert "at most 0.5 mm" in words


@pytest.mark.parametrize(
    ("hole", "pin", "bar", "fit"),
    [
        ("round hole 12", "round 11.5", "round 16", FIT),
        ("round hole 12", "round 12", "round 16", FIT),
        ("round hole 15", "square 10", "square 16", FIT),
        ("slot hole 12 x 9 through its thickness", "8 x 11", "square 16", FIT),
        ("round hole 12", "round 15 to 8", "round 16", "fit: pin to strap"),
        # The shoulder seats on the strap, and the pin before it goes in.
        ("round hole 12", "round 11.5", "round 16", "fit: shank to strap"),
        ("round hole 12", "round 14", "round 16", "fit: pin"),
    ],
)
def test_what_fits_is_no_finding(hole: str, pin: str, bar: str, fit: str) -> None:
    assert found(recipe_of(hole=hole, pin=pin, bar=bar, fit=fit)) == []


def test_each_of_several_is_tried_in_its_own() -> None:
    text = recipe_of(hole="round hole 12", pin="round 11.5").replace("pieces:", "make: 2\npieces:", 1)
    assert fits_of(read_recipe(text, "hooks.yaml")) == [
        ("pintle 1 pin", "strap 1"),
        ("pintle 2 pin", "strap 2"),
    ]


def fits_of(recipe: Recipe) -> list[tuple[str, ...]]:
    return [(*step.zones, *step.tried_on) for step in recipe.steps if step.operation == "fit"]


def test_a_recipe_like_it_says_what_it_is_fitted_to() -> None:
    text = recipe_of(hole="round hole 12", pin="round 11.5")
    again = made_like(text, "hook.yaml", scale=1.1)
    assert "  - fit: pin to strap, gap at most" in again
    assert fits_of(read_recipe(again, "again.yaml")) == fits_of(read_recipe(text, "hook.yaml"))
    several = made_like(text.replace("pieces:", "make: 2\npieces:", 1), "hooks.yaml", scale=1.1)
    assert fits_of(read_recipe(several, "several.yaml"))[1] == ("pintle 2 pin", "strap 2")


HINGE = """\
recipe: Shutter hinge
usual: {at: light orange, weld at: 1280 °C, flux: borax}
pieces:
  strap:
    metal: mild steel
    bar: 30 x 6
    zones:
      eye: strap eye, inside INSIDE, wide 30, thick 6, lap 35 ±4
      leaf: 30 x 6 to 18 x 4, long 250 ±10
  pintle:
    metal: mild steel
    bar: square 16
    zones:
      pin: round 13 ±0.3, long 50 ±4
      spike: square 16 to 4, long 110 ±8
steps:
  - taper: leaf, 3 heats
  - fold: eye, strap eye, 2 heats
  - weld shut: eye, 2 heats
  - draw: pin, round 13, 3 heats
  - taper: spike, 2 heats
  - bend: pin, angle 90, 1 heat
  - fit: pin to eye, gap at most 1.5
"""


@pytest.mark.parametrize("fit", ["fit: pin to eye", "fit: eye to pin"])
@pytest.mark.parametrize(
    ("inside_mm", "told"),
    [
        (12, "does not go in"),
        (10, "does not go in"),
        # The spike's point goes in, and does not bring the pin there.
        (5, "does not go in"),
        (14, None),
        # (40 - 13) / 2 = 13.5 mm all round (by hand).
        (40, "stands off by 13.5 mm all round"),
    ],
)
def test_the_inside_of_a_folded_eye_is_the_hole_of_a_pin(inside_mm: int, told: str | None, fit: str) -> None:
    text = HINGE.replace("INSIDE", f"{inside_mm}").replace("fit: pin to eye", fit)
    words = [one for _, _, _, one in found(text)]
    assert words == [] if told is None else len(words) == 1 and told in words[0]


def test_a_part_is_not_tried_on_itself() -> None:
    ((step, _, _, words),) = found(HINGE.replace("INSIDE", "14").replace("pin to eye", "pin to pin"))
    assert step == 7
    assert "pin is tried on itself" in words


def test_zones_of_one_straight_bar_are_not_tried_on_each_other() -> None:
    straight = HINGE.replace("INSIDE", "14").replace("  - bend: pin, angle 90, 1 heat\n", "")
    ((_, _, _, words),) = found(straight.replace("pin to eye", "pin to spike"))
    assert "pin and spike are of one straight bar" in words
    assert found(HINGE.replace("INSIDE", "14").replace("pin to eye", "leaf to eye")) == []
