"""What a step says twice, in its line or in its line and below it, is a slip: the coach picks neither."""

from __future__ import annotations

import pytest

from coach.recipe.reader import read_recipe
from tests.recipes.test_faults import faults_of
from tests.recipes.texts import HAMMER, PIN


@pytest.mark.parametrize(
    ("line", "below", "column", "what"),
    [
        ("taper: pin, 4 heats", "heats: 3", 5, "heats"),
        ("taper: pin, 4 heats, heats 3", "", 26, "heats"),
        ("taper: pin, at yellow", "at: light orange", 5, "colour"),
        ("taper: pin, at 1100 °C", "at: 1000 °C", 5, "temperature"),
        ("taper: pin, at 1100 °C", "at: orange, 1000 °C", 5, "temperature"),
        ("taper: pin, at yellow, at orange", "", 28, "colour"),
        ("taper: pin, bite 20", "bite: 30", 5, "bite"),
        ("grind: pin, loses 3 g, loses 2 g", "", 28, "loses"),
    ],
)
def test_heats_and_colours_said_twice_are_refused_where_the_second_stands(
    line: str, below: str, column: int, what: str
) -> None:
    said = f"  - {line}\n" + (f"    {below}\n" if below else "")
    (fault,) = faults_of(PIN.replace("  - taper: pin\n", said))
    assert f"{what} of this step: said twice, leave one of them out" in str(fault.message)
    assert (fault.line, fault.column) == (9 if below else 8, column)


def test_a_soak_said_twice_is_refused() -> None:
    twice = HAMMER.replace(
        "temper: poll, at dark straw", "temper: poll, soak 1 h, at dark straw, soak 10 min"
    )
    (fault,) = faults_of(twice)
    assert "soak of this step: said twice" in str(fault.message)


def test_limits_that_a_treatment_is_held_to_and_the_heat_it_is_done_at_are_two_things() -> None:
    harden = HAMMER.replace("at 830 °C", "at 800 to 830 °C, at 820 °C")
    step = read_recipe(harden, "hammer.yaml").steps[8]
    assert (step.temperature_c, step.targets["temperature"].low) == (820.0, 800.0)
    (fault,) = faults_of(HAMMER.replace("at 830 °C", "at 800 to 830 °C, at 780 to 790 °C"))
    assert "temperature of this step: said twice" in str(fault.message)


def test_a_colour_and_the_temperature_it_stands_for_are_not_one_thing_said_twice() -> None:
    both = PIN.replace("taper: pin", "taper: pin, at light orange, at 1000 °C")
    assert read_recipe(both, "pin.yaml").steps[0].temperature_c == 1000.0
