"""Any saw can cut short: the piece is then as short as it was read, and the metal beyond the cut is gone."""

from __future__ import annotations

import pytest

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.ledger.verdict import Verdict
from coach.telling.words import write
from tests.bench.jobs import at_step_of, begun
from tests.bench.test_spread_half_way import LIFTER


def at_cut() -> Session:
    """The foot is spread and measured, its length known to a millimetre or two; the cut is next."""
    session = begun(LIFTER.replace("FREE", "long free, "))
    session.done()
    session.done()
    for _ in range(3):
        session.heat()
    for name, size in (("thickness", "5.1"), ("width", "30"), ("length", "73")):
        session.read(f"foot.{name}", size)
    session.done()
    return session


def _length(session: Session) -> Check:
    return next(check for check in session.standing().checks if check.name == "foot.length")


def _size(session: Session, name: str) -> float:
    return next(size.expected.value for size in session.standing().sizes if size.name == name)


@pytest.mark.parametrize("short", ["61.5", "64", "68"])
def test_a_short_cut_is_believed_and_takes_only_length(short: str) -> None:
    session = at_cut()
    width, thickness = _size(session, "foot.width"), _size(session, "foot.thickness")
    session.read("foot.length", short)
    read = _length(session).reading
    assert read is not None
    assert not read.questioned
    assert _size(session, "foot.length") == pytest.approx(float(short), abs=0.3)
    assert _size(session, "foot.width") == pytest.approx(width, abs=0.1)
    assert _size(session, "foot.thickness") == pytest.approx(thickness, abs=0.1)
    if short == "61.5":
        assert _length(session).verdict is Verdict.OUT


@pytest.mark.parametrize("slip", ["6.9", "85"])
def test_a_slip_of_the_eye_is_still_questioned_after_a_cut(slip: str) -> None:
    session = at_cut()
    session.read("foot.length", slip)
    read = _length(session).reading
    assert read is not None
    assert read.questioned


def on_its_bar(*, drawn: str) -> Session:
    """The steel of the hatchet, drawn to a wedge of so much of its bar; its cut is next, at some 33."""
    job = at_step_of("hedging-hatchet", 15)
    job.read("edge.length", drawn)
    job.done()
    return job


def _edge(job: Session) -> Check:
    return next(check for check in job.standing().checks if check.name == "edge.length")


@pytest.mark.parametrize("cut", ["30", "33", "36", "37"])
def test_steel_on_its_bar_is_cut_where_the_smith_cuts_it(cut: str) -> None:
    job = on_its_bar(drawn="37")
    job.read("edge.length", cut)
    read = _edge(job).reading
    assert read is not None
    assert not read.questioned
    assert _size(job, "edge.length") == pytest.approx(float(cut), abs=0.4)


def test_a_cut_that_is_made_where_it_is_wanted_is_believed_though_the_steel_was_read_longer() -> None:
    job = on_its_bar(drawn="40")
    wanted = _edge(job).wanted
    assert wanted is not None
    job.read("edge.length", f"{wanted.limits.low + 0.1:.1f}")
    read = _edge(job).reading
    assert read is not None
    assert not read.questioned


def test_steel_too_short_on_its_bar_is_cut_higher_up_the_bar() -> None:
    job = at_step_of("hedging-hatchet", 15)
    job.read("edge.length", "26", insist=True)  # and 29 is the least that is drawn
    job.done()
    (way,) = (way for way in job.ways_back() if way.name == "mark-longer-edge")
    assert write(way.title).startswith("Cut the edge ")
    assert write(way.title).endswith("higher up the bar")
    before = _size(job, "edge.length")
    job.take(way.name)
    assert _size(job, "edge.length") > before + 2.0
