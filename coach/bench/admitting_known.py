"""Whether a job takes what is known from others as it begins, and that its own lesson is left out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from coach.bench.entering import EntryFault
from coach.bench.job_state import JobState
from coach.ledger.hand import KnownHand, can_be_handed_on
from coach.log.entries import Entry
from coach.log.kinds.forged_with import ForgedWith
from coach.log.kinds.hand_known import HAND_OF_SMITH, HandKnown
from coach.log.kinds.lesson_left_out import LessonLeftOut
from coach.log.kinds.shop_known import ShopKnown
from coach.log.names import is_job_name


class JobBefore(NamedTuple):
    """A job before an entry: where it stands, all of its entries, and the moment of the new one."""

    state: JobState
    entries: Sequence[Entry]
    at: str


def takes_hand(job: JobBefore, known: HandKnown) -> None:
    """Raise EntryFault where a job cannot begin with that hand."""
    if len(job.entries) != 1:
        raise EntryFault("What is known of the hand is the second entry of a job, or none.")
    if not is_job_name(known.job) or known.job == job.entries[0].job:
        raise EntryFault(f"What is known of the hand is from another job, and none is called {known.job!r}.")
    hand = KnownHand(known.scatter, known.scatter_doubt, known.habit, known.habit_doubt)
    if not can_be_handed_on(hand):
        raise EntryFault("What is known of the hand is more, or otherwise, than any job can tell of one.")


def takes_forged_with(job: JobBefore, made: ForgedWith) -> None:
    """Raise EntryFault where the fire and the hammer cannot be named now."""
    if any(not isinstance(one.body, HandKnown) for one in job.entries[1:]):
        raise EntryFault("The fire and the hammer are named as a job begins, before anything is done of it.")
    if not (made.fire or made.hammer):
        raise EntryFault("Neither a fire nor a hammer is named: leave the entry out.")


def takes_shop(job: JobBefore, known: ShopKnown) -> None:
    """Raise EntryFault where a job cannot begin with that figure of a shop."""
    if any(not isinstance(one.body, HandKnown | ForgedWith | ShopKnown) for one in job.entries[1:]):
        raise EntryFault("What is known of the shop is entered as a job begins, before any work on it.")
    if any(isinstance(one.body, ShopKnown) and one.body.what == known.what for one in job.entries):
        raise EntryFault(f"A job begins with one {known.what} of the shop, and this one has it already.")
    from coach.bench.shop_figures import can_be_known

    if not can_be_known(known):
        raise EntryFault(f"No jobs of a shop can have taught that of its {known.what[:40]!r}.")


def takes_lesson(job: JobBefore, lesson: LessonLeftOut) -> None:
    """Raise EntryFault where there is no such lesson to leave out."""
    from coach.bench.shop_figures import shop_figure

    if shop_figure(lesson.what) is None and lesson.what != HAND_OF_SMITH:
        raise EntryFault(f"No figure of a shop is called {lesson.what[:40]!r}.")
    same = (one.body for one in job.state.counted.values() if isinstance(one.body, LessonLeftOut))
    if any(one.what == lesson.what for one in same):
        raise EntryFault(f"What this job taught of the shop's {lesson.what} is left out already.")
