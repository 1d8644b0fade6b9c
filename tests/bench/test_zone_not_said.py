"""A size of a step with several zones, typed without its own: it is asked which, with no empty quotes."""

from __future__ import annotations

import pytest

from coach.bench.entering import EntryFault
from tests.bench.jobs import at_step_of


def test_it_is_asked_of_which_zone_it_is() -> None:
    job = at_step_of("first-hook", 1)
    asked = r"^Of which zone is it\? Here write zone.dimension, such as tip.length; the zones are tip, shank"
    with pytest.raises(EntryFault, match=asked):
        job.read("thickness", "8.8")


def test_a_zone_that_is_not_there_is_named_as_before() -> None:
    job = at_step_of("first-hook", 1)
    with pytest.raises(EntryFault, match="There is no zone called 'tap'"):
        job.read("tap.length", "8.8")
