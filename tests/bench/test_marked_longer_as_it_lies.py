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
