"""A hot bend that is far sharper than its bar is thick is asked about."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.recipe.reader import read_recipe
from coach.telling.words import write

STRAP = """\
recipe: Bracket
pieces:
  bracket:
    metal: mild steel
    bar: {bar}
    zones:
      root: {bar}, long 60
      end: {end}
usual: {{at: light orange}}
steps:
  - mark out: bracket
  - cut: end, cold
  - {step}
"""


def asked(bar: str, end: str, step: str) -> list[str]:
    planned = planned_tool(look_back(read_recipe(STRAP.format(bar=bar, end=end, step=step), "b.yaml")))
    return [write(one.sentence) for one in planned.questions]


# Common practice, no source: a bar turned over the edge is left round inside; a sharp corner is upset first.
@pytest.mark.parametrize(
    ("bar", "end", "step", "inside"),
    [
        (
            "square 12",
            "square 12, long 200",
            "bend: end, radius 1 ±0.5, angle 90",
            "1 mm inside",
        ),
        ("round 10", "ring of round 10, inside 2", "bend: end, ring", "1 mm inside on a thickness of 10 mm"),
    ],
)
def test_sharper_than_metal_follows_is_asked_about(bar: str, end: str, step: str, inside: str) -> None:
    (told,) = [one for one in asked(bar, end, step) if "inside folds" in one]
    assert inside in told


@pytest.mark.parametrize(
    ("bar", "end", "step"),
    [
        ("square 12", "square 12, long 200", "bend: end, radius 6 ±1, angle 90"),
        ("square 12", "square 12, long 200", "bend: end, angle 90"),
        ("round 10", "ring of round 10, inside 16", "bend: end, ring"),
    ],
)
def test_a_usual_bend_is_not(bar: str, end: str, step: str) -> None:
    assert not [one for one in asked(bar, end, step) if "inside folds" in one]
