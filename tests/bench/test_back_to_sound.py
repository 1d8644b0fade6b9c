"""An edge left too thin for the stone to take its skin off goes back to where there is enough to grind."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.telling.words import write
from tests.bench.jobs import at_step_of
from tests.told import why

_WAY = "back-to-sound-bit-end-thickness"


def thin_edge(end_mm: str) -> Session:
    """The hatchet looked over before it is ground: its bit 63 long, 8.5 to so much at the edge."""
    job = at_step_of("hedging-hatchet", 28)
    for name, size in (("end_thickness", end_mm), ("thickness", "8.5"), ("length", "63")):
        job.read(f"bit.{name}", size, insist=True)
    return job


def test_a_thin_edge_is_offered_to_be_taken_back_to_sound_steel() -> None:
    job = thin_edge("2.9")
    assert "skin of the edge" in why(job.standing())
    (way,) = (one for one in job.ways_back() if one.name == _WAY)
    # 1.6 is left, twice 0.68 of skin and a tenth of sound steel each come off, and 0.2 more: 3.36.
    bit = job.forms_now()["bit"].sizes_mm()
    end_mm, length_mm = bit["end_thickness"], bit["length"]
    back_mm = float(write(way.title).split("back by ")[1].split(" mm")[0])
    assert back_mm == pytest.approx((3.36 - end_mm) * length_mm / (8.5 - end_mm), abs=0.6)
    job.take(_WAY)
    assert "skin of the edge" not in why(job.standing())


def test_no_edge_is_taken_back_to_less_than_is_drawn() -> None:
    # From 2 to 3.4 mm it would be 1.4 · 63 / 6.5 = 14 mm, and 49 are left where 52 are the least.
    assert _WAY not in {one.name for one in thin_edge("2").ways_back()}


def test_no_edge_is_taken_back_while_it_can_be_left_thicker_for_the_stone() -> None:
    job = at_step_of("hedging-hatchet", 24)
    assert _WAY not in {one.name for one in job.ways_back()}
