"""Heats that will not do are findings of the plan, by the limits of `coach.fire.limits`."""

from __future__ import annotations

import pytest

from coach.ledger.weigh import Cannot, weigh
from coach.recipe.whereabouts import Whereabouts
from coach.telling.words import write
from tests.ledger.recipes import planned

CHISEL = """\
recipe: Chisel
pieces:
  bar:
    metal: C80
    bar: square 16
    zones:
      shank: square 16 ±1, long 100 ±8
      edge: 16 ±1 x 16 ±1 to 20 ±2 x 4 ±0.6, long 60 ±8
steps:
  - taper: edge, 2 heats, at 1050 °C
  - harden: edge, at 780 to 810 °C, quench oil
  - temper: edge, at 230 to 260 °C
"""


def found(text: str) -> list[tuple[Cannot, int, str]]:
    return [(one.what, one.step, write(one.sentence)) for one in weigh(planned(text))]


def test_a_chisel_in_its_order_has_nothing_to_tell() -> None:
    assert found(CHISEL) == []


def test_a_heat_that_burns_the_steel_is_a_finding() -> None:
    # Above the handbook's highest forging heat by 50 °C (from memory): 1280 °C is too hot for 0.8 % carbon.
    ((what, step, told),) = found(CHISEL.replace("1050 °C", "1280 °C"))
    assert (what, step) == (Cannot.STAND_HEAT, 1)
    assert "C80 must be feared to burn" in told


def test_hammering_below_the_change_is_a_finding_and_bending_there_is_none() -> None:
    # Steel has turned back from austenite at about 725 °C (from memory).
    ((what, step, told),) = found(CHISEL.replace("1050 °C", "700 °C"))
    assert (what, step) == (Cannot.GIVE_COLD, 1)
    assert "700 °C is no heat to taper C80 at: below 725 °C it cracks" in told


def test_a_temper_of_what_was_not_hardened_is_a_finding() -> None:
    ((what, step, told),) = found(CHISEL.replace("  - harden: edge, at 780 to 810 °C, quench oil\n", ""))
    assert (what, step) == (Cannot.STAY_HARD, 2)
    assert "no step before it hardens edge" in told


def test_straightening_cold_between_quench_and_temper_is_a_finding_with_its_caution() -> None:
    # Steel as quenched breaks like glass (from memory).
    temper = "  - temper: edge, at 230 to 260 °C\n"
    cold = "  - straighten: edge, cold\n"
    ((what, step, told),) = found(CHISEL.replace(temper, cold + temper))
    assert (what, step) == (Cannot.STAY_HARD, 3)
    assert "snaps" in told
    assert "eyes covered" in told
    assert found(CHISEL + cold) == []


@pytest.mark.parametrize(
    "late", ["taper: edge, 1 heat, at 1000 °C", "normalise: shank, at 850 °C, also hot edge"]
)
def test_a_fire_after_the_temper_is_a_finding_unless_it_is_hardened_again(late: str) -> None:
    again = f"{CHISEL}  - {late}\n"
    ((what, step, told),) = found(again)
    assert (what, step) == (Cannot.STAY_HARD, 4)
    assert "its fire undoes what step 2, Harden the edge, made of edge" in told
    anew = "  - harden: edge, at 780 to 810 °C, quench oil\n  - temper: edge, at 230 to 260 °C\n"
    assert found(again + anew) == []
    assert Whereabouts(again, "x").of(step) == (13, 5)
