"""Being told to stop: by the terminal that is closed, by the system, from the keyboard."""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

#: Windows has no terminal that hangs up.
_TOLD_BY = [getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)]


class Stopped(KeyboardInterrupt):
    """Told to stop by a signal; on its way out everything is put back, as for the keyboard's."""

    def __init__(self, number: int) -> None:
        super().__init__()
        self.number = number


@contextmanager
def stops_in_order() -> Iterator[None]:
    """Meanwhile a signal to stop raises Stopped, unless whoever started the program had it ignored."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = {number: signal.getsignal(number) for number in _TOLD_BY}
    ours = [number for number, handler in before.items() if handler is signal.SIG_DFL]
    for number in ours:
        signal.signal(number, _stop)
    try:
        yield
    finally:
        for number in ours:
            signal.signal(number, before[number])


def _stop(number: int, _: FrameType | None) -> None:
    raise Stopped(number)


def code_of(stop: KeyboardInterrupt) -> int:
    """The exit code: 128 and the number of the signal, as shells count it."""
    return 128 + (stop.number if isinstance(stop, Stopped) else signal.SIGINT)
