"""A command timed from its start to its end, or to the first screen that shows a given text."""

from __future__ import annotations

import os
import re
import select
import struct
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from time import perf_counter

# ECMA-48 control sequences, operating system commands and two-character escapes.
ESCAPE = re.compile(rb"\x1b(?:\[[0-?]*[ -/]*[@-~]|\][^\x07\x1b]*(?:\x07|\x1b\\)|[@-Z\\^_=>]|[()][A-Z0-9])")
COLUMNS, ROWS = 100, 30
PATIENCE_S = 60.0


class NothingPainted(RuntimeError):
    """The command ended, or took too long, without showing the text waited for."""


def coach_command() -> list[str]:
    """The installed `coach` command beside this interpreter, or the package run as a module."""
    script = Path(sys.executable).with_name("coach")
    return [str(script)] if script.is_file() else [sys.executable, "-m", "coach"]


def seconds_to_end(argv: Sequence[str], environ: Mapping[str, str] | None = None) -> float:
    """From starting the command to its end, in seconds; raises CalledProcessError if it fails."""
    begun = perf_counter()
    subprocess.run(argv, stdin=subprocess.DEVNULL, capture_output=True, check=True, env=environ)
    return perf_counter() - begun


def seconds_to_first_paint(argv: Sequence[str], text: str, environ: Mapping[str, str] | None = None) -> float:
    """From starting the command in a terminal to the bytes that complete this text on it, in seconds.

    The text must stand within one line and one style. The command is then killed, as a laptop that loses
    its battery would. Raises NothingPainted if the text never comes. Needs a Unix terminal.
    """
    import fcntl
    import pty
    import termios

    near, far = pty.openpty()
    try:
        fcntl.ioctl(far, termios.TIOCSWINSZ, struct.pack("HHHH", ROWS, COLUMNS, 0, 0))
        begun = perf_counter()
        process = subprocess.Popen(
            argv, stdin=far, stdout=far, stderr=far, start_new_session=True, env=_terminal(environ)
        )
        try:
            os.close(far)
            far = -1
            _wait_for(text.encode(), near, begun + PATIENCE_S)
            return perf_counter() - begun
        finally:
            process.kill()
            process.wait()
    finally:
        os.close(near)
        if far >= 0:
            os.close(far)


def _terminal(environ: Mapping[str, str] | None) -> dict[str, str]:
    """The environment of a colour terminal whose size is that of the terminal itself."""
    kept = dict(os.environ if environ is None else environ)
    for name in ("COLUMNS", "LINES", "NO_COLOR"):
        kept.pop(name, None)
    return kept | {"TERM": "xterm-256color", "COLORTERM": "truecolor"}


def _wait_for(wanted: bytes, near: int, deadline: float) -> None:
    """Read what the command paints until the wanted text is in it."""
    painted = b""
    while (left_s := deadline - perf_counter()) > 0:
        if not select.select([near], [], [], left_s)[0]:
            break
        try:
            came = os.read(near, 65536)
        except OSError:  # the far end is closed: Linux says so with EIO, other systems with no bytes
            came = b""
        if not came:
            break
        painted += came
        if wanted in ESCAPE.sub(b"", painted):
            return
    shown = ESCAPE.sub(b"", painted)[-2000:].decode(errors="replace")
    raise NothingPainted(f"{wanted.decode()!r} was never shown; the last of what was:\n{shown}")
