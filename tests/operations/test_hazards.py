"""What can hurt is said at the step where it can, once, and nothing that its step would break."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coach.operations import operation, operations
from coach.operations.does import Does, HeatKind
from coach.operations.hazards import Moment, cautions_of, hazards, holds_all_day, is_hot_blow
from coach.operations.shop_tests import SHOP_TESTS
from coach.recipe.model import Recipe, Step
from coach.recipe.reader import read_recipe_file

RECIPES = sorted(Path(__file__).parents[2].glob("recipes/*.yaml"))
MARKS = ("(confirmed)", "(confirmed second-hand)", "(from memory)", "(judgement)", "no source", "judgement")


@pytest.fixture(scope="module", params=RECIPES, ids=lambda path: path.stem)
def recipe(request: pytest.FixtureRequest) -> Recipe:
    path: Path = request.param
    return read_recipe_file(path)


def told(step: Step) -> str:
    return " ".join(step.cautions)


def blows(recipe: Recipe) -> list[Step]:
    return [step for step in recipe.steps if is_hot_blow(HeatKind(step.heat_kind), step.heats)]


def test_every_hazard_has_a_source_and_how_far_it_is_confirmed() -> None:
    for hazard in hazards().values():
        assert hazard.source.endswith(MARKS)


def test_every_hazard_belongs_to_something() -> None:
    amounts = {f"{name}_mm" for todo in operations().values() for name in todo.AMOUNTS}
    named = {
        name for todo in operations().values() for name in (*todo.HAZARDS, *todo.hazards(amounts, hot=False))
    }
    assert named <= hazards().keys()
    for name, hazard in hazards().items():
        belongs = (
            hazard.heats or hazard.does or hazard.tests or hazard.first_blow or hazard.tempered or hazard.when
        ) or hazard.words
        assert belongs or name in named


@pytest.mark.parametrize("name", list(operations()))
@pytest.mark.parametrize("heat", [kind for kind in HeatKind if kind is not HeatKind.COLD])
def test_every_hot_step_of_any_operation_is_covered(name: str, heat: HeatKind) -> None:
    todo = operation(name)
    if todo.HEAT_KIND is HeatKind.TREATMENT or heat is not HeatKind.TREATMENT:
        assert list(cautions_of(todo, heat, 1, (), first_blow=False))


@pytest.mark.parametrize("key", SHOP_TESTS)
def test_every_test_of_the_shop_is_covered(key: str) -> None:
    inspect = operation("inspect")
    assert list(cautions_of(inspect, HeatKind.COLD, 0, [key], first_blow=False))


def test_every_blow_on_hot_metal_tells_of_what_flies_and_of_what_looks_cold(recipe: Recipe) -> None:
    for step in blows(recipe):
        assert "eyes and arms covered" in told(step) or "face, arms" in told(step)
        assert "looks cold burns" in told(step)


def test_every_quench_tells_of_what_looks_cold_and_of_no_end_that_is_not_there(recipe: Recipe) -> None:
    # What was near the heat is black and burns; other ends, where there are any, are the recipe's to tell of.
    for step in recipe.steps:
        if step.does(Does.QUENCHES):
            assert "looks cold burns" in told(step)
            assert "other end" not in told(step)


def test_nothing_is_said_twice_in_a_step(recipe: Recipe) -> None:
    for step in recipe.steps:
        assert len(set(step.cautions)) == len(step.cautions)
        for word in ("Hot scale", "back of the hand", "in line with it", "its temper without a rest"):
            assert told(step).count(word) <= 1, (step.title, word)


def test_the_first_hot_blow_has_its_own_and_no_other_has_it(recipe: Recipe) -> None:
    first, *others = blows(recipe)
    own = hazards()["grip"].says
    assert own in first.cautions
    assert not any(own in step.cautions for step in others)


def test_slag_is_told_of_at_every_blow_on_hot_wrought_iron_and_at_no_other(recipe: Recipe) -> None:
    # Wrought iron holds 1 to 3 % of slag (confirmed); that it squirts is common practice, no source.
    # Whoever takes up a job in its middle is told too, so that every hot step says it.
    iron = {zone for piece in recipe.pieces.values() if piece.metal == "wrought iron" for zone in piece.zones}
    for step in recipe.steps:
        struck = is_hot_blow(HeatKind(step.heat_kind), step.heats)
        assert ("squirts slag" in told(step)) == (struck and bool(iron & {*step.zones, step.lays})), (
            step.title
        )
        assert told(step).count("slag") <= 1


def test_no_step_is_told_to_break_off_what_it_leaves_hanging(recipe: Recipe) -> None:
    for step in recipe.steps:
        if re.search(r"hang", step.how):
            assert "break it off" not in told(step)


def test_a_dry_anvil_is_not_asked_for_where_the_step_wets_it(recipe: Recipe) -> None:
    for step in recipe.steps:
        if re.search(r"\bwet\b", step.how):
            assert "dry" not in told(step)


def test_a_held_piece_is_not_left_by_standing_aside_and_no_wheel_is_rung(recipe: Recipe) -> None:
    for step in recipe.steps:
        assert "ring the wheel" not in told(step).casefold()
        if step.does(Does.QUENCHES):
            assert "stand aside" not in told(step)


def test_coal_dust_in_a_punched_hole_has_its_caution(recipe: Recipe) -> None:
    for step in recipe.steps:
        assert ("Coal dust" in told(step)) == (step.does(Does.PUNCHES) or step.does(Does.PIERCES))


def test_no_caution_of_a_cold_step_is_one_of_hot_metal(recipe: Recipe) -> None:
    for step in recipe.steps:
        if step.heat_kind == HeatKind.COLD and not step.heats:
            own = hazards()["seen-hot"].says
            assert "still" not in own
            assert "a hot joint" not in told(step)


def test_hot_work_that_the_recipe_does_cold_is_not_told_of_scale() -> None:
    said = " ".join(cautions_of(operation("straighten"), HeatKind.COLD, 0, (), first_blow=False))
    assert "scale" not in said


def test_what_holds_all_day_is_said_once_and_by_no_step(recipe: Recipe) -> None:
    kinds = {HeatKind(step.heat_kind) for step in recipe.steps if step.heats}
    said = [*holds_all_day(Moment.BEGIN, kinds), *holds_all_day(Moment.FIRST_FIRE, kinds)]
    assert len(set(said)) == len(said)
    assert not any(one in told(step) for step in recipe.steps for one in said)


@pytest.mark.parametrize(
    ("moment", "words"),
    [
        # 29 CFR 1910.1000 (zinc fume), 1910.215 (wheels), 1910.218 (power hammers), 1915.133 (struck tools);
        # the Control of Noise at Work Regulations 2005.
        (
            Moment.BEGIN,
            ("Who is about", "ears", "Zinc", "hollow", "wheel", "power hammer", "struck ends", "burn"),
        ),
        # NIOSH, carbon monoxide; HSE OC 267/3, linings.
        (Moment.FIRST_FIRE, ("Carbon monoxide", "Coal", "Gas", "lining")),
    ],
)
def test_what_can_hurt_all_day_is_asked(moment: Moment, words: tuple[str, ...]) -> None:
    told = " ".join(holds_all_day(moment, {HeatKind.FORGING}))
    assert [one for one in words if one not in told] == []


def test_the_glare_of_a_welding_fire_is_told_of_where_something_is_welded() -> None:
    forged, welded = (
        " ".join(holds_all_day(Moment.FIRST_FIRE, kinds))
        for kinds in ({HeatKind.FORGING}, {HeatKind.FORGING, HeatKind.WELDING})
    )
    assert ("infrared" in forged, "infrared" in welded) == (False, True)


def test_flux_that_is_folded_in_is_told_of_as_where_it_is_welded_shut(recipe: Recipe) -> None:
    # Flux sprays at the first blows on it (common practice, no source), welding heat or not.
    for step in recipe.steps:
        if step.operation in ("fold", "weld shut"):
            assert "Flux shut in a joint squirts" in told(step), step.title


def test_wet_cloth_about_hot_steel_has_its_caution(recipe: Recipe) -> None:
    # Steam scalds; nothing published found for the smithy (judgement).
    for step in recipe.steps:
        if step.heats and re.search(r"\bwet (rags|cloth)", step.how):
            assert "steam" in told(step), step.title


def test_what_is_sawn_off_is_not_told_of_a_last_blow() -> None:
    sawn, struck = (
        " ".join(cautions_of(operation("cut"), HeatKind.COLD, 0, (), first_blow=False, amounts=amounts))
        for amounts in ({"kerf_mm"}, set[str]())
    )
    assert "last blow" in struck
    assert "blow" not in sawn
    assert "the last strokes light" in sawn


def test_a_hot_cut_is_told_of_the_end_that_flies_and_only_a_cold_one_of_the_saw(recipe: Recipe) -> None:
    # A bar that glows is cut with the hot chisel, not with a hacksaw (common practice).
    for step in recipe.steps:
        if step.does(Does.CUTS_FREE):
            assert not (step.heats and "behind the blade" in told(step)), step.title
            if step.heats:
                assert "The end flies at the last blow" in told(step)
                assert "Mushroomed or cracked tool ends" in told(step)


def test_a_step_that_tells_to_grind_tells_of_the_wheel(recipe: Recipe) -> None:
    # 29 CFR 1910.215(a)(4), the rest within 1/8 in (confirmed): whatever operation it is that is ground at.
    for step in recipe.steps:
        if re.search(r"\b[Gg]rind\b", step.how):
            assert "rest within 3 mm" in told(step), step.title


def test_no_weld_is_told_to_close_the_other_way_than_its_step(recipe: Recipe) -> None:
    # A stack is set from the middle to both ends, a fold from its closed end: both towards where it is open.
    for step in recipe.steps:
        if step.does(Does.CLOSES):
            assert "inner end outwards" not in told(step), step.title
            assert "towards the opening" in told(step), step.title


@pytest.mark.parametrize(
    ("name", "how", "says", "is_said"),
    [
        ("anneal", "Into dry ash or lime until morning.", "Lime dust burns", True),
        ("anneal", "Into dry ash until morning.", "Lime dust burns", False),
        ("file", "", "Filings", True),
        ("grind", "", "lungs covered", True),
        ("sharpen", "", "lungs covered", True),
        ("draw", "", "Filings", False),
    ],
)
def test_the_dust_of_lime_file_and_wheel_is_told_where_it_is(
    name: str, how: str, says: str, is_said: bool
) -> None:
    # Lime is caustic: eyes and skin protected (NIOSH Pocket Guide, calcium oxide; from memory).
    found = list(cautions_of(operation(name), HeatKind.TREATMENT, 1, (), first_blow=False, how=how))
    assert sum(says in one for one in found) == is_said


# Steel as quenched is as brittle as glass (from memory): nothing is driven into it.
def test_a_temper_by_a_hot_drift_tells_of_the_hard_head_and_of_the_water_it_ends_in() -> None:
    how = "Put the drift into the eye and watch the colours; then stand that end in a finger of water."
    temper = list(cautions_of(operation("temper"), HeatKind.COLD, 0, (), first_blow=False, how=how))
    assert any("never driven" in one for one in temper)
    assert any("steams and spits" in one for one in temper)
    # Neither in an oven, nor where an eye is drifted hot: there it is driven.
    dipped = list(cautions_of(operation("temper"), HeatKind.COLD, 0, (), first_blow=False, how="Dip it out."))
    assert any("steams and spits" in one for one in dipped)
    for name, other in (("temper", "In the oven, right through."), ("drift", how)):
        heat = HeatKind.FORGING if name == "drift" else HeatKind.COLD
        told = " ".join(cautions_of(operation(name), heat, 1, (), first_blow=False, how=other))
        assert "never driven" not in told
        assert "steams and spits" not in told


def test_the_hammers_face_and_peen_tell_of_it() -> None:
    hammer = read_recipe_file(next(path for path in RECIPES if path.stem == "cross-peen-hammer"))
    face, peen = (step for step in hammer.steps if step.does(Does.TEMPERS))
    assert all("never driven" in told(step) and "steams and spits" in told(step) for step in (face, peen))
