"""Moments by the clock on the wall."""

from __future__ import annotations

from datetime import UTC, datetime


def on_the_wall(at: datetime) -> datetime:
    """A moment in the zone that the computer is set to; in UTC where that can be none, such as TZ=QQQ25.

    One without a zone is by that clock already.
    """
    try:
        return at.astimezone()
    except (ValueError, OverflowError, OSError):
        return at.replace(tzinfo=UTC) if at.tzinfo is None else at.astimezone(UTC)
