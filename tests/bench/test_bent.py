"""A piece that was bent: by how much, against what the step ahead that trues it allows, and its cure."""

from __future__ import annotations

import pytest

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

#: The drawknife is straightened at step 10, a bow of 1 mm at the most; it is hardened at step 13.
BEVEL, HARD = 7, 14


def told(job: Session, zone: str, typed: str) -> str:
    return write(job.bent_by(zone, typed), Shown("mm"))


@pytest.mark.parametrize(("bow", "what"), [("4", "takes it out"), ("0.8", "allows that")])
def test_a_bow_is_told_against_the_step_ahead_that_trues_it(bow: str, what: str) -> None:
    words = told(at_step_of("drawknife", BEVEL), "blade", bow)
    assert words.startswith(
        f"bowed by {bow} mm: step 10, Straighten the blade, {what}, with 1 mm at the most"
    )


def test_where_none_is_ahead_the_cure_is_told() -> None:
    words = told(at_step_of("drawknife", BEVEL), "left tang", "3")
    assert words.startswith("bowed by 3 mm: one more heat at orange, laid hollow side down")


def test_an_angle_is_bent_back_by_as_much() -> None:
    assert "bent by 12°" in told(at_step_of("drawknife", BEVEL), "left tang", "12 deg")
    assert "bent back by 12°" in told(at_step_of("drawknife", BEVEL), "left tang", "12°")


def test_what_is_hard_is_not_struck_straight() -> None:
    job = at_step_of("drawknife", HARD)
    assert "not struck cold" in told(job, "blade", "2")
    assert "not struck cold" not in told(job, "left tang", "2")


def test_what_is_neither_is_told_where_it_stands() -> None:
    with pytest.raises(EntryFault, match="By how much it is bent: "):
        at_step_of("drawknife", BEVEL).bent_by("blade", "a lot")


def test_a_bow_is_read_while_the_zone_is_forged() -> None:
    job = at_step_of("drawknife", BEVEL)
    answer = job.read("blade.bow", "3")
    told_of_it = write(answer.beware, Shown("mm"))
    assert told_of_it == "step 10, Straighten the blade, takes it out, with 1 mm at the most."
    answer = at_step_of("drawknife", 3).read("left tang.wind", "2")
    assert "one end held fast and the other turned back" in write(answer.beware, Shown("mm"))


def test_where_it_is_asked_for_it_is_judged_as_ever() -> None:
    job = at_step_of("drawknife", 10)
    assert not job.read("blade.bow", "0.6").beware


def test_what_was_noted_of_a_bow_goes_by_the_steps_as_they_are_now() -> None:
    job = at_step_of("drawknife", BEVEL)
    job.to_right(f"blade: {told(job, 'blade', '4')}")

    def noted() -> str:
        (one,) = job.standing().to_right
        return one.text

    assert "step 10, Straighten the blade, takes it out, with 1 mm at the most. Then look" in noted()
    job.change("add after 7: inspect: blade")
    assert "step 11, Straighten the blade, takes it out, with 1 mm at the most. Then look" in noted()
    job.change("skip 11")
    assert "step" not in noted()
    assert noted().startswith("bowed by 4 mm: one more heat at orange, laid hollow side down")
    assert noted().endswith("Then look for a crack; what was read of it may have changed")
    job.strike()
    assert "step 11, Straighten the blade" in noted()


def test_what_a_smith_has_written_of_a_step_stays_as_it_is() -> None:
    job = at_step_of("drawknife", BEVEL)
    job.to_right("blade: bowed by the vice, see step 3, Mark out")
    job.change("add after 7: inspect: blade")
    assert [one.text for one in job.standing().to_right] == ["bowed by the vice, see step 3, Mark out"]


def test_a_bow_noted_before_a_step_that_is_done_is_not_said_to_be_taken_out_by_it() -> None:
    job = at_step_of("drawknife", 10)
    job.to_right(f"blade: {told(job, 'blade', '4')}")

    def noted() -> str:
        return next(one.text for one in job.standing().to_right if one.text.startswith("bowed"))

    assert "step 10, Straighten the blade, takes it out" in noted()
    job.done()
    behind = "bowed by 4 mm: step 10, Straighten the blade, is done: see whether it is out. If not, "
    assert noted().startswith(f"{behind}one more heat at orange, laid hollow side down")
    while len(job.standing().done) < HARD - 1:
        job.done()
    assert noted().startswith(f"{behind}it is hard there, so it is not struck cold: look for a crack first")


def test_a_bow_that_a_straightening_does_not_ask_for_is_told_with_its_cure() -> None:
    job = at_step_of("hedging-hatchet", 25)  # it trues the edge line, and asks for the wind alone
    job.heat()
    job.read("bit.wind", "0.5")
    said = answer_text(job.read("bit.bow", "3"), Shown("mm"))
    assert "hollow side down" in said
