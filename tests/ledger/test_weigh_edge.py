"""An edge angle that no two faces meet at is found, and one that hardly any edge has is asked about."""

from __future__ import annotations

import pytest

from coach.bench.outlook import outlook
from coach.ledger.looking_back import look_back
from coach.ledger.questions import questions
from coach.recipe.reader import read_recipe
from coach.telling.words import write

KNIFE = """\
recipe: Hoof knife
pieces:
  knife:
    metal: mild steel
    bar: 30 x 5
    size: 30 x 5, long 90 ±9
steps:
  - cut: knife, cold, kerf 2
  - sharpen: knife, edge angle {} ±3
"""


def told(angle: str) -> tuple[list[str], list[str]]:
    """What is found and what is asked of an edge of that angle."""
    plan = look_back(read_recipe(KNIFE.format(angle), "knife.yaml"))
    found = [write(one.sentence) for one in outlook(plan).findings]
    return found, [write(one.sentence) for one in questions(plan)]


@pytest.mark.parametrize("angle", ["15", "30", "65", "90"])
def test_the_edges_of_razors_knives_and_chisels_are_let_be(angle: str) -> None:
    # Some 15, 30 and 60 to 70 degrees: common practice, no source.
    assert told(angle) == ([], [])


def test_an_edge_of_more_than_half_a_turn_is_none() -> None:
    (found,), asked = told("300")
    assert "an edge of 300° is none" in found
    assert asked == []


@pytest.mark.parametrize("angle", ["4", "130"])
def test_an_edge_that_hardly_any_tool_has_is_asked_about(angle: str) -> None:
    found, (asked,) = told(angle)
    assert found == []
    assert "is that angle meant?" in asked
