"""A colour beside a temperature is free, but no misspelt one; a bare heat in inches is asked about."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.recipe.colour_words import meant_by
from coach.recipe.faults import RecipeFaults
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from tests.recipes.texts import PIN


def pin(at: str, text: str = PIN) -> str:
    return text.replace("taper: pin", f"taper: pin, 2 heats, {at}")


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("lihgt yellow", "light yellow"),
        ("ornage", "orange"),
        ("chery", "cherry"),
        ("dark stawr", "dark straw"),
        ("Bright Cherry", None),
        ("hay", None),
        ("golden hay", None),
        ("the colour of a robin", None),
    ],
)
def test_a_misspelt_colour_is_told_and_a_free_one_is_let_be(written: str, meant: str | None) -> None:
    assert meant_by(written) == meant


@pytest.mark.parametrize("at", ["at lihgt yellow, at 1100 °C", "cold, at lihgt yellow"])
def test_a_misspelt_colour_beside_its_temperature_is_a_fault_at_its_place(at: str) -> None:
    with pytest.raises(RecipeFaults) as refused:
        read_recipe(PIN.replace("taper: pin", f"draw: pin, {at}, square 8"), "pin.yaml")
    told = [write(fault.words) for fault in refused.value.faults][-1]
    assert "“lihgt yellow” is no colour: did you mean light yellow?" in told


def test_a_bare_heat_in_a_file_in_inches_is_never_taken_for_one_or_the_other() -> None:
    text = pin("at 1500", PIN.replace("recipe:", "units: in\nrecipe:").replace("12", "1/2"))
    with pytest.raises(RecipeFaults, match=r"1500 of what\? Write 1500 °F or 1500 °C"):
        read_recipe(text, "pin.yaml")


# Published: White and Taylor have blood red at 566 °C, and no table has it near 1100 (from memory).
def test_a_colour_that_contradicts_its_temperature_is_asked_about_and_is_no_fault() -> None:
    planned = planned_tool(look_back(read_recipe(pin("at blood red, at 1100 °C"), "pin.yaml")))
    (asked,) = planned.questions
    assert "1100 °C is called blood red" in write(asked.sentence)
    assert (asked.line, asked.column) == (8, 5)
    assert planned.findings == ()


@pytest.mark.parametrize("at", ["at light yellow, at 1100 °C", "at hay, at 1090 °C", "at yellow"])
def test_a_colour_that_goes_with_its_temperature_is_not_asked_about(at: str) -> None:
    assert planned_tool(look_back(read_recipe(pin(at), "pin.yaml"))).questions == ()
