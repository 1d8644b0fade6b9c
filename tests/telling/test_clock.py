"""A moment is told as the clock on the wall showed it."""

from __future__ import annotations

import time

import pytest

from coach.telling.clock import moment


@pytest.mark.parametrize(
    ("zone", "day", "of_day"),
    # POSIX writes an offset west of Greenwich: UTC-5:30 is half past five ahead.
    [("UTC0", "2026-03-02 09:04", "09:04:08"), ("IST-5:30", "2026-03-02 14:34", "14:34:08")],
)
def test_a_moment_is_a_day_and_a_time_on_the_wall(
    monkeypatch: pytest.MonkeyPatch, zone: str, day: str, of_day: str
) -> None:
    monkeypatch.setenv("TZ", zone)
    time.tzset()
    try:
        assert moment("2026-03-02T09:04:08.000Z") == day
        assert moment("2026-03-02T09:04:08.000Z", "%H:%M:%S") == of_day
    finally:
        monkeypatch.undo()
        time.tzset()


def test_no_moment_is_told_as_nothing() -> None:
    assert (moment(""), moment("", "%H:%M:%S")) == ("", "")
