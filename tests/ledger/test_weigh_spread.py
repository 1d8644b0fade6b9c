"""A width that spreading hardly brings is asked about."""

from __future__ import annotations

import pytest

from coach.ledger.questions import questions
from coach.telling.words import write
from tests.ledger.recipes import planned

KNIFE = """\
recipe: Hay knife
pieces:
  knife:
    metal: 1075
    bar: BAR
    size: 80 x 5, long 420 ±25
steps:
  - spread: knife, flat, thick 5, wide 80, long free, 8 heats, at orange
"""


def asked(text: str) -> list[tuple[int, str, str]]:
    found = ((one.step, one.zone, write(one.sentence)) for one in questions(planned(text)))
    return [one for one in found if "run across alone" in one[2]]


def test_a_bar_that_has_to_run_across_alone_is_asked_about() -> None:
    # 50 × 8 and 80 × 5 are both 400 mm²: nothing is left to make it longer (by hand).
    ((step, zone, words),) = asked(KNIFE.replace("BAR", "50 x 8"))
    assert (step, zone) == (1, "knife")
    assert "come out 80 mm wide from 50 mm" in words


@pytest.mark.parametrize("bar", ["70 x 8", "60 x 8", "80 x 8"])
def test_one_that_may_run_along_as_well_is_not(bar: str) -> None:
    assert asked(KNIFE.replace("BAR", bar)) == []
