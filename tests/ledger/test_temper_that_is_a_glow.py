"""A temper called by a colour of glowing steel, and a test that breaks what is not tempered yet."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.questions import questions
from coach.recipe.reader import read_recipe
from coach.telling.words import write

CHISEL = """\
recipe: Cold chisel
pieces:
  chisel:
    metal: C80
    bar: square 16
    zones:
      edge: 18 ±2 x 4 ±0.5, long 60 ±8
      shank: square 16, long 100 ±8
usual: {at: light orange}
steps:
  - mark out: chisel
  - draw: edge, 3 heats
  - normalise: edge, 3 heats, at 850 °C
  - harden: edge, at 790 to 810 °C, quench oil
    check: magnet, file test
  - temper: edge, at 280 °C, soak 1 h
"""


def told(was: str, now: str) -> list[str]:
    """What is found and asked of the quench and the temper, with one thing written otherwise."""
    assert was in CHISEL
    plan = look_back(read_recipe(CHISEL.replace(was, now), "chisel.yaml"))
    found = [(one.step, one.sentence) for one in planned_tool(plan).findings]
    asked = [(one.step, one.sentence) for one in questions(plan)]
    return [write(sentence) for step, sentence in (*found, *asked) if step in (4, 5)]


def test_as_it_is_meant_nothing_is_told() -> None:
    assert told("soak 1 h", "soak 1 h") == []


@pytest.mark.parametrize(
    ("was", "now", "says"),
    [
        ("at 280 °C, soak 1 h", "at cherry", "cherry is a glow of"),
        ("at 280 °C, soak 1 h", "at orange, hardness 58 to 61", "orange is a glow of"),
        ("at 280 °C", "at 700 to 715 °C", "is a hot temper for C80"),
        ("magnet, file test", "flex test", "is not tempered yet, and a flex test breaks it"),
        ("magnet, file test", "chop test", "is not tempered yet, and a chop test breaks it"),
    ],
)
def test_what_undoes_or_breaks_the_edge_is_told_at_its_step(was: str, now: str, says: str) -> None:
    assert any(says in one for one in told(was, now)), told(was, now)


@pytest.mark.parametrize("colour", ["straw", "purple", "blue"])
def test_a_colour_of_the_oxide_film_is_a_temper(colour: str) -> None:
    assert not any("glow" in one for one in told("at 280 °C, soak 1 h", f"at {colour}"))
