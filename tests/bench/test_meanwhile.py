"""What another window enters between what is seen here and what is entered here."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from coach.bench.entering import EntryFault
from coach.bench.meanwhile import all_apart, on_top
from coach.bench.session import Session
from coach.log.errors import OutOfDate
from coach.telling.entered import answer_text
from coach.telling.writing import Shown
from tests.bench.jobs import begun, shop
from tests.ledger.recipes import DRAW

Deed = Callable[[Session], object]

#: What means the same whatever came before it; entry 2 is a reading, entry 3 a thing to put right.
WHATEVER_CAME: list[Deed] = [
    lambda job: job.note("tongs slip"),
    lambda job: job.to_right("not closed at the heel"),
    lambda job: job.righted(3),
    lambda job: job.correct(2, "40.4"),
    lambda job: job.strike(2),
    lambda job: job.set_aside(),
]
#: What another window may have entered unseen before anything at all.
APART: list[Deed] = [
    lambda job: job.note("the fire is clinkered"),
    lambda job: job.to_right("a cold shut"),
    lambda job: job.righted(3),
]
#: What depends on how the work stands, and changes it.
WORK: list[Deed] = [
    lambda job: job.heat(),
    lambda job: job.done(),
    lambda job: job.read("strap.width", "40.2"),
    lambda job: job.rest(force=True),
    lambda job: job.fire(),
]


@pytest.fixture
def windows(tmp_path: Path) -> Iterator[tuple[Session, Session]]:
    """One job in two windows, of which each has seen all there is."""
    with shop(tmp_path / "shop.log") as one, shop(tmp_path / "shop.log") as other:
        here = begun(DRAW, one)
        here.read("strap.width", "44")
        here.to_right("a scale pit")
        yield here, other.open(here.job)


@pytest.mark.parametrize("other", [*APART[:2], *WORK])
@pytest.mark.parametrize("deed", WHATEVER_CAME)
def test_what_means_the_same_is_entered_on_top_of_what_came_before(
    windows: tuple[Session, Session], deed: Deed, other: Deed
) -> None:
    here, there = windows
    other(there)
    deed(here)
    kinds = [one.kind for one in here.history()]
    assert len(kinds) == 5
    assert there.refresh()
    assert there.standing() == here.standing()


@pytest.mark.parametrize("other", APART)
@pytest.mark.parametrize("deed", WORK)
def test_work_is_entered_on_top_of_notes(windows: tuple[Session, Session], deed: Deed, other: Deed) -> None:
    here, there = windows
    other(there)
    deed(here)
    assert there.refresh()
    assert there.standing() == here.standing()


@pytest.mark.parametrize("other", WORK)
@pytest.mark.parametrize("deed", WORK)
def test_work_is_not_entered_on_top_of_work_that_was_not_seen(
    windows: tuple[Session, Session], deed: Deed, other: Deed
) -> None:
    here, there = windows
    other(there)
    with pytest.raises(OutOfDate):
        deed(here)
    assert here.standing() == there.standing()


def test_the_answer_tells_what_came_before_it(windows: tuple[Session, Session]) -> None:
    here, there = windows
    there.note("the fire is clinkered")
    there.heat()
    told = answer_text(here.note("tongs slip"), Shown())
    assert told == "Noted. Entered elsewhere before that: 1 more, and last heat."
    assert answer_text(here.note("they slip still"), Shown()) == "Noted."


def test_what_another_window_has_done_already_is_refused_as_ever(windows: tuple[Session, Session]) -> None:
    here, there = windows
    there.righted(3)
    with pytest.raises(EntryFault, match="There is nothing to put right with the number 3"):
        here.righted(3)
    there.refresh()
    there.set_aside()
    with pytest.raises(EntryFault, match="The job is set aside already"):
        here.set_aside()


def test_undo_takes_back_what_was_seen_here(windows: tuple[Session, Session]) -> None:
    here, there = windows
    heat = here.heat().entry
    there.refresh()
    there.note("the fire is clinkered")
    here.strike()
    assert [one.number for one in here.history() if one.struck] == [heat]


def test_several_readings_are_entered_together_on_top_of_a_note(windows: tuple[Session, Session]) -> None:
    here, there = windows
    there.note("the fire is clinkered")

    def both() -> list[int]:
        with here.together():
            return [here.read("strap.width", "40").entry, here.read("strap.thickness", "8").entry]

    (entries, missed) = on_top(both, all_apart)
    assert (entries, [one.kind for one in missed]) == ([5, 6], ["note"])


def test_a_window_that_is_never_first_is_told_so_at_last() -> None:
    tries: list[int] = []
    job = begun(DRAW)
    note = job.note("the fire is clinkered")

    def late() -> None:
        tries.append(note.entry)
        raise OutOfDate("gone on elsewhere", tuple(job._entries[-1:]))

    with pytest.raises(OutOfDate):
        on_top(late, all_apart)
    assert 2 <= len(tries) <= 20
