"""A section that was read twice with no heat between, and the length that tells which of the two is odd.

By hand, of the meat fork: its stem has 111 mm of a bar 20 x 8, which is 17 760 mm3. At 8.1 mm square, less
what the corners are off, that is some 270 mm long, at 6.9 mm some 370 and at 10.2 mm some 170. So 262 mm and
8.1 mm say the same thing, and 6.9 or 10.2 is the odd one.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import permutations

import pytest

from coach.bench.session import Session
from coach.telling.entered import answer_text
from coach.telling.reading import reading_sentence
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

SIDE, LENGTH = "stem.side", "stem.length"


def stem() -> Session:
    """The fork's stem after two of the five heats that draw it to 8 ±0.7 mm and 260 ±30 mm."""
    job = at_step_of("meat-fork", 8)
    job.heat()
    job.heat()
    return job


def verdicts(job: Session) -> tuple[str, str]:
    checks = {one.name: one for one in job.standing().checks}
    return str(checks[SIDE].verdict), str(checks[LENGTH].verdict)


def said(job: Session, name: str) -> str:
    return reading_sentence(next(one for one in job.standing().checks if one.name == name), Shown("mm"))


@pytest.mark.parametrize("order", list(permutations([(SIDE, "8.1"), (SIDE, "6.9"), (LENGTH, "262")])))
def test_the_two_that_agree_count_and_not_the_last_that_was_typed(order: Sequence[tuple[str, str]]) -> None:
    job = stem()
    for one in order:
        job.read(*one)
    assert verdicts(job) == ("good", "good")
    assert job.standing().verdict == "on plan"
    assert not job.standing().questioned
    assert "6.9 mm" in said(job, SIDE)
    assert "doubted" in said(job, SIDE)


@pytest.mark.parametrize("order", list(permutations([(SIDE, "8.1"), (SIDE, "10.2"), (LENGTH, "262")])))
def test_a_length_is_not_old_for_a_section_that_it_could_never_have_had(
    order: Sequence[tuple[str, str]],
) -> None:
    job = stem()
    for one in order:
        job.read(*one)
    assert verdicts(job) == ("good", "good")
    assert not job.standing().questioned


def test_the_section_that_stands_again_is_said_with_the_length_that_bears_it_out() -> None:
    job = stem()
    job.read(SIDE, "8.1")
    job.read(SIDE, "6.9")
    told = answer_text(job.read(LENGTH, "262"), Shown("mm"))
    assert "By it another is judged anew: stem side 8.1 mm: good" in told
    assert "6.9 mm, read with no heat between, is doubted" in told


@pytest.mark.parametrize("insist", [False, True])
def test_the_odd_one_stands_once_it_is_read_again_or_stood_by(insist: bool) -> None:
    job = stem()
    job.read(SIDE, "8.1")
    job.read(LENGTH, "262")
    job.read(SIDE, "6.9")
    job.read(SIDE, "6.9", insist=insist)
    assert verdicts(job)[0] == "gone past"


def test_what_was_drawn_further_within_what_is_wanted_was_worked_and_its_length_is_old() -> None:
    """9.5 mm square is some 197 mm long: both were so, and 8.1 is what the same heat's blows made of it."""
    job = stem()
    job.read(SIDE, "9.5")
    job.read(LENGTH, "197")
    job.read(SIDE, "8.1")
    assert "doubted" not in said(job, SIDE)
    assert verdicts(job)[0] == "good"
    assert verdicts(job)[1] != "good"


JAW = "arm 1 jaw"


@pytest.mark.parametrize(
    "order",
    list(
        permutations(
            [("length", "36.5"), ("thickness", "15.1"), ("thickness", "13.4"), ("thickness", "13.3")]
        )
    ),
)
def test_two_thicknesses_and_a_length_that_go_together_outvote_a_third_in_whatever_order(
    order: Sequence[tuple[str, str]],
) -> None:
    """A jaw of 8840 mm3: 13.35 thick it is 36.5 long beside its other sizes (242 mm2), not 15.1."""
    job = at_step_of("bolt-tongs", 5)
    job.heat()
    job.heat()
    for name, size in order:
        job.read(f"{JAW}.{name}", size)
    checks = {one.name: one for one in job.standing().checks}
    assert str(checks[f"{JAW}.thickness"].verdict) == "good"
    assert str(checks[f"{JAW}.length"].verdict) == "good"
    assert not job.standing().questioned


@pytest.mark.parametrize("at", range(6))
def test_five_sizes_that_go_together_outvote_a_sixth_wherever_it_was_typed(at: int) -> None:
    job = at_step_of("bolt-tongs", 5)
    job.heat()
    job.heat()
    sizes = [
        ("width", "22.3"),
        ("thickness", "13.3"),
        ("end_width", "19.2"),
        ("end_thickness", "9.9"),
        ("length", "36.5"),
    ]
    sizes.insert(at, ("thickness", "11.3"))
    for name, size in sizes:
        job.read(f"{JAW}.{name}", size)
    checks = {one.name: one for one in job.standing().checks}
    assert {str(checks[f"{JAW}.{name}"].verdict) for name, _ in sizes} == {"good"}
    assert "11.3 mm" in said(job, f"{JAW}.thickness")
    assert "doubted" in said(job, f"{JAW}.thickness")
    assert job.standing().verdict == "on plan"
