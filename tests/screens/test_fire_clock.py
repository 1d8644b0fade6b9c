"""The clock on the bench: a countdown in the metal's colour, a bell, and a plain word."""

from __future__ import annotations

import pytest

from coach.bench.clock import HeatClock, Place
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.fire.glow import glow_rgb
from coach.quantities.figure import celsius, seconds
from coach.screens.bench import BenchScreen
from coach.screens.widgets.fire_clock import FireClock, is_due, is_forgotten, reading_of
from tests.screens.stage import at_the_bench, words_on

HOT = (celsius(1100.0), celsius(840.0), seconds(60.0))
OUT = HeatClock(Place.OUT, "x", *HOT, ((0.0, 1100.0), (60.0, 840.0)), None)
IN = HeatClock(Place.IN, "x", *HOT, (), seconds(180.0))


@pytest.mark.parametrize(
    ("clock", "after", "number", "word"),
    [
        (OUT, 0.0, "1:00", "Work"),
        (OUT, 45.5, "0:14", "Work"),
        (OUT, 60.0, "0:00", "Back to the fire"),
        (OUT, 75.0, "0:15", "Back to the fire"),
        (IN, 61.0, "1:01", "Through in about 3 min"),
        (IN, 181.0, "3:01", "Through: take it out"),
    ],
)
def test_the_clock_says_how_long_there_is_and_then_what_to_do(
    clock: HeatClock, after: float, number: str, word: str
) -> None:
    assert reading_of(clock, after)[:2] == (number, word)


def test_the_metal_cools_on_the_clock_as_it_does_on_the_anvil() -> None:
    assert reading_of(OUT, 0.0)[2] == 1100.0
    assert reading_of(OUT, 30.0)[2] == pytest.approx(970.0)
    assert reading_of(OUT, 90.0)[2] == 840.0


def test_a_clock_that_nobody_minds_goes_away() -> None:
    assert not is_forgotten(OUT, 200.0)
    assert is_forgotten(OUT, 400.0)
    assert not is_forgotten(IN, 1800.0)
    assert is_forgotten(IN, 4000.0)
    assert is_due(IN, 180.0)
    assert not is_due(OUT, 59.9)


class Moments:
    """The moment that the screen's clock goes by, put forward by hand."""

    def __init__(self) -> None:
        self.at = "2026-03-02T09:04:02Z"

    def __call__(self) -> str:
        return self.at


async def test_out_of_the_fire_the_bench_counts_down_and_rings_once(
    shop: Shop, job: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    moments = Moments()
    async with at_the_bench(shop, job, now=moments) as (screen, pilot):
        rung: list[bool] = []
        monkeypatch.setattr(screen.app, "bell", lambda: rung.append(True))
        await pilot.press("f2")
        await pilot.pause()
        clock = job.standing().clock
        assert clock is not None
        assert clock.working is not None
        moments.at = clock.since.replace(":00.000Z", ":05Z")
        screen.tick()
        await pilot.pause()
        assert "Out of the fire" in words_on(screen.coach)
        assert _tinted(screen) == glow_rgb(round(reading_of(clock, 5.0)[2] or 0.0))
        assert not rung
        moments.at = clock.since.replace(":00.000Z", ":58Z")
        screen.tick()
        screen.tick()
        await pilot.pause()
        assert "Back to the fire" in words_on(screen.coach)
        assert len(rung) == 1


async def test_back_in_the_fire_the_bench_counts_the_soaking(shop: Shop, job: Session) -> None:
    moments = Moments()
    async with at_the_bench(shop, job, now=moments) as (screen, pilot):
        await pilot.press("f2", "f3")
        clock = job.standing().clock
        assert clock is not None
        moments.at = clock.since
        screen.tick()
        await pilot.pause()
        assert "In the fire" in words_on(screen.coach)
        assert "0:00" not in words_on(screen.coach)  # large numerals, not text
        assert job.standing().heats == 1


def _tinted(screen: BenchScreen) -> tuple[int, int, int]:
    colour = screen.query_one(FireClock)._digits.styles.background
    return colour.r, colour.g, colour.b
