"""The branches of a split lie side by side where the whole was, each with its sizes."""

from __future__ import annotations

import pytest

from coach.drawing.job import finished_views, views_now
from coach.drawing.svg import svg
from coach.drawing.views import Axis, Solid, plan_view, side_view
from coach.forms.flat import Flat
from coach.ledger.looking_back import look_back
from coach.ledger.stepping import step_on
from coach.ledger.workpiece import at_stock
from coach.recipe.reader import read_recipe
from tests.recipes.texts import FORKED

SOLIDS = [
    Solid("stem", Flat(20, 8, 100)),
    Solid("left", Flat(8, 8, 60), whole="end"),
    Solid("right", Flat(4, 8, 40), whole="end"),
]


def test_from_above_they_lie_beside_each_other_and_begin_together() -> None:
    view = plan_view(SOLIDS)
    assert view.length_mm == 160
    left, right = view.outlines[1:]
    assert min(x for x, _ in left) == min(x for x, _ in right) == 100
    assert max(x for x, _ in right) == 140
    assert min(y for _, y in left) > max(y for _, y in right)
    # By hand: 8 and 4 wide and 4 apart, together 16, about the axis; the stem is 20 wide.
    assert (max(y for _, y in left), min(y for _, y in right)) == (8, -8)
    assert view.height_mm == 20
    assert [mark.name for mark in view.marks] == ["stem", "left and right"]
    assert [one.size_mm for one in view.dimensions if one.axis is Axis.ALONG] == [100, 60, 40]


def test_from_the_side_they_lie_behind_each_other() -> None:
    left, right = side_view(SOLIDS).outlines[1:]
    assert {y for _, y in left} == {y for _, y in right} == {-4, 4}


def test_at_the_start_of_the_bar_they_end_together() -> None:
    turned = [one._replace(turned=bool(one.whole)) for one in (*SOLIDS[1:], SOLIDS[0])]
    left, right, stem = plan_view(turned).outlines
    assert max(x for x, _ in left) == max(x for x, _ in right) == min(x for x, _ in stem) == 60
    assert min(x for x, _ in right) == 20


def test_on_paper_no_length_lies_over_another() -> None:
    text = svg([plan_view(SOLIDS)], "Fork")
    assert text.count("<polygon") >= 3
    assert ">60<" in text
    assert ">40<" in text


def test_before_the_split_the_whole_is_drawn_and_after_it_the_branches() -> None:
    plan = look_back(read_recipe(FORKED, "x"))
    now = at_stock(plan)
    for number, outlines in ((1, 2), (2, 3)):
        now = step_on(plan, now, plan.recipe.steps[number - 1])
        forms = {zone: now.form(zone) for zone, state in now.zones.items() if state.has_form}
        assert [len(view.outlines) for view in views_now(plan, "fork", forms)] == [outlines, outlines]
    assert len(finished_views(plan, "fork")[0].outlines) == 3
    assert finished_views(plan, "fork")[0].length_mm == pytest.approx(200)
