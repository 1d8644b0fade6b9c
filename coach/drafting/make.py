"""A recipe made several times over, from one bar with one row of marks."""

from __future__ import annotations

import re
from typing import Final

from coach.drafting.answers import CannotDraft
from coach.recipe.alike import MOST_MADE

_MAKE: Final = re.compile(r"^make[ \t]*:[ \t]*(?P<count>\d*)[^\n]*$", re.MULTILINE)
_TIME: Final = re.compile(
    r"""^(?P<key>time[ \t]*:[ \t]*)(?P<quote>["']?)(?P<told>[^\n"'#]*[^\n"'# \t])(?P=quote)"""
    r"""(?P<rest>[ \t]*(?:#.*)?)$""",
    re.MULTILINE,
)
#: How the time is told that a recipe says of another number than are made.
_FOR: Final = re.compile(r" for (?:one|\d+ of them)$")


def read_how_many(text: str) -> int:
    """How many are to be made; raises CannotDraft.

    >>> read_how_many("12")
    12
    """
    told = text.strip()
    if not re.fullmatch(r"[1-9]\d{0,3}", told, re.ASCII) or int(told) > MOST_MADE:
        most = f"type a whole number from 1 to {MOST_MADE}"
        raise CannotDraft(f"{text[:20]!r} is not how many are made: {most}.")
    return int(told)


def made_often(text: str, count: int) -> str:
    r"""The text of a recipe that makes so many of its tool; its other lines stay as and where they are.

    The time that it says is of as many as it was written for, and says so where others are made.

    >>> made_often("recipe: Peg\ntime: an hour\npieces:\n  peg: {}\n", 3).splitlines()[1::4]
    ['time: an hour for one', 'make: 3']
    """
    line, found = f"make: {count}", _MAKE.search(text)
    written = int(found["count"] or 1) if found is not None else 1
    if count != written:
        text = _TIME.sub(lambda time: _time_of(time, written), text, count=1)
    if found is not None:
        return _MAKE.sub(line, text, count=1)
    return f"{text.rstrip()}\n\n{line}\n"


def _time_of(time: re.Match[str], written: int) -> str:
    """The line of a recipe's time, with for how many it was written."""
    told = time["told"]
    if not _FOR.search(told):
        told += " for one" if written == 1 else f" for {written} of them"
    return f"{time['key']}{time['quote']}{told}{time['quote']}{time['rest']}"
