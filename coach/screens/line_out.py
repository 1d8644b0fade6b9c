"""The line to the terminal that the screens are drawn on, which may go away at any moment."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable
from contextlib import suppress
from threading import Thread
from typing import IO, TYPE_CHECKING, Any, Protocol, cast

if TYPE_CHECKING:
    from textual.driver import Driver


class _Stops(Protocol):
    """An app that leaves when it is told to."""

    def stop(self, number: int, frame: object) -> None:
        """Leave in order, as told by a signal."""


class _Outlet:
    """Where the screens are written; what is written to a terminal that is gone goes nowhere.

    Textual writes from a thread of its own, which must not die of an error: whoever draws would then wait for
    it for ever.
    """

    def __init__(self, file: IO[str]) -> None:
        self._file = file
        self.is_closed = False

    def write(self, text: str) -> None:
        if not self.is_closed:
            try:
                self._file.write(text)
            except (OSError, ValueError):
                self.close()

    def flush(self) -> None:
        if not self.is_closed:
            try:
                self._file.flush()
            except (OSError, ValueError):
                self.close()

    def fileno(self) -> int:
        return self._file.fileno()

    def close(self) -> None:
        """Send all that is still to be written nowhere, at the end of the program as well."""
        self.is_closed = True
        with suppress(OSError, ValueError):
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, self.fileno())
            os.close(nowhere)


def line_out() -> type[Driver] | None:
    """What drives the terminal; None where Textual's own knows best."""
    if sys.platform == "win32":
        return None
    import select
    import termios

    from textual.drivers._writer_thread import WriterThread
    from textual.drivers.linux_driver import LinuxDriver

    class LineOut(LinuxDriver):
        """Leaves when its terminal is gone, also where no signal says so."""

        def __init__(self, *given: Any, **named: Any) -> None:
            super().__init__(*given, **named)
            self._outlet = _Outlet(cast("IO[str]", self._file))
            self._file = cast("Any", self._outlet)
            self._end_of_watch: int | None = None

        def start_application_mode(self) -> None:
            cast("Callable[[], None]", super().start_application_mode)()
            if self._writer_thread is None:  # it was gone before anything could be written
                self._outlet.close()
                self._writer_thread = WriterThread(cast("IO[str]", self._outlet))
                self._writer_thread.start()
            until, self._end_of_watch = os.pipe()
            Thread(target=self._watch, args=(until,), daemon=True, name="coach-terminal").start()

        def stop_application_mode(self) -> None:
            if self._end_of_watch is not None:
                os.close(self._end_of_watch)
                self._end_of_watch = None
            super().stop_application_mode()

        def _watch(self, until: int) -> None:
            """Wait, asleep, until the terminal is gone or the watch ends."""
            watch = select.poll()
            watch.register(self.fileno, 0)  # a terminal that is gone is told unasked
            watch.register(until, 0)
            gone = self.fileno in dict(watch.poll())
            os.close(until)
            if gone:
                self._outlet.close()
                cast("_Stops", self._app).stop(signal.SIGHUP, None)

        def give_up(self) -> None:
            """Wait no longer for a terminal that takes nothing: what was to be written to it is dropped."""
            self._outlet.is_closed = True
            with suppress(termios.error):
                termios.tcflush(self.fileno, termios.TCOFLUSH)

    return LineOut
