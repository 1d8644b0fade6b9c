"""The drawing as it can be expected to come out."""

from __future__ import annotations

from coach.ledger.verdict import SizeState
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities import Limits, Wanted, mm
from coach.telling.sizes import expected_text
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
