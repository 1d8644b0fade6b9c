"""A proposal passes every check and is on plan, also where its bar has too little metal for a zone."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.bench.planned import planned_tool
from coach.drafting.alike import made_like
from coach.drafting.answers import Answers
from coach.drafting.checked import Draft
from coach.drafting.draft import drafted
from coach.ledger.looking_back import look_back
from coach.ledger.verdict import PlanState
from coach.recipe.reader import read_recipe

RECIPES = Path(__file__).parents[2] / "recipes"


def proposed(bar: str, zones: dict[str, str], units: str = "mm") -> Draft:
    """What is proposed of mild steel, sound."""
    draft = drafted(Answers("Tool", "mild steel", bar, zones, units))
    assert not draft.planned.findings, draft.text
    assert draft.planned.verdict is PlanState.ON_PLAN, draft.text
    return draft


@pytest.mark.parametrize(
    ("bar", "zones", "word"),
    [
        # The eye's width is what the punch makes of it: no hand keeps it to a millimetre.
        (
            "30 x 8",
            {"eye": "36 x 8, long 36, round hole 10", "bar": "25 x 8, long 200"},
            "eye: 36 ±",
        ),
        # The lap of an eye, and its thickness, which its three fires leave half a millimetre less.
        (
            "40 x 6",
            {"eye": "strap eye, inside 12, width 40, thickness 6, lap 25", "strap": "40 x 6, long 200"},
            "lap 25 ±",
        ),
        ("round 12", {"ring": "ring of round 12, inside 80"}, "inside 80 ±"),
        (
            "round 10",
            {"rivet": "rivet, heads one, diameter 10, grip 20, head diameter 18, head height 6"},
            "head height 6 ±",
        ),
    ],
)
def test_a_size_that_the_metal_makes_is_given_limits_that_it_leaves_room_for(
    bar: str, zones: dict[str, str], word: str
) -> None:
    assert word in proposed(bar, zones).text


def test_a_width_that_was_answered_with_limits_keeps_them() -> None:
    zones = {"eye": "36 ±3 x 8, long 36, round hole 10", "bar": "25 x 8, long 200"}
    assert "eye: 36 ±3 x 8" in drafted(Answers("Tool", "mild steel", "30 x 8", zones)).text


def test_a_length_that_says_its_inches_is_given_limits_too() -> None:
    zones = {"tip": "square 3/8 in to 1/8 in, long 4 in", "shank": "square 3/8 in, long 5 in"}
    text = proposed("square 1/2 in", zones, "in").text
    assert "long 4 in ±" in text
    assert "long 5 in ±" in text


@pytest.mark.parametrize(
    ("bar", "zones", "zone"),
    [
        # 45 × 25 of 60 × 20 has a bar that is 5 mm too thin, though 1125 mm² are less than its 1200.
        ("60 x 20", {"blade": "60 x 16, long 220", "shank": "45 x 25, long 300"}, "shank"),
        # A plate of 97 × 3.1 = 302 mm² of a bar of 30 × 8 = 240.
        (
            "30 x 8",
            {"blade": "30 x 8, long 140", "socket": "socket, mouth 34, neck 20, wall 3, long 100"},
            "socket",
        ),
    ],
)
def test_what_its_bar_has_too_little_metal_for_is_gathered_up_first(
    bar: str, zones: dict[str, str], zone: str
) -> None:
    assert f"- upset: {zone}, " in proposed(bar, zones).text


@pytest.mark.parametrize(
    "name",
    ["carpenters-adze", "cold-chisel", "garden-sickle", "hedging-hatchet", "mattock", "punches-and-drifts"],
)
def test_a_smaller_one_leaves_the_stone_what_the_fire_spoils(name: str) -> None:
    # The fire takes the carbon out as deep of a small edge as of a large one: that is not made less.
    text = (RECIPES / f"{name}.yaml").read_text(encoding="utf-8")
    recipe = read_recipe(made_like(text, name, scale=0.8), name)
    planned = planned_tool(look_back(recipe))
    assert not planned.findings
    assert planned.verdict is PlanState.ON_PLAN
    assert not [skin for skin in planned.skins if skin.enough is False]


@pytest.mark.parametrize(("recipe", "scale"), [("folded-froe", 0.8), ("folded-froe", 1.3)])
def test_a_bar_that_is_told_on_its_edge_is_the_next_one_that_is_rolled_so(recipe: str, scale: float) -> None:
    # By hand: 6 x 25 on its edge is 4.8 x 20 and 7.8 x 32.5, of which 5 x 20 and 8 x 35 are rolled.
    text = made_like((RECIPES / f"{recipe}.yaml").read_text(), f"{recipe}.yaml", scale=scale)
    assert ("bar: 5 x 20\n" if scale < 1.0 else "bar: 8 x 35\n") in text
    assert not planned_tool(look_back(read_recipe(text, "like.yaml"))).findings


def test_what_a_chisel_parts_is_drawn_so_much_fuller_as_its_fires_take() -> None:
    # Tines of 6.2 and 3.1 are 9.3 wide, and two heats of 0.034 mm a face take 0.13 of it.
    text = made_like((RECIPES / "twisted-poker.yaml").read_text(), "twisted-poker.yaml", scale=0.8)
    assert "  - draw: prongs, square 9.4, at light yellow\n" in text
    assert not planned_tool(look_back(read_recipe(text, "like.yaml"))).findings
