"""What was read too near a limit to tell counts as it was answered, also once its step is ended."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import Verdict
from tests.bench.jobs import at_step_of

#: The first hook's plate is drawn 16 ±2 mm wide.
LEAST_MM = 14.0


def hook_being_punched() -> Session:
    """Its plate was spread and read near its middle; the heat of the punching is marked."""
    session = at_step_of("first-hook", 7)
    session.heat()
    session.heat()
    for name, size in (("plate.thickness", "4.9"), ("plate.length", "42.2"), ("plate.width", "16")):
        session.read(name, size)
    session.done()
    session.heat()
    return session


@pytest.mark.parametrize("width", ["14.0", "14.03", "14.1"])
def test_a_width_answered_as_unsure_is_not_dropped_when_the_step_is_ended(width: str) -> None:
    session = hook_being_punched()
    check = session.read("plate.width", width).did
    assert check.verdict is Verdict.UNSURE  # type: ignore[union-attr]
    session.done()
    assert not any(row.questioned for row in session.history())
    size = next(one for one in session.standing().sizes if one.name == "plate.width")
    # 14 mm was read by calliper, and the plate was drawn 16: what was read is what it is, to its doubt.
    assert size.measured
    assert abs(size.expected.value - float(width)) < 0.15
    assert size.told == "seems good"


def test_a_width_read_under_its_least_counts_as_worked_on_as_it_did() -> None:
    session = hook_being_punched()
    session.read("plate.width", "13.6")
    did = session.done().did
    assert did.unsettled.counted  # type: ignore[union-attr]
