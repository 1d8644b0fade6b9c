"""How far a job has come, counted from its entries without reckoning anything."""

from __future__ import annotations

from collections.abc import Sequence

from coach.log.amends import Amends
from coach.log.entries import Entry
from coach.log.kinds.amended import Amended
from coach.log.kinds.done import Done
from coach.log.kinds.struck import Struck
from coach.log.status import JobStatus


def struck_numbers(entries: Sequence[Entry]) -> frozenset[int]:
    """Numbers of the entries that do not count; a strike that was itself struck out does nothing."""
    out: set[int] = set()
    for entry in reversed(entries):
        if isinstance(entry.body, Struck) and entry.number not in out:
            out.add(entry.body.entry)
    return frozenset(out)


def progress(entries: Sequence[Entry], titles: Sequence[str]) -> tuple[int, JobStatus, list[str]]:
    """How many steps are done, how the job is called, and the titles of its steps, ways back included.

    Nothing is reckoned for it; `titles` are those of its recipe's steps.
    """
    out = struck_numbers(entries)
    done, status, now = 0, JobStatus.UNDER_WAY, list(titles)
    for entry in entries:
        if entry.number in out:
            continue
        match entry.body:
            case Done(step=step):
                done += step == done + 1
            case Amends(amendment=amendment):
                from coach.ledger.step_again import titles_again

                now = titles_again(now, amendment.again)
            case Amended() as amended:
                now = amended.titles() or now
        status = status.once(entry.body.AFTER, finished=done >= len(now))
    return done, status, now
