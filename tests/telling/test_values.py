"""A figure in JSON is its value in the base unit, with its doubt where it has one."""

from __future__ import annotations

from math import inf, nan

import pytest

from coach.quantities import Figure, Kind, Limits, Span, Wanted, celsius, mm, say
from coach.telling.values import json_values
from coach.telling.writing import Shown


@pytest.mark.parametrize(
    ("value", "told"),
    [
        (mm(3.0, 0.2), {"value": 3.0, "unit": "mm", "doubt": 0.2}),
        # Nothing to doubt is not the same as a doubt that nobody knows.
        (mm(3.0, 0.0), {"value": 3.0, "unit": "mm", "doubt": 0.0}),
        (mm(3.0), {"value": 3.0, "unit": "mm"}),
        (mm(nan, inf), {"value": None, "unit": "mm", "doubt": None}),
        (Span(800.0, inf, Kind.TEMPERATURE), {"low": 800.0, "high": None, "unit": "°C"}),
        (Limits(40.0, 40.0, inf, stated=True), {"nominal": 40.0, "low": 40.0, "high": None}),
        ((1, inf, {"a": celsius(20.0)}), [1, None, {"a": {"value": 20.0, "unit": "°C"}}]),
    ],
)
def test_figures_become_the_values_that_are_documented(value: object, told: object) -> None:
    assert json_values(value) == told
    assert json_values(value, Shown("in")) == told


def test_only_what_is_text_follows_the_units_asked_for() -> None:
    wanted = Wanted(Limits(25.4, 25.4, 50.8, stated=True))
    for shown, text in ((Shown(), "25.4 to 50.8 mm"), (Shown("in"), "1 to 2 in")):
        told = json_values(wanted, shown)
        assert isinstance(told, dict)
        assert told["nominal"] == 25.4
        assert told["unit"] == "mm"
        assert json_values(say("{} wide", mm(25.4)), shown) == f"{text.partition(' to ')[0]}{text[-3:]} wide"
    assert json_values(Figure(1.0, Kind.TEST)) == {"value": 1.0, "unit": "1"}
