"""A way back whose words ask for a heat of its own is told to cost it."""

from __future__ import annotations

from coach.telling.ways_back import brings
from coach.telling.words import write
from tests.bench.jobs import at_step_of


def test_a_wind_that_is_turned_back_costs_the_heat_that_its_words_ask_for() -> None:
    job = at_step_of("garden-sickle", 8)
    job.read("blade.wind", "1.7", then=job.then(7))
    (way,) = [one for one in job.ways_back() if one.name == "by-hand-blade-wind"]
    assert "one more heat at orange" in write(way.changes)
    assert brings(way)[1] == "1 extra heat"
