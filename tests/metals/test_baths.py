"""What a bath does to a steel is told alike wherever it is told, from one table."""

from __future__ import annotations

import pytest

from coach.bench.step import step_to_do
from coach.metals.baths import FIERCENESS, is_fiercer
from coach.metals.grade import grade, grades
from coach.metals.grade_file import Grade
from coach.metals.quenches import QUENCHES
from coach.metals.tempering_table import tempering_row
from coach.reckoner.temper import read_temper_heat, reckon
from coach.telling.words import write
from tests.ledger.recipes import planned
from tests.ledger.test_weigh_treatment import BAR

QUENCHED = [one for one in grades() if one.quench is not None and tempering_row(one.name) is not None]


def test_every_bath_has_its_place_among_the_fiercer_and_the_milder() -> None:
    assert sorted(FIERCENESS) == sorted(QUENCHES)


@pytest.mark.parametrize("bath", [one for one in QUENCHES if one != "air"])
@pytest.mark.parametrize("metal", QUENCHED, ids=lambda one: one.name)
def test_the_bench_and_the_question_of_a_temper_say_the_same_of_a_bath(metal: Grade, bath: str) -> None:
    assert metal.quench is not None
    at_c = f"{metal.tempering_low_c or 205:g}"
    answer = reckon(metal, at=read_temper_heat(at_c), thick=8.0, quench=bath)
    asked = " ".join(one if isinstance(one, str) else write(one) for one in answer.remarks)
    text = BAR.replace('"1084"', f'"{metal.name}"').replace("fast oil", bath)
    plan = planned(text)
    step = next(one for one in plan.recipe.steps if one.operation == "harden")
    known = " ".join(map(write, step_to_do(plan, step).know))
    cracks = f"can crack in {bath}" in asked
    assert cracks is (f"{bath} can crack it" in known)
    # Hot salt is used against cracks (from memory).
    assert cracks is (bath != "salt" and is_fiercer(bath, metal.quench.medium))
    assert ("may leave it soft" in asked) is ("may leave it soft" in known)
    assert ("is quenched in" in asked) is (bath != metal.quench.medium)


def test_brine_is_told_to_crack_what_is_quenched_in_water() -> None:
    # Brine quenches faster than water (Grossmann's severities, from memory).
    told = reckon(grade("C45"), at=read_temper_heat("205"), quench="brine").remarks
    assert any("can crack in brine" in str(one) for one in told)
