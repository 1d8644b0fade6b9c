"""Where a job stands in plain lines: kept as something is entered, painted while the screens are made ready.

The command that enters something has reckoned where the job stands already. The screens draw over these lines
as soon as they stand; like every told text they are given out again only for the entry they were kept at.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import TYPE_CHECKING

from coach.places import cache_folder
from coach.remembered import Memory

if TYPE_CHECKING:
    from coach.bench.session import Session
    from coach.log.newest import Newest

#: What the lines are set for, as every printed page is, and the most of them that a window could show.
_COLUMNS, _MOST_LINES = 80, 60


def keep_glimpse(session: Session, units: str | None) -> None:
    """Remember where a job stands after its newest entry, told in the units asked for or its own."""
    from coach.cli.page import set_page
    from coach.telling.harmless import harmless
    from coach.telling.page import page
    from coach.telling.standing import bearing
    from coach.telling.summary import summary
    from coach.telling.writing import Shown

    standing, shown, newest = session.standing(), Shown(session.system), session.newest
    told = summary(standing, session.first_to_measure(), shown)
    pages = [set_page(page(section)) for section in (bearing(standing, shown), told)]
    kept = json.dumps([list(map(harmless, lines[:_MOST_LINES])) for lines in pages], ensure_ascii=False)
    Memory(cache_folder()).keep(_name(newest, units), newest, kept)


def glimpse(
    memory: Memory, newest: Newest, size: Sequence[int], *, units: str | None, notice: str, straight: bool
) -> str | None:
    """It as it is painted in a window of so many columns and rows; None where it is not known or has no room.

    Above it stand the `notice` to show first and, where the bench opens `straight`, what is done next there.
    """
    columns, rows = size
    kept = memory.recall(_name(newest, units), newest) if columns >= _COLUMNS else None
    if kept is None:
        return None
    next_to_do, summed_up = json.loads(kept)
    parts = [[notice] if notice else [], next_to_do if straight else [], summed_up]
    lines = [line for part in parts if part for line in (*part, "")]
    # The last row stays empty, so that nothing scrolls.
    return "".join(f"\x1b[{row};1H{line}" for row, line in enumerate(lines[: rows - 1], start=1))


def _name(newest: Newest, units: str | None) -> str:
    return f"glimpse of {newest.job} in {units or 'its own units'}"
