"""How long a step's metal can be worked, and what the clock's minutes say of the scale."""

from __future__ import annotations

from math import exp

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.fire.blows import HAND_HAMMER, power_hammer
from coach.ledger.course import Course, HeatMark, Mark
from coach.ledger.following import follow
from coach.ledger.hot_work import heats_by, hot_work, minutes_hot, reduction_of, section_of, soak_minutes
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.working import face_loss_mm
from coach.ledger.workpiece import at_stock
from coach.operations.does import Cause, HeatKind
from coach.recipe.model import Scale
from coach.recipe.reader import read_recipe
from tests.ledger.recipes import LAID, planned
from tests.made import make

BAR = """
title: Bar
pieces:
  bar: {metal: mild steel, stock: {form: square, side: 25}}
drawing:
  bar: {form: square, side: 20 ±0.5, length: 150 ±8}
steps:
  - {do: draw, zone: bar, to: drawing, heats: 2, temperature: 1100 °C}
"""


def course_of(plan: Plan, *marks: Mark) -> Course:
    return follow(plan, at_stock(plan), plan.recipe.steps[0], list(marks), finished=False)


def test_a_bar_loses_its_heat_by_its_sides_and_by_the_ends_that_are_bare() -> None:
    bar = make("square", {"side": 20.0, "length": 100.0})
    # A long square bar: volume over surface is a quarter of its side.
    assert section_of(bar).volume_per_surface_mm == pytest.approx(5.0)
    assert section_of(bar).half_thickness_mm == pytest.approx(10.0)
    assert section_of(bar, (True, True)).volume_per_surface_mm == pytest.approx(40000.0 / 8800.0)


def test_steel_is_worked_down_to_the_cold_end_of_its_own_range() -> None:
    plan = planned(BAR)
    hot = hot_work(plan, plan.recipe.steps[0])
    assert hot is not None
    assert hot.start_c == 1100.0
    assert hot.stop_c == pytest.approx(840.0)  # mild steel, from its grade's file
    # Pure radiation, t = ρ c V/(3 ε σ A) (1/T₂³ − 1/T₁³) (Incropera and DeWitt, 5.18, from memory), at
    # 7850 kg/m³, 650 J/kgK, emissivity 0.8 and V/A 5.54 mm: 70.3 s, and 1.5 times as fast at the anvil, 46.9.
    # Still air takes 10 W/m²K beside the 113 of radiation at 970 °C: 43.1. Austenite holds a little less.
    assert hot.working is not None
    assert hot.working.value == pytest.approx(43.1, rel=0.05)


def test_cold_work_and_work_at_no_stated_heat_have_no_time() -> None:
    plan = planned(BAR.replace(", temperature: 1100 °C", ""))
    assert hot_work(plan, plan.recipe.steps[0]) is None


def test_iron_and_steel_in_one_heat_are_told_by_the_one_that_bears_less() -> None:
    text = LAID.replace("do: weld,", "do: weld, temperature: 1150 °C,")
    plan = planned(text)
    weld = next(step for step in plan.recipe.steps if step.operation == "weld")
    hot = hot_work(plan, weld)
    if hot is not None:
        assert hot.stop_c < hot.start_c
        assert hot.together is not None


def test_a_thicker_bar_stays_hot_longer_and_soaks_longer() -> None:
    thin, thick = (planned(BAR.replace("25", str(side))) for side in (22, 32))
    one, other = (hot_work(plan, plan.recipe.steps[0]) for plan in (thin, thick))
    assert one is not None
    assert other is not None
    assert one.working is not None
    assert other.working is not None
    assert one.working < other.working
    soaked = [soak_minutes(hot.section, 1100.0, 800.0) for hot in (one, other)]
    assert None not in soaked
    assert soaked[0] < soaked[1]  # type: ignore[operator]  # neither is None


def test_the_blows_of_a_drawing_are_those_of_its_work() -> None:
    plan = planned(BAR)
    step = plan.recipe.steps[0]
    hot = hot_work(plan, step)
    assert hot is not None
    hand, power = heats_by(plan, step, hot, HAND_HAMMER), heats_by(plan, step, hot, power_hammer(50))
    assert hand is not None
    assert power is not None
    # By hand: ln (25/20)² of some 61 cm³ at about 130 MPa is 3.5 kJ, and 43 J of a blow go in: some 80.
    assert 60 <= hand.blows <= 110
    assert power.blows < hand.blows
    assert power.heats <= hand.heats


def test_a_longer_heat_takes_more_scale_by_the_parabola() -> None:
    plan = planned(BAR)
    usual, long = (course_of(plan, HeatMark(1, minutes)).now.volume_mm3("bar") for minutes in (3.0, 12.0))
    untimed = course_of(plan, HeatMark(1)).now.volume_mm3("bar")
    start = course_of(plan).now.volume_mm3("bar")
    assert untimed == pytest.approx(usual)  # three minutes are the usual ones
    # Four times as long is twice the scale, on nearly the same surface.
    assert (start - long) / (start - usual) == pytest.approx(2.0, rel=0.02)


def test_the_law_is_what_a_heat_loses_where_the_recipe_says_nothing() -> None:
    # Païdassi 1958 (from memory), with 30 % for a reducing fire: 3 min at 1100 °C take 0.034 mm, 4 min at
    # 1300 °C 0.10 mm a face.
    assert face_loss_mm(Scale(), HeatKind.FORGING, 1100.0) == pytest.approx(0.034, abs=5e-4)
    assert face_loss_mm(Scale(), HeatKind.WELDING, 1300.0) == pytest.approx(0.0995, abs=5e-4)
    assert face_loss_mm(Scale(forging_mm=0.05), HeatKind.FORGING, 1100.0) == 0.05
    assert face_loss_mm(Scale(), HeatKind.COLD, 1100.0) == 0.0


@given(st.floats(0.0, 40.0), st.none() | st.floats(0.0, 4000.0))
def test_a_piece_is_never_hot_for_longer_than_it_lay_in_the_fire(
    minutes: float, away_seconds: float | None
) -> None:
    plan = planned(BAR)
    hot = hot_work(plan, plan.recipe.steps[0])
    assert hot is not None
    found = minutes_hot(hot, minutes, away_seconds)
    assert 0.25 <= found <= max(minutes, 0.25)


def test_a_piece_that_went_in_cold_is_hot_for_less_of_its_time() -> None:
    plan = planned(BAR)
    hot = hot_work(plan, plan.recipe.steps[0])
    assert hot is not None
    assert minutes_hot(hot, 10.0, None) < minutes_hot(hot, 10.0, 20.0) == 10.0


def test_heats_that_a_recipe_does_not_say_are_reckoned_from_the_work() -> None:
    said = planned(BAR)
    hot = hot_work(said, said.recipe.steps[0])
    assert hot is not None
    reckoned = heats_by(said, said.recipe.steps[0], hot)
    assert reckoned is not None
    unsaid = planned(BAR.replace("heats: 2, ", ""))
    assert unsaid.recipe.steps[0].heats == reckoned.heats
    assert said.recipe.steps[0].heats == 2
    heavier = planned(BAR.replace("heats: 2, ", "").replace("side: 25}", "side: 32}"))
    assert heavier.recipe.steps[0].heats > unsaid.recipe.steps[0].heats


def test_without_a_heat_to_go_by_the_operation_s_own_count_stands() -> None:
    plan = planned(BAR.replace("heats: 2, ", "").replace(", temperature: 1100 °C", ""))
    assert plan.recipe.steps[0].heats == 2


@pytest.mark.parametrize(
    ("bare_ends", "ends_mm2"), [((True, False), 706.858), ((False, True), 78.540), ((False, False), 0.0)]
)
def test_a_taper_loses_most_of_an_end_s_heat_by_its_thick_end(
    bare_ends: tuple[bool, bool], ends_mm2: float
) -> None:
    # By hand: a cone from 30 to 10 mm, 100 mm long: π/12 · 100 · 1300 = 34 034 mm³ and
    # π · 20 · √(100² + 10²) = 6314.5 mm² of side; its ends are π/4 · 30² and π/4 · 10².
    cone = make("round taper", {"diameter": 30.0, "end_diameter": 10.0, "length": 100.0})
    assert section_of(cone, bare_ends).volume_per_surface_mm == pytest.approx(
        34033.92 / (6314.52 + ends_mm2), rel=1e-5
    )


@pytest.mark.parametrize(
    ("stock", "drawn", "times"),
    [
        # By hand: the section, or the thickness where that is more, before over after.
        ("{form: flat, width: 40, thickness: 12}", "{form: flat, width: 40, thickness: 8", 1.5),
        ("{form: flat, width: 20, thickness: 12}", "{form: flat, width: 24, thickness: 6", 2.0),
        ("{form: square, side: 20}", "{form: flat, width: 25, thickness: 10", 1.6),
    ],
)
def test_the_work_of_a_step_goes_by_how_many_times_it_thins(stock: str, drawn: str, times: float) -> None:
    plan = planned(
        f"title: Bar\npieces: {{bar: {{metal: mild steel, stock: {stock}}}}}\n"
        f"drawing: {{bar: {drawn}, length: 160 ±12, take up: length}}}}\n"
        "steps: [{do: draw, zone: bar, form: flat, to: drawing, heats: 3}]\n"
    )
    assert reduction_of(plan.by_step[1]["bar"]) == pytest.approx(times, rel=1e-6)


def test_metal_that_a_recipe_says_is_lost_by_mass_is_lost_at_the_metal_s_own_density() -> None:
    plan = planned(BAR.replace("heats: 2", "heats: 2, loses: 78.5 g"))
    # Mild steel has 7.85 g/cm³ (EN 1993-1-2 §3.2.2): 10 cm³.
    assert plan.by_step[1]["bar"].taken_mm3[Cause.STATED] == pytest.approx(10_000.0)


def spread_heats(to: str) -> int:
    text = (
        "recipe: Blade\npieces:\n  body:\n    metal: mild steel\n    bar: 36 x 20\n    zones:\n"
        f"      blade: {to} ±40\n      poll: 36 x 20, long 40\n"
        "usual: {at: yellow}\nsteps:\n  - mark out: body\n  - spread: blade, long free\n"
    )
    return look_back(read_recipe(text, "blade.yaml")).recipe.steps[1].heats


# By hand: a bar 20 mm thick that runs out to 6 mm is thinned by ln(20/t) at each place, weighed with its
# metal: at one width (∫ t ln(20/t) dt) / ∫ t dt from 6 to 20 = 69.3 / 182 = 0.38; the wider its thin end,
# the more.
def test_the_wider_a_taper_is_spread_the_more_heats_it_takes() -> None:
    heats = [spread_heats(f"36 x 20 to {wide} x 6, long 90") for wide in (40, 60, 80)]
    assert heats == sorted(heats)
    assert heats[0] < heats[2]
    flat = spread_heats("60 x 10, long 90")
    assert heats[2] >= flat // 2  # half of the metal comes to 10 mm or less there as well


def test_the_work_of_a_taper_is_that_of_all_its_metal() -> None:
    plan = planned(
        "title: Bar\npieces: {bar: {metal: mild steel, stock: {form: flat, width: 36, thickness: 20}}}\n"
        "drawing: {bar: {form: taper, width: 36, thickness: 20, end_width: 36, end_thickness: 20, "
        "length: 90 ±40, take up: length}}\n"
        "steps: [{do: draw, zone: bar, form: taper, to: drawing, heats: 3}]\n"
    )
    stage = plan.by_step[1]["bar"]
    out = stage._replace(form_after=stage.form_after.with_sizes({"end_width": 80.0, "end_thickness": 6.0}))
    # By hand, w = 36 + 44 x and t = 20 - 14 x: (∫ w t ln(20/t) dx) / ∫ w t dx from 0 to 1 by Simpson's
    # rule in four parts. w·t is 720, 775.5, 754, 655.5, 480 and ln(20/t) 0, 0.1924, 0.4308, 0.7444, 1.2040,
    # so that
    # (0 + 4·149.2 + 2·324.8 + 4·487.9 + 577.9) / (720 + 4·775.5 + 2·754 + 4·655.5 + 480) = 3775.9
    # / 8432 = 0.448.
    assert reduction_of(out) == pytest.approx(exp(0.448), rel=0.01)
