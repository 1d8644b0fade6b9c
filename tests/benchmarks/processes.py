"""The processor time of a command: to its end, to a text on its screen, or from a line to its answer."""

from __future__ import annotations

import os
import re
import select
import signal
import struct
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import NamedTuple

# ECMA-48 control sequences, operating system commands and two-character escapes.
ESCAPE = re.compile(rb"\x1b(?:\[[0-?]*[ -/]*[@-~]|\][^\x07\x1b]*(?:\x07|\x1b\\)|[@-Z\\^_=>]|[()][A-Z0-9])")
COLUMNS, ROWS = 80, 24
PATIENCE_S = 60.0
QUIET_S = 0.4
"""A screen that has painted nothing for so long has come to rest."""


LONG_S = 2.0
"""And one that rests so long has done all that it does unasked."""


class NothingPainted(RuntimeError):
    """The command ended, or took too long, without showing the text waited for."""


def coach_command() -> list[str]:
    """The installed `coach` command beside this interpreter, or the package run as a module."""
    script = Path(sys.executable).with_name("coach")
    return [str(script)] if script.is_file() else [sys.executable, "-m", "coach"]


def cpu_to_end(
    argv: Sequence[str], environ: Mapping[str, str] | None = None, codes: Sequence[int] = (0,)
) -> float:
    """From starting the command to its end, in seconds of processor time.

    Raises CalledProcessError when it ends with another exit code than these.
    """
    process = subprocess.Popen(
        argv, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=environ
    )
    used_s = _cpu_when_ended(process)
    if process.returncode not in codes:
        raise subprocess.CalledProcessError(process.returncode, argv)
    return used_s


def cpu_to_first_paint(argv: Sequence[str], text: str, environ: Mapping[str, str] | None = None) -> float:
    """From starting the command in a terminal to the bytes that complete this text, in processor time.

    The text must stand within one line and one style. The command is then killed, as a laptop that loses
    its battery would. Raises NothingPainted if the text never comes. Needs a Unix terminal.
    """
    with _on_a_terminal(argv, environ) as shown:
        shown.wait_for(text)
        return _cpu_when_killed(shown.process)


def open_and_leave_alone(argv: Sequence[str], text: str, environ: Mapping[str, str] | None = None) -> None:
    """Show the command on a terminal until it has long come to rest; raises NothingPainted."""
    with _on_a_terminal(argv, environ) as shown:
        shown.wait_for(text)
        shown.wait_for_rest(LONG_S)


def cpu_to_answer(
    argv: Sequence[str], opened: str, typed: str, answer: str, environ: Mapping[str, str] | None = None
) -> float:
    """From Enter behind a typed line to the bytes that complete its answer, in processor time.

    Args:
        argv: the command, which shows a box to type into.
        opened: a text of its first screen.
        typed: the line; nothing is measured until its echo is painted and the screen rests.
        answer: what must be painted after Enter; it counts only from then on.
        environ: of the command.

    Raises NothingPainted if the answer never comes. Needs Linux, whose kernel tells the time another process
    has used.
    """
    with _on_a_terminal(argv, environ) as shown:
        shown.wait_for(opened)
        shown.read_for(LONG_S)  # what is remembered was painted long before the screen can answer
        os.write(shown.near, typed.encode())
        shown.wait_for_rest()
        begun = _cpu_so_far(shown.process)
        os.write(shown.near, b"\r")
        shown.wait_for(answer)
        return _cpu_so_far(shown.process) - begun


class _Shown(NamedTuple):
    """A command at work on a terminal of its own, seen from the terminal's near end."""

    process: subprocess.Popen[bytes]
    near: int

    def wait_for(self, text: str) -> None:
        """Read what is painted from now on until this text is in it."""
        wanted, painted = text.encode(), b""
        deadline = time.monotonic() + PATIENCE_S
        while (left_s := deadline - time.monotonic()) > 0 and (came := self._read(left_s)):
            painted += came
            if wanted in ESCAPE.sub(b"", painted):
                return
        last = ESCAPE.sub(b"", painted)[-2000:].decode(errors="replace")
        raise NothingPainted(f"{text!r} was never shown; the last of what was:\n{last}")

    def wait_for_rest(self, quiet_s: float = QUIET_S) -> None:
        """Read on until nothing more is painted for a while."""
        deadline = time.monotonic() + PATIENCE_S
        while time.monotonic() < deadline and self._read(quiet_s):
            pass

    def read_for(self, time_s: float) -> None:
        """Read what is painted for so long."""
        deadline = time.monotonic() + time_s
        while (left_s := deadline - time.monotonic()) > 0:
            self._read(left_s)

    def _read(self, within_s: float) -> bytes:
        """What is painted next; nothing when the command has ended or paints nothing in time."""
        if not select.select([self.near], [], [], within_s)[0]:
            return b""
        try:
            return os.read(self.near, 65536)
        except OSError:  # the far end is closed: Linux says so with EIO, other systems with no bytes
            return b""


@contextmanager
def _on_a_terminal(argv: Sequence[str], environ: Mapping[str, str] | None) -> Iterator[_Shown]:
    """The command started on a terminal of its own, and killed afterwards."""
    import fcntl
    import pty
    import termios

    near, far = pty.openpty()
    try:
        fcntl.ioctl(far, termios.TIOCSWINSZ, struct.pack("HHHH", ROWS, COLUMNS, 0, 0))
        process = subprocess.Popen(
            argv, stdin=far, stdout=far, stderr=far, start_new_session=True, env=_terminal(environ)
        )
        os.close(far)
        far = -1
        try:
            yield _Shown(process, near)
        finally:
            if process.returncode is None:
                process.kill()
                process.wait()
    finally:
        os.close(near)
        if far >= 0:
            os.close(far)


def _cpu_when_killed(process: subprocess.Popen[bytes]) -> float:
    """Kill a process, ended already or not, and tell as `_cpu_when_ended` does."""
    # Not Popen.kill: it looks first whether the process has ended, and with that look what it used is gone.
    with suppress(ProcessLookupError):
        os.kill(process.pid, signal.SIGKILL)
    return _cpu_when_ended(process)


def _cpu_when_ended(process: subprocess.Popen[bytes]) -> float:
    """Wait for the end of a process; the processor time it used, its threads and kernel calls included."""
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    return used.ru_utime + used.ru_stime


def _cpu_so_far(process: subprocess.Popen[bytes]) -> float:
    # The kernel's clock of another process: clock_getcpuclockid(3) gives this number on Linux.
    return time.clock_gettime((~process.pid << 3) | 2)


def _terminal(environ: Mapping[str, str] | None) -> dict[str, str]:
    """The environment of a colour terminal whose size is that of the terminal itself."""
    kept = dict(os.environ if environ is None else environ)
    for name in ("COLUMNS", "LINES", "NO_COLOR"):
        kept.pop(name, None)
    return kept | {"TERM": "xterm-256color", "COLORTERM": "truecolor"}


def cpu_at_rest(
    argv: Sequence[str], text: str, keys: str, rest_s: float, environ: Mapping[str, str] | None = None
) -> float:
    """What a command left alone uses in so many seconds, in processor time.

    Args:
        argv: the command.
        text: of its first screen.
        keys: what is typed then, to come to the screen that is left alone.
        rest_s: for how long it is; before that it may paint for as long.
        environ: of the command.

    Raises NothingPainted if the text never comes. Needs Linux, as `cpu_to_answer` does.
    """
    with _on_a_terminal(argv, environ) as shown:
        shown.wait_for(text)
        os.write(shown.near, keys.encode())
        shown.read_for(rest_s)
        begun = _cpu_so_far(shown.process)
        shown.read_for(rest_s)
        return _cpu_so_far(shown.process) - begun
