"""The drawing as it can be expected to come out."""

from __future__ import annotations

import pytest

from coach.ledger.verdict import SizeState
from coach.ledger.zone_forecast import FinishedSize, Spare
from coach.quantities import Kind, Limits, Wanted, mm
from coach.telling.page import Tone
from coach.telling.sizes import expected_text, spare_tone, tone_of
from coach.telling.writing import Shown

MM = Shown("mm")
WANTED = Wanted(Limits(110, 100, 120, True))
LENGTH = FinishedSize("shank.length", "shank", "length", WANTED, mm(110, 11.5), SizeState.GOOD, True)


def test_what_is_steered_to_its_limits_is_told_no_doubt_that_leaves_them() -> None:
    assert expected_text(LENGTH, MM) == "about 110 mm"
    assert expected_text(LENGTH._replace(expected=mm(110, 4)), MM) == "110 ±7 mm"
    assert expected_text(LENGTH._replace(take_up=False), MM) == "110 ±19 mm"
    assert expected_text(LENGTH._replace(measured=True), MM) == "110 ±19 mm"
    assert expected_text(LENGTH._replace(state=SizeState.UNDER), MM) == "110 ±19 mm"


@pytest.mark.parametrize(
    ("spare_mm", "doubt_mm", "chance", "tone"),
    [
        # Alone it may fall short; its zone has another size to take the metal up.
        (2.0, 1.5, 0.98, Tone.PLAIN),
        (2.0, 1.5, 0.90, Tone.CARE),
        (2.0, 0.5, 0.90, Tone.PLAIN),
        (-0.2, 1.1, 0.98, Tone.BAD),
    ],
)
def test_a_row_of_spare_metal_is_no_tighter_than_its_zone(
    spare_mm: float, doubt_mm: float, chance: float, tone: Tone
) -> None:
    assert spare_tone(Spare("eye", "length", mm(spare_mm, doubt_mm), chance)) is tone


def test_what_was_read_too_near_its_limit_only_seems_good() -> None:
    """371 of at most 372, known to ± 1.5 (JCGM 106:2012, 7): Φ(1 / 0.75) is 0.91, not 0.95."""
    near = FinishedSize(
        "blade.length",
        "blade",
        "length",
        Wanted(Limits(330.0, 288.0, 372.0, True), Kind.LENGTH),
        mm(371.0, 0.75),
        SizeState.GOOD,
        False,
        measured=True,
    )
    assert near.told == "seems good"
    assert tone_of(near) is Tone.CARE
    well_inside = near._replace(expected=mm(360.0, 0.75))
    assert (well_inside.told, tone_of(well_inside)) == ("good", Tone.PLAIN)
    assert near._replace(measured=False).told == "good"  # what is only expected is told with its doubt
