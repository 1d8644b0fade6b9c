"""Marks that were made before the drawing was changed are told as that, and judged by neither drawing."""

from __future__ import annotations

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.ledger.verdict import Verdict
from coach.telling.reading import reading_sentence
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

#: Hay fork: 86.1 mm are marked for tines of 250 mm, 99.8 mm for 290.
MARKS = (("tines.mark", "86"), ("neck.mark", "118"), ("socket.mark", "207"))


def marked() -> Session:
    job = at_step_of("hay-fork", 1)
    for name, size in MARKS:
        job.read(name, size)
    return job


def check_of(job: Session, name: str) -> Check:
    return next(check for check in job.standing().checks if check.name == name)


def test_marks_made_before_the_drawing_was_changed_are_old_and_asked_for_again() -> None:
    job = marked()
    job.change("tines.length=290 ±30")
    for name, _ in MARKS:
        check = check_of(job, name)
        assert check.is_open
        assert check.verdict is None
        assert "marked before the drawing was changed. Make it anew" in reading_sentence(check, Shown())
    job.read("tines.mark", "99.8")
    assert check_of(job, "tines.mark").verdict is Verdict.GOOD
    job.read("neck.mark", "118")  # there it lies, and is read after the change
    assert check_of(job, "neck.mark").verdict is not Verdict.GOOD


def test_a_mark_that_lies_where_the_new_drawing_wants_it_stays_good() -> None:
    job = marked()
    job.change("socket.length=107 ±14")
    assert check_of(job, "tines.mark").verdict is Verdict.GOOD


def test_so_are_they_when_it_goes_back_to_their_step() -> None:
    job = marked()
    job.done()
    job.change("tines.length=220 ±30")
    job.back()
    told = reading_sentence(check_of(job, "tines.mark"), Shown())
    assert "marked before the drawing was changed" in told


def test_a_mark_read_from_paper_is_held_to_the_drawing_that_it_was_made_for() -> None:
    job = marked()
    job.done()
    job.change("tines.length=220 ±30")
    answer = job.read("tines.mark", "82", then=job.then(1))
    (check,) = [one for one in (answer.did,) if isinstance(one, Check)]
    # 86.1 − 82 = 4.1 off the place that was marked; the new drawing would have 75.8 there.
    assert check.wanted is not None
    assert abs(check.wanted.limits.nominal - 86.1) < 0.1
    assert "that is 4.1 mm off its place" in reading_sentence(check, Shown())
