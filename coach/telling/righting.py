"""What is still to be put right, and what was noted, each with when it was put down."""

from __future__ import annotations

from collections.abc import Iterable

from coach.bench.righting import Right
from coach.bench.standing import Noted
from coach.telling.clock import moment
from coach.telling.page import Table, table


def rights_table(rights: Iterable[Right]) -> Table:
    """A row for each thing: its number, when and in which step it came up, its zone and what it is."""
    rows = (
        (str(one.entry), moment(one.at), f"step {one.step}" if one.step else "", one.zone, one.text)
        for one in rights
    )
    return table(rows)


def notes_table(notes: Iterable[Noted]) -> Table:
    """A row for each note: when and in which step it was written, and what it says."""
    return table(
        (moment(note.at), f"step {note.step}" if note.step else "at the end", note.text) for note in notes
    )
