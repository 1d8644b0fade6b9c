"""A recipe made several times over, from one bar with one row of marks."""

from __future__ import annotations

import re
from typing import Final

from coach.drafting.answers import CannotDraft
from coach.recipe.alike import MOST_MADE

_MAKE: Final = re.compile(r"^make[ \t]*:[^\n]*$", re.MULTILINE)


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

    >>> made_often("recipe: Peg\npieces:\n  peg: {}\n", 3).splitlines()[-1]
    'make: 3'
    """
    line = f"make: {count}"
    if _MAKE.search(text):
        return _MAKE.sub(line, text, count=1)
    return f"{text.rstrip()}\n\n{line}\n"
