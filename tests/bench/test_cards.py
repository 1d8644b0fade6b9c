"""No card of a step says two things that cannot both be so."""

from __future__ import annotations

import re

import pytest

from coach.bench.step import StepToDo, step_to_do
from coach.fire.temper_colours import TEMPER_COLOURS
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.skinning import skins
from coach.operations import Does
from coach.operations.does import HeatKind
from coach.places import bundled_recipes
from coach.recipe.model import Step
from coach.recipe.reader import read_recipe, read_recipe_file
from coach.telling.step import step_lines
from coach.telling.writing import Shown

_FILES = sorted(bundled_recipes().glob("*.yaml"))
_PLANS = {path.stem: look_back(read_recipe_file(path)) for path in _FILES}


def cards(plan: Plan) -> list[tuple[Step, StepToDo, str]]:
    found = []
    for step in plan.recipe.steps:
        to_do = step_to_do(plan, step)
        words = " ".join(line.words for line in step_lines(to_do, Shown()))
        found.append((step, to_do, words))
    return found


CARDS = [
    pytest.param(plan, step, to_do, words, id=f"{name} {step.number}")
    for name, plan in _PLANS.items()
    for step, to_do, words in cards(plan)
]


@pytest.mark.parametrize(("plan", "step", "to_do", "words"), CARDS)
def test_no_card_contradicts_itself(plan: Plan, step: Step, to_do: StepToDo, words: str) -> None:
    heat_c = step.temperature_c
    if heat_c is not None and step.heat_kind is HeatKind.WELDING:
        # The heat that it is to be welded at is that of the step, or the step is said to be no weld.
        for low in map(int, re.findall(r"Weld from (\d+) °C", words)):
            assert heat_c >= low
        for at in map(int, re.findall(r"weld with borax at (\d+) °C", words)):
            assert heat_c == pytest.approx(at, abs=1.0)
    if to_do.hot is not None:
        for low in map(int, re.findall(r"Back to the fire below (\d+) °C", words)):
            assert to_do.hot.stop.value >= low - 1.0
    if step.does(Does.NORMALISES) and heat_c is not None:
        for first in map(int, re.findall(r"first from (\d+) °C", words)):
            assert first <= heat_c + 1.0
    if step.does(Does.TEMPERS) and step.colour and heat_c is not None:
        assert step.colour == TEMPER_COLOURS.name_of(heat_c)


@pytest.mark.parametrize(("plan", "step", "to_do", "words"), CARDS)
def test_a_file_test_before_the_skin_is_off_says_to_file_through_it(
    plan: Plan, step: Step, to_do: StepToDo, words: str
) -> None:
    if not any(check.endswith(".file_test") for check in step.checks):
        return
    deep = [
        skin
        for skin in skins(plan, step.number - 1)
        if skin.zone in step.zones and skin.now_mm >= 0.05 and skin.ground_in is None
    ]
    assert bool(deep) == ("skin" in words)


def test_a_welding_heat_of_seconds_is_told_to_be_for_the_first_blows() -> None:
    plan = look_back(read_recipe_file(bundled_recipes() / "carpenters-adze.yaml"))
    told = {}
    for step in plan.recipe.steps:
        hot = step_to_do(plan, step).hot
        told[step.number] = " ".join(map(str, hot.advice)) if hot is not None else ""
    assert "set it with the first blows" in told[8], "the face is welded on, in some two seconds"
    assert not any("first blows" in told[number] for number in (3, 7)), "forged, and only tacked"


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
  - straighten: edge, cold
  - harden: edge, at 780 to 810 °C, quench oil
  - straighten: edge, cold
  - inspect: edge
    check: ring test
  - temper: edge, at 230 to 260 °C
  - straighten: edge, cold
"""


def test_what_is_handled_between_quench_and_temper_has_the_caution_of_hard_steel() -> None:
    # Steel as quenched breaks like glass (from memory).
    plan = look_back(read_recipe(CHISEL, "chisel.yaml"))
    told = [" ".join(step_to_do(plan, step).cautions) for step in plan.recipe.steps]
    assert ["Untempered steel breaks" in words for words in told] == [
        False,
        False,
        True,
        True,
        True,
        False,
        False,
    ]
    assert all(words.count("Untempered steel breaks") <= 1 for words in told)


@pytest.mark.parametrize(
    ("temper", "straighten", "snaps"),
    [
        # 0.8 % of carbon keeps some 57 HRC at 240 °C and 35 or less at 600 °C (published tables).
        ("at 230 to 260 °C", "cold", True),
        ("at 230 to 260 °C", "at 200 °C", False),
        ("at 600 °C", "cold", False),
        ("at 260 to 280 °C, hardness 54 to 58", "cold", True),
        ("at 400 °C, hardness 40 to 46", "cold", False),
    ],
)
def test_hard_steel_that_is_straightened_cold_after_its_temper_is_warned_of(
    temper: str, straighten: str, *, snaps: bool
) -> None:
    text = CHISEL.replace("temper: edge, at 230 to 260 °C", f"temper: edge, {temper}")
    plan = look_back(read_recipe(text.removesuffix("cold\n") + straighten + "\n", "chisel.yaml"))
    told = " ".join(step_to_do(plan, plan.recipe.steps[-1]).cautions)
    assert ("can snap cold: warm it to just under its temper" in told) == snaps


_FILM_COLOURS = sorted((one.name for one in TEMPER_COLOURS.table().colours), key=len, reverse=True)


@pytest.mark.parametrize(("plan", "step", "to_do", "words"), CARDS)
def test_a_temper_names_one_colour(plan: Plan, step: Step, to_do: StepToDo, words: str) -> None:
    if not step.does(Does.TEMPERS):
        return
    told = " ".join(map(str, to_do.know))
    named = set()
    for colour in _FILM_COLOURS:
        if f" {colour}," in told or f" {colour}." in told:
            named.add(colour)
            told = told.replace(colour, "")
    assert len(named) == 1
    assert named == {step.colour} or next(iter(named)) in step.how


@pytest.mark.parametrize(("plan", "step", "to_do", "words"), CARDS)
def test_the_magnet_is_tried_before_the_quench_and_no_drift_stays_in_the_fire(
    plan: Plan, step: Step, to_do: StepToDo, words: str
) -> None:
    if step.does(Does.QUENCHES):
        assert 0 < step.how.index("agnet") < step.how.lower().index("into ")
    assert all("not in the fire" in kept for kept in to_do.keep if "drift" in kept)


def test_a_card_tells_of_the_bath_and_the_heats_that_its_own_recipe_says() -> None:
    text = CHISEL.replace("quench oil", "quench fast oil").replace(
        "  - harden", "  - normalise: edge, 2 heats, at 860 °C\n  - harden"
    )
    plan = look_back(read_recipe(text, "chisel.yaml"))
    told = {step.operation: " ".join(map(str, step_to_do(plan, step).know)) for step in plan.recipe.steps}
    assert "cool twice in still air" in told["normalise"]
    assert "Fast oil at" in told["harden"]
    assert "Water at" not in told["harden"]


@pytest.mark.parametrize(
    ("metal", "quench", "later"), [("5160", "oil", True), ("O1", "oil", True), ("1084", "fast oil", False)]
)
def test_a_steel_that_colours_later_than_the_tables_says_so(metal: str, quench: str, *, later: bool) -> None:
    # Chromium and silicon slow the oxide (from memory); 5160 has 0.8 % chromium, O1 0.5.
    heat = "840" if metal == "5160" else "805"
    text = CHISEL.replace("C80", f'"{metal}"').replace(
        "at 780 to 810 °C, quench oil", f"at {heat} °C, quench {quench}"
    )
    plan = look_back(read_recipe(text, "chisel.yaml"))
    told = " ".join(map(str, step_to_do(plan, plan.recipe.steps[5]).know))
    assert ("shows them hotter than told" in told) is later


@pytest.mark.parametrize(("name", "edge_mm"), [("drawknife", "1.2"), ("layered-knife", "1")])
def test_an_edge_is_as_thick_as_its_side_bevel_leaves_it_when_it_is_sharpened(
    name: str, edge_mm: str
) -> None:
    # The drawing of the recipe says its `edge`; the back of the blade is several times as thick.
    sharpen = next(words for step, _, words in cards(_PLANS[name]) if step.operation == "sharpen")
    assert f"on an edge {edge_mm} mm thick" in sharpen


@pytest.mark.parametrize(("plan", "step", "to_do", "words"), CARDS)
def test_a_soak_that_is_asked_for_is_the_one_that_the_steel_wants(
    plan: Plan, step: Step, to_do: StepToDo, words: str
) -> None:
    soak = step.targets.get("soak")
    told = re.search(r"then hold it (\d+) to (\d+) min", words)
    if step.does(Does.QUENCHES) and soak is not None and told is not None:
        assert (soak.low, soak.high) == tuple(60.0 * int(one) for one in told.groups())
