"""What is asked for a proposal is answered in the units that were chosen."""

from __future__ import annotations

import pytest

from coach.drafting.answers import CannotDraft
from coach.drafting.draft import drafted
from coach.drafting.questions import Interview

INCHES = (
    "Draw hook",
    "in",
    "mild steel",
    "round 1/2",
    "point: round 1/2 to 3/16, long 3 1/2",
    "shank: round 1/2, long 12 in",
)
MILLIMETRES = (
    "Draw hook",
    "mm",
    "mild steel",
    "round 12",
    "point: round 12 to 5, long 90",
    "shank: round 12, long 300",
)


@pytest.mark.parametrize("answers", [INCHES, MILLIMETRES])
def test_a_bar_and_zones_are_taken_in_the_units_of_the_file(answers: tuple[str, ...]) -> None:
    interview = Interview()
    for answer in answers:
        interview.answer(answer)
    while interview.question is not None:
        interview.answer("")
    told = interview.answers()
    assert (told.units, told.bar) == (answers[1], answers[3])
    assert list(told.zones) == ["point", "shank"]
    assert drafted(told)


@pytest.mark.parametrize("units", ["mm", "in"])
def test_what_is_told_as_an_example_can_be_answered(units: str) -> None:
    interview = Interview()
    for answer in ("Draw hook", units, "mild steel"):
        interview.answer(answer)
    for _ in ("bar", "zone 1"):
        asked = interview.question
        assert asked is not None
        interview.answer(asked.such_as)
    assert list(interview.answers().zones) == ["blade"]


def test_a_zone_without_its_size_is_asked_for_in_the_units_of_the_file() -> None:
    interview = Interview()
    for answer in INCHES[:4]:
        interview.answer(answer)
    with pytest.raises(CannotDraft, match="as in blade: 1 1/2 x 1/4"):
        interview.answer("point")


STEELED = (
    "Cutter",
    "mm",
    "wrought iron",
    "40 x 12",
    "cutter: 40 x 12, long 60",
    "stem: 20 x 12, long 150",
    "",
)


@pytest.mark.parametrize(
    ("before", "typed", "told"),
    [
        ((), "cutter", "which is stem: answer stem or none"),
        (("none",), "cutter", "wrought iron"),
        (("none", "none"), "yes", "A haft wants an eye"),
    ],
)
def test_what_no_recipe_follows_from_is_refused_at_its_own_question(
    before: tuple[str, ...], typed: str, told: str
) -> None:
    interview = Interview()
    for answer in (*STEELED, *before):
        interview.answer(answer)
    asked = interview.question
    with pytest.raises(CannotDraft, match=told):
        interview.answer(typed)
    assert interview.question == asked


def test_what_was_answered_before_going_back_is_usual_when_it_is_asked_again() -> None:
    interview = Interview()
    for answer in (*MILLIMETRES, "", "none"):
        interview.answer(answer)
    while len(interview.told) > 3:
        interview.back()
    interview.answer("round 16")  # the bar alone is another
    question = interview.question
    assert question is not None
    assert question.usual == "point: round 12 to 5, long 90"
    interview.answer("")
    interview.answer("no more")  # and one zone less
    assert list(interview.answers().zones) == ["point"]
    assert interview.answers().bar == "round 16"
    while interview.question is not None:
        interview.answer("")
    assert drafted(interview.answers())
