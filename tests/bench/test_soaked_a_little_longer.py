"""A hardening soak a little too long harms the skin alone: grain grows with heat far more than by time."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.entered import answer_text
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL


def soaked(soak: str, *reads: tuple[str, str]) -> tuple[Session, str]:
    session = begun(CHISEL.replace("780 to 810 °C}, quench", f"780 to 810 °C, soak: {soak}}}, quench"))
    while session.standing().step.operation != "harden":  # type: ignore[union-attr]
        session.done()
    told = ""
    for name, typed in reads:
        told = answer_text(session.read(f"edge.{name}", typed), Shown())
    return session, told


@pytest.mark.parametrize("minutes", ["11 min", "15 min"])
def test_a_few_minutes_more_stand_and_it_is_said_what_they_cost(minutes: str) -> None:
    session, told = soaked("5 to 10 min", ("temperature", "795 °C"), ("soak", minutes))
    assert "over the 10 min allowed" in told
    assert "skin" in told
    assert session.standing().to_right == ()
    assert session.standing().verdict is PlanState.ON_PLAN
    assert not [way for way in session.ways_back() if way.name.startswith("do-again")]


def test_a_soak_of_an_hour_is_too_long() -> None:
    session, told = soaked("5 to 10 min", ("soak", "60 min"))
    assert "out, 50 min over the 10 min allowed" in told
    assert [one.text for one in session.standing().to_right] == ["soak too long"]
    assert "do not soak it once more" in told
    # What is not to be done is offered by no way back either.
    assert not [way for way in session.ways_back() if way.name.startswith("do-again")]


@pytest.mark.parametrize("proof", [("file test", "pass"), ("hardness", "66")])
def test_too_long_a_soak_is_proved_by_what_is_hard_under_its_skin(proof: tuple[str, str]) -> None:
    # By time at a hardening heat the skin loses carbon; the grain hardly grows (common practice, no source).
    session, _ = soaked("5 to 10 min", ("temperature", "795 °C"), ("soak", "40 min"), proof)
    assert session.standing().to_right == ()


def test_the_same_minutes_at_too_high_a_heat_are_still_to_put_right() -> None:
    session, _ = soaked("5 to 10 min", ("temperature", "900 °C"), ("soak", "11 min"))
    assert [one.text for one in session.standing().to_right] == ["temperature too high"]


def test_a_bare_soak_is_a_least_time_and_is_held_as_long_as_the_steel_is() -> None:
    # 5 to 10 min for plain carbon steel: common practice, no source, as the step itself says.
    session, told = soaked("5 min", ("soak", "8 min"))
    assert ": good" in told
    assert session.standing().to_right == ()
