"""More steel is taken for a zone that is short of some metal, not for one that is gone."""

from __future__ import annotations

import pytest

from tests.bench.test_settled_sizes import at_step


@pytest.mark.parametrize(("length", "offered"), [("22.5", True), ("10", False)])
def test_steel_is_not_to_make_up_for_most_of_a_zone(length: str, offered: bool) -> None:
    # The hammer's poll is to be 27 mm long here and 23.7 at the least; its face is drawn 37 mm.
    job = at_step("cross-peen-hammer", 7)
    job.read("poll.length", length, insist=True)
    ways = {way.name for way in job.ways_back()}
    assert ("more-steel-face-length" in ways) is offered
    assert ways
