"""An edge along a bar: its account, its curve, its words and its picture."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.drawing.views import Solid, plan_view, side_view
from coach.forms import FormError
from coach.forms.flat import Flat
from coach.forms.side_bevel import SideBevel
from coach.operations import Shape, Work, operation
from coach.operations.does import Cause
from coach.recipe.shapes import bar_kinds
from coach.telling.words import write
from tests.ledger.recipes import planned
from tests.made import make

BLADE = """
title: Blade
scale: none
pieces:
  blade: {metal: "1084", stock: {form: flat, width: 38, thickness: 6}}
drawing:
  blade: {form: side bevel, width: 44, thickness: 6, reach: 30, edge: 2, length: 150, take up: length}
steps:
  - {do: side bevel, zone: blade, to: drawing}
"""


def test_the_edge_gives_up_a_wedge_that_goes_wide_and_long() -> None:
    # By hand: 44·6 − 30·(6 − 2)/2 = 204 mm², of the bar's 228: 150 mm of blade from 134.21 mm of bar.
    plan = planned(BLADE)
    assert plan.bar_of("blade").length_mm == pytest.approx(150 * 204 / 228, abs=1e-3)
    bar = Flat(38, 6, 100)
    work = Work(Shape("side bevel"), {"width": 44, "thickness": 6, "reach": 30, "edge": 2}, "length")
    worked = operation("side bevel").work(bar, bar.volume_mm3(), work)
    assert worked.volume_mm3 == bar.volume_mm3()
    assert worked.form.volume_mm3() == pytest.approx(bar.volume_mm3(), rel=1e-12)


def test_how_far_it_widens_and_curves_is_told_by_the_models_of_a_bevel() -> None:
    (told,) = operation("side bevel").know(Flat(40, 6, 200), SideBevel(44, 6, 20, 1, 200))
    # coach/finish/bevel.py on 40 × 6 with 20 down to 1: 7.14 mm wider, to 126 mm, from 80 to 163.
    assert "runs to about 47.1 mm wide" in write(told)
    assert "about 130 mm radius, somewhere from 80 mm to 160 mm" in write(told)


def test_on_one_side_it_holds_as_much_and_is_longer_round() -> None:
    both = make("side bevel", {"width": 40, "thickness": 6, "reach": 18, "edge": 1, "length": 90})
    one = make("side bevel", both.sizes_mm(), {"sides": "one"})
    assert both.volume_mm3() == one.volume_mm3()
    # By hand: the two slopes of √(18² + 2.5²) against one of √(18² + 5²) and 18 straight.
    assert both.side_surface_mm2() / 90 == pytest.approx(2 * 22 + 7 + 2 * 18.1728, abs=1e-3)
    assert one.side_surface_mm2() / 90 == pytest.approx(22 + 40 + 7 + 18.6815, abs=1e-3)


@pytest.mark.parametrize(
    ("sizes", "says"),
    [
        ({"reach": 50, "edge": 1}, "a bevel of 50 mm is wider than its bar of 40 mm"),
        ({"reach": 20, "edge": 6}, "an edge of 6 mm is no thinner"),
    ],
)
def test_what_is_no_bevel_is_refused(sizes: dict[str, float], says: str) -> None:
    with pytest.raises(FormError, match=says):
        make("side bevel", {"width": 40, "thickness": 6, "length": 90, **sizes})


def test_a_blade_is_no_stock() -> None:
    assert "side bevel" not in bar_kinds()


def test_the_bevel_is_seen_from_above() -> None:
    solids = [Solid("blade", SideBevel(40, 6, 18, 1, 90))]
    (bevel,) = plan_view(solids).holes
    ys = [y for _, y in bevel.points]
    assert (min(ys), max(ys)) == (2, 20)
    assert not side_view(solids).holes


def test_the_plan_tells_the_step() -> None:
    (step,) = planned_tool(planned(BLADE)).steps
    assert step.step.know
    assert any("scale" in caution.casefold() for caution in step.step.cautions)


def test_a_bevel_may_be_ground_instead_and_its_metal_is_gone() -> None:
    ground = BLADE.replace("width: 44", "width: 38")
    plan = planned(ground.replace("do: side bevel,", "do: grind, form: side bevel,"))
    # By hand: the bar's own length and half a millimetre for the stone, and of it a wedge of 30 × (6 − 2)/2
    # along 150 mm and that end are ground off.
    assert plan.bar_of("blade").length_mm == pytest.approx(150.5, abs=1e-3)
    taken = plan.by_step[1]["blade"].taken_mm3
    assert taken == {Cause.GROUND: pytest.approx(60 * 150 + 0.5 * 38 * 6, rel=1e-3)}
