"""A finished tool is not told whole beside a last reading outside of its drawing that nobody took again."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.why import stands_text
from coach.telling.writing import Shown
from tests.bench.jobs import begun

PEG = """
recipe: Gate peg
pieces:
  peg:
    metal: mild steel
    bar: 20 x 10
    zones:
      point: 20 ±1.5 x 8 at most 8.5 to 8 ±1.5 x 5 ±1, long 70 ±8
      stem: 20 ±1.5 x 8 ±0.6, long 90 ±9
      head: 26 ±2.5 x 6 ±0.6, oval hole 12 ±0.8 x 8 ±0.8 through its thickness, long 40 ±5
usual: {at: light yellow, margin: enough for 99 %}
steps:
  - mark out: peg
  - taper: point, 3 heats
    check: end thickness, end width, thickness, length
  - draw: stem, 2 heats
    check: thickness, length
  - cut: head, cold, kerf 1.5
    check: length
  - spread: head, thick 6 ±0.6, long 40 ±5, 2 heats
    check: thickness, length, width
  - punch: head, oval hole 12 ±0.8 x 8 ±0.8 through its thickness, slug 2, 1 heat
    check: hole length, hole width, width
  - inspect: stem
    check: thickness
"""
READ: tuple[tuple[int, dict[str, str]], ...] = (
    (0, {}),
    (3, {"point.end_thickness": "5", "point.end_width": "8", "point.thickness": "8", "point.length": "70"}),
    (2, {"stem.thickness": "8.1", "stem.length": "91"}),
    (0, {"head.length": "30"}),
    (2, {"head.thickness": "6", "head.length": "40", "head.width": "26"}),
    (1, {"head.hole_length": "12", "head.hole_width": "8", "head.width": "26"}),
)


def at_its_inspection() -> Session:
    """Every size good; the stem read 8.1 mm by 91 mm as its step ended, and the last step in hand."""
    job = begun(PEG)
    for heats, sizes in READ:
        for _ in range(heats):
            job.heat()
        for size, typed in sizes.items():
            job.read(size, typed)
        job.done()
    return job


@pytest.mark.parametrize("typed", ["8.9", "6.9"])
def test_a_tool_read_outside_of_its_drawing_last_is_not_called_whole(typed: str) -> None:
    # 8 ±0.6: 8.9 is 0.3 over, 6.9 is 0.5 under. Nobody has said which reading was the slip.
    job = at_its_inspection()
    job.read("stem.thickness", typed)
    job.done()
    told = job.standing()
    assert told.verdict is PlanState.TIGHT
    assert told.is_bad_news
    assert "Stem: thickness was read outside of the drawing last" in stands_text(told, Shown())
    assert [one.zone for one in told.to_right] == ["stem"]


def test_once_it_is_read_again_inside_or_put_right_nothing_is_said_of_it() -> None:
    job = at_its_inspection()
    job.read("stem.thickness", "8.9")
    job.done()
    job.back()
    job.read("stem.thickness", "8.1")
    job.done()
    assert job.standing().verdict is PlanState.ON_PLAN
    assert not job.standing().to_right


def test_a_section_filed_after_its_length_was_read_leaves_that_as_it_was_read() -> None:
    # 91 long as it was read, whatever a section of 8.9 typed at the end makes of the metal: a file takes
    # nothing off the length, and what is read then of both is what is expected.
    job = at_its_inspection()
    job.read("stem.thickness", "8.9")
    job.read("stem.thickness", "8.9")
    job.done()
    file = next(one for one in job.ways_back() if one.name.startswith("grind-thinner"))
    job.take(file.name)
    told = job.standing()
    length = next(one for one in told.sizes if one.name == "stem.length")
    assert length.expected.value == pytest.approx(91.0, abs=0.5)
    assert told.verdict is PlanState.ON_PLAN
    job.read("stem.thickness", "8.0")
    job.read("stem.length", "91")
    assert not job.standing().questioned
