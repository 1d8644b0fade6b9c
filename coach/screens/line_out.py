"""The line to the terminal that the screens are drawn on, which may go away at any moment."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable
from contextlib import suppress
from queue import Empty
from threading import Thread
from typing import IO, TYPE_CHECKING, Any, Protocol, TextIO, cast

if TYPE_CHECKING:
    from textual.driver import Driver


#: So many pieces are written together, if none is waited for (our choice).
_AT_ONCE = 30
_LOOKED_AGAIN_S = 0.1


class _Stops(Protocol):
    """An app that leaves when it is told to."""

    def stop(self, number: int, frame: object) -> None:
        """Leave in order, as told by a signal."""


class _Outlet:
    """Where the screens are written; what is written to a terminal that is gone goes nowhere.

    Textual writes from a thread of its own, which must not die of an error: whoever draws would then wait for
    it for ever. Nothing of a write that never ends may hold up the end of the program, as the lock of a
    buffered stream would.
    """

    def __init__(self, file: TextIO) -> None:
        self._fileno = file.fileno()
        self._encoding = file.encoding
        self._waiting: list[str] = []
        self.is_closed = False

    def write(self, text: str) -> None:
        self._waiting.append(text)
        if len(self._waiting) >= _AT_ONCE:
            self.flush()

    def flush(self) -> None:
        left = "".join(self._waiting).encode(self._encoding, "replace")
        self._waiting.clear()
        while left and not self.is_closed:
            try:
                left = left[os.write(self._fileno, left) :]
            except OSError:
                self.close()

    def fileno(self) -> int:
        return self._fileno

    def close(self) -> None:
        """Send all that is still to be written nowhere, at the end of the program as well."""
        self.is_closed = True
        with suppress(OSError):
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, self._fileno)
            os.close(nowhere)


def line_out(modes: list[Any] | None = None) -> type[Driver] | None:
    """What drives the terminal; None where Textual's own knows best.

    `modes` are those that a shell is given it back with the first time; None is those that it has by then.
    """
    if sys.platform == "win32":
        return None
    import select

    from textual.drivers._writer_thread import WriterThread
    from textual.drivers.linux_driver import LinuxDriver

    class LineOut(LinuxDriver):
        """Leaves when its terminal is gone, also where no signal says so."""

        def __init__(self, *given: Any, **named: Any) -> None:
            super().__init__(*given, **named)
            self._outlet = _Outlet(cast("TextIO", self._file))
            self._file = cast("Any", self._outlet)
            self._end_of_watch: int | None = None
            self._modes = modes

        def start_application_mode(self) -> None:
            cast("Callable[[], None]", super().start_application_mode)()
            if self._writer_thread is None:  # it was gone before anything could be written
                self._outlet.close()
                self._writer_thread = WriterThread(cast("IO[str]", self._outlet))
                self._writer_thread.start()
            if self._modes is not None:
                self.attrs_before, self._modes = self._modes, None  # brought back, the shell's are known
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

        def write(self, data: str) -> None:
            if not self._outlet.is_closed:
                super().write(data)

        def give_up(self) -> None:
            """Wait no longer for a terminal that takes nothing: what was to be written to it is dropped."""
            self._outlet.close()
            if self._writer_thread is not None:
                with suppress(Empty):
                    while True:  # whoever waits to write goes on
                        self._writer_thread._queue.get_nowait()

        def close(self) -> None:
            """End once all is written, or the terminal takes nothing more."""
            writer = self._writer_thread
            if writer is not None:
                Thread(target=writer.stop, daemon=True).start()
                while writer.is_alive() and not self._outlet.is_closed:
                    writer.join(_LOOKED_AGAIN_S)

    return LineOut
