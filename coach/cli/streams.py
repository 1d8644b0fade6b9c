"""Standard streams as the coach needs them: there, and able to take every character."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from io import TextIOWrapper


def make_ready() -> bool:
    """Fill the places of closed streams, and let every character through, whatever the locale says.

    Returns False when an answer would reach nobody, for standard output is closed.
    """
    # The next file that is opened would take the place of a stream that is closed, and get what is printed.
    for number in (0, 1, 2):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)  # takes the lowest free number
    is_heard = sys.stdout is not None
    for name in ("stdin", "stdout", "stderr"):
        if getattr(sys, name) is None:
            mode = "r" if name == "stdin" else "w"
            setattr(sys, name, open(os.devnull, mode, encoding="utf-8"))  # noqa: SIM115  open to the end
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="replace")
    return is_heard


def say_aside(text: str) -> None:
    """Write a line to standard error; where that cannot be written either, nobody can be told."""
    try:
        print(text, file=sys.stderr, flush=True)
    except (OSError, ValueError):
        let_go_of(2)


def let_go_of(number: int) -> None:
    """Send what is still to be written to a stream nowhere, so that closing it at exit cannot fail again."""
    with suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, number)
        os.close(nowhere)
