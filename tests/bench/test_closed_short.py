"""A link that is read short once it is welded shut: its bar is no fuller for it, whatever the length says.

By hand: 58 mm long inside and 20.9 wide, of a bar of 10 mm, its middle line is 2 x (58 - 20.9) + 3.14 x 30.9
= 171.3 mm; drawn on to 67 it is 189.3, and its bar 10 x sqrt(171.3 / 189.3) = 9.5 mm.
"""

from __future__ import annotations

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of
from tests.told import why


def short_link() -> Session:
    job = at_step_of("ring-and-chain", 11)
    job.heat()
    job.heat()
    for name, mm in (("inner length", "58"), ("inner width", "20.9")):
        job.read(f"link 2.{name}", mm, insist=True)
    return job


def test_a_weld_makes_no_bar_fuller_and_its_thickness_is_asked_for() -> None:
    job = short_link()
    standing = job.standing()
    assert standing.verdict is PlanState.TIGHT
    told = why(standing)
    assert "a weld makes none thicker" in told
    assert "measure its diameter before it is worked on" in told
    way = next(one for one in job.ways_back() if one.name.startswith("forge-further"))
    changes = write(way.changes, Shown("mm"))
    assert changes.startswith("Measure its diameter first")
    assert changes.endswith("worked on it comes out about 9.5 mm there.")
    assert "fuller" not in changes


def test_once_its_thickness_is_read_that_is_told_no_more() -> None:
    job = short_link()
    job.read("link 2.diameter", "9.8")
    assert "makes none thicker" not in why(job.standing())
