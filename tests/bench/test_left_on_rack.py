"""What a change leaves of the bar on the rack that the job is cut off is told before and as it is taken.

By hand: a hook takes 139.54 mm of a bar of 10 x 10 mm, three 418.6; of one 600 long 181.4 stay.
"""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.drafting.bar_there import change, change_told
from coach.drafting.from_bar import from_bars
from coach.drafting.from_rack import taken_from
from coach.drafting.make import made_often
from coach.places import bundled_recipes
from coach.quantities.words import Words
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import shop


def three_hooks(*, long_mm: float = 600.0) -> tuple[Shop, Session]:
    at = shop()
    at.rack.lay("sq10", f"square 10, long {long_mm:g}, mild steel", "mm")
    text = made_often((bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8"), 3)
    rack = at.rack.now()
    taken = taken_from(text, "first-hook.yaml", rack, "sq10")
    made = from_bars(text, "first-hook.yaml", taken.bars.split(";")).text
    return at, at.begin(made, "first-hook.yaml", None, taken.cuts(rack))


def left_mm(at: Shop) -> float:
    return at.rack.now().named("sq10").length.value


def test_a_bar_of_another_section_gives_the_rack_its_own_back_and_says_so() -> None:
    at, job = three_hooks()
    assert left_mm(at) == pytest.approx(181.4, abs=0.3)
    line = "bar square 10.2, long 430"
    (told,) = change_told(job, line).rack
    assert told.bar == "sq10"
    assert told.was.value == pytest.approx(181.4, abs=0.3)
    assert told.now.value == pytest.approx(600.0, abs=0.1)
    did = change(job, line).did
    assert isinstance(did, Words)
    words = write(did, Shown("mm"))
    assert "the rack now has 600 mm of sq10, where it had 181.4 mm" in words
    assert words.endswith("if the bar in hand is cut off it, correct it on the rack")
    assert left_mm(at) == pytest.approx(600.0, abs=0.1)


def test_a_piece_that_is_given_up_goes_back_to_the_rack_and_is_told() -> None:
    """181.4 + 139.54 = 320.9."""
    at, job = three_hooks()
    (told,) = job.change_told("give up hook 3").rack
    assert told.now.value == pytest.approx(321.0, abs=0.3)
    did = job.change("give up hook 3").did
    assert isinstance(did, Words)
    assert write(did, Shown("mm")).endswith("the rack now has 321 mm of sq10, where it had 181.4 mm")
    assert left_mm(at) == pytest.approx(321.0, abs=0.3)


def test_a_bar_that_was_used_up_is_told_once_it_lies_there_again() -> None:
    """Of 420 there stay 1.5 mm, which is no bar; with one given up 141 of it."""
    _, job = three_hooks(long_mm=420.0)
    (told,) = job.change_told("give up hook 3").rack
    assert told.was.value == 0.0
    assert told.now.value == pytest.approx(141.0, abs=0.3)
    assert write(told.words, Shown("mm")).endswith("of sq10, where it had nothing")


def test_a_change_that_takes_no_more_of_the_bar_says_nothing_of_the_rack() -> None:
    _, job = three_hooks()
    assert job.change_told("plate.length = 44 ±5").rack == ()
