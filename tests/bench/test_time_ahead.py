"""The rest of a job in hours, by the smith's own pace; the last safe place to rest before an hour."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from math import exp, log, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.bench.shop import Shop

CHISEL = """\
recipe: Cold chisel
pieces:
  chisel:
    metal: C45
    bar: square 16
    zones:
      edge: 18 ±2 x 4 ±0.5, long 60 ±8
      shank: square 16, long 100 ±8
steps:
  - mark out: chisel
  - draw: edge, 4 heats
  - straighten: edge, 1 heat
  - harden: edge, at 830 °C, 1 heat, quench water
  - temper: edge, at 280 °C, soak at least 1 h
"""


class Clock:
    """A clock that stands until it is moved."""

    def __init__(self) -> None:
        self.at = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.at

    def on(self, minutes: float) -> None:
        self.at += timedelta(minutes=minutes)


def begun(clock: Callable[[], datetime]) -> Session:
    return Shop(":memory:", clock).begin(CHISEL, "chisel.yaml")


def test_without_a_heat_it_goes_by_the_usual_and_says_so() -> None:
    session = begun(Clock())
    ahead = session.ahead()
    assert (ahead.heats, ahead.pace.rests_on, ahead.uncounted) == (6, 0, 2)  # marking and the quench
    assert ahead.heats == sum(step.heats for step in session.recipe.steps)  # as the plan has it
    # 6 to 12 heats an hour (common practice, no source): the middle of 5 and 10 min as logarithms.
    assert ahead.pace.a_heat.value == pytest.approx(60.0 * sqrt(50.0))
    mean, spread = log(5.0 * 60.0 * sqrt(50.0)), sqrt((log(2.0) / 4.0) ** 2 + 0.4**2 / 5.0)
    assert ahead.in_all.low == pytest.approx(exp(mean - 1.645 * spread) + 3600.0)  # with the temper's hour
    assert ahead.in_all.high == pytest.approx(exp(mean + 1.645 * spread) + 3600.0)


def test_the_heats_of_a_treatment_are_no_pace_of_forging() -> None:
    """Forged every four minutes, normalised every quarter of an hour: each of those cools in air."""
    clock = Clock()
    normalised = CHISEL.replace("  - harden", "  - normalise: edge, at 870 °C, 3 heats\n  - harden")
    session = Shop(":memory:", clock).begin(normalised, "chisel.yaml")
    session.done()
    for _ in range(4):
        clock.on(4.0)
        session.heat()
    session.done()
    clock.on(4.0)
    session.heat()
    session.done()
    forging = session.ahead().pace
    for _ in range(3):
        clock.on(15.0)
        session.heat()
    assert session.ahead().pace == forging
    session.done()
    assert session.ahead().pace == forging
    assert forging.rests_on == 4  # five heats, and the times between them


def test_the_jobs_own_heats_draw_the_pace_towards_them_and_a_long_rest_does_not() -> None:
    clock = Clock()
    session = begun(clock)
    session.done()
    for minutes in (0.0, 12.0, 12.0, 600.0, 12.0):
        clock.on(minutes)
        session.heat()
    pace = session.ahead().pace
    assert pace.rests_on == 3
    # By hand: weights 1/0.1733² = 33.30 and 3/0.4² = 18.75; (33.30 ln 7.071 + 18.75 ln 12)/52.05 = 2.1466.
    assert pace.a_heat.value / 60.0 == pytest.approx(8.556, abs=0.005)


def test_a_safe_place_to_rest_is_found_before_the_hour(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TZ", "UTC")
    session = begun(Clock())
    ahead = session.ahead("10:15")
    assert [one.may_rest for one in ahead.steps] == [True, True, True, False, True]
    assert (ahead.surely, ahead.rest_after) == (4, 3)  # nobody rests on a quench that is not tempered
    assert ahead.perhaps == 4
    assert session.ahead("23:00").rest_after == 5
    assert (session.ahead("9:01").surely, session.ahead("9:01").rest_after) == (1, 1)


def test_nothing_is_sure_behind_a_cooling_that_nobody_has_timed() -> None:
    text = CHISEL.replace("  - harden", "  - anneal: edge, at 780 °C\n  - harden")
    session = Shop(":memory:", Clock()).begin(text, "chisel.yaml")
    ahead = session.ahead("23:00")
    assert (ahead.surely, ahead.rest_after) == (3, 3)
    assert ahead.perhaps == 6


def test_what_must_be_ready_stands_with_its_step() -> None:
    ahead = begun(Clock()).ahead()
    assert [str(one.needs) for one in ahead.steps if one.needs.parts] == ["quench: water"]


@pytest.mark.parametrize("by", ["abc", "25:00", "8:59", "9:00"])
def test_an_hour_that_is_none_or_is_over_says_what_to_type(by: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TZ", "UTC")
    with pytest.raises(EntryFault, match="type an hour of today such as 17:00"):
        begun(Clock()).ahead(by)


def test_of_a_finished_job_nothing_is_ahead() -> None:
    session = begun(Clock())
    for _ in range(5):
        session.done()
    with pytest.raises(EntryFault, match="Every step of this job is done"):
        session.ahead()


@given(st.lists(st.floats(2.0, 29.0), min_size=1, max_size=12))
def test_the_more_heats_are_timed_the_surer_the_pace(minutes: list[float]) -> None:
    clock = Clock()
    session = begun(clock)
    session.done()
    session.heat()
    before = session.ahead().pace.spread
    for one in minutes:
        clock.on(one)
        session.heat()
        after = session.ahead().pace.spread
        assert after < before
        before = after


def test_heats_of_a_piece_that_waits_are_not_ahead_once_more() -> None:
    pins = """\
recipe: Pin
make: 2
pieces:
  pin: {metal: mild steel, bar: round 16, size: "round 12 ±0.5, long 120 ±8"}
steps:
  - draw: pin, 3 heats, at orange
  - normalise: pin, 2 heats, at 890 °C
"""
    session = Shop(":memory:", Clock()).begin(pins, "pin.yaml")
    session.heat()
    session.heat()
    session.change("next piece")
    ahead = session.ahead()
    # By hand: 3 + 1 to draw, 2 + 2 to normalise.
    assert [one.heats for one in ahead.steps] == [3, 1, 2, 2]
    assert ahead.heats == 8


def test_what_lay_in_the_fire_over_night_says_since_which_day() -> None:
    from coach.bench.across import across
    from coach.telling.across import now_text

    clock = Clock()
    shop = Shop(":memory:", clock)
    session = shop.begin(CHISEL.replace("4 heats", "4 heats, at orange"), "chisel.yaml")
    session.done()
    session.heat()
    clock.on(3)
    session.fire()
    clock.on(3)
    (tonight,) = across(shop.jobs(), shop.open)
    assert now_text(tonight).startswith("lies in the fire since ")
    assert "yesterday" not in now_text(tonight)
    clock.on(24 * 60)
    (tomorrow,) = across(shop.jobs(), shop.open)
    assert now_text(tomorrow).startswith("lies in the fire since yesterday ")


@pytest.mark.parametrize("put_down", ["set aside", "rested"])
def test_what_lies_hard_stays_first_wherever_it_was_put(put_down: str) -> None:
    from coach.bench.across import Turn, across

    clock = Clock()
    shop = Shop(":memory:", clock)
    hard = shop.begin(CHISEL, "chisel.yaml")
    for _ in range(4):
        hard.done()
    clock.on(5)
    soft, lies = shop.begin(CHISEL, "chisel.yaml"), shop.begin(CHISEL, "chisel.yaml")
    lies.set_aside()
    if put_down == "rested":
        hard.rest(force=True)
    else:
        hard.set_aside()
    clock.on(5)
    found = across(shop.jobs(), shop.open)
    assert [one.job for one in found] == [hard.job, soft.job]  # what lies soft is out of the way
    assert found[0].turn is Turn.MUST
    if put_down == "set aside":
        hard.read("edge.crack_test", "fail")
        hard.set_aside()
        assert [one.job for one in across(shop.jobs(), shop.open)] == [soft.job]


def test_a_heat_that_is_struck_out_parts_no_other_two() -> None:
    """Ten minutes lie between two heats, whatever was entered by a slip meanwhile and struck out."""
    clock = Clock()
    session = begun(clock)
    session.done()
    session.heat()
    clock.on(2)
    slip = session.heat().entry
    session.strike(slip)
    clock.on(8)
    session.heat()
    pace = session.ahead().pace
    assert pace.rests_on == 1
    plain = begun(clock)
    plain.done()
    plain.heat()
    clock.on(10)
    plain.heat()
    assert pace.a_heat == plain.ahead().pace.a_heat
