"""A soak that was typed longer than the clock has the piece in the fire is asked about."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

import pytest

from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.places import bundled_recipes
from coach.telling.entered import answer_text
from coach.telling.writing import Shown


class Clock:
    """One that is set by hand."""

    def __init__(self) -> None:
        self.at = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.at

    def goes_on(self, seconds: float) -> None:
        self.at += timedelta(seconds=seconds)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def chisel(clock: Clock) -> Iterator[Session]:
    """A cold chisel about to be hardened."""
    with Shop(":memory:", clock) as shop:
        path = bundled_recipes() / "cold-chisel.yaml"
        job = shop.begin(path.read_text(encoding="utf-8"), path.name)
        while (step := job.standing().step) is not None and step.operation != "harden":
            job.done()
        yield job


def told(job: Session, soak: str) -> str:
    return answer_text(job.read("edge.soak", soak), Shown())


def test_a_soak_longer_than_the_clock_has_it_in_the_fire_is_asked_about(
    chisel: Session, clock: Clock
) -> None:
    chisel.fire()
    clock.goes_on(14)
    assert "By the clock it lay 14 s in the fire" in told(chisel, "6 min")


def test_out_of_the_fire_it_is_held_against_all_the_heats_of_the_step(chisel: Session, clock: Clock) -> None:
    for lay_s in (120, 200):
        chisel.fire()
        clock.goes_on(lay_s)
        chisel.heat()
        clock.goes_on(5)
    assert "By the clock" not in told(chisel, "6 min")
    assert "By the clock" in told(chisel, "8 min")


def test_a_soak_that_the_clock_bears_out_or_knows_nothing_of_is_only_judged(
    chisel: Session, clock: Clock
) -> None:
    assert "By the clock" not in told(chisel, "6 min")  # nobody pressed a key at the fire
    chisel.fire()
    clock.goes_on(9 * 60)
    assert "By the clock" not in told(chisel, "7 min")
    chisel.heat()
    assert "By the clock" not in told(chisel, "7 min")


def test_a_heat_that_was_only_marked_leaves_the_clock_without_a_word(chisel: Session, clock: Clock) -> None:
    chisel.heat()
    chisel.fire()
    clock.goes_on(30)
    chisel.heat()
    assert "By the clock" not in told(chisel, "6 min")
