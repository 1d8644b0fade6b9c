"""A bevel says beforehand how far it will curve its bar, honestly wide, and closer once it is measured."""

from __future__ import annotations

import re

from coach.bench.session import Session
from coach.telling.words import write
from tests.bench.jobs import begun

#: Facts of the derivation, case 40, 6, 1, 20 with half going lengthwise: R 163.293 and pre-curve 192.000 by
#: the first model, 80.0 by the second.
FROE = """
title: Blade
pieces: {blade: {metal: C80, stock: {form: flat, width: 200, thickness: 6}}}
drawing:
  blade: {form: taper, width: 200 ±3, thickness: 6 ±0.4, end width: 200 ±3, end thickness: 1 ±0.3,
          length: 47 ±6, take up: length, allowance: 10 %}
steps:
  - {do: bend, zone: blade, to: {radius: 148 ±40}, heats: 1, temperature: 1000 °C}
  - {do: bevel, zone: blade, to: {thickness: 6, end thickness: 1}, bevel: 20 mm, heats: 3,
     temperature: 1000 °C, check: [end thickness, length, curve height]}
"""


def told(session: Session) -> str:
    step = session.standing().step
    assert step is not None
    return " ".join(map(write, step.know))


def numbers(text: str) -> list[float]:
    return [float(found) for found in re.findall(r"(\d+(?:\.\d+)?) mm", text)]


def test_the_bend_before_a_bevel_is_told_how_far_to_go_the_other_way_and_how_unsure_that_is() -> None:
    said = told(begun(FROE))
    assert "bend it the other way first" in said
    likely, least, most = numbers(said)[:3]
    assert least < likely < most
    assert most / least >= 1.99, "before it is measured it is known to a factor of two"


def test_the_bevel_tells_the_range_and_what_to_measure() -> None:
    session = begun(FROE)
    session.done()
    said = told(session)
    assert "somewhere from" in said
    assert "swung out over 100 mm since before the heat" in said


def test_once_the_first_heat_is_measured_the_coach_goes_by_it() -> None:
    session = begun(FROE)
    session.done()
    session.heat()
    before = session.plan.by_step[2]["blade"].form_before.size_mm("length")
    session.read("blade.end_thickness", "3")
    session.read("blade.length", f"{before + 3.0:.1f}", insist=True)
    session.read("blade.curve_height", "5")
    assert "By what was measured" in told(session)
    session.strike()
    assert "somewhere from" in told(session)
