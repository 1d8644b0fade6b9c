"""A square or a hexagon measured both ways, of which the smith does not know how to type it.

By hand: √(10.4 · 9.6) = 9.99; √(19.4 · 18.6) = 19.0.
"""

from __future__ import annotations

import pytest

from coach.bench.entering import EntryFault
from coach.drafting.bar_there import change, change_told
from coach.places import bundled_recipes
from coach.recipe.changing import CannotChange
from coach.recipe.lines_of_change import in_one_line
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of, begun


def asked(recipe: str, line: str) -> list[str]:
    job = begun((bundled_recipes() / f"{recipe}.yaml").read_text(encoding="utf-8"))
    return [write(one, Shown("mm")) for one in change_told(job, line).asked]


@pytest.mark.parametrize(
    ("recipe", "line", "instead"),
    [
        ("first-hook", "bar 10.4 x 9.6", "bar square 10 mm"),
        ("cold-chisel", "bar 19.4 x 18.6", "bar hexagon 19 mm"),
    ],
)
def test_a_flat_bar_nearly_as_thick_as_wide_is_asked_about(recipe: str, line: str, instead: str) -> None:
    (told,) = asked(recipe, line)
    assert f"write {instead}, which is as much metal" in told


@pytest.mark.parametrize("line", ["bar 14 x 8", "bar square 10.2"])
def test_a_bar_that_is_surely_flat_or_told_by_its_name_is_not(line: str) -> None:
    assert asked("first-hook", line) == []


def test_across_the_flats_is_typed_both_ways() -> None:
    job = at_step_of("cold-chisel", 2)
    job.read("shank.across_flats", "19.4 x 18.6")
    now = job._state.now
    assert now is not None
    assert now.size("shank", "across_flats").value == pytest.approx(19.0, abs=0.2)


def test_two_sizes_for_one_of_them_are_refused_by_what_they_are() -> None:
    job = at_step_of("hedging-hatchet", 2)
    with pytest.raises(EntryFault, match="is two sizes, and the thickness is one: type it alone"):
        job.read("poll.thickness", "22.1 x 21")


@pytest.mark.parametrize(
    "line", ["bar square 10.2; plate.length = 44 ±5", "plate.length = 44 ±5; bar square 10.2"]
)
def test_a_bar_among_other_changes_says_what_to_enter_first(line: str) -> None:
    job = begun((bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8"))
    for doing in (change_told, change):
        with pytest.raises(CannotChange) as refused:
            doing(job, line)
        told = write(refused.value.words, Shown("mm"))
        assert told.endswith("enter bar square 10.2 first, then plate.length = 44 ±5.")


def test_a_bar_and_a_size_as_two_words_of_a_command_are_two_changes() -> None:
    assert in_one_line(["bar square 10.2", "grade C60"]) == "bar square 10.2; grade C60"


def test_a_grade_of_a_piece_without_its_sign_says_how_it_is_written() -> None:
    job = begun((bundled_recipes() / "hedging-hatchet.yaml").read_text(encoding="utf-8"))
    with pytest.raises(Exception, match=r"write grade edge = C80"):
        job.change_told("grade edge C80")
