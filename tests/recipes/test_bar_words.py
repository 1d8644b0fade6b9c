"""A zone may say what is made of its bar in the shop's words: twisted, with an edge, closed to a ring."""

from __future__ import annotations

import pytest

from coach.recipe.faults import RecipeFaults
from coach.recipe.model import Recipe
from coach.recipe.reader import read_recipe
from coach.recipe.spelling import spelt_out
from coach.recipe.writing import write_recipe

HEAD = "recipe: Trial\npieces:\n  one:\n    metal: mild steel\n"


def read(bar: str, zones: str, *steps: str, units: str = "mm", more: str = "") -> Recipe:
    told = "".join(f"  - {step}\n" for step in steps)
    return read_recipe(
        f"units: {units}\n{HEAD}    bar: {bar}\n    {zones}\n{more}steps:\n{told}", "trial.yaml"
    )


def faults(bar: str, zones: str, *steps: str, more: str = "") -> list[str]:
    with pytest.raises(RecipeFaults) as refused:
        read(bar, zones, *steps, more=more)
    return [str(fault.message) for fault in refused.value.faults]


def nominal(recipe: Recipe, zone: str) -> dict[str, float]:
    return {name: round(limits.nominal, 3) for name, limits in recipe.drawing[zone].limits.items()}


def test_turns_are_counted_along_the_finished_length() -> None:
    recipe = read("square 8", "size: square 8, long 70 ±5, twisted 2 turns", "twist: one")
    assert recipe.drawing["one"].shape.kind == "twisted bar"
    assert nominal(recipe, "one") == {"width": 8, "thickness": 8, "turn": 35, "length": 70}  # 70 / 2


def test_a_taper_is_twisted_too() -> None:
    recipe = read(
        "square 12",
        "size: 12 x 10 to 8 x 6, long 90, twisted 3 turns",
        "taper: one",
        "twist: one, twisted taper",
    )
    assert recipe.drawing["one"].shape.kind == "twisted taper"
    assert nominal(recipe, "one")["turn"] == 30


def test_turns_are_counted_in_inches_where_the_file_is() -> None:
    recipe = read("square 1/2", "size: square 1/2, long 6 in, twisted 4 turns", "twist: one", units="in")
    assert nominal(recipe, "one")["turn"] == pytest.approx(38.1, abs=0.01)  # 1 1/2 in


@pytest.mark.parametrize(
    ("size", "said"),
    [
        (
            "round 10, long 60, twisted 2 turns",
            "a round is not twisted: a square, a flat bar or a taper of them is",
        ),
        ("square 8, twisted 2 turns", "say how long it is beside its turns, as in long 70, twisted 2 turns"),
        ("square 8, long 60, twisted 0 turns", "a twist has some turns, as in twisted 3 turns"),
        (
            "40 x 8 to 30 x 4, long 60, edge 2 over 20",
            "a taper has no edge along its side here: part the zone, or draw it even, as in 36 x 6",
        ),
    ],
)
def test_what_cannot_be_made_of_a_bar_is_told_once(size: str, said: str) -> None:
    assert faults("square 10", f"size: {size}", "inspect: one") == [said]


def test_an_edge_along_the_side_reaches_over_a_part_of_the_width() -> None:
    recipe = read("36 x 6", "size: 36 x 6, edge 2 over 20 on one side, long 90", "side bevel: one")
    assert recipe.drawing["one"].shape.kind == "side bevel"
    assert recipe.drawing["one"].shape.options["sides"] == "one"
    assert nominal(recipe, "one") == {"width": 36, "thickness": 6, "reach": 20, "edge": 2, "length": 90}
    assert {"edge": 2, "reach": 20}.items() <= {
        n: one.nominal for n, one in recipe.steps[0].targets.items()
    }.items()


def test_an_edge_is_forged_over_a_reach_in_a_step_too() -> None:
    size = "size: 36 x 6, edge 2 over 20, long 90"
    recipe = read(
        "36 x 6",
        size,
        "side bevel: one, edge 2.5 over 18 ±2, wide 36",
        "grind: one, edge 2 over 20, loses 1 %",
    )
    assert recipe.drawing["one"].shape.options["sides"] == "both"
    assert recipe.steps[0].targets["reach"].low == 16


@pytest.mark.parametrize(
    ("size", "sizes"),
    [  # a wall of 40 from 16 out: 16 + 2 · 40; on its edge 150 + 2 · 6
        ("ring of 40 x 6, inside 16", {"outer_diameter": 96, "inner_diameter": 16, "thickness": 6}),
        (
            "ring of 25 x 6 on edge, inside 150 ±4",
            {"outer_diameter": 162, "inner_diameter": 150, "thickness": 25},
        ),
    ],
)
def test_a_flat_bar_is_closed_to_a_ring_lying_flat_or_on_its_edge(size: str, sizes: dict[str, float]) -> None:
    recipe = read("25 x 6", f"size: {size}", "bend: one, ring")
    assert nominal(recipe, "one") == sizes


def test_a_form_named_alone_is_the_drawings_with_its_sizes() -> None:
    recipe = read("25 x 6", "size: ring of 25 x 6 on edge, inside 150 ±4", "bend: one, ring, 2 heats")
    assert recipe.steps[0].targets == recipe.drawing["one"].limits


RIVETED = """\
recipe: Pair
pieces:
  arm: {metal: mild steel, bar: 20 x 6, make: 2, size: "20 x 6, long 90, round hole 6.5"}
  pin:
    metal: mild steel
    bar: round 6
    size: rivet, heads two, diameter 6, grip 12, head diameter 11, head height 3
steps:
  - punch: arm
  - JOIN
"""


def test_pieces_are_joined_by_a_rivet_which_is_what_is_worked() -> None:
    step = read_recipe(RIVETED.replace("JOIN", "join: arm 1 and arm 2 by pin"), "pair.yaml").steps[-1]
    assert (step.operation, step.zones, step.title) == ("rivet", ("pin",), "Join arm 1 and arm 2 by the pin")


@pytest.mark.parametrize(
    ("written", "column", "said"),
    [
        (
            "join: arm 1 and arm 2",
            11,
            "by what? Write the zone of the rivet, the tenon or the collar behind by",
        ),
        ("join: arm 1 and arm 2 by pni", 30, "there is no zone “pni” to join them by: did you mean pin?"),
        ("join: arm 1 and pin by arm 2", 28, "arm 2 joins nothing: what joins is drawn as collar or rivet"),
        ("join: arm 1 and amr 2 by pin", 21, "there is no zone “amr 2”: did you mean arm 2?"),
        ("fit: pin to amr", 17, "there is no zone “amr”: did you mean arm?"),
    ],
)
def test_what_is_joined_or_fitted_is_named_rightly(written: str, column: int, said: str) -> None:
    with pytest.raises(RecipeFaults) as refused:
        read_recipe(RIVETED.replace("JOIN", written), "pair.yaml")
    assert [(fault.line, fault.column, str(fault.message)) for fault in refused.value.faults] == [
        (10, column, said)
    ]


def test_a_part_is_fitted_to_what_stays_as_it_is() -> None:
    text = RIVETED.replace("JOIN", "fit: pin to arm 1, gap at most 0.5\n  - rivet: pin")
    step = read_recipe(text, "pair.yaml").steps[2]
    assert (step.operation, step.zones, step.title) == ("fit", ("pin",), "Fit the pin to the arm 1")


def test_what_is_written_out_says_the_same_with_its_margin() -> None:
    text = RIVETED.replace("JOIN", "join: arm 1 and arm 2 by pin").replace(
        "pieces:", "usual: {margin: 3 %}\npieces:"
    )
    again = read_recipe(write_recipe(spelt_out(text, "pair.yaml")), "pair.yaml")
    assert again._replace(text="") == read_recipe(text, "pair.yaml")._replace(text="")
