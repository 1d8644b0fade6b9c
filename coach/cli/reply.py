"""What a command answers, and the exit codes that go with it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Generic, TypeVar

from coach.quantities import Shown
from coach.quantities.refusal import Refusal

Held = TypeVar("Held")
Held_co = TypeVar("Held_co", covariant=True)

GOOD = 0
BAD_NEWS = 1
"""The answer itself is bad news: faults found, off plan, gone past, a reading that is questioned."""
WRONG = 2
"""The request could not be carried out."""
BUG = 3
"""The program failed."""
STOPPED = 130
"""Ended from the keyboard: 128 and the number of SIGINT, as shells count it."""
PIPE_CLOSED = 141
"""Whoever read the answer closed the pipe: 128 and the number of SIGPIPE, as shells count it."""


class Refused(Refusal):
    """A request that cannot be carried out: one sentence with what is wrong and what to type instead."""


@dataclass(frozen=True, slots=True)
class Reply(Generic[Held_co]):
    """What a command answers: the same in lines to read and in values for JSON.

    A command's `run` says in its hint which class the values are of; docs/keys.md is written from that.
    """

    lines: tuple[str, ...]
    values: Held_co
    code: int = GOOD
    shown: Shown | None = None  # the units to tell it in, where they are not those that were asked for


def reply(
    lines: Iterable[str], values: Held, *, bad_news: bool = False, shown: Shown | None = None
) -> Reply[Held]:
    """An answer whose exit code says whether it is bad news."""
    return Reply(tuple(lines), values, BAD_NEWS if bad_news else GOOD, shown)
