"""What a quench warped is out, and is straightened warm: glass-hard steel is never bent cold."""

from __future__ import annotations

from coach.bench.session import Session
from coach.ledger.verdict import PlanState, Verdict
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL
from tests.told import why

WARPED = CHISEL.replace(
    "{temperature: 780 to 810 °C}, quench: water, heats: 1, check: [file test]",
    "{temperature: 780 to 810 °C, warp: at most 1}, quench: water, heats: 1, check: [warp]",
)


def at_the_quench() -> Session:
    session = begun(WARPED)
    session.done()
    return session


def test_a_warp_beyond_what_is_allowed_is_out_and_not_more_to_go() -> None:
    session = at_the_quench()
    answer = session.read("edge.warp", "3")
    told = answer_text(answer, Shown())
    (check,) = (one for one in session.standing().checks if one.dimension == "warp")
    assert check.verdict is Verdict.OUT
    assert answer.bad_news
    assert "more to go" not in told
    assert "out, 2 mm over the 1 mm allowed" in told
    # Above about 200 °C quenched steel gives still; cold and before its temper it snaps (common practice).
    assert "above 200 °C" in told
    assert "never cold before the temper" in told


def test_the_job_is_not_on_plan_and_its_reason_says_how_it_is_straightened() -> None:
    session = at_the_quench()
    session.read("edge.warp", "3")
    for _ in range(2):
        standing = session.standing()
        assert standing.verdict is PlanState.TIGHT
        assert "warp too high" in why(standing)
        assert "never cold before the temper" in why(standing)
        session.done()


def test_straight_after_the_temper_it_is_nothing_to_put_right() -> None:
    session = at_the_quench()
    session.read("edge.warp", "3")
    session.done()
    session.read("edge.warp", "0.3")
    assert [write(one.words) for one in session.standing().to_right] == []
