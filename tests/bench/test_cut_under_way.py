"""An end that is cut in the middle of its forging is as long and as thick there as the rule would say."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from coach.bench.session import Session
from coach.quantities import Figure, Words
from tests.bench.jobs import begun

#: An invented pin, whose point is tapered twice.
PIN = """\
recipe: Pin
units: mm
pieces:
  pin:
    metal: mild steel
    bar: square 12
    zones:
      shank: square 12 ±1, long 100 ±15
      point: 10 ±1 x 10 ±1 to 4 ±1 x 4 ±1, long 90 ±9
steps:
  - taper: point, 10 ±1 x 10 ±1 to 6 ±1 x 6 ±1, 3 heats, at yellow
    check: thickness, width, end thickness, end width, length
  - taper: point, 10 ±1 x 10 ±1 to 4 ±1 x 4 ±1, 2 heats, at yellow
    check: thickness, end thickness, length
  - inspect: point
    check: length
"""


def parts_of(words: Words) -> Iterator[object]:
    """All that stands in words, and in the words in those."""
    for one in words.parts:
        yield from parts_of(one) if isinstance(one, Words) else (one,)


def cut_off_mm(job: Session, name: str) -> float:
    """How much a way back says to cut off; it is taken."""
    way = next(one for one in job.ways_back() if one.name == name)
    off = next(one for one in parts_of(way.title) if isinstance(one, Figure))
    job.take(name)
    return off.value


def tapered_too_long() -> Session:
    """The point at 10 mm, its end at 6, and 90 mm long, of which the second taper would make some 110."""
    job = begun(PIN)
    for _ in range(3):
        job.heat()
    for name, size in (("thickness", "10"), ("width", "10"), ("end thickness", "6"), ("end width", "6")):
        job.read(f"point.{name}", size)
    job.read("point.length", "90", insist=True)
    return job


def test_what_is_cut_in_the_middle_of_a_taper_leaves_the_section_there() -> None:
    """By hand: it rises 4 mm in 90, and a frustum holds a third of its length × (a² + ab + b²)."""
    job = tapered_too_long()
    whole_mm3 = job.forms_now()["point"].volume_mm3()
    off_mm = cut_off_mm(job, "too-much-metal-cut-point-length")
    end_mm = 6.0 + 4.0 * off_mm / 90.0
    form = job.forms_now()["point"]
    assert form.size_mm("length") == pytest.approx(90.0 - off_mm, abs=0.2)
    assert form.size_mm("end_thickness") == pytest.approx(end_mm, abs=0.05)
    assert form.size_mm("end_width") == pytest.approx(end_mm, abs=0.05)
    gone_mm3 = off_mm / 3.0 * (36.0 + 6.0 * end_mm + end_mm**2)
    assert whole_mm3 - form.volume_mm3() == pytest.approx(gone_mm3, rel=0.02)
