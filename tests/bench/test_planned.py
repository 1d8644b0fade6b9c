"""A recipe's plan before the first heat: its values and what the bar, the marks and each step come to."""

from __future__ import annotations

import json

import pytest

from coach.bench.planned import Planned, planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.verdict import PlanState
from coach.quantities import mm
from coach.telling.figures import write_figure
from coach.telling.plan import end_words
from coach.telling.values import json_values
from coach.telling.words import write
from coach.telling.worth_a_look import worth_a_look
from tests.bench.jobs import HAMMER
from tests.ledger.recipes import DRAW, LAID, recipe


def the_plan(text: str) -> Planned:
    return planned_tool(look_back(recipe(text)))


def warnings(plan: Planned) -> list[str]:
    return [write(words) for words in worth_a_look(plan)]


def test_the_plan_says_what_bar_to_take_and_where_to_mark_it() -> None:
    view = the_plan(HAMMER)
    body, face = view.pieces
    assert (body.piece, body.metal) == ("body", "wrought iron")
    assert body.stock == ("square", (mm(36.0),))
    assert (face.piece, face.stock) == ("face", ("flat", (mm(36.0), mm(14.0))))
    assert [(mark.ends, mark.begins) for mark in body.marks] == [("poll", "eye"), ("eye", None)]
    assert body.marks[-1].at.value == pytest.approx(body.length.value)
    assert [zone.zone for zone in body.zones] == ["poll", "eye"]
    assert sum(zone.length.value for zone in body.zones) == pytest.approx(body.length.value)
    (centre,) = body.centres
    assert centre.zone == "eye"
    assert centre.at.value == pytest.approx(body.zones[0].length.value + body.zones[1].length.value / 2)
    # 7.70 g/cm³ of wrought iron in 36 mm square.
    assert body.mass.value == pytest.approx(36 * 36 * body.length.value * 7.70e-3)
    assert body.left_over is None


def test_the_plan_tells_every_step_s_sizes_and_the_metal_it_takes() -> None:
    view = the_plan(LAID)
    weld = view.steps[3]
    assert weld.step.title == "Weld the bit on the blade"
    assert {size.name for size in weld.after} == {"blade.width", "blade.thickness", "blade.length"}
    assert {(one.zone, one.cause) for one in weld.taken} == {("blade", "squeeze"), ("blade", "scale")}
    assert all(one.volume.value > 0.0 for step in view.steps for one in step.taken)
    assert view.heats == sum(step.step.heats_planned for step in view.steps)


def test_a_neighbour_in_the_fire_scales_but_has_no_sizes_to_show() -> None:
    view = the_plan(HAMMER)
    normalise = view.steps[8]
    assert {one.zone for one in normalise.taken} == {"poll", "eye"}
    assert {size.name.split(".")[0] for size in normalise.after} == {"poll"}


def test_a_size_kept_from_another_form_is_shown_and_one_that_only_goes_along_is_not() -> None:
    view = the_plan(
        """
title: Tapered strap
pieces:
  strap: {metal: mild steel, stock: {form: square, side: 20}}
drawing:
  strap: {form: taper, width: 20, thickness: 12, end thickness: 4, length: 150}
steps:
  - {do: draw, zone: strap, form: flat, to: {thickness: 12}}
  - {do: taper, zone: strap, to: {width: 20, thickness: 12, end thickness: 4}}
"""
    )
    assert [size.name for size in view.steps[0].after] == ["strap.width", "strap.thickness", "strap.length"]
    assert "strap.end_width" not in [size.name for size in view.steps[1].after]


def test_a_bar_in_hand_shows_what_is_left_over() -> None:
    view = the_plan(DRAW.replace("thickness: 12}", "thickness: 12, length: 1000}"))
    (piece,) = view.pieces
    assert piece.bar == mm(1000.0)
    assert piece.left_over is not None
    assert piece.left_over.value == pytest.approx(1000.0 - piece.length.value)
    assert warnings(view) == []


HANDLED = """
title: Handled
pieces:
  rod: {metal: mild steel, stock: {form: round, diameter: 12}, zones: [root, tip]}
  stub: {metal: mild steel, stock: {form: round, diameter: 12}}
drawing:
  root: {form: round, diameter: 12, length: 40}
  tip: {form: round taper, diameter: 12 ±0.5, end diameter: 6 ±0.5, length: 100 ±3}
  stub: {form: round, diameter: 12, length: 40}
steps:
  - {do: taper, zone: tip, form: round taper, to: drawing, heats: 2}
  - {do: cut, zone: tip, heat: cold, kerf: 1.5 mm}
"""


def test_a_piece_that_is_cut_off_later_stays_on_its_bar_and_any_other_is_cut_at_its_last_mark() -> None:
    rod, stub = the_plan(HANDLED).pieces
    assert [mark.cut_in for mark in rod.marks] == [None, 2]
    assert [end_words(mark) for mark in (*rod.marks, *stub.marks)] == [
        "root ends, tip begins",
        "tip ends, kerf and all; leave it on its bar, step 2 cuts it",
        "stub ends: cut here",
    ]


def test_extra_bar_too_little_to_mark_is_not_told_and_the_least_that_is_told_can_be_marked() -> None:
    told = []
    for tight in range(16, 120, 4):
        view = the_plan(DRAW.replace("length: 240 ±12", f"length: 240 ±{tight / 10}"))
        zone = view.pieces[0].zones[0]
        assert zone.extra is None or zone.extra.value >= 0.5
        told += [warning for warning in warnings(view) if "longer for a 95 % chance" in warning]
    assert told


def test_a_bar_too_short_is_warned_of() -> None:
    view = the_plan(DRAW.replace("thickness: 12}", "thickness: 12, length: 100}"))
    assert view.pieces[0].left_over is not None
    assert view.pieces[0].left_over.value < 0.0
    (short,) = view.findings
    assert write(short.sentence).startswith("The bar for strap is too short: ")


def test_a_tight_drawing_is_told_how_much_longer_to_mark() -> None:
    view = the_plan(DRAW.replace("length: 240 ±12", "length: 240 ±2"))
    assert view.verdict is not PlanState.ON_PLAN
    extra = view.pieces[0].zones[0].extra
    assert extra is not None
    told = f"Mark strap {write_figure(extra)} longer for a 95 % chance of enough metal."
    assert told in warnings(view)


def test_a_recipe_s_faults_of_metal_are_found() -> None:
    text = LAID.replace(
        "{do: draw, zone: blade, to: drawing, heats: 3}", "{do: draw, zone: blade, to: {thickness: 11}}"
    )
    view = the_plan(text)
    # 11, and two heats to normalise it take 0.01 mm off both faces each.
    assert any("thickness of blade at 10.96 mm" in str(one.sentence) for one in view.findings)


def test_the_plan_s_finished_sizes_are_the_drawing_s() -> None:
    view = the_plan(LAID)
    # A bar as wide as its drawing cannot be forged fuller: the tack's heat takes 0.08 mm off each face.
    beside = {"bit.width": -2 * 0.08, "blade.width": -4 * 0.01, "blade.thickness": -4 * 0.01}
    for size in view.sizes:
        wanted_mm = size.wanted.limits.nominal + beside.get(size.name, 0.0)
        assert size.expected.value == pytest.approx(wanted_mm, rel=1e-6)
        assert size.state == "good"
    assert [size.name for size in view.sizes if size.take_up] == [
        "shank.length",
        "blade.length",
        "bit.length",
    ]
    assert view.verdict is PlanState.ON_PLAN
    assert view.chance > 0.95


@pytest.mark.parametrize("text", [DRAW, LAID, HAMMER])
def test_a_plan_becomes_json_whatever_limits_are_open(text: str) -> None:
    open_ended = text.replace("length: 240 ±12", "length: '240, at least 230'")
    view = the_plan(open_ended)
    told = json.loads(json.dumps(json_values(view), allow_nan=False))
    assert told["title"] == view.title
    assert len(told["steps"]) == len(view.steps)
