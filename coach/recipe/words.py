"""How the words of a recipe are spelt, and the nearest right one for a word that is not known."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Final

from coach.forms import listed
from coach.quantities import errors

UNITS: Final = ("mm", "in")
YES: Final = ("yes", "true", "on")
NO: Final = ("no", "false", "off")
#: `to: drawing` asks for the zone's finished sizes.
DRAWING: Final = "drawing"
NONE: Final = "none"

#: A zone's or a piece's own name: no dot, for `zone.dimension` names a size.
NAME: Final = re.compile(r"[^\W\d_](?:[\w '’-]{0,38}\w)?")

#: Why a name that is taken is refused.
OWN_NAME: Final = "every zone has a name of its own"
_LONGEST_ECHO: Final = 30


@lru_cache(1024)
def key(text: str) -> str:
    """A key in its one spelling: `Take up`, `take-up` and `take_up` are the same."""
    return "_".join(re.split(r"[\s_-]+", text.strip().lower()))


def word(text: str) -> str:
    """A trade word in its one spelling: `Mark_out` and `mark  out` are the same."""
    return key(text).replace("_", " ")


def own_name(text: str) -> str:
    """The smith's own name for a zone or piece, with single blanks."""
    return " ".join(text.split())


def echo(text: str) -> str:
    """What was written, in quotes, cut short when it is long."""
    flat = " ".join(text.split())
    return f"“{flat}”" if len(flat) <= _LONGEST_ECHO else f"“{flat[:_LONGEST_ECHO]}…”"


def clause(error: Exception) -> str:
    """An error's sentence as part of another: without its full stop, beginning small unless with a sign."""
    sentence = str(error).removesuffix(".")
    return sentence[:1].lower() + sentence[1:]


def nearest(asked: str, known: Iterable[str]) -> str | None:
    """The right word that is nearest to the one written, if any is near."""
    by_letters = {one.lower(): one for one in known}
    near = errors.nearest(asked.lower()[: 2 * _LONGEST_ECHO], by_letters)
    return by_letters[near] if near else None


def hint(asked: str, known: Iterable[str]) -> str:
    """The nearest right word, or all of them when none is near: the second half of a sentence."""
    row = [*dict.fromkeys(known)]
    if not row:
        return "there are none here"
    near = nearest(asked, row)
    return f"did you mean {near}?" if near else f"use {listed(row, 'or')}"


def names_apart(text: str, known: Iterable[str]) -> list[str]:
    """The names that a text is put together of, with blanks alone between them; none where it is not.

    >>> names_apart("inside lap weld line", ["weld line", "inside", "lap"])
    ['inside', 'lap', 'weld line']
    """
    left, found = text.strip(), []
    names = sorted(known, key=len, reverse=True)
    while left:
        begins = next((one for one in names if left == one or left.startswith(f"{one} ")), None)
        if begins is None:
            return []
        found.append(begins)
        left = left[len(begins) :].strip()
    return found
