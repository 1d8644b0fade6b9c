"""What a command answers."""

from __future__ import annotations

import argparse
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Generic, TypeAlias, TypeVar

from coach.cli.codes import BAD_NEWS, GOOD
from coach.quantities.refusal import Refusal
from coach.telling.writing import Shown

Held = TypeVar("Held")
Held_co = TypeVar("Held_co", covariant=True)

Asked: TypeAlias = argparse.Namespace
"""What a command line asks of a command: what it takes, read, and the options of every command."""


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
