"""Where a mark is made along a bar that is partly forged: as the metal lies, before its step is worked.

By hand: the end of the bit lies behind poll, eye and blade as they are forged, and behind the bit's own
length of bar, which nothing has drawn yet.
"""

from __future__ import annotations

import re

import pytest

from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

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
    way = next(one for one in job.ways_back() if one.name == "mark-longer-socket")
    along = float(re.findall(r"([\d.]+) mm longer", write(way.title, Shown("mm")))[0])
    told = float(re.findall(r"socket ends at ([\d.]+) mm", write(way.changes, Shown("mm")))[0])
    assert told == pytest.approx(252.0 + 32.0 + 89.0 + along, abs=1.5)
