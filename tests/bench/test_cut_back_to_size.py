"""A length that is cut where it is wanted goes by the cut, and not by how much metal its section may hold."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState, Verdict, Why
from coach.telling.why import stands_text
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

#: The steel face of the cross-peen hammer is nicked from its bar, 37 ±2 mm long, and nothing forges it again.
NICK = 11


def at_the_nick(*readings: tuple[str, str]) -> Session:
    session = at_step_of("cross-peen-hammer", NICK)
    for name, size in readings:
        session.read(name, size)
    return session


def _expected(session: Session, name: str) -> float:
    return next(size.expected.value for size in session.standing().sizes if size.name == name)


def test_a_face_cut_back_to_size_is_as_sure_as_one_that_was_read_there() -> None:
    """36.9 ±0.4 mm of at least 35 is certain, whatever the section may be: the length takes nothing away."""
    session, read = at_the_nick(("face.length", "39.8")), at_the_nick(("face.length", "37"))
    session.take("too-much-metal-cut-face-length")
    cut = session.standing()
    assert cut.verdict is PlanState.ON_PLAN
    assert cut.chance == pytest.approx(read.standing().chance, abs=0.02)
    assert getattr(cut.reason, "why", None) is not Why.SHORT


def test_a_length_that_is_cut_and_not_forged_again_is_held_against_the_drawing_as_the_verdict_is() -> None:
    """39.8 is over the 39 that 37 ±2 allows, in the row as in the verdict; 37.5 is cut, thin or thick."""
    told = at_the_nick(("face.thickness", "11"), ("face.length", "39.8")).standing()
    row = next(check for check in told.checks if check.name == "face.length")
    assert told.verdict is PlanState.TIGHT
    assert "over the 39 mm the drawing allows" in stands_text(told, Shown())
    assert row.verdict is Verdict.MORE_TO_GO
    assert row.wanted is not None
    assert row.wanted.limits.high == pytest.approx(39.0, abs=0.2)
    assert row.wanted.limits.low == pytest.approx(35.0, abs=0.2)
    assert row.wanted.limits.nominal == pytest.approx(37.5, abs=0.2)


@pytest.mark.parametrize("length", ["38.5", "39.8", "41"])
def test_a_cut_further_out_says_nothing_of_the_section(length: str) -> None:
    """There are 300 mm of bar behind the nick: so much more of it was left on, as thick as it was."""
    session = at_the_nick()
    before = [_expected(session, name) for name in ("face.width", "face.thickness")]
    session.read("face.length", length)
    assert [_expected(session, name) for name in ("face.width", "face.thickness")] == pytest.approx(
        before, abs=0.06
    )


def test_a_bit_with_too_much_metal_is_cut_so_that_it_comes_out_as_it_is_told() -> None:
    """Scale, saw and stone would have taken their share of what is cut off now: so much more has to go."""
    job = at_step_of("hedging-hatchet", 22)
    for name, size in (("end_thickness", "4.9"), ("end_width", "77"), ("width", "56.2"), ("thickness", "9")):
        job.read(f"bit.{name}", size)
    job.read("bit.length", "63")
    job.take("too-much-metal-cut-bit-length")
    assert _expected(job, "bit.length") == pytest.approx(58.0, abs=0.5)
