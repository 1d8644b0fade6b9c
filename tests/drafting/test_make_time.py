"""The time that a recipe says is of as many as it was written for: of a batch that is said with it."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.drafting.make import made_often
from coach.ledger.looking_back import look_back
from coach.recipe.reader import read_recipe
from tests.bench.test_sheet import PEG
from tests.spelt_out import file_text


@pytest.mark.parametrize(
    ("line", "make", "count", "told"),
    [
        ("time: an hour", "", 12, "time: an hour for one"),
        ("time: an hour", "", 1, "time: an hour"),
        ("time: 'an hour'  # at a coal fire", "", 2, "time: 'an hour for one'  # at a coal fire"),
        ('time: "one long day or two"', "make: 3", 1, 'time: "one long day or two for 3 of them"'),
        ("time: an hour", "make: 3", 3, "time: an hour"),
        ("time: an hour for one", "make: 3", 6, "time: an hour for one"),
    ],
)
def test_the_time_says_for_how_many_it_was_written(line: str, make: str, count: int, told: str) -> None:
    text = f"recipe: Peg\n{line}\n{make}\npieces: {{}}\nsteps:\n  - {{time: 10 min}}\n"
    made = made_often(text, count).splitlines()
    assert told in made
    assert f"make: {count}" in made
    assert "  - {time: 10 min}" in made  # a soak is a soak


def test_a_plan_of_four_pegs_does_not_tell_the_time_of_one_as_theirs() -> None:
    text = made_often(file_text(PEG), 4)
    assert planned_tool(look_back(read_recipe(text, "peg.yaml"))).duration == "half an hour for one"
