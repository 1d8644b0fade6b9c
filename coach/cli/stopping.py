"""Being told to stop: by the terminal that is closed, by the system, from the keyboard."""

from __future__ import annotations

import os
import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sys import UnraisableHookArgs

#: Windows has no terminal that hangs up.
_NAMES = ("SIGTERM", "SIGHUP", "SIGINT", "SIGQUIT")
_TOLD_BY = [getattr(signal, name) for name in _NAMES if hasattr(signal, name)]
_UNTOUCHED = (signal.SIG_DFL, signal.default_int_handler)
_told: list[int] = []
_SOON_S = 0.01


class Stopped(KeyboardInterrupt):
    """Told to stop by a signal; on its way out everything is put back."""

    def __init__(self, number: int) -> None:
        super().__init__()
        self.number = number


@contextmanager
def stops_in_order() -> Iterator[None]:
    """Meanwhile a signal to stop raises Stopped, unless whoever started the program had it ignored."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    _told.clear()
    before = {number: signal.getsignal(number) for number in _TOLD_BY}
    ours = [number for number, handler in before.items() if handler in _UNTOUCHED]
    hook, sys.unraisablehook = sys.unraisablehook, _raise_once_more
    for number in ours:
        signal.signal(number, _stop)
    try:
        yield
    finally:
        for number in ours:
            signal.signal(number, before[number])
        sys.unraisablehook = hook


def _stop(number: int, _: FrameType | None) -> None:
    _told.append(number)
    raise Stopped(number)


def _raise_once_more(unheard: UnraisableHookArgs) -> None:
    """Where Python lets go of an object nothing can be raised: the signal comes again once it has."""
    if isinstance(unheard.exc_value, Stopped):
        again = threading.Timer(_SOON_S, os.kill, (os.getpid(), unheard.exc_value.number))
        again.daemon = True
        again.start()
    else:
        sys.__unraisablehook__(unheard)


def stop_if_told() -> None:
    """Raise Stopped where a signal to stop has come: what failed on the way out is no fault."""
    if _told:
        raise Stopped(_told[0])


def told_to_stop(error: BaseException) -> KeyboardInterrupt | None:
    """What told the program to stop where that came out as another error; None where it did not.

    While a class is made, Python before 3.12 makes a RuntimeError of it.
    """
    cause = error.__cause__ or error.__context__
    return cause if cause is None or isinstance(cause, KeyboardInterrupt) else told_to_stop(cause)


def stop_no_more() -> None:
    """From now on, when all is answered, signals to stop change nothing: the program ends by itself."""
    for number in _TOLD_BY:
        signal.signal(number, signal.SIG_IGN)


def code_of(stop: KeyboardInterrupt) -> int:
    """The exit code: 128 and the number of the signal, as shells count it."""
    return 128 + (stop.number if isinstance(stop, Stopped) else signal.SIGINT)
