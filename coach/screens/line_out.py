"""The line to the terminal that the screens are drawn on, which may go away at any moment."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable
from contextlib import suppress
from queue import Empty
from threading import Lock, Thread
from typing import IO, TYPE_CHECKING, Any, Protocol, TextIO, cast

if TYPE_CHECKING:
    from textual.driver import Driver


#: So many pieces are written together, if none is waited for (our choice).
_AT_ONCE = 30
_LOOKED_AGAIN_S = 0.1
#: Gives a terminal back that took nothing for a while: whatever it was in the middle of is broken off; then
#: by xterm's control sequences pasted text in brackets, reports of size, mouse and focus end, lines wrap, and
#: keys are as they were, and so are the screen and the cursor.
_AS_IT_WAS = (
    b"\x18\x1b[?2004l\x1b[?7h\x1b[?2048l\x1b[?1000l\x1b[?1003l\x1b[?1015l\x1b[?1006l"
    b"\x1b[<u\x1b[?1049l\x1b[?25h\x1b[?1004l"
)


class _Stops(Protocol):
    """An app that leaves when it is told to."""

    def stop(self, number: int, frame: object) -> None:
        """Leave in order, as told by a signal."""


def _never_waiting(fileno: int) -> int | None:
    """Another way to the same terminal, where nobody who writes is held up; None where there is none.

    The one that the program was given is the shell's as well, and stays as it is.
    """
    with suppress(OSError):
        return os.open(os.ttyname(fileno), os.O_WRONLY | os.O_NOCTTY | os.O_NONBLOCK | os.O_CLOEXEC)
    return None


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
        self._turn = Lock()
        self._unheld = _never_waiting(self._fileno)

    def write(self, text: str) -> None:
        self._waiting.append(text)
        if len(self._waiting) >= _AT_ONCE:
            self.flush()

    def flush(self) -> None:
        left = "".join(self._waiting).encode(self._encoding, "replace")
        self._waiting.clear()
        while left and not self.is_closed:
            try:
                left = left[self._write(left) :]
            except OSError:
                self.close()

    def _write(self, some: bytes) -> int:
        """Write what the terminal takes; nothing for a while where it takes nothing."""
        if self._unheld is None:
            return os.write(self._fileno, some)
        import select

        with self._turn:
            if self.is_closed:
                return len(some)
            with suppress(BlockingIOError):
                return os.write(self._unheld, some)
        select.select((), (self._unheld,), (), _LOOKED_AGAIN_S)
        return 0

    def give_back(self) -> None:
        """Drop what the terminal has not taken, and leave it as it was before the screens.

        One that was told to hold its output, by Ctrl+S for one, goes on first: it would take nothing.
        """
        import termios

        with self._turn:
            try:
                if self._unheld is not None:
                    with suppress(OSError, termios.error):
                        termios.tcflush(self._unheld, termios.TCOFLUSH)
                        termios.tcflow(self._unheld, termios.TCOON)
                        os.write(self._unheld, _AS_IT_WAS)
            finally:
                self.is_closed = True  # not before: the program ends as soon as it is

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
    if sys.platform == "win32" or os.environ.get("TEXTUAL_DRIVER"):
        return None
    import select

    from textual.drivers._writer_thread import WriterThread
    from textual.drivers.linux_driver import LinuxDriver

    from coach.screens.line_in import Reader, read_on

    class LineOut(LinuxDriver):
        """Leaves when its terminal is gone, also where no signal says so.

        It reads the terminal once: a signal to go on, which a terminal that hangs up sends as well, begins
        that anew only where it was put aside. Of two readers one would outlive the program.
        """

        def __init__(self, *given: Any, **named: Any) -> None:
            super().__init__(*given, **named)
            self._outlet = _Outlet(cast("TextIO", self._file))
            self._file = cast("Any", self._outlet)
            self._end_of_watch: int | None = None
            self._modes = modes
            self._is_aside = False

        def _sigcont_application(self, *given: Any) -> None:
            if self._is_aside:
                super()._sigcont_application(*given)

        def suspend_application_mode(self) -> None:
            self._is_aside = True
            super().suspend_application_mode()

        def start_application_mode(self) -> None:
            cast("Callable[[], None]", super().start_application_mode)()
            if not self._reads:  # still behind in its shell
                return
            self._is_aside = False
            if self._writer_thread is None:  # it was gone before anything could be written
                self._outlet.close()
                self._writer_thread = WriterThread(cast("IO[str]", self._outlet))
                self._writer_thread.start()
            if self._modes is not None:
                self.attrs_before, self._modes = self._modes, None  # brought back, the shell's are known
            until, self._end_of_watch = os.pipe()
            Thread(target=self._watch, args=(until,), daemon=True, name="coach-terminal").start()

        def run_input_thread(self) -> None:
            """Read the keys, in a thread of their own."""
            read_on(self.fileno, Reader(self._debug), self.process_message, self.exit_event)

        @property
        def _reads(self) -> bool:
            return self._key_thread is not None and self._key_thread.is_alive()

        def end(self) -> None:
            """Whatever went wrong on the way out: the terminal is as it was, and nothing reads it."""
            if self._reads:
                self._outlet.give_back()
                self.stop_application_mode()
                self.exit_event.set()

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
            self._outlet.give_back()
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
