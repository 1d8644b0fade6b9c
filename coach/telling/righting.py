"""What is still to be put right, and what was noted, each with when it was put down."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from coach.bench.righting import Right
from coach.bench.standing import Noted
from coach.quantities.words import counted
from coach.telling.clock import moment
from coach.telling.page import Body, Line, Table, Tone, table

#: Of more notes than this the newest are told where a job stands (our choice).
_NOTES_TOLD = 12


def rights_table(rights: Iterable[Right]) -> Table:
    """A row for each thing: its number, when and in which step it came up, its zone and what it is."""
    rows = (
        (str(one.entry), moment(one.at), f"step {one.step}" if one.step else "", one.zone, one.text)
        for one in rights
    )
    return table(rows)


def notes_told(notes: Sequence[Noted]) -> Iterator[Body]:
    """A row for each note, of very many the newest: when and in which step it was written, what it says."""
    earlier, newest = newest_notes(notes)
    yield table(
        (moment(note.at), f"step {note.step}" if note.step else "at the end", note.text) for note in newest
    )
    yield Line(earlier, tone=Tone.QUIET)


def newest_notes(notes: Sequence[Noted]) -> tuple[str, Sequence[Noted]]:
    """What is told of the earlier ones, nothing where there are none, and the newest."""
    more = len(notes) - _NOTES_TOLD
    if more <= 0:
        return "", notes
    return f"{counted(more, 'earlier note')} in the log", notes[-_NOTES_TOLD:]
