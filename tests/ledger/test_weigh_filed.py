"""A file takes metal from the section and the length stays: a share that it loses wants the section said."""

from __future__ import annotations

import pytest

from coach.bench.outlook import outlook
from coach.ledger.looking_back import look_back
from coach.ledger.weigh import Cannot
from coach.recipe.reader import read_recipe
from coach.telling.words import write

BAR = """\
recipe: Punch
pieces:
  punch:
    metal: C80
    bar: square 8
    zones:
      head: square 8, long 40 ±4
      grip: square 8 ±0.1, long 70 ±5
      point: square 8, long 30 ±3
steps:
  - mark out: punch
  - cut: point, cold
"""


def found(step: str, text: str = BAR) -> list[str]:
    """What is found of a step behind the recipe's own."""
    findings = outlook(look_back(read_recipe(f"{text}  - {step}\n", "punch.yaml"))).findings
    return [write(one.sentence) for one in findings if one.what is Cannot.MAKE_SIZE]


@pytest.mark.parametrize(
    "step", ["file: grip, loses 8 %", "grind: grip, loses 8 %", "file: grip, loses 3.1 g"]
)
def test_a_share_that_is_filed_off_is_told_to_come_off_the_section(step: str) -> None:
    # 8 % off a square of 8 mm leave one of 8 · √0.92 = 7.67 mm (by definition).
    (one,) = found(step)
    assert "leaves square 7.7 mm of grip" in one
    assert "the length stays" in one


def test_a_section_without_a_tolerance_is_held_to_what_goes_without_saying() -> None:
    assert found("file: grip, loses 8 %", BAR.replace(" ±0.1", "")) != []


@pytest.mark.parametrize(
    "step", ["file: grip, loses 1 %", "file: grip, square 7.7", "file: point, loses 1 mm", "file: grip"]
)
def test_a_last_clean_up_a_section_that_is_said_and_an_end_are_not(step: str) -> None:
    text = BAR.replace("square 8 ±0.1", "square 7.7 ±0.3") if "7.7" in step else BAR
    assert found(step, text) == []
