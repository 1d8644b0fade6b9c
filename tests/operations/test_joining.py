"""What is riveted or collared is held and not merged: handbooks' lengths, accounts, cautions, pictures."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import Polygon, box

from coach.bench.planned import planned_tool
from coach.drawing.views import Solid, plan_view
from coach.forms import FormError
from coach.forms.collar import Collar
from coach.forms.rivet import Rivet
from coach.forms.round import Round
from coach.operations import Shape, Work, operation
from coach.recipe.faults import RecipeFaults
from coach.telling.words import write
from tests.ledger.recipes import planned
from tests.made import make

INCH = 25.4


def test_a_round_head_takes_one_and_a_half_diameters_of_its_shank() -> None:
    # The rule of riveters (common practice, no source), on a button head of 1.75 d by 0.75 d (ASME B18.1.2,
    # from memory). By hand, the spherical cap of those sizes:
    # π·0.75/6·(3·0.875² + 0.75²) = 1.1229 d³, on π/4·d² it is 1.43 d.
    rivet = Rivet(10, 20, 17.5, 7.5)
    takes = rivet.head_mm3 / (math.pi / 4 * 100) / 10
    assert takes == pytest.approx(1.5, abs=0.05)
    assert takes == pytest.approx(1.43, abs=0.03)


def test_a_shank_that_stands_out_becomes_the_second_head() -> None:
    # By hand: a shank of 8 mm that stands 11 mm out of 10 mm of plates is 552.9 mm³ of head; a cone cut off
    # with rim 14 holds π/12·(196 + 112 + 64) = 97.39 mm³ to the millimetre.
    before = Rivet(8, 21, 14, 552.92 / 97.389, "one")
    work = Work(
        Shape("rivet", {"heads": "two"}), {"diameter": 8, "grip": 10, "head_diameter": 14}, "head_height"
    )
    worked = operation("rivet").work(before, before.volume_mm3(), work)
    assert worked.volume_mm3 == before.volume_mm3()
    assert not worked.taken_mm3
    assert worked.form.size_mm("head_height") == pytest.approx(552.92 / 97.389, abs=2e-3)


def test_the_bar_for_a_rivet_is_its_grip_and_two_heads() -> None:
    plan = planned(
        """
title: Rivet
scale: none
pieces:
  rivet: {metal: mild steel, stock: {form: round, diameter: 10}}
drawing:
  rivet: {form: rivet, diameter: 10, grip: 20, head diameter: 17.5, head height: 7.5}
steps:
  - {do: rivet, zone: rivet, heads: one, to: {grip: 35, head diameter: 17.5}}
  - {do: rivet, zone: rivet, heads: two, to: drawing}
"""
    )
    # By hand: π/12·(17.5² + 175 + 100)·7.5 on π/4·100 is 14.53 mm a head.
    assert plan.bar_of("rivet").length_mm == pytest.approx(20 + 2 * 14.53, abs=0.01)
    steps = planned_tool(plan).steps
    assert "1.5 times its thickness" in write(steps[1].step.know[0])
    assert all(sum("rivet end flies" in one for one in step.step.cautions) == 1 for step in steps)


def test_a_tenon_is_headed_once() -> None:
    tenon = make(
        "rivet", {"diameter": 10, "grip": 12, "head diameter": 16, "head height": 5}, {"heads": "one"}
    )
    bar = Round(10, 1).solved("length", tenon.volume_mm3())
    # By hand: π/12·(256 + 160 + 100)·5/(π/4·100) = 8.6 mm for its head.
    assert bar.length_mm == pytest.approx(12 + 8.6)
    assert tenon.length_mm == 17


def test_a_head_that_is_no_wider_than_its_shank_is_refused() -> None:
    with pytest.raises(FormError, match="a head of 8 mm holds nothing on a shank of 8 mm"):
        make("rivet", {"diameter": 8, "grip": 12, "head diameter": 8, "head height": 5})


def test_a_collar_takes_its_bundle_and_some_thicknesses_more() -> None:
    # Two bars of 1/2 in square in a collar 1/8 in thick: 3 in round them, and two thicknesses more by one
    # handbook (3 1/4 in), two and a half to three by another smith (both confirmed second-hand).
    collar = Collar(INCH, INCH / 2, INCH / 2, INCH / 8)
    assert collar.length_mm / INCH == pytest.approx(3 + math.pi / 8)
    assert 3 + 2 / 8 < collar.length_mm / INCH < 3 + 3.2 / 8


def test_a_collar_closes_round_what_its_metal_reaches() -> None:
    bar = make("flat", {"width": 16, "thickness": 4, "length": 86})
    work = Work(Shape("collar"), {"inside_width": 24, "width": 16, "thickness": 4}, "inside_height")
    worked = operation("collar").work(bar, bar.volume_mm3(), work)
    # By hand: (86 − 4π)/2 − 24.
    assert worked.form.size_mm("inside_height") == pytest.approx(43 - 2 * math.pi - 24)
    (told,) = operation("collar").know(bar, worked.form)
    assert "It takes 86 mm of bar: 73.4 mm round the bundle and 12.6 mm for its four corners." in write(told)


def test_a_collar_is_drawn_with_its_opening_and_a_rivet_with_its_heads() -> None:
    seen = Collar(24, 12, 16, 4).curled("thickness")
    assert seen is not None
    opening = box(4, -6, 28, 6)
    whole = Polygon(seen).union(opening)
    # By shapely: the bundle let grow by a thickness, its corners round.
    assert Polygon(seen).area == pytest.approx(opening.buffer(4).area - opening.area, rel=1e-2)
    assert whole.bounds == pytest.approx((0, -10, 32, 10))
    view = plan_view([Solid("rivet", Rivet(8, 10, 14, 5.5))])
    heights = dict(view.outlines[0][: len(view.outlines[0]) // 2])
    assert heights[0.0] == pytest.approx(-4)
    assert min(heights.values()) == pytest.approx(-7, abs=1e-3)
    assert heights[10.5] == pytest.approx(-4)


WELDED = """
title: Poll and pin
scale: none
pieces:
  poll: {metal: wrought iron, stock: {form: flat, width: 30, thickness: 12}}
  face: {metal: C80, stock: {form: flat, width: 30, thickness: 6}}
  pin: {metal: mild steel, stock: {form: round, diameter: 8}}
drawing:
  poll: {form: flat, width: 30 ±2, thickness: 18 ±2, length: 60 ±6, take up: length}
  face: {form: flat, width: 30, thickness: 6, length: 60}
  pin: {form: %s}
steps:
  - {do: weld, zone: poll, lay: face, to: {thickness: 18}}
  - {do: %s, zone: pin, to: drawing}
"""


def test_a_piece_that_is_riveted_on_need_not_be_welded_on() -> None:
    rivet = "rivet, diameter: 8, grip: 20, head diameter: 14, head height: 5"
    assert planned(WELDED % (rivet, "rivet")).recipe.title == "Poll and pin"
    with pytest.raises(RecipeFaults, match="no step welds pin on"):
        planned(WELDED % ("round, diameter: 7, length: 30", "draw"))
