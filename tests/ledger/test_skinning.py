"""The skin that the fire leaves on a job's steel: by Fick's law over its heats, thinned and ground."""

from __future__ import annotations

from math import erf, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.ledger.skinning import skins
from coach.metals.skin import agren_m2_s
from tests.ledger.recipes import planned

#: One steel chisel: two forging heats at 1000 °C that halve its thickness, a treatment heat, then the stone.
CHISEL = """
title: Chisel
pieces: {chisel: {metal: C80, stock: {form: flat, width: 20, thickness: 10}}}
drawing: {chisel: {form: flat, width: 20 ±1, thickness: 4 ±0.4, length: 100 ±5}}
steps:
  - {do: draw, zone: chisel, to: {thickness: 5 ±0.4}, heats: 2, temperature: 1000 °C}
  - {do: harden, zone: chisel, to: {temperature: 800 °C}}
  - {do: temper, zone: chisel}
  - {do: grind, zone: chisel, to: {thickness: 4 ±0.4}, free: length}
"""


def by_hand_mm(*times: tuple[float, float]) -> float:
    """Depth in mm where nine tenths of the carbon are left, for (D·t in m², share of thickness after it)."""
    spread = 0.0
    for dt_m2, ratio in times:
        spread = (spread + dt_m2) * ratio**2
    z = 1.1630871536766743  # erf⁻¹(0.9), Abramowitz & Stegun table 7.1 read backwards (from memory)
    assert erf(z) == pytest.approx(0.9, abs=1e-12)
    return 2.0e3 * z * sqrt(spread)


def test_the_skin_is_ficks_over_the_usual_minutes_of_each_heat() -> None:
    (skin,) = skins(planned(CHISEL))
    forging = 2 * 180.0 * agren_m2_s(1000.0, 0.80)  # two heats of three minutes
    hardening = 300.0 * agren_m2_s(800.0, 0.80)
    assert skin.grinding is not None
    assert skin.grinding.skin_mm == pytest.approx(by_hand_mm((forging, 0.5), (hardening, 1.0)), rel=1e-9)
    assert skin.grinding.dimension == "thickness"
    assert skin.grinding.ground_mm == pytest.approx(5.0 - 4.0 - 2 * 0.01)  # hardening scales both faces
    assert skin.grinding.faces == 2
    # Two faces, each with its skin and a tenth of sound steel (judgement).
    assert skin.grinding.needed_mm == pytest.approx(2.0 * (skin.grinding.skin_mm + 0.1))


def test_nothing_is_lost_before_the_first_heat_and_the_step_in_hand_counts() -> None:
    plan = planned(CHISEL)
    forging = 2 * 180.0 * agren_m2_s(1000.0, 0.80)
    assert skins(plan, 0, {1: []})[0].now_mm == 0.0
    assert skins(plan, 0)[0].now_mm == pytest.approx(by_hand_mm((forging, 0.5)), rel=1e-9)


def test_the_logged_minutes_count_in_place_of_the_usual_ones() -> None:
    plan = planned(CHISEL)
    longer = skins(plan, 1, {1: [12.0, 12.0]})[0]
    assert longer.now_mm > skins(plan, 1)[0].now_mm
    six = 720.0 * 2 * agren_m2_s(1000.0, 0.80)
    hardening = 300.0 * agren_m2_s(800.0, 0.80)
    assert longer.now_mm == pytest.approx(by_hand_mm((six, 0.5), (hardening, 1.0)), rel=1e-9)


@given(st.lists(st.floats(0.0, 30.0), max_size=6), st.floats(0.0, 30.0))
def test_one_heat_more_never_makes_the_skin_thinner(minutes: list[float], more: float) -> None:
    plan = planned(CHISEL)
    before = skins(plan, 1, {1: minutes})[0].now_mm
    assert skins(plan, 1, {1: [*minutes, more]})[0].now_mm >= before


def test_iron_has_no_skin_to_speak_of() -> None:
    assert skins(planned(CHISEL.replace("C80", "wrought iron").replace("{temperature: 800 °C}", "{}"))) == ()


def test_after_the_stone_only_what_is_left_of_it_counts() -> None:
    plan = planned(CHISEL)
    ground = skins(plan, 4)[0]
    assert ground.grinding is None
    assert ground.now_mm < ground.end_mm


def test_the_stone_leaves_what_it_does_not_reach() -> None:
    # Half a tenth of a millimetre off both faces together is a quarter of a tenth off each; what hardening
    # scales, a hundredth of a millimetre of each, is not there to be ground.
    plan = planned(CHISEL.replace("thickness: 5 ±0.4}, heats", "thickness: 4.07 ±0.4}, heats"))
    before, after = skins(plan, 3)[0], skins(plan, 4)[0]
    assert before.grinding is not None
    assert before.grinding.ground_mm == pytest.approx(0.05)
    assert before.grinding.skin_mm > 0.05
    assert after.now_mm == pytest.approx(before.grinding.skin_mm - 0.025, rel=1e-9)


# ── faces ───────────────────────────────────────────────────────────────────────────────────────────

#: Steel laid on the flat of an iron blade, or into a cleft of its end; the stone thins its end.
BLADE = """
title: Blade
pieces:
  body: {metal: wrought iron, stock: {form: flat, width: 40, thickness: 12}}
  edge: {metal: C80, stock: {form: flat, width: 40, thickness: 6}}
drawing:
  body: {form: taper, width: 40 ±2, thickness: 12 ±1, end width: 40 ±2, end thickness: 2 ±0.4, length: 90 ±9,
         take up: length}
  edge: {form: flat, width: 40 ±2, thickness: 6 ±0.5, length: 30 ±3, take up: length}
steps:
  - {do: mark out, piece: edge}
  - {do: weld, zone: body, lay: edge, INSET form: flat, to: {width: 40 ±2, thickness: 14 ±1}, heats: 2,
     temperature: 1100 °C}
  - {do: taper, zone: body, to: {width: 40 ±2, thickness: 12 ±1, end width: 40 ±2, end thickness: 4 ±0.4},
     heats: 2, temperature: 1000 °C}
  - {do: grind, zone: body, to: {end thickness: 2 ±0.4} SAID}
"""


def ground(inset: str = "", more: str = "") -> tuple[object, int, str]:
    skin = skins(planned(BLADE.replace("INSET", inset).replace(" SAID", more)))[0]
    assert skin.grinding is not None
    return skin.grinding.ground_mm, skin.grinding.faces, skin.grinding.dimension


def test_laid_steel_has_one_bare_face_and_steel_in_a_cleft_two() -> None:
    assert ground() == (pytest.approx(2.0), 1, "end_thickness")
    assert ground("inset: 20 mm,") == (pytest.approx(2.0), 2, "end_thickness")


def test_what_comes_off_the_iron_takes_no_skin_off_the_steel() -> None:
    # A bevel ground from the iron's side: of two millimetres half a one is off the steel.
    assert ground(more=", iron side: 1.5 mm") == (pytest.approx(0.5), 1, "end_thickness")
    assert ground(more=", iron side: 2 mm") == (pytest.approx(0.0), 1, "end_thickness")


def test_an_edge_line_that_is_ground_too_little_counts_as_well_as_the_face() -> None:
    assert ground(more=", loses: 0.2 mm") == (pytest.approx(0.2), 1, "length")
    assert ground(more=", loses: 5 mm") == (pytest.approx(2.0), 1, "end_thickness")


def test_no_more_comes_off_the_iron_than_comes_off_at_all() -> None:
    assert ground(more=", iron side: 3 mm")[0] == pytest.approx(0.0)
