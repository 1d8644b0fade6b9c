"""Everything entered for a job, an entry a line."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from coach.telling.moments import moment
from coach.telling.page import Row, Table, Tone
from coach.telling.words import write
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.bench.history import Logged


def history_table(entries: Iterable[Logged], shown: Shown) -> Table:
    """The entries in their order: number, moment, step and what each says."""
    return Table(tuple(history_row(entry, shown) for entry in entries))


def history_row(entry: Logged, shown: Shown) -> Row:
    """One entry, those struck out marked."""
    struck = "struck out: " if entry.struck else ""
    step = f"step {entry.step}" if entry.step else ""
    told = f"{struck}{write(entry.words, shown)}"
    return Row((str(entry.number), moment(entry.at), step, told), Tone.QUIET if entry.struck else Tone.PLAIN)
