"""A weld sets a joint: what it is to draw its bar down by is asked about."""

from __future__ import annotations

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.questions import questions
from coach.recipe.reader import read_recipe
from coach.telling.words import write

HOE = """\
recipe: Scraper
pieces:
  body:
    metal: mild steel
    bar: 44 x 10, long 400
    zones:
      edge: 44 x 10 to 44 x 3, long 45 ±30
      tang: 44 x 10, long 100 ±12
  bit:
    metal: C45
    bar: 44 x 5
    size: 44 x 5, long 12
usual: {at: light yellow, weld at: 1200 °C, flux: borax, kerf: 2}
steps:
  - mark out: body
  - cut: bit, cold
  - weld: edge with bit, flat, SIZE, 2 heats
  - taper: edge, 3 heats
"""


def asked(size: str) -> list[str]:
    plan = look_back(read_recipe(HOE.replace("SIZE", size), "hoe.yaml"))
    return [told for one in questions(plan) if "draw no bar" in (told := write(one.sentence))]


# By hand: 44 · 10 = 440 mm² of body alone, of which a weld to 20 · 4 = 80 mm² would be five times as long.
def test_a_weld_that_is_to_draw_its_bar_down_is_asked_about() -> None:
    (told,) = asked("20 x 4")
    assert "edge has 440 mm² across it" in told
    assert "leave the weld with 80 mm²" in told


# 440 of 440 and of 396 mm² are 1 and 1.1 times.
@pytest.mark.parametrize("size", ["44 x 10", "44 x 9"])
def test_one_that_only_sets_and_dresses_it_is_not(size: str) -> None:
    assert asked(size) == []


EYE = """\
recipe: Welded eye pin
scale: none
pieces:
  pin:
    metal: mild steel
    bar: 20 x THICK
    zones:
      eye: strap eye, inside 24 ±1.5, wide 20 ±1, thick 5 ±0.5, lap 45 ±8
      shank: 20 ±1 x THICK, long 80 ±5
usual: {at: light yellow, weld at: 1300 °C, kerf: 1.5, flux: borax}
steps:
  - mark out: pin
  - fold: eye, strap eye, inside 24 ±1.5, 2 heats
  - weld shut: eye, heats 1 weld + 1 close
  - cut: shank, 1 heat
"""

FOLDED = """\
recipe: Folded bar
scale: none
pieces:
  bar:
    metal: mild steel
    bar: 30 x 8
    size: 30 ±2 x THICK, long 60 ±8
usual: {at: light yellow, weld at: 1300 °C, kerf: 1.5, flux: borax}
steps:
  - mark out: bar
  - fold: bar, 30 x 16, 2 heats
  - weld shut: bar, heats 1 weld + 1 close
  - cut: bar, 1 heat
"""


def asked_of(text: str) -> list[str]:
    plan = look_back(read_recipe(text, "eye.yaml"))
    return [told for one in questions(plan) if "draw no bar" in (told := write(one.sentence))]


# By hand: 20 · 8 = 160 mm² to 20 · 5 = 100 is 1.6 times; round the eye lie 160 · π · 32 = 16.1 cm³ before
# and 100 · π · 29 = 9.1 after, and 7 cm³ do not go round a closed eye into its lap.
def test_an_eye_that_is_folded_too_thick_for_its_weld_is_asked_about() -> None:
    (told,) = asked_of(EYE.replace("THICK", "8"))
    assert "eye is bent of a bar with 160 mm² across it" in told
    assert "leave its weld with 100 mm²" in told


# 20 · 5.4 = 108 mm² is 1.08 times 100: its scale and its dressing.
def test_an_eye_of_its_own_bar_is_not() -> None:
    assert asked_of(EYE.replace("THICK", "5.4")) == []


# Two of 8 mm on each other are 30 · 16 = 480 mm²; 30 · 8 is half of that, 30 · 15 is dressing.
def test_a_fold_that_its_weld_is_to_bring_back_to_one_bar_is_asked_about() -> None:
    (told,) = asked_of(FOLDED.replace("THICK", "8 ±0.6"))
    assert "bar has 480 mm² across it before it is welded shut" in told
    assert "leave the weld with 240 mm²" in told
    assert asked_of(FOLDED.replace("THICK", "15 ±0.6")) == []
