"""Where a mark is made along a bar that is partly forged: as the metal lies, before its step is worked.

By hand: the end of the bit lies behind poll, eye and blade as they are forged, and behind the bit's own
length of bar, which nothing has drawn yet.
"""

from __future__ import annotations

import re

import pytest

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.drafting.from_bar import from_bars
from coach.places import bundled_recipes
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of, begun

SPREAD_THE_BIT = 8


def test_a_zone_that_is_not_worked_yet_is_marked_on_the_bar_as_it_is() -> None:
    job = at_step_of("hedging-hatchet", SPREAD_THE_BIT)
    bar = next(one.length.value for one in job.plan.pieces["body"].zones if one.zone == "bit")
    job.change("bit.length = 72 ±4")
    way = next(one for one in job.ways_back() if one.name == "mark-longer-bit")
    along = float(re.findall(r"([\d.]+) mm longer", write(way.title, Shown("mm")))[0])
    told = float(re.findall(r"bit ends at ([\d.]+) mm", write(way.changes, Shown("mm")))[0])
    forged = job.forms_now()
    behind = sum(forged[zone].size_mm("length") for zone in ("poll", "eye", "blade"))
    assert told == pytest.approx(behind + bar + along, abs=1.5)


def test_what_lies_before_it_is_as_long_as_the_step_in_hand_has_made_it() -> None:
    # By hand: 252 of tines as they were read, 118 - 86 of neck and 207 - 118 of socket on the bar, and the
    # step along: 252 + 32 + 89 + along. The tines took 86 of bar, so the mark is not at 207 any more.
    job = at_step_of("hay-fork", 1)
    for name, place in (("tines", "86"), ("neck", "118"), ("socket", "207")):
        job.read(f"{name}.mark", place)
    job.done()
    job.done()
    for _ in range(4):
        job.heat()
    sizes = {"tine": "9.3", "thickness": "9.2", "end_tine": "3.6", "end_thickness": "3.7", "length": "252"}
    for name, size in sizes.items():
        job.read(f"tines.{name}", size)
    job.change("socket.length = 130 ±14")
    way = next(one for one in job.ways_back() if one.name == "mark-longer-socket")
    along = float(re.findall(r"([\d.]+) mm longer", write(way.title, Shown("mm")))[0])
    told = float(re.findall(r"socket ends at ([\d.]+) mm", write(way.changes, Shown("mm")))[0])
    assert told == pytest.approx(252.0 + 32.0 + 89.0 + along, abs=1.5)


def punched_eye() -> Session:
    """A hatchet of a bar of 40 x 25 mm, its eye punched and thinner than the plan has it."""
    text = (bundled_recipes() / "hedging-hatchet.yaml").read_text(encoding="utf-8")
    bars = ["body=40 x 25, long 500", "edge=50 x 10, long 250"]
    job = begun(from_bars(text, "hedging-hatchet.yaml", bars).text)
    job.done()
    for size in ("width=34", "thickness=24", "length=18.5"):
        job.read(*f"poll.{size}".split("="))
    job.done()
    job.heat()
    for size in ("thickness=29", "width=36.2", "hole_length=30.2", "hole_width=9.1"):
        job.read(*f"eye.{size}".split("="), insist=True)
    return job


def row(job: Session, name: str) -> Check:
    return next(one for one in job.standing().checks if one.name == name)


def test_what_is_marked_off_to_a_punched_eye_lies_behind_it_and_leaves_its_thickness() -> None:
    # By hand: nothing is struck, so it is as thick as it was read, and longer by what was marked off to it.
    job = punched_eye()
    now = job._state.now
    assert now is not None
    long_mm = now.size("eye", "length").value
    way = next(one for one in job.ways_back() if one.name == "mark-longer-eye")
    along = float(re.findall(r"([\d.]+) mm longer", write(way.title, Shown("mm")))[0])
    job.take("mark-longer-eye")
    job.read("eye.thickness", "29")
    assert not row(job, "eye.thickness").is_questioned
    job.read("eye.length", f"{long_mm + along:.1f}")
    assert not row(job, "eye.length").is_questioned
