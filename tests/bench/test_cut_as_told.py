"""What a way back takes off is what lies between the size that is told and the one that it offers."""

from __future__ import annotations

from coach.bench.session import Session
from coach.telling.words import write
from tests.bench.jobs import at_step_of, begun

PIN = """\
recipe: Drift pin
scale: {forging: 0.03 mm}
pieces:
  pin:
    metal: mild steel
    bar: round 12
    size: round 12 ±0.5 to 6 ±0.5, long 100 ±3
steps:
  - cut: pin, cold, kerf 1.5
    check: length
  - taper: pin, 2 heats
"""


def offered(session: Session) -> dict[str, str]:
    return {way.name: f"{write(way.title)}; {write(way.changes)}" for way in session.ways_back()}


def test_a_pin_of_105_mm_that_comes_out_at_100_loses_5() -> None:
    session = begun(PIN)
    session.done()
    session.heat()
    session.heat()
    for name, size in (("pin.diameter", "12"), ("pin.end_diameter", "6"), ("pin.length", "105")):
        session.read(name, size)
    session.done()
    assert "Cut 5 mm off the pin's end" in offered(session)["too-much-metal-cut-pin-length"]


def test_a_plate_of_18_6_mm_that_is_trimmed_to_16_loses_2_6() -> None:
    session = at_step_of("first-hook", 7)
    session.heat()
    session.heat()
    for name, size in (("plate.thickness", "5"), ("plate.length", "44"), ("plate.width", "18.6")):
        session.read(name, size, insist=True)
    assert "2.6 mm off it" in offered(session)["trim-the-width-plate"]
