"""What only takes metal away makes nothing bigger, and what only spreads gathers nothing."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.forms.eyed import Eyed
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.weigh import Cannot, weigh
from coach.ledger.weigh_bigger import gathered, put_on
from coach.ledger.working import LedgerError, reshapes
from coach.operations import operation
from coach.recipe.faults import RecipeFaults
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from tests.ledger.recipes import planned
from tests.recipes.random_recipes import random_recipe


def found(bar: str, size: str, *steps: str) -> list[tuple[Cannot, int, int, str]]:
    """What is found of a leaf of that bar and size: what it is, its step, its line and its words."""
    head = f"recipe: Leaf\npieces:\n  leaf:\n    metal: mild steel\n    bar: {bar}\n    size: {size}\n"
    text = f"{head}steps:\n  - cut: leaf, cold\n" + "".join(f"  - {step}\n" for step in steps)
    findings = planned_tool(look_back(read_recipe(text, "leaf.yaml"))).findings
    return [(one.what, one.step, one.line, write(one.sentence)) for one in findings]


@pytest.mark.parametrize(
    ("bar", "size", "step", "told"),
    [
        # By definition a stone and a file take metal away: no face of it moves outwards.
        ("30 x 8", "30 x 9, long 80 ±9", "grind: leaf", "the thickness of leaf is 8 mm there"),
        ("40 x 6", "40 x 7, long 100 ±20", "grind: leaf", "the thickness of leaf is 6 mm there"),
        ("40 x 6", "46 x 6, long 100 ±20", "file: leaf, wide 46", "the width of leaf is 40 mm there"),
        ("round 10", "round 12 ±0.5, long 80 ±30", "file: leaf", "the diameter of leaf is 10 mm there"),
        ("square 10", "12 x 9, long 80 ±30", "grind: leaf", "the width of leaf is 10 mm there"),
        ("30 x 8", "30 x 8.4 ±0.3, long 80 ±9", "grind: leaf", "and is to come out 8.4 mm"),
        (
            "30 x 8",
            "30 x 8 to 30 x 10, long 80 ±20",
            "grind: leaf",
            "the end thickness of leaf is 8",
        ),
    ],
)
def test_what_takes_metal_away_makes_nothing_bigger(bar: str, size: str, step: str, told: str) -> None:
    ((what, number, line, words),) = found(bar, size, step)
    assert (what, number, line) == (Cannot.PUT_ON, 2, 9)
    assert told in words
    assert "only takes metal away" in words


@pytest.mark.parametrize(
    ("bar", "size", "step"),
    [
        ("30 x 8", "30 x 7, long 80 ±9", "grind: leaf"),
        ("30 x 8", "30 x 8.1 ±0.3, long 80 ±9", "grind: leaf"),  # a bar that is 8 is inside
        ("30 x 8", "30 x 8 to 30 x 4, long 80 ±9", "grind: leaf"),
        ("square 10", "10 x 9, long 80 ±9", "grind: leaf"),
    ],
)
def test_what_can_be_taken_away_is_no_finding(bar: str, size: str, step: str) -> None:
    assert found(bar, size, step) == []


@pytest.mark.parametrize(
    ("bar", "size", "step"),
    [
        # 80 · 6 = 480 mm² and 60 · 5 = 300 mm² are not in a bar of 30 · 8 = 240 mm² (by hand).
        ("30 x 8", "80 x 6, long 120 ±12", "spread: leaf, 4 heats"),
        ("30 x 8", "60 x 5, long 120 ±12", "spread: leaf, 4 heats"),
        ("30 x 8", "80 x 6, long 120 ±12", "draw: leaf, wide 80, thick free, long 120"),
        # 30 · 8 = 240 mm² at the root of a bar of 20 · 8 = 160 mm² (by hand).
        ("20 x 8", "30 x 8 to 10 x 4, long 80 ±9", "taper: leaf, 4 heats"),
        ("20 x 8", "20 x 8 to 40 x 8, long 80 ±60", "taper: leaf, 4 heats"),
    ],
)
def test_what_spreads_and_draws_gathers_no_metal(bar: str, size: str, step: str) -> None:
    findings = found(bar, size, step)
    assert [(what, number, line) for what, number, line, _ in findings] == [(Cannot.GATHER, 2, 9)]
    assert "gathers no metal" in findings[0][3]


def test_a_profile_that_is_heavier_in_its_middle_than_its_bar_is_told() -> None:
    """80 · 6 = 480 mm² in the middle of a bar of 240 mm² (by hand)."""
    size = "profile 20 x 6, then 80 x 6 at 60, then 20 x 6 at 120"
    ((what, number, line, words),) = found("30 x 8", size, "spread: leaf, 4 heats")
    assert (what, number, line) == (Cannot.GATHER, 2, 9)
    assert "gathers no metal" in words


def test_the_section_is_told_in_figures() -> None:
    ((_, _, _, words),) = found("20 x 8", "30 x 8 to 10 x 4, long 80 ±9", "taper: leaf, 4 heats")
    assert "160 mm²" in words
    assert "240 mm²" in words


@pytest.mark.parametrize(
    ("bar", "size", "step"),
    [
        ("30 x 8", "45 x 5, long 120 ±60", "spread: leaf, 4 heats"),  # 225 of 240 mm²
        ("20 x 8", "20 x 8 to 10 x 4, long 80 ±9", "taper: leaf, 4 heats"),
        ("20 x 8", "20 x 8 to 30 x 4, long 80 ±30", "taper: leaf, 4 heats"),  # 120 of 160 mm² at its end
        ("round 20", "20 x 8, long 120 ±60", "draw: leaf, 4 heats"),
    ],
)
def test_what_its_bar_holds_is_no_finding(bar: str, size: str, step: str) -> None:
    assert not [one for one in found(bar, size, step) if one[0] is Cannot.GATHER]


#: Bars of which a thicker section is asked, and whether blows on edge make it. By hand, with the published
#: spread of 0.31 (a bite of half what it is wide): 12 · (24 / 14)^0.31 = 14.2, 12 · (40 / 16)^0.31 = 15.9 and
#: 10 · (20 / 14)^0.31 = 11.2 mm. One wider than four times its thickness is not fullered in (judgement).
ON_EDGE = [
    ("24 x 12", 14, True),
    ("20 x 12", 14, True),
    ("20 x 10", 14, False),  # the metal of it would be there, 196 of 200 mm²
    ("40 x 12", 14, True),
    ("40 x 12", 16, True),
    ("40 x 12", 18, False),
    ("40 x 12", 12, True),
    ("80 x 12", 16, False),  # 6.7 times its thickness
    ("80 x 12", 10, True),
]


@pytest.mark.parametrize(("bar", "side", "makes"), ON_EDGE)
@pytest.mark.parametrize(
    ("size", "step"),
    [
        ("square {0}, long 90 ±9", "draw: leaf, 4 heats"),
        ("{0} x {0}, long 90 ±9", "draw: leaf, 4 heats"),
        ("square {0}, long 90 ±9", "set down: leaf, 4 heats"),
        ("square {0} to 6, long 90 ±9", "taper: leaf, 4 heats"),
        ("{0} x {0} to 6 x 6, long 90 ±9", "taper: leaf, 4 heats"),
    ],
)
def test_every_way_of_drawing_makes_a_bar_as_thick_as_blows_on_edge_do(
    bar: str, side: int, makes: bool, size: str, step: str
) -> None:
    gathers = [one for one in found(bar, size.format(side), step) if one[0] is Cannot.GATHER]
    assert bool(gathers) != makes, gathers
    if not makes:
        assert f"is to come out {side} mm" in gathers[0][3]


def test_a_round_is_as_thick_as_the_square_that_it_is_made_from() -> None:
    """Of a bar 10 thick and 20 wide, spread to 11.2 on edge (by hand, as above).

    A round of 12 has the metal of a square of 10.6, one of 15 that of a square of 13.3 (by hand).
    """
    assert Cannot.GATHER in [one[0] for one in found("20 x 10", "round 15, long 90 ±9", "draw: leaf")]
    assert Cannot.GATHER not in [one[0] for one in found("20 x 10", "round 12, long 90 ±9", "draw: leaf")]


@pytest.mark.parametrize(
    ("bar", "size", "told"),
    [("40 x 12", "square 16", True), ("20 x 12", "square 14", False), ("40 x 12", "square 10", False)],
)
def test_a_bar_that_folds_on_edge_is_fullered_in_where_it_comes_out_thicker(
    bar: str, size: str, told: bool
) -> None:
    text = (
        f"recipe: Leaf\npieces:\n  leaf:\n    metal: mild steel\n    bar: {bar}\n"
        f"    size: {size}, long 90 ±9\nsteps:\n  - cut: leaf, cold\n  - draw: leaf, 4 heats, at orange\n"
    )
    hot = planned_tool(look_back(read_recipe(text, "leaf.yaml"))).steps[1].step.hot
    assert hot is not None
    words = " ".join(map(write, hot.advice))
    assert ("fuller it in from both edges" in words) == told
    assert "bring it down to 16 mm" not in words  # of a bar that is 12 thick


#: So many random recipes are gone through (our choice).
EACH = 300


@pytest.mark.parametrize("first", range(0, 3 * EACH, EACH))
def test_in_random_recipes_nothing_comes_out_bigger_without_a_word(first: int) -> None:
    """Laws of the metal, not of this reckoner: what is taken away or spread is nowhere heavier after it."""
    looked_at = 0
    for number in range(first, first + EACH):
        try:
            plan = look_back(read_recipe(random_recipe(number), "random.yaml"))
        except (RecipeFaults, LedgerError):
            continue
        looked_at += _look_at(plan)
    assert looked_at


def _look_at(plan: Plan) -> int:
    looked_at = 0
    for way in plan.stages.values():
        for stage in way:
            todo, step = operation(stage.step.operation), stage.step
            if not reshapes(step, stage.zone) or todo.GATHERS or stage.laid_mm3 or todo.KEEPS_SECTION:
                continue
            before, after = stage.form_before, stage.form_after
            if before.unbent() or after.unbent() or "length" not in before.DIMENSIONS:
                continue
            if (
                isinstance(after, Eyed)
                or "length" not in after.DIMENSIONS
                or put_on(stage)
                or gathered(plan, stage)
            ):
                continue
            looked_at += 1
            middle = (0.0, 0.5, 1.0)
            was = max(before.section(at * before.length_mm).area_mm2 for at in (*middle, *before.landmarks()))
            comes = max(after.section(at * after.length_mm).area_mm2 for at in (*middle, *after.landmarks()))
            assert comes <= was * 1.11, (stage.zone, step.title)  # 5 % in width and in thickness
    return looked_at


HARDY = """\
recipe: Swage hardy
usual: {at: light orange}
pieces:
  hardy:
    metal: C45
    bar: square 45
    zones:
      face: FACE, long 45 ±3
      shank: square 25 to 22, long 60 ±5
steps:
  - set down: shank, square 25, 4 heats
  - taper: shank, 2 heats
  - upset: face, 3 heats
"""


def upset_told(text: str) -> list[str]:
    told = (write(one.sentence) for one in weigh(planned(text)))
    return [one for one in told if "makes a section bigger" in one]


def test_an_upset_that_makes_a_section_smaller_is_told() -> None:
    # 50 × 40 = 2000 mm², and 45 × 45 = 2025 (by hand).
    (words,) = upset_told(HARDY.replace("FACE", "50 x 40"))
    assert words.startswith("Step 3, Upset the face: face has ")
    assert "Write draw, spread or taper" in words


def test_an_upset_from_what_was_upset_too_far_is_told() -> None:
    text = HARDY.replace("FACE", "50 x 42").replace(
        "steps:\n", "steps:\n  - upset: face, square 90, 1 heat\n"
    )
    assert len(upset_told(text)) == 1


@pytest.mark.parametrize("face", ["50 x 42", "45 x 45", "square 48 to 45", "square 48 to 40"])
def test_an_upset_that_gathers_anywhere_is_one(face: str) -> None:
    assert upset_told(HARDY.replace("FACE", face)) == []


# The corners of the square were never in the hexagon: 19 x 19 is 361 mm2, the hexagon of 19 has 312.6.
def test_a_section_with_more_corners_than_its_bar_is_not_ground_from_it() -> None:
    text = (
        "recipe: Block\npieces:\n  block:\n    metal: C45\n    bar: hexagon 19\n"
        "    size: 19 x 19, long 54 ±3\nsteps:\n  - cut: block, cold\n  - grind: block, 19 x 19\n"
    )
    told = [write(one.sentence) for one in weigh(planned(text))]
    assert any("only takes metal away" in one and "313 mm²" in one for one in told), told


HOE = """\
recipe: Draw hoe
pieces:
  hoe:
    metal: 1060
    bar: 40 x 8
    zones:
      blade: 105 x 3, long 80 ±7
      neck: 20 x 8, long 50 ±8
usual: {at: light orange, kerf: 2}
steps:
  - cut: neck, cold
  - draw: neck
  - spread: blade, thick 3, 6 heats
  - file: blade, edge angle 40
"""


# 40 x 8 thinned to 3 at the length that it has is 66.7 mm wide, however long it is: no metal makes it 105.
def test_a_width_that_no_metal_makes_is_told_with_the_step_that_makes_it() -> None:
    with pytest.raises(LedgerError) as refused:
        planned(HOE)
    told = write(refused.value.words)
    assert "the width of blade is to be 105 mm" in told
    assert "step 3, Spread the blade, leaves it narrower" in told
    assert refused.value.step == 4


SET = """\
recipe: Hot set
pieces:
  head:
    metal: 4140
    bar: square 38
    zones:
      eye: 62 ±2 x 36 ±1, long 40 ±4, oval hole 30 x 20 flaring to 32 x 22 through its thickness
      blade: 38 x 36 to 44 x 3, long 60 ±5
usual: {at: light orange, kerf: 2}
steps:
  - mark out: head
  - punch: eye, slot hole 28 x 9, slug 6, 3 heats
  - drift: eye, 2 heats
  - taper: blade, 38 x 36 to 44 x 4.6, 3 heats
  - cut: blade
"""


# The plan leaves the eye 50 mm long after the punch and 40 after the drift, 42 wide and then 62: a drift
# spreads the cheeks beside it, and draws no metal in from along the bar (common practice, no source).
def test_a_drift_that_would_shorten_its_zone_is_told() -> None:
    told = [write(one.sentence) for one in weigh(planned(SET))]
    assert any("eye would have to shorten from" in one and "to drift gathers no metal" in one for one in told)


NECK = """\
recipe: Post
pieces:
  post:
    metal: C45
    bar: 40 x 14
    zones:
      neck: square 14, long 100 ±20
      body: 40 x 14, long 50 ±9
usual: {at: light orange}
steps:
  - mark out: post
  - draw: neck, 4 heats
  - bend: neck, angle 30, same heat
"""


# What was never in the fire has no heat to be worked in, and what is normalised is cold (by definition).
@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("neck, 4 heats", "neck, same heat", "step 1, Mark out the post, before it has it in no fire"),
        ("angle 30, same heat", "angle 30, 1 heat", ""),
        (
            "  - bend",
            "  - normalise: all of post, at 860 °C\n  - bend",
            "Normalise the post, before it leaves it cold",
        ),
        ("  - bend", "  - cut: body, cold\n  - bend", "Cut the body, before it has it in no fire"),
    ],
)
def test_the_same_heat_is_one_that_was_taken_and_is_still_there(old: str, new: str, told: str) -> None:
    found = [write(one.sentence) for one in weigh(planned(NECK.replace(old, new)))]
    heats = [one for one in found if "in the same heat" in one]
    assert (len(heats) == 1 and told in heats[0]) if told else not heats, found
    assert not [one for one in map(write, (x.sentence for x in weigh(planned(NECK)))) if "same heat" in one]


@pytest.mark.parametrize("size", ["round 10", "square 9"])
def test_a_wide_thin_bar_is_told_why_it_comes_no_thicker(size: str) -> None:
    # In 40 · 8 mm² there is metal for either; struck on its edge it folds (common practice).
    ((what, _, _, words),) = found("40 x 8", f"{size}, long 200 ±16", "draw: leaf, at yellow")
    assert what is Cannot.GATHER
    assert (
        "a bar 40 mm wide folds over when it is struck on its edge: begin with one no wider than 32 mm"
        in words
    )
    assert found("30 x 8", f"{size}, long 200 ±16", "draw: leaf, at yellow") == []
