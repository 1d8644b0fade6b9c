"""Moments by the clock on the wall, and as the log keeps them."""

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


def as_entered(at: datetime) -> str:
    """A moment as an entry carries it: ISO 8601, UTC."""
    return at.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def told_on_the_wall(at: str) -> str:
    """A moment of an entry by the clock on the wall, such as 2026-11-25 14:30; "" for none."""
    return "" if not at else f"{on_the_wall(datetime.fromisoformat(at)):%Y-%m-%d %H:%M}"
