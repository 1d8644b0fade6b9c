"""Before the fire is lit a recipe is told of thin steel, a wrong heat or temper, a shallow cleft."""

from __future__ import annotations

import pytest

from coach.ledger.laid_steel import laid_steels
from coach.ledger.weigh import weigh
from coach.telling.words import write
from tests.ledger.recipes import CLEFT, FACED, planned


def findings(text: str) -> list[str]:
    return [write(finding.sentence) for finding in weigh(planned(text))]


def test_a_sound_recipe_has_nothing_to_find() -> None:
    assert findings(FACED) == []
    assert findings(CLEFT) == []


def test_the_face_is_sized_from_what_remains_by_the_account_of_its_way() -> None:
    (steel,) = laid_steels(planned(FACED))
    # By hand: 6 mm left, the 1.6 mm ground off takes the skin with it, two welding heats of 0.08 and one
    # treatment heat of 0.01 scale the outer face; 1 % is squeezed out and half of the 1 mm barbs is lost.
    expected = (6.0 + 1.6 + 2 * 0.08 + 0.01) / 0.99 + 0.5
    assert steel.needed.value == pytest.approx(expected, rel=1e-9)
    assert steel.left.value == pytest.approx(6.0 + (10.0 - expected) * 0.99, rel=1e-9)


@pytest.mark.parametrize(("drawn", "told"), [("8.3", False), ("8.4", False), ("8.2", True)])
def test_a_face_lacks_nothing_where_the_two_figures_are_told_alike(drawn: str, told: bool) -> None:
    # By hand, as above: (6 + 1.6 + 0.17) / 0.99 + 0.5 = 8.3485 mm, told as 8.3.
    text = FACED.replace("thickness: 10 ±0.5", f"thickness: {drawn} ±0.5")
    (steel,) = laid_steels(planned(text))
    assert steel.needed.value == pytest.approx(8.3485, abs=1e-4)
    assert steel.enough is not told
    assert any("it must be 8.3 mm" in one for one in findings(text)) is told


@pytest.mark.parametrize(
    ("was", "now", "told"),
    [
        ("remains: 6", "remains: 8.5", "to leave 8.5 mm of steel it must be"),
        ("loses: 1.6 mm", "loses: 0.2 mm", "mm for the stone"),
        ("790 to 820 °C", "860 to 900 °C", ", not at 860 to 900 °C."),
        ("hardness: 54 to 58", "hardness: 45 to 48", "and 45 to 48 HRC is asked for"),
    ],
)
def test_each_slip_is_told_with_its_step_and_the_right_figure(was: str, now: str, told: str) -> None:
    assert was in FACED
    found = findings(FACED.replace(was, now))
    assert any(told in sentence and "tep " in sentence for sentence in found), found


@pytest.mark.parametrize(
    ("was", "now", "told"),
    [
        ("inset: 20", "inset: 26", "The steel cannot go 26 mm into a cleft 24 mm deep"),
        ("groove depth: 24", "groove depth: 15", "is shallower than 1½ thicknesses"),
        ("to: {groove depth: 24}", "to: {groove width: 8}", "no groove before it says that it is that deep"),
    ],
)
def test_a_cleft_must_hold_its_steel(was: str, now: str, told: str) -> None:
    assert was in CLEFT
    assert any(told in sentence for sentence in findings(CLEFT.replace(was, now)))


def test_hardening_what_cannot_harden_is_told() -> None:
    plain = """
title: Bar
pieces: {bar: {metal: wrought iron, stock: {form: square, side: 20}}}
drawing: {bar: {form: square, side: 20, length: 100}}
steps: [{do: harden, zone: bar}, {do: temper, zone: bar}]
"""
    assert any("no steel in it to harden" in sentence for sentence in findings(plain))


def test_steel_in_a_cleft_is_sized_by_what_remains_behind_the_edge() -> None:
    drawn = CLEFT.replace("length: 30 ±2}", "length: 30 ±2, remains: 40}")
    drawn = drawn.replace("thickness: 12 ±1, length: 80 ±10", "thickness: 8 ±1, length: 80 ±10")
    plan = planned(f"{drawn}  - {{do: draw, zone: body, to: {{thickness: 8}}, heats: 2}}\nscale: none\n")
    (steel,) = laid_steels(plan)
    # By hand: no scale, so drawn from 12 to 8 mm at the same width the zone grows to 12/8 of its length, and
    # 1 % is squeezed out at the weld: 40 / 1.5 / 0.99.
    assert steel.dimension == "length"
    assert steel.needed.value == pytest.approx(40.0 / 1.5 / 0.99, rel=1e-9)
    assert steel.left.value == pytest.approx(30.0 * 0.99 * 1.5, rel=1e-9)
    assert sum(part.size.value for part in steel.parts) == pytest.approx(steel.needed.value)
