"""Out of the fire and back in: heats counted by what happened, and logged with their times."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta
from math import ceil

import pytest

from coach.bench.clock import HeatClock, Place
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.operations.shop_test import Result
from coach.places import bundled_recipes
from coach.quantities.figure import celsius, seconds
from coach.quantities.moments import as_entered
from coach.telling.clock import clock_words, soak_words
from coach.telling.words import write
from tests.bench.jobs import HAMMER, begun
from tests.told import entry_text, said

BAR = """\
recipe: Bar
pieces:
  bar:
    metal: mild steel
    bar: square 25
    size: square 20 ±0.5, long 150 ±8
steps:
  - draw: bar, 4 heats, at 1100 °C
  - inspect: bar
"""


class Hand:
    """A clock that is put forward by hand."""

    def __init__(self) -> None:
        self.moment = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.moment

    def on(self, minutes: float) -> None:
        self.moment += timedelta(minutes=minutes)


@pytest.fixture
def hand() -> Hand:
    return Hand()


@pytest.fixture
def session(hand: Hand) -> Session:
    return Shop(":memory:", hand).begin(BAR, "bar.yaml")


def volume(session: Session) -> float:
    spare = session.standing().spares[0]
    return spare.spare.value


def test_before_anything_is_said_of_the_fire_there_is_no_clock(session: Session) -> None:
    assert session.standing().clock is None


def test_out_of_the_fire_counts_a_heat_and_tells_how_long_there_is(session: Session) -> None:
    session.heat()
    standing = session.standing()
    assert standing.heats == 1
    assert standing.clock is not None
    assert standing.clock.place == "out of the fire"
    assert standing.clock.since == "2026-03-02T08:00:00.000Z"
    assert standing.clock.working is not None
    assert standing.clock.working.value == pytest.approx(43.1, rel=0.05)  # by hand: test_hot_work
    temperatures = [celsius for _, celsius in standing.clock.cooling]
    assert temperatures[0] == pytest.approx(1100.0)
    assert temperatures[-1] == pytest.approx(840.0)


def test_back_in_the_fire_tells_how_long_it_soaks_and_counts_no_heat(session: Session, hand: Hand) -> None:
    session.heat()
    hand.on(1.0)
    answer = session.fire()
    clock = session.standing().clock
    assert clock is not None
    assert clock.place == "in the fire"
    assert clock.soak is not None
    assert 30.0 < clock.soak.value < 360.0
    assert said(answer) == f"Back in the fire; through in about {ceil(clock.soak.value / 60.0)} min."
    assert session.standing().heats == 1


def test_the_minutes_in_the_fire_decide_what_it_scales(hand: Hand) -> None:
    left = {}
    for minutes in (3.0, 20.0):
        shop = Shop(":memory:", hand)
        session = shop.begin(BAR, "bar.yaml")
        session.heat()
        hand.on(0.5)
        session.fire()
        hand.on(minutes)
        session.heat()
        left[minutes] = volume(session)
    assert left[20.0] < left[3.0]


def test_a_clock_that_is_struck_out_never_was(session: Session, hand: Hand) -> None:
    session.heat()
    hand.on(0.5)
    before = session.standing()
    session.fire()
    session.strike()
    assert session.standing().clock == before.clock
    session.strike()
    assert session.standing().clock is None


def test_a_rest_stops_the_clock(session: Session) -> None:
    session.heat()
    session.rest()
    session.resume()
    assert session.standing().clock is None


def test_the_log_tells_when_it_went_in_and_came_out(session: Session, hand: Hand) -> None:
    session.heat()
    hand.on(0.75)
    session.fire()
    out, back = session.history()[-2:]
    assert (entry_text(out), entry_text(back)) == ("heat", "back in the fire")
    assert (out.at, back.at) == ("2026-03-02T08:00:00.000Z", "2026-03-02T08:00:45.000Z")


def test_a_step_without_a_heat_shows_no_clock(session: Session) -> None:
    session.heat()
    session.fire()
    session.done()
    assert session.standing().clock is None


def test_planned_and_reckoned_heats_are_both_told_when_they_are_far_apart(hand: Hand) -> None:
    many = BAR.replace("4 heats", "12 heats")
    step = Shop(":memory:", hand).begin(many, "bar.yaml").standing().step
    assert step is not None
    assert step.hot is not None
    told = [write(words) for words in step.hot.advice]
    (heats,) = [text for text in told if text.startswith("12 heats are planned; by the work it is about ")]
    assert "±" not in heats, "what is known to a half is told by the range it lies in"
    assert re.search(r"in about \d+, \d+ to \d+ blows", heats)


def test_a_heat_that_burns_the_steel_is_warned_of(hand: Hand) -> None:
    burnt = BAR.replace("metal: mild steel", 'metal: "1095"').replace("1100 °C", "1300 °C")
    step = Shop(":memory:", hand).begin(burnt, "bar.yaml").standing().step
    assert step is not None
    assert step.hot is not None
    assert "1300 °C burns 1095" in write(step.hot.advice[0])


def test_a_piece_that_was_out_for_a_few_minutes_soaks_less_than_a_cold_one(hand: Hand) -> None:
    soaks = []
    for away in (4.0, 120.0):
        session = Shop(":memory:", hand).begin(BAR, "bar.yaml")
        session.heat()
        hand.on(away)
        session.fire()
        clock = session.standing().clock
        assert clock is not None
        assert clock.soak is not None
        soaks.append(clock.soak.value)
    assert soaks[0] < soaks[1]


@pytest.mark.parametrize(("minutes", "asked"), [(20, False), (59, False), (600, True)])
def test_a_night_in_the_fire_is_not_passed_over(
    session: Session, hand: Hand, minutes: float, asked: bool
) -> None:
    session.fire()
    hand.on(minutes)
    answer = session.heat()
    assert ("by the clock it lay 10 h in the fire" in said(answer)) is asked
    assert answer.bad_news is asked


def test_a_night_in_the_fire_scales_no_more_than_an_hour(hand: Hand) -> None:
    left = []
    for minutes in (61.0, 120.0, 600.0):
        session = Shop(":memory:", hand).begin(BAR, "bar.yaml")
        session.fire()
        hand.on(minutes + 10.0)  # the piece takes some minutes to come to a scaling heat
        session.heat()
        left.append(session.standing().sizes[1].expected.value)
    assert left == pytest.approx([left[0]] * 3)


def test_where_the_fire_was_out_a_night_the_heat_counts_as_one_that_nobody_timed(hand: Hand) -> None:
    left = []
    for night in (True, False):
        session = Shop(":memory:", hand).begin(BAR, "bar.yaml")
        if night:
            session.fire()
            hand.on(600.0)
            answer = session.heat_the_fire_was_out()
            assert not answer.bad_news
            assert "by the clock" not in said(answer)
        else:
            session.heat()
        left.append(session.standing().sizes[1].expected.value)
    assert left[0] == pytest.approx(left[1])


def test_that_the_fire_was_out_is_one_entry_and_undone_by_one_key_so_that_it_is_asked_again(
    hand: Hand,
) -> None:
    session = Shop(":memory:", hand).begin(BAR, "bar.yaml")
    session.fire()
    hand.on(600.0)
    assert session.lies_too_long(as_entered(hand())) is not None
    session.heat_the_fire_was_out()
    assert [one.kind for one in session.history()] == ["began", "fire", "heat fire out"]
    assert session.standing().heats == 1
    session.strike()
    assert session.standing().heats == 0
    assert session.lies_too_long(as_entered(hand())) is not None


def test_a_piece_that_never_went_in_takes_a_heat_as_ever(session: Session) -> None:
    session.heat_the_fire_was_out()
    assert session.standing().heats == 1
    assert [one.kind for one in session.history()][-1] == "heat"


@pytest.mark.parametrize(("minutes", "too_long"), [(59, False), (61, True)])
def test_it_lies_too_long_from_an_hour_on(
    session: Session, hand: Hand, minutes: float, too_long: bool
) -> None:
    session.fire()
    hand.on(minutes)
    assert (session.lies_too_long(as_entered(hand())) is not None) is too_long


def test_a_treatment_in_the_fire_has_a_clock_that_only_counts() -> None:
    hardened = "do: harden, zone: poll, heats: 1"
    session = begun(HAMMER.replace(hardened, f"{hardened}, colour: cherry"))
    for _ in range(9):
        session.done()
    standing = session.standing()
    assert standing.step is not None
    assert standing.step.heat_kind == "treatment"
    assert standing.clock is None
    session.fire()
    clock = session.standing().clock
    assert clock is not None
    assert (clock.place, clock.working, clock.soak, clock.cooling) == (Place.IN, None, None, ())


@pytest.mark.parametrize(("again", "runs"), [(False, False), (True, True)])
def test_the_fire_that_a_piece_was_in_before_cold_work_is_meant_no_more(
    hand: Hand, *, again: bool, runs: bool
) -> None:
    text = BAR.replace(
        "  - inspect: bar\n",
        "  - inspect: bar\n  - normalise: bar, 1 heat, at 870 °C\n",
    )
    session = Shop(":memory:", hand).begin(text, "bar.yaml")
    session.heat()
    session.fire()
    hand.on(1)
    session.done()
    if again:
        hand.on(1)
        session.fire()
    hand.on(1)
    session.done()
    assert (session.standing().clock is not None) is runs


def test_a_short_soak_is_told_in_seconds_as_the_clock_counts_it() -> None:
    heat = celsius(1000.0)
    clock = HeatClock(Place.IN, "x", heat, heat, None, (), seconds(33.0))
    assert write(soak_words(clock)) == "through in about 40 s"
    assert write(soak_words(clock._replace(soak=seconds(90.0)))) == "through in about 2 min"


def test_since_when_it_lies_in_the_fire_is_told_with_its_day_and_is_so_the_next_morning_too() -> None:
    heat = celsius(1000.0)
    clock = HeatClock(Place.IN, "2026-03-02T18:40:59Z", heat, heat, None, (), seconds(45.0))
    told = write(clock_words(clock))
    assert "since 2026-03-0" in told
    assert told.endswith(":40:59, through about 50 s after that")
    assert write(clock_words(clock._replace(soak=None))).endswith(":40:59")


@pytest.mark.parametrize(("minutes", "asked"), [(0.5, True), (6.0, False)])
def test_a_heat_to_quench_from_that_lay_shorter_than_its_soak_is_sent_back(
    hand: Hand, minutes: float, asked: bool
) -> None:
    text = (bundled_recipes() / "cold-chisel.yaml").read_text(encoding="utf-8")
    session = Shop(":memory:", hand).begin(text, "cold-chisel.yaml")
    for _ in range(8):
        session.done()
    session.fire()
    hand.on(minutes)
    answer = session.heat()
    assert ("and is to soak 5 min once it is hot: back in with it" in said(answer)) is asked
    assert answer.bad_news is asked


@pytest.mark.parametrize(
    ("first", "then", "asked"),
    [("7 min", "", False), ("3 min", "", True), ("7 min", "3 min", True), ("3 min", "7 min", False)],
)
def test_a_soak_that_was_read_long_enough_is_not_sent_back_by_the_clock(
    hand: Hand, first: str, then: str, asked: bool
) -> None:
    text = (bundled_recipes() / "cold-chisel.yaml").read_text(encoding="utf-8")
    session = Shop(":memory:", hand).begin(text, "cold-chisel.yaml")
    for _ in range(8):
        session.done()
    session.fire()
    for typed in filter(None, (first, then)):
        session.read("edge.soak", typed)
    hand.on(0.1)
    assert ("back in with it" in said(session.heat())) is asked


def test_a_soak_that_was_read_before_the_last_heat_says_nothing_of_the_next(hand: Hand) -> None:
    text = (bundled_recipes() / "cold-chisel.yaml").read_text(encoding="utf-8")
    session = Shop(":memory:", hand).begin(text, "cold-chisel.yaml")
    for _ in range(8):
        session.done()
    session.read("edge.soak", "7 min")
    session.heat()
    session.fire()
    hand.on(0.1)
    assert "back in with it" in said(session.heat())


def at_the_harden(hand: Hand) -> Session:
    text = (bundled_recipes() / "cold-chisel.yaml").read_text(encoding="utf-8")
    session = Shop(":memory:", hand).begin(text, "cold-chisel.yaml")
    for _ in range(8):
        session.done()
    session.fire()
    session.read("edge.magnet", "pass")
    hand.on(0.1)
    session.heat()
    return session


def soaked_again(session: Session, hand: Hand) -> None:
    """What a smith does who is told to go back in with it."""
    session.fire()
    session.read("edge.temperature", "795")
    session.read("edge.soak", "6 min")
    hand.on(0.1)
    session.heat()


def test_a_heat_that_went_back_in_for_its_soak_is_part_of_the_same_hardening(hand: Hand) -> None:
    session = at_the_harden(hand)
    assert session.standing().sent_back
    session.fire()
    session.read("edge.temperature", "795")
    session.read("edge.soak", "6 min")
    hand.on(0.1)
    answer = session.heat()
    assert "Heat 1 of 1 is marked" in said(answer)
    assert "quench" not in said(answer)
    assert not answer.bad_news
    session.read("edge.file_test", "pass")
    session.read("edge.crack_test", "pass")
    standing = session.standing()
    assert (standing.heats, standing.sent_back) == (1, False)
    assert not [write(one.words) for one in standing.to_right if "second quench" in write(one.words)]
    read = {one.name: one.reading for one in standing.checks}
    for name in ("magnet", "temperature", "soak", "file_test", "crack_test"):
        reading = read[f"edge.{name}"]
        assert reading is not None, name
        assert not reading.old, name
    sheet = session.sheet()
    tests = {one.test: one.result for one in sheet.tests if one.zone == "edge" and one.step == 9}
    assert tests["magnet"] is Result.PASS
    (harden,) = [one for one in sheet.treatments if one.step == 9]
    assert (harden.heats, {one.dimension for one in harden.read}) == (1, {"temperature", "soak"})
    session.done()
    assert [one.heats for one in session.standing().done][-1] == 1


@pytest.mark.parametrize("test", ["file_test", "crack_test"])
def test_what_was_tried_hard_before_it_went_back_in_makes_it_a_second_quench(hand: Hand, test: str) -> None:
    session = at_the_harden(hand)
    session.read(f"edge.{test}", "pass")
    assert not session.standing().sent_back
    session.fire()
    hand.on(6.0)
    assert "This is a second quench" in said(session.heat())


def test_a_heat_after_the_one_that_soaked_long_enough_is_a_second_quench(hand: Hand) -> None:
    session = at_the_harden(hand)
    soaked_again(session, hand)
    session.fire()
    hand.on(6.0)
    assert "this is a second one" in said(session.heat())


def test_a_going_back_in_that_is_struck_out_sent_no_heat_back(hand: Hand) -> None:
    session = at_the_harden(hand)
    session.fire()
    session.strike()
    session.read("edge.file_test", "pass")
    assert session.standing().heats == 1
    session.fire()
    hand.on(6.0)
    session.heat()
    assert session.standing().heats == 2


def test_a_soak_that_is_read_after_a_short_heat_lets_it_be_quenched(hand: Hand) -> None:
    session = at_the_harden(hand)
    session.read("edge.soak", "6 min")
    assert not session.standing().sent_back
