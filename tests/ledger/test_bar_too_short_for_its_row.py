"""A bar that is too short for all the pieces marked on it: the last of them lacks what is missing, and once.

Bolt tongs by hand: an arm takes 22.0 + 30.1 + 28.6 + 113.3 = 194.1 mm of bar, two of them 388.2 mm. Of a bar
380 mm long the first has all of its own, and the second ends where the bar does.
"""

from __future__ import annotations

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.weigh_sizes import too_short
from coach.ledger.workpiece import Workpiece, at_stock
from coach.operations.measures import MARK
from coach.places import bundled_recipes
from coach.recipe.one_bar import across_others
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from coach.telling.writing import Shown


def marked_on(bar_mm: int) -> Workpiece:
    text = (bundled_recipes() / "bolt-tongs.yaml").read_text(encoding="utf-8")
    assert "square 20, long 600" in text
    plan = look_back(read_recipe(text.replace("long 600", f"long {bar_mm}", 1), "bolt-tongs.yaml"))
    return at_stock(plan)._replace(across=across_others(plan.recipe, plan.recipe.steps[0]))


@pytest.mark.parametrize(("bar_mm", "first", "second"), [(600, 194.1, 388.2), (380, 194.1, 380.0)])
def test_the_last_piece_ends_where_the_bar_does(bar_mm: int, first: float, second: float) -> None:
    there = marked_on(bar_mm)
    assert there.size("arm 1 rein", MARK).value == pytest.approx(first, abs=0.1)
    assert there.size("arm 2 rein", MARK).value == pytest.approx(second, abs=0.1)


def test_what_more_is_missing_than_the_last_piece_has_is_missing_of_the_one_before_it() -> None:
    there = marked_on(180)  # 14.1 mm less than the first takes; a sliver of the second is reckoned with
    assert there.size("arm 1 rein", MARK).value == pytest.approx(180.0, abs=4.0)


@pytest.mark.parametrize(("long_mm", "missing"), [(110, "9.5 mm"), (118, "1.5 mm")])
def test_what_is_missing_is_the_difference_of_the_two_lengths_told(long_mm: int, missing: str) -> None:
    # The adze takes 119.5 mm of a bar of 45 x 35: 119.5 - 110 = 9.5, and 119.5 - 118 = 1.5.
    text = (bundled_recipes() / "carpenters-adze.yaml").read_text(encoding="utf-8")
    assert "45 x 35, long 400" in text
    plan = look_back(read_recipe(text.replace("45 x 35, long 400", f"45 x 35, long {long_mm}"), "adze.yaml"))
    told = too_short(plan, plan.pieces["body"])
    assert told is not None
    assert f"the job needs 119.5 mm, so {missing} is missing" in write(told, Shown())
