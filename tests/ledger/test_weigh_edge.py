"""An edge angle that no two faces meet at is found, and one that hardly any edge has is asked about."""

from __future__ import annotations

import pytest

from coach.bench.edge_known import edge_words
from coach.bench.outlook import outlook
from coach.drafting.answers import answers_of
from coach.drafting.draft import drafted
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


WEDGE = """\
recipe: Hot cut
pieces:
  cut:
    metal: C45
    bar: 40 x 36
    zones:
      root: 40 x 36, long 40 ±5
      blade: 40 x 36 to 40 x 3, long 50 ±6
usual: {{at: light orange}}
steps:
  - mark out: cut
  - taper: blade
  - sharpen: blade, edge angle {} ±2
"""


@pytest.mark.parametrize(
    ("angle", "told"),
    [
        # By hand: 2 atan(33 / 2 / 50) = 36.5°; the blade comes out a little longer or shorter than drawn.
        ("10", True),
        ("25", True),
        ("32", True),
        ("40", False),
        ("60", False),
    ],
)
def test_an_edge_flatter_than_the_body_behind_it_is_found_with_the_bodys_own_angle(
    angle: str, told: bool
) -> None:
    plan = look_back(read_recipe(WEDGE.format(angle), "cut.yaml"))
    found = [write(one.sentence) for one in outlook(plan).findings]
    flatter = [one for one in found if "meet at" in one]
    assert len(flatter) == told
    for one in flatter:
        own_deg = float(one.split("behind it meet at ")[1].split("°")[0])
        assert own_deg == pytest.approx(36.5, abs=1)
        assert f"an edge of {angle} ±2°" in one


def test_an_edge_is_proposed_steeper_than_the_body_behind_it() -> None:
    told = {
        "name": "Hot cut",
        "metal": "4140",
        "bar": "square 38",
        "zones": {"root": "square 38, long 40", "blade": "38 x 36 to 40 x 3, long 60"},
        "hard": "blade",
    }
    draft = drafted(answers_of(told))
    (angle,) = (
        step.targets["edge_angle"] for step in draft.plan.recipe.steps if "edge_angle" in step.targets
    )
    # By hand: 2 atan(33 / 2 / 60) = 30.8°.
    assert angle.low > 31
    assert angle.nominal < 45
    # A blade that hardly thins keeps the usual angle.
    flat = drafted(answers_of({**told, "zones": {"blade": "38 x 5 to 38 x 2, long 100"}}))
    (angle,) = (step.targets["edge_angle"] for step in flat.plan.recipe.steps if "edge_angle" in step.targets)
    assert angle.nominal == 25


def test_a_bevel_is_told_by_the_taper_behind_it() -> None:
    """By hand: 3 / (2 (tan 30° - tan(36.5°/2))) = 3 / (2 (0.5774 - 0.3298)) = 6.1 mm on either side."""
    plan = look_back(read_recipe(WEDGE.format("60"), "cut.yaml"))
    (words,) = (write(one) for one in edge_words(plan, plan.recipe.steps[2]))
    assert "60° on an edge 3 mm thick, on a body that opens by " in words
    along = float(words.split("is a bevel ")[1].split(" mm")[0])
    assert along == pytest.approx(6.1, abs=0.25)
