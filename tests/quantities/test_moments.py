"""Moments by the clock on the wall, whatever zone the computer is said to be in."""

from __future__ import annotations

import time
from collections.abc import Iterator
from datetime import UTC, datetime

import pytest

from coach.quantities.moments import on_the_wall


@pytest.fixture(autouse=True)
def _zone_of_its_own(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    yield
    monkeypatch.undo()
    time.tzset()


@pytest.mark.parametrize(
    ("zone", "hour"),
    [
        ("UTC", 9),
        ("Europe/Berlin", 10),  # UTC + 1 h in winter
        ("QQQ25", 9),  # a day and more from UTC, which POSIX takes and Python does not
        ("QQQ-24", 9),
        ("Nowhere/No", 9),
        ("", 9),
    ],
)
def test_a_zone_that_can_be_none_is_that_of_utc(
    monkeypatch: pytest.MonkeyPatch, zone: str, hour: int
) -> None:
    monkeypatch.setenv("TZ", zone)
    time.tzset()
    at = datetime(2026, 3, 2, 9, 30, tzinfo=UTC)
    assert on_the_wall(at).hour == hour
    assert on_the_wall(at) == at
    assert on_the_wall(at.replace(hour=hour, tzinfo=None)) == at
