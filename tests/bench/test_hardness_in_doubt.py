"""A hardness inside its limits, near one of them, asks for another measurement; several settle it."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import Verdict
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

# The drawknife's edge is to be 55 to 58 HRC. One reading is ±0.7 HRC (standard uncertainty: common practice,
# no source), the mean of n of them 0.7 / sqrt(n) (JCGM 100:2008, 4.2.3), and it is good or out by 95 % on one
# side, 1.645 of those (JCGM 106:2012): 1.15 for one, 0.81 for two, 0.66 for three, 0.41 for eight.
TEMPER = 14


def at_the_temper() -> Session:
    return at_step_of("drawknife", TEMPER)


def verdict(session: Session) -> Verdict | None:
    return next(one.verdict for one in session.standing().checks if one.dimension == "hardness")


def tempered_twice(session: Session) -> None:
    for name, read in [("temperature", "180"), ("soak", "2h"), ("hardness", "62"), ("temperature", "235")]:
        session.read(f"blade.{name}", read)


def test_a_doubt_inside_the_limits_after_a_second_temper_sends_nobody_to_the_quench() -> None:
    session = at_the_temper()
    tempered_twice(session)
    told = answer_text(session.read("blade.hardness", "56"), Shown())
    assert verdict(session) is Verdict.UNSURE  # 56 - 55 = 1.0
    assert "measure again" in told
    assert "Put it right" not in told
    assert [one.name for one in session.ways_back() if one.name.startswith("do-again")] == []
    (right,) = session.standing().to_right
    assert "hardness in doubt" in write(right.words)


@pytest.mark.parametrize(
    ("reads", "found"),
    [
        (("56",), Verdict.UNSURE),  # 1.0 inside
        (("56", "56"), Verdict.GOOD),
        (("56", "57"), Verdict.GOOD),  # 56.5
        (("55.5", "55.5"), Verdict.UNSURE),  # 0.5 inside
        (("55.5",) * 8, Verdict.GOOD),
        (("54.3",) * 2, Verdict.UNSURE),  # 0.7 outside
        (("54.3",) * 3, Verdict.OUT),
    ],
)
def test_readings_of_one_treatment_settle_it_by_their_mean(reads: tuple[str, ...], found: Verdict) -> None:
    session = at_the_temper()
    tempered_twice(session)
    for read in reads:
        session.read("blade.hardness", read)
    assert verdict(session) is found


def test_the_mean_is_told() -> None:
    session = at_the_temper()
    tempered_twice(session)
    session.read("blade.hardness", "56")
    told = answer_text(session.read("blade.hardness", "57"), Shown())
    assert "56.5 HRC as the mean of 2: good" in told
    assert session.standing().to_right == ()


@pytest.mark.parametrize("between", ["a heat", "too far apart"])
def test_readings_of_another_treatment_do_not_count_with_it(between: str) -> None:
    session = at_the_temper()
    tempered_twice(session)
    if between == "a heat":
        session.read("blade.hardness", "57")
        session.read("blade.temperature", "240")
    else:
        session.read("blade.hardness", "59")  # 3 HRC from 56: more than chance, 1.645 x 0.7 x sqrt(2) = 1.63
    session.read("blade.hardness", "56")
    assert verdict(session) is Verdict.UNSURE
