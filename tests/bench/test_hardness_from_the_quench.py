"""A hardness read of quenched steel proves the quench or proves it lost, and counts for the verdict."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState, Verdict
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of, begun
from tests.bench.test_file_on_tempered_steel import CHISEL
from tests.told import why


def at_the_quench() -> Session:
    session = begun(CHISEL)
    while session.standing().step.operation != "harden":  # type: ignore[union-attr]
        session.done()
    session.heat()
    return session


# C80 comes out of a quench that took with 63 to 67 HRC: 1095 is told 66, W2 of 1.0 % 67, O1 65 (confirmed
# second-hand), full martensite of 0.8 % carbon 65 (from memory).
@pytest.mark.parametrize("read", ["40", "55", "60"])
def test_a_hardness_that_proves_the_quench_lost_is_out_and_the_job_not_on_plan(read: str) -> None:
    session = at_the_quench()
    answer = session.read("edge.hardness", read)
    told = answer_text(answer, Shown())
    assert answer.bad_news
    assert "at least 63 HRC" in told or "under the 63 HRC" in told
    assert "harden it again" in told
    assert "temper went" not in told  # there was none yet
    standing = session.standing()
    assert standing.verdict is PlanState.TIGHT
    assert "hardness too low" in why(standing)
    assert "do-again-harden-edge" in {way.name for way in session.ways_back()}


@pytest.mark.parametrize("read", ["65", "66", "67"])
def test_a_hardness_of_a_quench_that_took_is_good(read: str) -> None:
    session = at_the_quench()
    assert "good" in answer_text(session.read("edge.hardness", read), Shown())
    assert session.standing().verdict is PlanState.ON_PLAN


@pytest.mark.parametrize("hardness", ["65", "63.5"])  # the second unsure, and inside of what is wanted
def test_a_file_that_bites_beside_a_full_hardness_bites_a_soft_skin(hardness: str) -> None:
    session = at_the_quench()
    session.read("edge.hardness", hardness)
    told = answer_text(session.read("edge.file_test", "fail"), Shown())
    assert "settled by the hardness that was measured" in told
    assert "soft skin" in told


def test_what_no_quench_hardens_right_through_is_not_called_lost() -> None:
    # Bars of 1080 quenched in oil, 1/2 to 1 in, read 42 HRC after 205 °C (from memory).
    session = begun(CHISEL.replace("quench: water", "quench: oil").replace("12", "30"))
    while session.standing().step.operation != "harden":  # type: ignore[union-attr]
        session.done()
    session.read("edge.hardness", "45")
    (check,) = (one for one in session.standing().checks if one.dimension == "hardness")
    assert check.verdict in (None, Verdict.OUT)
    assert write(check.if_out) == ""


def test_of_steel_laid_on_iron_the_hardness_of_the_quench_is_judged_by_the_steel() -> None:
    # 1084 comes out of a quench that took with 63 HRC and more (see above); soft iron reads on no C scale at
    # all (ASTM E140 begins at 20 HRC): 30 HRC is steel that is lost, or read beside it.
    session = at_step_of("hedging-hatchet", 30)
    told = answer_text(session.read("bit.hardness", "30"), Shown())
    assert "out, 33 HRC under the 63 HRC allowed" in told
    assert "On the steel itself, ground clean, it may read more" in told
    assert session.standing().verdict is PlanState.TIGHT
    assert "hardness too low" in why(session.standing())
    assert "do-again-harden-bit" in {way.name for way in session.ways_back()}
