"""Steel that was quenched and left without its temper, against advice: a crack is looked for."""

from __future__ import annotations

from datetime import datetime, timedelta

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.ledger.verdict import PlanState
from coach.quantities.moments import as_entered, told_on_the_wall
from coach.telling.ways_back import no_way_back
from coach.telling.words import write
from tests.bench.jobs import FIRST, begun
from tests.bench.test_file_on_tempered_steel import CHISEL


def at_the_quench() -> Session:
    session = begun(CHISEL)
    session.done()
    session.heat()
    return session


def listed(session: Session) -> list[str]:
    return [write(one.words) for one in session.standing().to_right]


# "Quenched steel that is left untempered cracks by itself, often overnight": common practice, no source.
def test_a_crack_is_looked_for_after_a_rest_between_quench_and_temper() -> None:
    session = at_the_quench()
    session.done()
    session.rest(force=True)
    session.resume()
    assert [one for one in listed(session) if "look for a crack" in one]
    assert "edge.crack_test" in {one.name for one in session.standing().checks}
    assert session.standing().verdict is not PlanState.ON_PLAN
    session.read("edge.crack_test", "pass")
    assert listed(session) == []
    assert session.standing().verdict is PlanState.ON_PLAN


def test_a_rest_with_the_quench_still_in_hand_counts_alike() -> None:
    session = at_the_quench()
    session.rest(force=True)
    session.resume()
    assert [one for one in listed(session) if "look for a crack" in one]


def test_a_rest_before_the_quench_or_after_the_temper_asks_for_nothing() -> None:
    session = begun(CHISEL)
    session.done()
    session.rest(force=True)
    session.resume()
    assert listed(session) == []
    while session.standing().step is not None and session.standing().step.number < 4:  # type: ignore[union-attr]
        session.done()
    session.rest(force=True)
    session.resume()
    assert listed(session) == []


class Clock:
    """A clock that is put on by hand, and gains a minute each time it is looked at."""

    def __init__(self) -> None:
        self.at = FIRST

    def __call__(self) -> datetime:
        self.at += timedelta(minutes=1)
        return self.at

    def hours_later(self, hours: float) -> None:
        self.at += timedelta(hours=hours)


def quenched_by_the_clock() -> tuple[Session, Clock]:
    clock = Clock()
    session = begun(CHISEL, Shop(":memory:", clock))
    session.done()
    session.heat()
    session.done()
    return session, clock


# "Tempering shall occur within 4 hours of quench": a furnace maker's page on tempering furnaces.
def test_a_night_without_the_temper_is_told_with_its_hours_and_a_crack_is_looked_for() -> None:
    session, clock = quenched_by_the_clock()
    clock.hours_later(12)
    session.fire()
    [told] = listed(session)
    assert "lay hard for 12 h without its temper: look for a crack" in told
    assert "edge.crack_test" in {one.name for one in session.standing().checks}
    assert session.standing().verdict is not PlanState.ON_PLAN
    assert "read the edge crack test first" in no_way_back(session.standing())
    session.heat()
    session.done()
    assert len(listed(session)) == 1  # the temper takes no crack away
    session.read("edge.crack_test", "pass")
    assert listed(session) == []
    assert session.standing().verdict is PlanState.ON_PLAN


def test_the_hours_grow_until_the_temper_begins_and_not_after_it() -> None:
    session, clock = quenched_by_the_clock()
    clock.hours_later(5)
    session.note("still in the rack")
    clock.hours_later(4)
    session.note("and still")
    assert "for 9 h" in listed(session)[0]
    session.fire()
    clock.hours_later(3)
    session.heat()
    assert "for 9 h" in listed(session)[0]


def test_a_temper_within_the_hours_asks_for_nothing() -> None:
    session, clock = quenched_by_the_clock()
    clock.hours_later(3)
    session.fire()
    clock.hours_later(12)  # left in the oven over the night
    session.heat()
    session.done()
    assert listed(session) == []


def test_a_crack_test_made_while_it_still_lies_hard_is_enough() -> None:
    session, clock = quenched_by_the_clock()
    clock.hours_later(12)
    session.read("edge.crack_test", "pass")
    assert listed(session) == []


def test_a_temper_of_the_evening_that_is_entered_in_the_morning_counts_for_the_evening() -> None:
    session, clock = quenched_by_the_clock()
    clock.hours_later(1)
    evening = told_on_the_wall(as_entered(clock.at))
    clock.hours_later(12)
    session.read("edge.temperature", "275 °C", then=session.then(at=evening))
    session.done()
    assert listed(session) == []


def test_a_quench_whose_end_is_told_later_lies_hard_from_that_moment() -> None:
    clock = Clock()
    session = begun(CHISEL, Shop(":memory:", clock))
    session.done()
    afternoon = told_on_the_wall(as_entered(clock.at + timedelta(minutes=30)))
    clock.hours_later(33.5)
    session.heat()  # put down with the rest of it, a day and more later
    session.done(at=afternoon)
    assert listed(session) == []  # it may have been tempered since
    session.read("edge.temperature", "275 °C")
    [told] = listed(session)
    assert "lay hard for 33 h without its temper" in told


def test_a_temper_whose_end_is_told_later_was_not_run_after_it() -> None:
    session, clock = quenched_by_the_clock()
    clock.hours_later(3)
    evening = told_on_the_wall(as_entered(clock.at))
    clock.hours_later(12)
    session.read("edge.temperature", "275 °C")
    session.done(at=evening)
    assert listed(session) == []
