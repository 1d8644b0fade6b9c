"""What is killed: a loop of the log itself, commands, the bench on a terminal, a log being restored."""

from __future__ import annotations

import contextlib
import os
import pty
import select
import signal
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random
from time import monotonic
from typing import NamedTuple

from coach.cli import main
from coach.log.errors import LogError, OutOfDate
from coach.log.jobs import Log
from tests.benchmarks.processes import ESCAPE
from tests.log.bodies import note

JOB = "first-hook"
AT = "2026-11-25T09:30:00Z"
_PATIENCE_S = 30.0
_F6, _F8 = b"\x1b[17~", b"\x1b[19~"

#: Commands that enter something, and those that do not.
ENTER = (
    ("note", JOB, "the tip is thin"),
    ("heat", JOB),
    ("fire", JOB),
    ("read", JOB, "tip.mark=31"),
    ("read", JOB, "tip.mark=31", "shank.mark=104", "plate.mark=141"),
    ("done", JOB, "--heats", "1"),
    ("back", JOB),
    ("rest", JOB, "--insist"),
    ("resume", JOB),
    ("aside", JOB),
    ("begin", JOB),
)
TELL = (
    ("where", JOB),
    ("jobs",),
    ("export", JOB, "carried.jsonl", "--force"),
    ("backups", "--now"),
    ("check-log",),
    ("history", JOB),
)


class Killed(NamedTuple):
    """How one of them ended."""

    told: bytes
    """What it said."""
    code: int | None
    """Its exit code; None when it was killed."""
    took_s: float


class Victim:
    """A process made by a fork of this one, which has all of the program loaded already."""

    def __init__(self, deed: Callable[[], int], *, on_a_terminal: bool = False) -> None:
        self.painted = b""
        self._begun = monotonic()
        if on_a_terminal:
            self.number, self._end = pty.fork()
        else:
            self._end, far = os.pipe()
            self.number = os.fork()
        if self.number == 0:  # the victim
            code = 3
            with contextlib.suppress(BaseException):
                if not on_a_terminal:
                    os.dup2(far, 1)
                    os.dup2(far, 2)
                    os.dup2(os.open(os.devnull, os.O_RDONLY), 0)
                for end, (name, mode) in enumerate((("stdin", "r"), ("stdout", "w"), ("stderr", "w"))):
                    stream = os.fdopen(end, mode, encoding="utf-8", closefd=False)
                    setattr(sys, name, stream)
                    setattr(sys, f"__{name}__", stream)  # which is where Textual paints
                code = deed()
                sys.stdout.flush()
            os._exit(code)
        if not on_a_terminal:
            os.close(far)

    def hear(self, within_s: float, until: bytes = b"") -> bool:
        """Take in what it says for so long, or to its end; whether this text came meanwhile."""
        begun, deadline = len(self.painted), monotonic() + within_s
        while (left_s := deadline - monotonic()) > 0:
            if until and until in ESCAPE.sub(b"", self.painted[begun:]):
                return True
            if select.select([self._end], [], [], left_s)[0]:
                try:
                    came = os.read(self._end, 65536)
                except OSError:  # Linux's word for a terminal whose far end is closed
                    came = b""
                if not came:
                    return False
                self.painted += came
        return False

    def type(self, keys: bytes) -> None:
        """Press keys."""
        os.write(self._end, keys)

    def kill(self) -> Killed:
        """Kill it, if it has not ended by itself."""
        os.kill(self.number, signal.SIGKILL)
        self.hear(_PATIENCE_S)
        os.close(self._end)
        _, status = os.waitpid(self.number, 0)
        code = None if os.WIFSIGNALED(status) else os.waitstatus_to_exitcode(status)
        return Killed(self.painted, code, monotonic() - self._begun)


def a_loop(log: Path) -> int:
    """Add to a job for ever, and tell the number of each entry once it is acknowledged."""
    with Log(log) as opened:
        number = opened.last_number(JOB)
        while True:
            try:
                number = opened.append(JOB, number, AT, note("x" * 300)).number
                os.write(1, b"%d\n" % number)
            except OutOfDate as late:
                number = late.missed[-1].number
            except LogError:
                pass  # busy, or no room: it is tried again until the end


def the_bench() -> int:
    """The job opened on the screens."""
    os.environ |= {"TERM": "xterm-256color"}
    return main(["open", JOB])


def at_the_bench(victim: Victim, chance: Random) -> int:
    """Write notes there and strike them out, as often as chance has it; how many were acknowledged."""
    if not victim.hear(_PATIENCE_S, b"F1"):
        raise TimeoutError("the bench never came")
    victim.type(b"\r")  # the summary gives way to the bench
    acknowledged = 0
    for keys, answer in _deeds(chance):
        victim.hear(0.1)
        victim.type(keys)
        if not answer:
            break
        if not victim.hear(_PATIENCE_S, answer):
            raise TimeoutError(f"no answer to {keys!r} but {ESCAPE.sub(b'', victim.painted)[-600:]!r}")
        acknowledged += 1
    return acknowledged


def _deeds(chance: Random) -> Iterator[tuple[bytes, bytes]]:
    """Keys and what is answered to them; to the last, nothing is waited for."""
    deeds = [(_F6 + b"the tip is thin\r", b"Noted."), (_F8, b"Struck out")]
    count = chance.randrange(3)
    for at in range(count):
        yield deeds[at % 2]
    yield deeds[count % 2][0], b""
