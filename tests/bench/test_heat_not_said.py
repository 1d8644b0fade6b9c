"""A quench or a temper whose step says no heat is held to its steel's own, and asked about beforehand."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import Verdict
from coach.ledger.weigh_treatment import unusual_treatment
from coach.telling.words import write
from tests.bench.jobs import begun

BAR = """
title: Hardened bar
pieces:
  body: {metal: O1, stock: {form: square, side: 12}, zones: [end, butt]}
drawing:
  end: {form: square, side: 11 ±1, length: 60 ±8}
  butt: {form: square, side: 12, length: 60 ±8}
steps:
  - {do: draw, zone: end, to: {side: 11 ±1}, heats: 1}
  - {do: harden, zone: end, quench: oil, heats: 1}
  - {do: temper, zone: end}
  - {do: inspect, zone: end, check: [crack test]}
"""


def at(operation: str, text: str = BAR) -> Session:
    session = begun(text)
    while (step := session.standing().step) is not None and step.operation != operation:
        session.done()
    return session


def verdict(session: Session, name: str, typed: str) -> Verdict | None:
    session.read(name, typed)
    (check,) = (one for one in session.standing().checks if one.name == name)
    return check.verdict


# O1 from 788 to 816 °C (1450 to 1500 °F, facts part B §9); 1 % C burns far under 1357 °C (solidus).
@pytest.mark.parametrize(
    ("heat", "told"), [("600 °C", Verdict.OUT), ("800 °C", Verdict.GOOD), ("1100 °C", Verdict.OUT)]
)
def test_a_quench_is_held_to_the_heats_of_its_steel(heat: str, told: Verdict) -> None:
    assert verdict(at("harden"), "end.temperature", heat) is told


# O1 is tempered at 177 to 260 °C (350 to 500 °F, facts part B §9); at 750 °C it has begun to turn.
@pytest.mark.parametrize(("heat", "told"), [("205 °C", Verdict.GOOD), ("750 °C", Verdict.OUT)])
def test_a_temper_is_held_to_the_heats_of_its_steel(heat: str, told: Verdict) -> None:
    assert verdict(at("temper"), "end.temperature", heat) is told


# O1 after 177 °C: 62.5 HRC, after 260 °C 60 (a merchant's sheet, facts part D2); 65 as quenched.
@pytest.mark.parametrize(("hrc", "told"), [("61", Verdict.GOOD), ("67", Verdict.OUT), ("45", Verdict.OUT)])
def test_a_hardness_is_held_to_what_those_heats_leave(hrc: str, told: Verdict) -> None:
    assert verdict(at("temper"), "end.hardness", hrc) is told


def test_where_a_hardness_is_said_the_heats_are_those_that_leave_it() -> None:
    # O1: 57 HRC after 316 °C, 53 after 371 (a merchant's sheet, facts part D2).
    text = BAR.replace("{do: temper, zone: end}", "{do: temper, zone: end, to: {hardness: 53 to 57}}")
    assert verdict(at("temper", text), "end.temperature", "340 °C") is Verdict.GOOD
    assert verdict(at("temper", text), "end.temperature", "205 °C") is Verdict.OUT
    # By C = 20 (Hollomon and Jaffe) 3 min at 644 K · 20.18 / 18.70 = 695 K, 422 °C, does what 371 °C does.
    assert verdict(at("temper", text), "end.temperature", "400 °C") is Verdict.GOOD
    assert verdict(at("temper", text), "end.temperature", "480 °C") is Verdict.OUT


def test_check_asks_for_a_heat_that_is_not_said() -> None:
    session = begun(BAR)
    plan = session.plan
    told = {
        step.number: " ".join(write(one) for one in unusual_treatment(plan, step))
        for step in plan.recipe.steps
    }
    assert "O1 is hardened at 790 to 815 °C" in told[2]
    assert "O1 is tempered at 177 to 260 °C" in told[3]


def test_the_card_of_such_a_temper_tells_its_steels_heats_and_colours() -> None:
    session = at("temper")
    step = session.standing().step
    assert step is not None
    told = " ".join(write(one) for one in step.know)
    assert "O1 is tempered from 177 to 260 °C" in told  # facts part B §9
    assert "up to blue" in told


def test_a_temper_that_soaks_is_held_at_its_heat_and_stops_at_no_colour() -> None:
    # After an hour in an oven a colour tells nothing (common practice, no source).
    soaked = BAR.replace(
        "{do: temper, zone: end}", "{do: temper, zone: end, to: {temperature: 205 ±10 °C, soak: 1 h}}"
    )
    step = at("temper", soaked).standing().step
    assert step is not None
    assert "colour" not in step.how
    assert "hold it there" in step.how
    by_colour = at("temper").standing().step
    assert by_colour is not None
    assert "until the colour wanted reaches the edge" in by_colour.how


@pytest.mark.parametrize(
    ("seen", "told"),
    [
        ("reddish purple", Verdict.GOOD),
        ("straw", Verdict.OUT),
        ("200 °C", Verdict.OUT),
        ("273 °C", Verdict.GOOD),
    ],
)
def test_a_temper_run_to_a_colour_is_held_to_it(seen: str, told: Verdict) -> None:
    # Reddish purple 510 to 530 °F, straw 450 to 475 °F (the published tables of temper-colours.toml).
    coloured = BAR.replace("{do: temper, zone: end}", "{do: temper, zone: end, colour: reddish purple}")
    assert verdict(at("temper", coloured), "end.temperature", seen) is told
