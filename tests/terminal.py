"""A program at work on a terminal of its own, seen and typed at from the other end."""

from __future__ import annotations

import os
import select
import struct
import subprocess
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from time import monotonic
from typing import Any, BinaryIO

from tests.benchmarks.processes import COLUMNS, ESCAPE, PATIENCE_S, ROWS

ROOT = Path(__file__).parents[1]
#: Seconds without room after which a terminal is full (our choice).
_SETTLED_S = 0.2


class Terminal:
    """The near end: what was painted so far, and a way to type."""

    def __init__(self, process: subprocess.Popen[bytes], near: int, far: int) -> None:
        self.process = process
        self.painted = b""
        """All that came, as the terminal gets it."""
        self._near, self._far = near, far

    @property
    def shown(self) -> str:
        """What came, without the program's own orders to the terminal."""
        return ESCAPE.sub(b"", self.painted).decode(errors="replace")

    @property
    def modes(self) -> list[Any]:
        """How the terminal takes and gives what passes through it."""
        import termios

        return termios.tcgetattr(self._far)

    def wait_for(self, text: str) -> None:
        """Read on until this text was shown."""
        while text not in self.shown:
            assert self.read(), f"{text!r} was never shown; the last of what was:\n{self.shown[-2000:]}"

    def type(self, keys: bytes) -> None:
        """Press keys."""
        os.write(self._near, keys)

    def go_away(self) -> None:
        """Be gone, without a signal that says so: nothing is taken and nothing comes any more."""
        nowhere = os.open(os.devnull, os.O_RDWR)
        for end in (self._near, self._far):
            os.dup2(nowhere, end)
        os.close(nowhere)

    def fill(self) -> None:
        """Take nothing more, from now on."""
        os.set_blocking(self._far, False)
        # The system moves some of it on, which makes room once more.
        while select.select([], [self._far], [], _SETTLED_S)[1]:
            with suppress(BlockingIOError):
                while True:
                    os.write(self._far, b" " * 1024)
        os.set_blocking(self._far, True)

    def hold(self) -> None:
        """Hold what is written to it until it is told to go on, as Ctrl+S does."""
        import termios

        termios.tcflow(self._far, termios.TCOOFF)

    def end(self) -> int:
        """Read on until the program has ended; its exit code."""
        deadline = monotonic() + PATIENCE_S
        while self.process.poll() is None:
            assert monotonic() < deadline, f"it does not end; the last it showed:\n{self.shown[-2000:]}"
            self.read(0.05)
        while self.read(0.0):
            pass
        return self.process.returncode

    def read(self, within_s: float = PATIENCE_S) -> bool:
        """Take what comes within so many seconds; False where nothing does."""
        if not select.select([self._near], [], [], within_s)[0]:
            return False
        came = os.read(self._near, 65536)
        self.painted += came
        return bool(came)


@contextmanager
def on_a_terminal(
    words: Sequence[str],
    *,
    size: tuple[int, int] = (COLUMNS, ROWS),
    errors: BinaryIO | None = None,
    **environ: str,
) -> Iterator[Terminal]:
    """`python -m` and these words, started on a terminal of so many columns and rows; killed at the end.

    What it says on standard error goes into the file `errors`, where one is given.
    """
    import fcntl
    import pty
    import termios

    near, far = pty.openpty()
    try:
        fcntl.ioctl(far, termios.TIOCSWINSZ, struct.pack("HHHH", size[1], size[0], 0, 0))
        process = subprocess.Popen(
            [sys.executable, "-m", *words],
            stdin=far,
            stdout=far,
            stderr=errors or far,
            start_new_session=True,
            cwd=ROOT,
            env=dict(os.environ) | {"TERM": "xterm-256color"} | environ,
        )
        try:
            yield Terminal(process, near, far)
        finally:
            process.kill()  # does nothing once it has ended by itself
            process.wait()
    finally:
        os.close(near)
        os.close(far)
