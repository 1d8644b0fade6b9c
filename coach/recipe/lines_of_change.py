"""Several changes that are told at once: as words of a command, or in a line with ; between."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from coach.recipe.changing import CannotChange, is_change

#: How the bar that lies there is told: `bar 45 x 20, long 310`, and of several pieces `bar poll = 45 x 20`.
BAR: Final = re.compile(r"bar\s*(?:[:=]\s*|\s)(?P<there>\S.*)", re.IGNORECASE)


def in_one_line(arguments: Sequence[str]) -> str:
    """What is typed as several words, as one line: one change, or where each word is one, all of them.

    >>> in_one_line(["skip", "7"]), in_one_line(["skip 7", "plate.length=44"])
    ('skip 7', 'skip 7; plate.length=44')
    """
    told = [" ".join(one.split()) for one in arguments]
    each = all(BAR.fullmatch(one) or is_change(one) for one in told)
    return ("; " if each else " ").join(told)


def refuse_bar_among(line: str) -> None:
    """Raises CannotChange where a line tells a bar and other changes: those are of the job on that bar."""
    told = [one.strip() for one in line.split(";") if one.strip()]
    bars = [one for one in told if BAR.fullmatch(one)]
    if bars and any(is_change(one) for one in told if one not in bars):
        rest = "; ".join(one for one in told if one not in bars)
        raise CannotChange("The bar is a change by itself: enter {} first, then {}.", bars[0], rest)
