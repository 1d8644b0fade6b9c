"""The screens left in order, also when a signal says so."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from coach.screens.app import CoachApp

#: Windows has no terminal that hangs up.
_NAMES = ("SIGTERM", "SIGHUP", "SIGINT", "SIGQUIT")
_TELL_TO_STOP = [getattr(signal, name) for name in _NAMES if hasattr(signal, name)]


@contextmanager
def leaving_when_told(app: CoachApp) -> Iterator[None]:
    """Meanwhile signals to stop let the app leave in order, but for those that are ignored."""
    before = {number: signal.getsignal(number) for number in _TELL_TO_STOP}
    heard = [number for number, handler in before.items() if handler not in (signal.SIG_IGN, None)]
    try:
        for number in heard:
            signal.signal(number, app.stop)
        yield
    finally:
        # Nothing that went wrong on the way out may keep the terminal, or the program going.
        if end := getattr(app._driver, "end", None):
            end()
        for number in heard:
            signal.signal(number, before[number])
