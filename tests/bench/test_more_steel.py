"""More steel is taken for a zone that is short of some metal, not for one that is gone."""

from __future__ import annotations

import pytest

from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.test_settled_sizes import at_step


@pytest.mark.parametrize(("length", "offered"), [("22.5", True), ("10", False)])
def test_steel_is_not_to_make_up_for_most_of_a_zone(length: str, offered: bool) -> None:
    # The hammer's poll is to be 27 mm long here and 23.7 at the least; its face is drawn 11 mm thick.
    job = at_step("cross-peen-hammer", 7)
    job.read("poll.length", length, insist=True)
    ways = {way.name for way in job.ways_back()}
    assert ("more-steel-face-thickness" in ways) is offered
    assert ways


def test_a_plate_is_taken_thicker_as_far_as_its_bar_goes_and_never_wider_than_what_it_lies_on() -> None:
    # The face lies 37 × 37 across a poll 37 square, and gives the poll its 11 mm of length. Where the poll
    # lacks 2 mm, 3 mm of length would stand out at one side; its bar is 12 mm thick, which is 1 mm more.
    job = at_step("cross-peen-hammer", 7)
    job.read("poll.length", "22.5", insist=True)
    (way,) = (way for way in job.ways_back() if way.name.startswith("more-steel"))
    assert write(way.title, Shown()) == "Make the face steel 1 mm bigger in its thickness"
    job.take(way.name)
    dress = next(step for step in job.recipe.steps if step.title == "Dress the steel face")
    assert dress.targets["thickness"].nominal == pytest.approx(12.0)
    assert job.recipe.drawing["face"].limits["thickness"].nominal == pytest.approx(12.0)
    assert job.recipe.drawing["face"].limits["length"].nominal == pytest.approx(37.0)


def test_steel_that_is_laid_on_a_face_is_not_made_longer_than_that_face() -> None:
    # The adze's edge is 36 mm long and lies on a bit that comes to some 35 mm when it is cut at 20;
    # 22 mm more of its length would stand out beyond the bit. Its bar is 8 mm thick, 1 mm more than it.
    job = at_step("carpenters-adze", 15)
    job.read("bit.length", "20", insist=True)
    (way,) = (way for way in job.ways_back() if way.name.startswith("more-steel"))
    assert write(way.title, Shown()) == "Make the edge steel 1 mm bigger in its thickness"
