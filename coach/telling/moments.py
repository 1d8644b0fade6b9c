"""A moment of the log as the clock on the wall showed it."""

from __future__ import annotations

from datetime import datetime


def moment(at: str) -> str:
    """A day and a time: `2026-11-25 09:30`; "" for none."""
    return f"{datetime.fromisoformat(at).astimezone():%Y-%m-%d %H:%M}" if at else ""


def time_of_day(at: str) -> str:
    """A time: `09:30:05`; "" for none."""
    return f"{datetime.fromisoformat(at).astimezone():%H:%M:%S}" if at else ""
