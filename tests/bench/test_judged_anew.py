"""What was told of one reading and is so no more by another is said with the other's answer."""

from __future__ import annotations

from coach.bench.answer import Answer
from coach.bench.session import Session
from coach.telling.entered import answer_text
from coach.telling.writing import Shown
from tests.bench.test_settled_sizes import at_step


def names(answer: Answer) -> list[str]:
    return [check.name for check in answer.others]


def plate_read(number: int) -> tuple[Session, Answer]:
    """The hook's plate: a width that its thickness and its metal do not bear out, read before these."""
    job = at_step("first-hook", number)
    first = job.read("plate.width", "20")
    assert not first.others
    return job, job.read("plate.thickness", "5")


def test_a_size_that_was_good_and_is_questioned_by_the_next_is_said_so() -> None:
    job, answer = plate_read(7)
    assert names(answer) == ["plate.width"]
    assert answer.bad_news
    told = answer_text(answer, Shown())
    assert told.startswith("plate thickness 5 mm: good")
    assert "another is judged anew: plate width 20 mm: that is not what was expected" in told
    # It is said once, by the reading that did it.
    assert names(job.read("plate.length", "44")) == []


def test_a_size_that_was_out_and_is_questioned_by_the_next_is_said_so() -> None:
    _, answer = plate_read(9)
    assert names(answer) == ["plate.width"]


def test_what_counts_again_by_a_strike_or_a_correction_is_said_too() -> None:
    job, thickness = plate_read(7)
    assert names(job.correct(thickness.entry, "4")) == ["plate.width"]  # 16 × 5 mm is 20 × 4 mm
    assert not job.standing().questioned
    job, _ = plate_read(7)
    answer = job.strike()
    assert names(answer) == ["plate.width"]
    assert answer.bad_news  # for 20 is over the 18 that the drawing allows, and punching makes it no narrower


def test_readings_that_bear_each_other_out_say_nothing_of_another() -> None:
    job = at_step("first-hook", 7)
    for name, size in (("plate.width", "16"), ("plate.thickness", "5"), ("plate.length", "44")):
        assert job.read(name, size).others == ()
