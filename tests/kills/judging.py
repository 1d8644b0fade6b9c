"""What must be left when something was killed: every entry that was there or acknowledged, in a sound log."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from coach.log.copies import backups_beside, copies_in
from coach.log.file import journal_of
from coach.log.jobs import Log
from coach.log.looking_through import look_through
from coach.log.newest import Newest


def ends_of(path: Path) -> list[Newest]:
    """How far each job of a log goes."""
    with Log(path, whole=False) as log:
        return log.newest()


def faults(path: Path, before: list[Newest], acknowledged: int, *, most: int | None) -> Iterator[str]:
    """What is wrong, in words; nothing when all is well.

    Args:
        path: the log.
        before: how far its jobs went before.
        acknowledged: how many entries were acknowledged since, in all its jobs.
        most: how many there may be at most; None when that is not known.
    """
    with Log(path) as log:
        if damage := log.verify():
            yield from damage
            return
        if not log.holds(before):
            yield "an entry that was there before is lost"
        added = sum(one.number for one in log.newest()) - sum(one.number for one in before)
        for job in log.jobs():
            if [entry.number for entry in log.entries(job)] != list(range(1, log.last_number(job) + 1)):
                yield f"{job} has a gap"
    if added < acknowledged:
        yield f"{acknowledged} entries were acknowledged and {added} are there"
    if most is not None and added > most:
        yield f"{added} entries were added where {most} were made"
    for copy in copies_in(backups_beside(path), path.name):
        if not copy.damaged and not look_through(copy.path).sound:
            yield f"the copy {copy.path.name} is not sound"
    journal = journal_of(path)
    # One that begins with a zero holds nothing to be undone: https://www.sqlite.org/lockingv3.html
    if journal.exists() and journal.read_bytes()[:1].strip(b"\0"):
        yield "a journal is left beside a log that was opened since"
