"""A recipe's plan as it is shown and printed."""

from __future__ import annotations

import json

import pytest

from coach.bench.plan_view import end_words, plan_view
from coach.bench.standing import plain
from coach.quantities import Shown
from coach.telling.figures import write_figure
from tests.bench.jobs import HAMMER
from tests.ledger.recipes import DRAW, LAID, recipe

METRIC = Shown()


def test_the_plan_says_what_bar_to_take_and_where_to_mark_it() -> None:
    view = plan_view(recipe(HAMMER), METRIC)
    body, face = view.pieces
    assert (body.piece, body.metal, body.stock) == ("body", "wrought iron", "square 36 mm")
    assert (face.piece, face.stock) == ("face", "flat 36 × 14 mm")
    assert [(mark.ends, mark.begins) for mark in body.marks] == [("poll", "eye"), ("eye", None)]
    assert body.marks[-1].at == pytest.approx(body.length)
    assert [zone.zone for zone in body.zones] == ["poll", "eye"]
    assert sum(zone.length for zone in body.zones) == pytest.approx(body.length)
    (centre,) = body.centres
    assert centre.zone == "eye"
    assert centre.at == pytest.approx(body.zones[0].length + body.zones[1].length / 2)
    # 7.70 g/cm³ of wrought iron in 36 mm square.
    assert body.mass == pytest.approx(36 * 36 * body.length * 7.70e-3)
    assert body.left_over is None


def test_the_plan_tells_every_step_s_sizes_and_the_metal_it_takes() -> None:
    view = plan_view(recipe(LAID), METRIC)
    weld = view.steps[3]
    assert weld.step.title == "Weld the bit on the blade"
    assert {size.name for size in weld.after} == {"blade.width", "blade.thickness", "blade.length"}
    assert {(one.zone, one.cause) for one in weld.taken} == {("blade", "squeeze"), ("blade", "scale")}
    assert all(one.volume > 0.0 for step in view.steps for one in step.taken)
    assert view.heats == sum(step.step.heats_planned for step in view.steps)


def test_a_neighbour_in_the_fire_scales_but_has_no_sizes_to_show() -> None:
    view = plan_view(recipe(HAMMER), METRIC)
    normalise = view.steps[8]
    assert {one.zone for one in normalise.taken} == {"poll", "eye"}
    assert {size.name.split(".")[0] for size in normalise.after} == {"poll"}


def test_a_size_kept_from_another_form_is_shown_and_one_that_only_goes_along_is_not() -> None:
    view = plan_view(
        recipe(
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
        ),
        METRIC,
    )
    assert [size.name for size in view.steps[0].after] == ["strap.width", "strap.thickness", "strap.length"]
    assert "strap.end_width" not in [size.name for size in view.steps[1].after]


def test_a_bar_in_hand_shows_what_is_left_over() -> None:
    view = plan_view(recipe(DRAW.replace("thickness: 12}", "thickness: 12, length: 1000}")), METRIC)
    (piece,) = view.pieces
    assert piece.bar == 1000.0
    assert piece.left_over == pytest.approx(1000.0 - piece.length)
    assert piece.left_over_text.endswith("mm left over")
    assert view.warnings == ()


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
    rod, stub = plan_view(recipe(HANDLED), METRIC).pieces
    assert [mark.cut_in for mark in rod.marks] == [None, 2]
    assert [end_words(mark) for mark in (*rod.marks, *stub.marks)] == [
        "root ends, tip begins",
        "tip ends, kerf and all; leave it on its bar, step 2 cuts it",
        "stub ends: cut here",
    ]


def test_extra_bar_too_little_to_mark_is_not_told_and_the_least_that_is_told_can_be_marked() -> None:
    told = []
    for tight in range(16, 120, 4):
        view = plan_view(recipe(DRAW.replace("length: 240 ±12", f"length: 240 ±{tight / 10}")), METRIC)
        zone = view.pieces[0].zones[0]
        assert bool(zone.extra_text) == (zone.extra >= 0.25)
        assert zone.extra_text == "" or float(zone.extra_text.removesuffix(" mm")) >= 0.5
        told += [warning for warning in view.warnings if "longer for a 95 % chance" in warning]
    assert told


def test_a_bar_too_short_is_warned_of() -> None:
    view = plan_view(recipe(DRAW.replace("thickness: 12}", "thickness: 12, length: 100}")), METRIC)
    assert view.pieces[0].left_over_text.endswith("mm missing")
    assert view.warnings[0].startswith("The bar for strap is too short: ")


def test_a_tight_drawing_is_told_how_much_longer_to_mark() -> None:
    view = plan_view(recipe(DRAW.replace("length: 240 ±12", "length: 240 ±2")), METRIC)
    assert view.verdict != "on plan"
    zone = view.pieces[0].zones[0]
    assert zone.extra > 0.0
    assert f"Mark strap {zone.extra_text} longer for a 95 % chance of enough metal." in view.warnings


def test_a_recipe_s_faults_of_metal_are_warnings() -> None:
    text = LAID.replace(
        "{do: draw, zone: blade, to: drawing, heats: 3}", "{do: draw, zone: blade, to: {thickness: 11}}"
    )
    view = plan_view(recipe(text), METRIC)
    assert any("thickness of blade at 11 mm" in warning for warning in view.warnings)


def test_the_plan_s_finished_sizes_are_the_drawing_s() -> None:
    view = plan_view(recipe(LAID), METRIC)
    for size in view.sizes:
        assert size.expected.value == pytest.approx(size.wanted.limits.nominal, rel=1e-6)
        assert size.state == "good"
    assert [size.name for size in view.sizes if size.take_up] == [
        "shank.length",
        "blade.length",
        "bit.length",
    ]
    assert view.verdict == "on plan"
    assert view.chance > 0.95


def test_the_plan_is_told_in_inches_where_they_are_asked_for() -> None:
    view = plan_view(recipe(DRAW), Shown("in"))
    assert view.units == "in"
    told = [
        view.pieces[0].length_text,
        view.pieces[0].stock,
        *(write_figure(size.expected, Shown("in")) for size in view.sizes),
    ]
    assert all(text.endswith(" in") for text in told)
    assert view.pieces[0].length == pytest.approx(plan_view(recipe(DRAW), METRIC).pieces[0].length)


@pytest.mark.parametrize("text", [DRAW, LAID, HAMMER])
def test_a_plan_becomes_json_whatever_limits_are_open(text: str) -> None:
    open_ended = text.replace("length: 240 ±12", "length: '240, at least 230'")
    view = plan_view(recipe(open_ended), METRIC)
    told = json.loads(json.dumps(plain(view), allow_nan=False))
    assert told["title"] == view.title
    assert len(told["steps"]) == len(view.steps)
