"""A hardening soak a little too long harms the skin alone: grain grows with heat far more than by time."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.bench.test_file_on_tempered_steel import CHISEL
from tests.told import why


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


# By heat the grain grows, and what is coarse is not quenched (see test_overheated.py).
@pytest.mark.parametrize("soak_first", [False, True])
def test_too_long_at_too_high_a_heat_is_not_told_to_be_quenched(*, soak_first: bool) -> None:
    reads = [("temperature", "920 °C"), ("soak", "40 min")]
    session, told = soaked("5 to 10 min", *(reversed(reads) if soak_first else reads))
    texts = [told, why(session.standing()), *(write(one.if_out) for one in session.standing().checks)]
    assert any("do not quench it" in one for one in texts)
    assert not any("hardly grown" in one for one in texts)


def skin_of(session: Session) -> float:
    return next((one.now.value for one in session.standing().skins if one.steel == "edge"), 0.0)


def test_the_skin_is_as_deep_as_the_heat_and_the_soak_that_were_read_make_it() -> None:
    # 30 min at 900 °C, where the diffusivity of 0.8 % carbon is 1.456e-11 m²/s (J. Ågren, Scripta
    # Metallurgica 20 (1986), 1507, confirmed second-hand): 2 erf⁻¹(0.9) √(D t) = 2 · 1.163 · 0.162 mm.
    as_asked, _ = soaked("5 to 10 min", ("temperature", "795 °C"), ("soak", "10 min"))
    plain, _ = soaked("5 to 10 min")
    plain.heat()
    assert skin_of(as_asked) == pytest.approx(skin_of(plain), abs=0.02)
    over, _ = soaked("5 to 10 min", ("temperature", "900 °C"), ("soak", "30 min"))
    assert skin_of(over) >= 0.376
    assert skin_of(over) > skin_of(as_asked) + 0.05
    over.done()
    assert skin_of(over) >= 0.376
