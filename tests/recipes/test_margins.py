"""Margins that the coach sets: found by the doubt of the plan, written into the file as it is laid out."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.bench.margins import allowances_for
from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.verdict import PlanState
from coach.quantities import SizeError
from coach.recipe.fixing import with_allowances
from coach.recipe.reader import read_recipe
from coach.recipe.sizes import read_margin
from tests.cli.conftest import Coach, coach
from tests.recipes.test_lines import TEXTS

AWL = """\
recipe: Marking awl  # the first one
usual: {at: light orange, margin: enough for 95 %}
pieces:
  awl:
    metal: O1
    bar: square 8
    zones:  # in order from the end of the bar
      point: round 5 to 1.5, long 60 +15 -4   # drawn last
      grip:  "square 8, long 70 ±5"
      eye:
        size: round 5 ±0.4 to 3
        # longer does no harm
        long: 75 ±6  # over the bend
steps:
  - mark out: awl
  - taper: point, 2 heats
  - cut: eye, at yellow
  - taper: eye
"""
__all__ = ["coach"]


def test_the_allowances_found_make_every_zone_sure_of_its_metal() -> None:
    recipe = read_recipe(AWL, "awl.yaml")
    assert recipe.enough_for == 0.95
    before = planned_tool(look_back(recipe))
    assert any(zone.extra for piece in before.pieces for zone in piece.zones)
    shares = allowances_for(recipe, 0.95)
    assert set(shares) <= {"point", "grip", "eye"}
    fixed = read_recipe(with_allowances(AWL, "awl.yaml", shares), "awl.yaml")
    after = planned_tool(look_back(fixed))
    assert after.verdict is not PlanState.OFF_PLAN
    assert not any(zone.extra for piece in after.pieces for zone in piece.zones)
    assert allowances_for(fixed, 0.95) == {}
    assert {zone: fixed.drawing[zone].allowance_share for zone in shares} == pytest.approx(shares)


def test_an_allowance_is_written_where_the_zone_stands_and_nothing_else_is_touched() -> None:
    found = with_allowances(AWL, "awl.yaml", {"point": 0.03, "grip": 0.025, "eye": 0.1})
    expected = AWL.replace("long 60 +15 -4   # drawn", "long 60 +15 -4, allowance 3 %   # drawn")
    expected = expected.replace('long 70 ±5"', 'long 70 ±5, allowance 2.5 %"')
    expected = expected.replace("# over the bend\n", "# over the bend\n        allowance: 10 %\n")
    assert found == expected
    again = with_allowances(found, "awl.yaml", {"point": 0.045, "grip": 0.03, "eye": 0.12})
    assert again == (
        expected.replace("allowance 3 %", "allowance 4.5 %")
        .replace("allowance 2.5 %", "allowance 3 %")
        .replace("allowance: 10 %", "allowance: 12 %")
    )


def test_an_allowance_goes_into_braces_and_into_a_piece_of_one_zone() -> None:
    text = (
        "recipe: x\npieces:\n  a: {metal: C45, bar: square 8, size: {size: square 8, long: 60}}\nsteps: []\n"
    )
    assert "long: 60, allowance: 2 %}}" in with_allowances(text, "x", {"a": 0.02})


@pytest.mark.parametrize("name", TEXTS)
def test_every_zone_of_the_shelf_can_be_given_an_allowance(name: str) -> None:
    recipe = read_recipe(TEXTS[name], name)
    shares = dict.fromkeys(recipe.drawing, 0.055)
    fixed = read_recipe(with_allowances(TEXTS[name], name, shares), name)
    assert {zone: drawn.allowance_share for zone, drawn in fixed.drawing.items()} == pytest.approx(shares)


def test_a_margin_may_be_a_share_which_a_zone_says_otherwise() -> None:
    text = AWL.replace("enough for 95 %", "4 %").replace("long 60 +15 -4", "long 60 +15 -4, allowance 1 %")
    drawing = read_recipe(text, "awl.yaml").drawing
    assert {zone: drawn.allowance_share for zone, drawn in drawing.items()} == pytest.approx(
        {"point": 0.01, "grip": 0.04, "eye": 0.04}
    )


@pytest.mark.parametrize(
    "written", ["enough", "enough for 20 %", "about enough for 95 %", "enough for 100 %", "4"]
)
def test_a_margin_that_cannot_be_meant_is_refused(written: str) -> None:
    with pytest.raises(SizeError):
        read_margin(written)


def test_check_says_what_is_to_be_written_and_writes_it_when_told(coach: Coach) -> None:
    file = coach.home.parent / "awl.yaml"
    file.write_text(AWL, encoding="utf-8")
    file.chmod(0o644)
    assert f"coach check --fix {file}" in coach("check", str(file)).out
    assert file.read_text(encoding="utf-8") == AWL
    told = coach("check", str(file), "--fix")
    assert told.code == 0
    assert "the allowance of point is" in told.out
    assert "worth a look" not in told.out
    assert "# drawn last" in file.read_text(encoding="utf-8")
    assert file.stat().st_mode & 0o777 == 0o644
    assert "allowance of" not in coach("check", str(file), "--fix").out


# A lug of 30 ±1 takes its spare up in its width: 10 % more metal would make it 33 wide, out of its limits.
def test_no_margin_leaves_a_size_beside_its_drawing_and_it_is_told_what_makes_room(
    coach: Coach, tmp_path: Path
) -> None:
    path = tmp_path / "lug.yaml"
    path.write_text(
        "recipe: Lug\npieces:\n  bar:\n    metal: mild steel\n    bar: 30 x 4\n    zones:\n"
        "      lug: 30 x 4, long 22 ±3, round hole 5.5\n      strap: 30 x 4, long 80 ±6\n"
        "usual: {at: light yellow, kerf: 2, margin: enough for 99 %}\n"
        "steps:\n  - mark out: bar\n  - cut: strap, cold\n  - punch: lug\n",
        encoding="utf-8",
    )
    fixed, told = coach("check", "--fix", str(path)), coach("check", str(path))
    assert "lug: 30 x 4, long 22 ±3, round hole 5.5, allowance" in path.read_text(encoding="utf-8")
    for out in (fixed.out, told.out):
        assert "the drawing wants" not in out
        assert "wider limits make room" in " ".join(out.split())
    assert "is not written in yet" not in told.out
