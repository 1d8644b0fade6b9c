"""Several pieces from one bar, and pieces from a bar that is made in the same job."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.recipe.faults import RecipeFaults
from coach.recipe.reader import read_recipe
from coach.recipe.writing import write_recipe
from coach.telling.page import Line, Table
from coach.telling.plan import stock_page
from coach.telling.writing import Shown
from tests.recipes.building import spelt_out

PINS = """
recipe: Pins
scale: none
pieces:
  pin:
    metal: mild steel
    bar: round 10, long 350
    make: 3
    size: round 10, long 100
  peg:
    bar: beside pin 1
    size: round 10, long 20
steps:
  - cut: pin, long 100, cold, kerf 2
  - cut: peg, long 20, cold, kerf 2
"""
BILLET = """
recipe: Wedges
scale: none
pieces:
  billet:
    stack:
      - 1084, 30 x 5
      - mild steel, 30 x 3
      - 1084, 30 x 5
    size: 25 x 8, long 200
  wedge:
    bar: from billet
    make: 2
    size: 25 x 8 to 25 x 2, long 100
steps:
  - weld shut: billet, 28 x 12, squeeze 0 %
  - draw: billet, 28 x 6
  - fold: billet, 28 x 12
  - weld shut: billet, 25 x 8, squeeze 0 %
  - cut: wedge, cold, kerf 2
  - taper: wedge, 2 heats
"""


def planned(text: str) -> Plan:
    return look_back(read_recipe(text, "job.yaml"))


def told(plan: Plan) -> str:
    lines = []
    for part in stock_page(planned_tool(plan), Shown("mm")).sections:
        lines.append(part.heading)
        for one in part.body:
            if isinstance(one, Line):
                lines.append(one.words)
            elif isinstance(one, Table):
                lines += ["  ".join(map(str, row.cells)) for row in one.rows]
    return "\n".join(lines)


def test_pieces_of_one_bar_are_marked_in_one_row_with_their_kerfs() -> None:
    # By hand: three of 100 mm and one of 20 with a kerf of 2 each end at 102, 204, 306 and 328 of 350 mm.
    plan = planned(PINS)
    (row,) = plan.rows
    assert [one.piece for one in row.pieces] == ["pin 1", "pin 2", "pin 3", "peg"]
    assert [one.ends.value for one in row.pieces] == pytest.approx([102, 204, 306, 328])
    assert [one.cut_in for one in row.pieces] == [1, 2, 3, 4]
    assert row.left_over is not None
    assert row.left_over.value == pytest.approx(22)
    assert plan.recipe.pieces["peg"].metal == "mild steel"


def test_the_plan_tells_the_row_and_what_is_left_of_the_bar_once() -> None:
    words = told(planned(PINS))
    assert "One bar for pin 1, pin 2, pin 3 and peg" in words
    assert "mark at 102 mm  pin 1 ends, pin 2 begins; step 1 cuts it off, kerf and all" in words
    assert words.count("of the bar in hand is left over") == 1
    assert "22 mm of the bar in hand is left over." in words


def test_one_bar_that_is_too_short_for_all_is_told_once_with_what_all_need() -> None:
    findings = planned_tool(planned(PINS.replace("long 350", "long 300"))).findings
    (found,) = [one for one in findings if "too short" in str(one.sentence.template)]
    assert found.piece == "pin 1"
    assert found.sentence.parts[2].value == pytest.approx(328)  # type: ignore[union-attr]


def test_a_piece_from_a_billet_has_its_section_its_metals_and_its_layers() -> None:
    # By hand: a wedge of 25 · (8 + 2)/2 · 100 = 12 500 mm³ is 62.5 mm of 25 × 8, and 2 mm of kerf:
    # two of them take 129 mm.
    plan = planned(BILLET)
    wedge = plan.pieces["wedge 1"]
    assert (wedge.source, wedge.layers, plan.pieces["billet"].layers) == ("billet", 6, 6)
    assert plan.recipe.pieces["wedge 2"].shares == pytest.approx({"1084": 10 / 13, "mild steel": 3 / 13})
    (row,) = plan.rows
    assert row.length.value == pytest.approx(129)
    assert row.left_over is not None
    assert row.left_over.value == pytest.approx(71)
    assert "From the billet, flat 25 × 8 mm: 64.5 mm of it" in told(plan)


def test_the_billet_is_no_part_of_what_is_finished() -> None:
    plan = planned(BILLET)
    assert plan.recipe.finished == ("wedge 1", "wedge 2")
    # 2 · 12.5 cm³ at 7.85 g/cm³
    assert plan.finished_mass.value == pytest.approx(196.25, rel=1e-6)


@pytest.mark.parametrize("text", [PINS, BILLET])
def test_what_is_shared_is_written_back_as_it_was_read(text: str) -> None:
    spelt = spelt_out(text)
    assert spelt_out(write_recipe(spelt)) == spelt


@pytest.mark.parametrize(
    ("written", "instead", "says"),
    [
        (
            "from billet",
            "from bilet",
            ":12:15: there is no piece “bilet” to take it from: did you mean billet?",
        ),
        ("size: 25 x 8, long 200", "size: 25 x 8 to 20 x 8, long 200", "billet is no bar of one section"),
        (
            "    bar: from billet",
            "    metal: 1084\n    bar: from billet",
            ":12:5: the metal is that of billet",
        ),
        (
            "  - weld shut: billet, 25",
            "  - cut: wedge, cold\n  - weld shut: billet, 25",
            "which step 6 still works on",
        ),
    ],
)
def test_what_cannot_be_taken_is_told_with_its_place(written: str, instead: str, says: str) -> None:
    text = BILLET.replace(written, instead, 1)
    assert text != BILLET
    with pytest.raises(RecipeFaults) as refused:
        read_recipe(text, "job.yaml")
    assert says in "\n".join(map(str, refused.value.faults))


def test_a_bar_beside_nothing_is_told_with_its_place() -> None:
    with pytest.raises(RecipeFaults) as refused:
        read_recipe(PINS.replace("beside pin 1", "beside pin 4"), "job.yaml")
    assert ":11:17: there is no piece “pin 4” with a bar of its own" in str(refused.value)


def test_a_piece_like_another_may_lie_beside_it_on_its_bar() -> None:
    like = """
recipe: Pair
scale: none
pieces:
  left:
    metal: mild steel
    bar: 20 x 4, long 600
    size: 20 x 4, long 150
  right: {like: left, bar: beside left}
steps:
  - cut: left, long 150, cold, kerf 2
"""
    plan = planned(like)
    (row,) = plan.rows
    assert [one.piece for one in row.pieces] == ["left", "right"]
    assert plan.recipe.pieces["right"].metal == "mild steel"


def test_a_piece_like_another_that_says_a_metal_of_its_own_beside_it_is_told_at_its_own_place() -> None:
    like = """
recipe: Pair
pieces:
  left:
    metal: mild steel
    bar: 20 x 4, long 600
    size: 20 x 4, long 150
  right: {like: left, bar: beside left, metal: C45}
steps:
  - cut: left, long 150, cold, kerf 2
"""
    with pytest.raises(RecipeFaults) as faults:
        planned(like)
    assert "8:41: the metal is that of left: leave it out" in str(faults.value)
