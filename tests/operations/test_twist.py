"""A twist shortens a bar a little, swells it as much, and tells how many turns it is."""

from __future__ import annotations

from math import pi, sqrt

import pytest
from scipy.integrate import quad

from coach.bench.planned import planned_tool
from coach.forms.square import Square
from coach.forms.taper import Taper
from coach.forms.twisted_bar import TwistedBar
from coach.operations import Shape, Work, operation
from coach.telling.words import write
from tests.ledger.recipes import planned

GRIP = """
title: Grip
scale: none
pieces:
  bar: {metal: mild steel, stock: {form: square, side: 10}}
drawing:
  bar: {form: twisted bar, width: 10 ±0.6, turn: 50 ±5, length: 150 ±12, take up: length}
steps:
  - {do: twist, zone: bar, to: {turn: 50 ±5}}
"""


def test_a_twisted_bar_is_a_little_shorter_and_as_heavy() -> None:
    bar = Square(10, 150)
    work = Work(Shape("twisted bar"), {"width": 10, "thickness": 10, "turn": 50}, "length")
    worked = operation("twist").work(bar, bar.volume_mm3(), work)
    assert worked.volume_mm3 == 15000
    assert worked.form.volume_mm3() == pytest.approx(15000, rel=1e-12)
    assert not worked.taken_mm3
    # By hand: q² = π²·200/(3·2500) = 0.26319, √(1 + q²) = 1.12392, a tenth of 0.12392 is 1.239 %.
    assert worked.form.length_mm == pytest.approx(150 / 1.012392, abs=2e-3)


def test_the_plan_marks_out_what_the_twist_shortens_and_tells_the_turns() -> None:
    plan = planned(GRIP)
    assert plan.bar_of("bar").length_mm == pytest.approx(150 * 1.012392, abs=2e-3)
    step = planned_tool(plan).steps[0].step
    assert "That is 3 turns." in write(step.know[0])
    assert any("A wrench flies round" in caution for caution in step.cautions)


def test_a_tighter_twist_shortens_more() -> None:
    loose, tight = (TwistedBar(10, 10, turn, 1).solved("length", 15000) for turn in (100, 25))
    assert tight.length_mm < loose.length_mm < 150
    assert tight.corner_mm > loose.corner_mm


def test_a_tight_twist_may_swell_the_section_though_it_is_no_upsetting() -> None:
    # Of 10 mm square at a turn of 30 mm: q² = π²·200/(3·900) = 0.7311, so that it shortens by 3.2 %.
    text = GRIP.replace("turn: 50 ±5", "turn: 30 ±4").replace("10 ±0.6", "10 ±1")
    assert not planned_tool(planned(text)).findings


def test_a_twisted_taper_holds_what_its_sections_add_up_to_and_shortens_by_it() -> None:
    # By quadrature, without the code: w runs from 12 to 6 mm over 90 mm, one turn in 45 mm.
    def area(share: float) -> float:
        side = 12 - 6 * share
        q = 2 * pi / 45 * sqrt(side * side / 6)
        return side * side * (1 + 0.1 * (sqrt(1 + q * q) - 1))

    taper = Taper(12, 12, 6, 6, 90)
    work = Work(
        Shape("twisted taper"),
        {"width": 12, "thickness": 12, "end_width": 6, "end_thickness": 6, "turn": 45},
        "length",
    )
    worked = operation("twist").work(taper, taper.volume_mm3(), work)
    assert taper.volume_mm3() == pytest.approx(90 * 84)  # L/3 · (a² + ab + b²)
    assert worked.form.volume_mm3() == pytest.approx(90 * 84, rel=1e-12)
    assert worked.form.length_mm == pytest.approx(90 * 84 / quad(area, 0, 1)[0], rel=1e-6)
    (turns,) = operation("twist").know(taper, worked.form)
    assert "That is 1.97 turns." in write(turns)
