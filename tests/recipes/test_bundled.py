"""Tests that every recipe that comes with the coach is sound, whatever is changed in it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import pi, sqrt
from pathlib import Path

import pytest

from coach.bench.planned import planned_tool
from coach.forms import Form
from coach.ledger.forecast import forecast
from coach.ledger.looking_back import look_back
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading, cold_reading
from coach.ledger.verdict import PlanState, Verdict, judge
from coach.ledger.weigh import weigh
from coach.ledger.workpiece import at_stock
from coach.metals.grade import grade
from coach.metals.grade_file import Grade
from coach.operations import operation
from coach.places import bundled_recipes
from coach.quantities import Kind
from coach.recipe.model import Recipe, Step
from coach.recipe.reader import read_recipe_file
from coach.telling.words import write

_FILES = sorted(bundled_recipes().glob("*.yaml"))
#: Lower critical temperature of plain carbon steel: the eutectoid of the iron-carbon diagram, 727 °C.
_EUTECTOID_C = 727.0


@pytest.fixture(params=_FILES, ids=lambda path: path.stem)
def recipe(request: pytest.FixtureRequest) -> Recipe:
    path = request.param
    assert isinstance(path, Path)
    return read_recipe_file(path)


@pytest.fixture
def plan(recipe: Recipe) -> Plan:
    return look_back(recipe)


@pytest.fixture
def adze() -> Plan:
    return look_back(read_recipe_file(bundled_recipes() / "carpenters-adze.yaml"))


def _density_g_mm3(recipe: Recipe, zone: str) -> float:
    return grade(recipe.pieces[recipe.drawing[zone].piece].metal).density_kg_m3 * 1e-6


def _hot_steps(recipe: Recipe) -> Iterator[tuple[Step, tuple[Grade, ...]]]:
    """Every step that takes heats, with the metals that lie in its fire."""
    laid: dict[str, list[str]] = {zone: [] for zone in recipe.drawing}
    for step in recipe.steps:
        if step.lays is not None:
            laid[step.zones[0]].append(step.lays)
        if step.heats:
            zones = {part for zone in step.heated for part in (zone, *laid[zone])}
            pieces = {recipe.drawing[zone].piece for zone in zones}
            yield step, tuple(grade(recipe.pieces[piece].metal) for piece in sorted(pieces))


def test_the_recipes_that_ship_are_there() -> None:
    assert {"carpenters-adze", "first-hook"} <= {path.stem for path in _FILES}


def test_a_bundled_recipe_weighs_without_a_finding(plan: Plan) -> None:
    assert weigh(plan) == ()


def test_a_bundled_recipe_is_on_plan_before_any_fire_is_lit(plan: Plan) -> None:
    found = forecast(plan, None, at_stock(plan), 1)
    assert found.state is PlanState.ON_PLAN, found.reason
    assert found.chance >= 0.95


def test_the_metal_of_every_zone_is_what_it_ends_as_and_what_was_taken(plan: Plan) -> None:
    for zone, way in plan.stages.items():
        ends = way[-1].form_after.volume_mm3()
        taken = sum(sum(stage.taken_mm3.values()) for stage in way)
        laid = sum(stage.laid_mm3 for stage in way)
        assert plan.start_mm3[zone] + laid == pytest.approx(ends + taken, abs=1e-6), zone


def test_laid_steel_is_counted_once_and_whole(plan: Plan) -> None:
    for zone, weld in plan.recipe.welds.items():
        host = weld.zones[0]
        laid = [stage.laid_mm3 for stage in plan.stages[host] if stage.step.lays == zone]
        assert laid == [pytest.approx(plan.stages[zone][-1].after_mm3, abs=1e-6)]


def test_nothing_is_taken_that_is_less_than_nothing(plan: Plan) -> None:
    for way in plan.stages.values():
        assert all(taken >= 0.0 for stage in way for taken in stage.taken_mm3.values())


def test_the_bars_weigh_what_the_head_weighs_and_what_was_lost(recipe: Recipe) -> None:
    # With nothing added for chance the finished head is the drawing's.
    drawn = {zone: drawing._replace(allowance_share=0.0) for zone, drawing in recipe.drawing.items()}
    plan = look_back(recipe._replace(drawing=drawn))
    # A bar that is made for other pieces counts as theirs.
    bars_g = sum(piece.mass.value for name, piece in plan.pieces.items() if name not in recipe.sources)
    zones = [zone for zone, drawn in recipe.drawing.items() if drawn.piece not in recipe.sources]
    lost_g = sum(_lost_g(recipe, plan, zone) for zone in zones)
    assert bars_g - lost_g == pytest.approx(plan.finished_mass.value, rel=1e-3)


def _lost_g(recipe: Recipe, plan: Plan, zone: str) -> float:
    """What a zone loses on its way: a joined zone loses each of its metals by its share of the volume."""
    lost = 0.0
    mass, volume = plan.start_mm3[zone] * _density_g_mm3(recipe, zone), plan.start_mm3[zone]
    for stage in plan.stages[zone]:
        if stage.step.lays is not None and stage.laid_mm3:
            mass += stage.laid_mm3 * _density_g_mm3(recipe, stage.step.lays)
            volume += stage.laid_mm3
        taken = sum(stage.taken_mm3.values())
        lost += taken * mass / volume
        mass -= taken * mass / volume
        volume -= taken
    return lost


def test_every_forging_heat_suits_every_metal_in_the_fire(recipe: Recipe) -> None:
    for step, metals in _hot_steps(recipe):
        if step.heat_kind != "forging":
            continue
        assert step.temperature_c is not None, step.title
        for metal in metals:
            assert metal.forging_low_c is not None
            assert metal.forging_high_c is not None
            assert metal.forging_low_c <= step.temperature_c <= metal.forging_high_c, (step.title, metal.name)


def test_every_welding_heat_is_the_steel_s_and_no_more(recipe: Recipe) -> None:
    # Two metals are welded at the ceiling of the one that stands less: forging practice, from memory.
    for step, metals in _hot_steps(recipe):
        if step.heat_kind != "welding":
            continue
        assert step.temperature_c is not None, step.title
        ceilings = {metal.welding_high_c: metal for metal in metals if metal.welding_high_c is not None}
        tenderest = ceilings[min(ceilings)]
        assert tenderest.welding_low_c is not None
        assert tenderest.welding_low_c <= step.temperature_c <= min(ceilings), (step.title, tenderest.name)


def test_every_heat_of_treatment_is_past_critical_and_short_of_forging_hot(recipe: Recipe) -> None:
    for step, metals in _hot_steps(recipe):
        if step.heat_kind != "treatment":
            continue
        assert step.temperature_c is not None, step.title
        steels = [m for m in metals if m.carbon_share is not None and m.carbon_share > 0.25]
        for steel in steels:
            assert steel.forging_high_c is not None
            assert _EUTECTOID_C < step.temperature_c < steel.forging_high_c - 100.0, (step.title, steel.name)


def test_no_job_rests_on_a_tack_or_between_a_quench_and_its_temper(recipe: Recipe) -> None:
    waits: set[tuple[str, str]] = set()
    for step in recipe.steps:
        waits -= {(step.operation, zone) for zone in (*step.zones, *step.heated)}
        if follower := {"tack": "weld", "harden": "temper"}.get(step.operation):
            waits |= {(follower, zone) for zone in step.zones}
        assert not (waits and step.may_rest), step.title
    assert not waits


def test_what_a_step_says_fits_a_bench(recipe: Recipe) -> None:
    for step in recipe.steps:
        assert len(step.how) <= 300, step.title
        assert len(step.watch) <= 160, step.title


def test_every_piece_has_a_handle_or_a_bar_that_is_long_enough(plan: Plan) -> None:
    for piece in plan.pieces.values():
        if piece.left_over is not None:
            assert piece.left_over.value > 0.0


def test_no_path_and_no_address_stands_in_a_bundled_recipe(recipe: Recipe) -> None:
    assert not re.search(r"\w+://|(?<!\S)~?/\w|\\", recipe.text)


# ── the carpenter's adze ────────────────────────────────────────────────────────────────────────


def test_the_adze_is_a_whole_job(adze: Plan) -> None:
    assert len(adze.recipe.steps) >= 20
    done = {step.operation for step in adze.recipe.steps}
    assert {"set down", "punch", "drift", "cut", "tack", "weld", "spread", "taper", "bend"} <= done
    assert {"normalise", "harden", "temper", "grind", "sharpen", "haft"} <= done
    assert len(adze.recipe.welds) == 2


def test_the_adze_s_head_weighs_what_an_adze_s_head_weighs(adze: Plan) -> None:
    # 1.2 to 1.8 kg: common practice, no source.
    assert 1200.0 < adze.finished_mass.value < 1800.0


def _punched(adze: Plan) -> list[Stage]:
    return [stage for stage in adze.stages["eye"] if stage.form_after.KIND == "eyed"]


def test_the_adze_s_eye_keeps_sound_cheeks(adze: Plan) -> None:
    # At least 9 mm on either side of the widest mouth: common practice, no source.
    for stage in _punched(adze):
        form = stage.form_after
        mouth_mm = max(form.size_mm("hole_width"), form.size_mm("far_hole_width"))
        assert (form.size_mm("width") - mouth_mm) / 2 >= 9.0, stage.step.title


def test_the_adze_s_eye_is_not_stretched_further_than_iron_bears(adze: Plan) -> None:
    # Up to 1.3 times the rim of the slot it was opened from: shop judgement.
    slot, *_, finished = (stage.form_after for stage in _punched(adze))
    rim_mm = _slot_rim_mm(slot)
    for mouth in ("", "far_"):
        length_mm, width_mm = (finished.size_mm(f"{mouth}hole_{name}") for name in ("length", "width"))
        assert _oval_rim_mm(length_mm, width_mm) / rim_mm <= 1.3


def _slot_rim_mm(form: Form) -> float:
    """A stadium's perimeter, 2(L - c) + πc (Machinery's Handbook, from memory)."""
    length_mm, width_mm = form.size_mm("hole_length"), form.size_mm("hole_width")
    return 2 * (length_mm - width_mm) + pi * width_mm


def _oval_rim_mm(length_mm: float, width_mm: float) -> float:
    """An ellipse's perimeter (S. Ramanujan, Quarterly Journal of Mathematics 45, 1914: the second form)."""
    a, b = length_mm / 2, width_mm / 2
    h = ((a - b) / (a + b)) ** 2
    return pi * (a + b) * (1 + 3 * h / (10 + sqrt(4 - 3 * h)))


def test_the_adze_s_bit_is_cut_short_because_it_will_be_drawn(adze: Plan) -> None:
    cut = next(cut for cut in adze.cuts if cut.zone == "bit")
    assert cut.short_by.value > 20.0


def test_the_adze_s_blade_runs_on_into_its_bit(adze: Plan) -> None:
    blade, bit = (adze.recipe.drawing[zone].limits for zone in ("blade", "bit"))
    assert blade["end_width"].nominal == bit["width"].nominal
    assert blade["end_thickness"].nominal == bit["thickness"].nominal


def test_the_adze_s_curve_and_its_template_agree(adze: Plan) -> None:
    # Sagitta s = R - √(R² - c²/4) of a chord c, Euclid's Elements III.35.
    bend = next(step for step in adze.recipe.steps if step.operation == "bend")
    chord_mm = sum(adze.recipe.drawing[zone].limits["length"].nominal for zone in ("blade", "bit"))
    radius_mm = bend.targets["radius"].nominal
    sagitta_mm = radius_mm - sqrt(radius_mm**2 - chord_mm**2 / 4)
    assert bend.targets["curve_height"].contains(sagitta_mm)


def test_the_adze_s_bar_shows_what_is_left_of_it(adze: Plan) -> None:
    for piece in adze.pieces.values():
        assert piece.bar is not None
        assert piece.left_over is not None
        assert piece.left_over.value > 150.0  # enough to hold it by


def test_what_a_step_is_measured_with_can_settle_what_it_asks(recipe: Recipe) -> None:
    """Where the guard bands of a gauge meet, it can never say "good" (ISO 14253-1:2017, 5)."""
    coarse = []
    for step in recipe.steps:
        for dimension, limits in step.targets.items():
            if operation(step.operation).EXTRAS.get(dimension, Kind.LENGTH) is Kind.LENGTH:
                read = Reading(step.zones[0], dimension, limits.nominal, step.gauge)
                doubt = cold_reading(read).doubt_mm
                if judge(limits.nominal, doubt, limits, grows=None).verdict is not Verdict.GOOD:
                    coarse.append((step.number, dimension, step.gauge))
    assert not coarse


@pytest.mark.parametrize(
    ("recipe", "words", "caution"),
    [
        ("first-hook", "black-hot", "What looks cold burns"),
        ("drawknife", "black-hot", "What looks cold burns"),
        ("layered-knife", "black-hot", "What looks cold burns"),
        ("layered-knife", "Whittle", "away from the hand"),
        ("punches-and-drifts", "flat bar at light yellow", "Hot scale flies"),
        ("first-hook", "Hang your weight", "Load it low"),
        ("hedging-hatchet", "mill skin", "Wheel: eyes"),
        ("carpenters-adze", "mill skin", "Wheel: eyes"),
        ("cross-peen-hammer", "hot bar", "Hot scale flies"),
    ],
)
def test_what_a_card_tells_to_do_beyond_its_operation_has_its_caution(
    recipe: str, words: str, caution: str
) -> None:
    steps = [
        one
        for one in read_recipe_file(Path(__file__).parents[2] / "recipes" / f"{recipe}.yaml").steps
        if words in one.how
    ]
    assert steps
    for step in steps:
        assert any(caution in told for told in step.cautions), step.number


def test_where_a_coupon_is_to_be_broken_its_caution_stands(plan: Plan) -> None:
    for step in planned_tool(plan).steps:
        known = " ".join(write(words) for words in step.step.know)
        if "break it in the vice" in known:
            assert any("A coupon can fly" in told for told in step.step.cautions), step.step.number
