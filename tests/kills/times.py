"""Bad times for a log: a full disk, a folder that may not be written, a clock that is wrong, summer time."""

from __future__ import annotations

import ctypes
import os
import sys
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

from coach.cli import opening

#: Linux's numbers of what lets root past the rights of files: prctl(2), capabilities(7).
_DROP, _PAST_THE_RIGHTS = 24, (1, 2)
_libc = ctypes.CDLL(None) if sys.platform == "linux" else None

#: Sunday 25 October 2026, 01:00 UTC: clocks go from 3:00 to 2:00 in Central Europe (directive 2000/84/EC).
_CLOCKS_GO_BACK = datetime(2026, 10, 25, 1, tzinfo=UTC)


def moved(to: Callable[[datetime], datetime]) -> None:
    """Let the coach have another clock."""
    opening.now = lambda: to(datetime.now(UTC))


def _full(log: Path, chance: Random) -> None:
    """No file grows by more than a few pages: the system refuses the rest, as on a full disk."""
    import resource

    most = log.stat().st_size + chance.randrange(0, 20_000)
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))


def _read_only(log: Path, chance: Random) -> None:
    os.chmod(log.parent, 0o500)
    if chance.random() < 0.5:
        os.chmod(log, 0o400)
    if _libc is not None:
        for right in _PAST_THE_RIGHTS:
            _libc.prctl(_DROP, right, 0, 0, 0)


def _back(_: Path, chance: Random) -> None:
    days = chance.randrange(1, 15_000)
    moved(lambda now: now - timedelta(days=days))


def _ahead(_: Path, chance: Random) -> None:
    days = chance.randrange(1, 300_000)
    moved(lambda now: now + timedelta(days=days))


def _summer_time(_: Path, chance: Random) -> None:
    os.environ["TZ"] = "Europe/Berlin"
    time.tzset()
    begun, off_s = datetime.now(UTC), chance.uniform(-2.0, 2.0)
    moved(lambda now: _CLOCKS_GO_BACK + (now - begun) + timedelta(seconds=off_s))


def _as_usual(_: Path, __: Random) -> None:
    pass


TIMES: dict[str, Callable[[Path, Random], None]] = {
    "as usual": _as_usual,
    "disk full": _full,
    "read-only": _read_only,
    "clock back": _back,
    "clock ahead": _ahead,
    "summer time": _summer_time,
}
"""By name, what is done in the process that is to be killed, to its log or by its chance."""


def over(log: Path) -> None:
    """What a time has done to files is undone."""
    os.chmod(log.parent, 0o700)
    if log.exists():
        os.chmod(log, 0o600)
