"""A change of a recipe for next time leaves every line of its file that it is not of as it was written."""

from __future__ import annotations

import pytest

from coach.places import bundled_recipes
from coach.recipe.in_place import edited
from coach.recipe.reader import read_recipe


def lines_changed(recipe: str, line: str) -> list[tuple[str, str]]:
    """Each line of a bundled recipe that a change makes otherwise, as it was and as it is."""
    name = f"{recipe}.yaml"
    text = (bundled_recipes() / name).read_text(encoding="utf-8")
    was, now = text.splitlines(), edited(text, name, line).splitlines()
    assert len(was) == len(now)
    return [pair for pair in zip(was, now, strict=True) if pair[0] != pair[1]]


@pytest.mark.parametrize(
    ("recipe", "line", "was", "now"),
    [
        ("first-hook", "heats 2 = 4", "taper: tip, 3 heats", "taper: tip, 4 heats"),
        ("first-hook", "heats 2 = 1", "taper: tip, 3 heats", "taper: tip, 1 heat"),
        ("first-hook", "heats 4 = 2", "1 heat, at yellow", "2 heats, at yellow"),
        ("first-hook", "allowance tip = 3.8 %", "long 90 ±9", "long 90 ±9, allowance 3.8 %"),
        ("strap-hinge", "allowance end = 7.2 %", "allowance 3 %", "allowance 7.2 %"),
        ("cold-chisel", "edge.length=50 to 59", "long 55 ±4", "long 50 to 59"),
        ("garden-sickle", "heats 4 = 5", "long free", "long free, 5 heats"),
        ("first-hook", "tip.width=8 ±1", "square 8 ±0.8 to 3 ±1", "8 ±1 x 8 ±0.8 to 3 ±1 x 3 ±1"),
    ],
)
def test_only_the_line_that_is_changed_is_written_otherwise(
    recipe: str, line: str, was: str, now: str
) -> None:
    ((before, after),) = lines_changed(recipe, line)
    assert was in before
    assert after == before.replace(was, now)


def test_a_step_that_says_the_drawing_s_own_limits_is_changed_with_it_and_nothing_else() -> None:
    """To be read against narrower limits than the drawing has would call out what is not."""
    pairs = lines_changed("first-hook", "plate.length=44 ±6")
    assert [before.lstrip(" -").partition(":")[0] for before, _ in pairs] == ["plate", "spread"]
    assert all(after == before.replace("long 44 ±4", "long 44 ±6") for before, after in pairs)


def test_a_number_that_stands_for_two_sizes_is_written_out() -> None:
    """Of `square 8 ±0.8 to 3 ±1` one size alone cannot be changed where it stands."""
    text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    changed = read_recipe(edited(text, "first-hook.yaml", "tip.end width=3 ±1.5"), "first-hook.yaml")
    limits = changed.drawing["tip"].limits
    assert (limits["end_width"].high, limits["end_thickness"].high) == (4.5, 4.0)
