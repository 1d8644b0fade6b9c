"""What a cut takes off: metal beyond it leaves the piece, with every zone that lies there (by definition)."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.weigh import Cannot, Finding
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from tests.recipes.texts import FORKED

PICK = """\
recipe: Pick
pieces:
  pick:
    metal: mild steel
    bar: 20 x 8, long 500
    zones:
      blade: 20 x 8 to 20 x 3 ±1, long 60 ±9
      neck: 20 x 8, long 40 ±9
      shank: 20 x 8, long 50 ±9
      tail: 20 x 8, long 60 ±9
steps:
  - mark out: pick
  - taper: blade
"""


def found(text: str, step: str) -> list[Finding]:
    text += f"  - {step}\n"
    findings = planned_tool(look_back(read_recipe(text, "pick.yaml"))).findings
    return [one for one in findings if one.what is Cannot.STAY_ON]


@pytest.mark.parametrize("how", ["1 heat", "cold, kerf 2", "1 heat, long 40"])
@pytest.mark.parametrize(("zone", "off"), [("neck", "shank and tail"), ("shank", "tail")])
def test_a_cut_in_the_middle_of_a_piece_says_what_it_takes_off_and_where_to_cut(
    zone: str, off: str, how: str
) -> None:
    (one,) = found(PICK, f"cut: {zone}, {how}")
    assert f"cutting the {zone} at its far end takes the {off} off: cut the tail, the last zone" in write(
        one.sentence
    )
    assert (one.line, one.zone) == (14, zone)
    assert one.column > 0


@pytest.mark.parametrize("zone", ["blade", "tail"])
def test_a_zone_with_an_end_of_its_own_is_cut_there(zone: str) -> None:
    assert found(PICK, f"cut: {zone}, cold") == []


def test_a_branch_has_an_end_of_its_own() -> None:
    assert found(FORKED, "cut: left, cold") == []


@pytest.mark.parametrize("path", sorted(Path("recipes").glob("*.yaml")), ids=lambda path: path.stem)
def test_no_cut_on_the_shelf_takes_a_zone_off(path: Path) -> None:
    plan = look_back(read_recipe(path.read_text(encoding="utf-8"), path.name))
    assert [one for one in planned_tool(plan).findings if one.what is Cannot.STAY_ON] == []
