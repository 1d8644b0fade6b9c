"""What is told of the magnet at a quench: of an iron body only where the tool has one."""

from __future__ import annotations

import pytest

from coach.telling.entered import answer_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of


@pytest.mark.parametrize(
    ("name", "number", "told"),
    [("drawknife", 13, False), ("cold-chisel", 9, False), ("hedging-hatchet", 30, True)],
)
def test_an_iron_body_is_spoken_of_where_there_is_one(name: str, number: int, told: bool) -> None:
    # Iron pulls up to its Curie point, 770 °C, steel until it has turned (from memory).
    step = at_step_of(name, number).standing().step
    assert step is not None
    advice = " ".join(write(one) for one in step.advice)
    assert "lets go of the magnet" in advice
    assert ("iron body" in advice) is told


def test_a_magnet_that_lets_go_of_cold_hard_steel_is_questioned() -> None:
    # Steel lets go at 770 °C at the latest (Curie, any book of physics), and not before it turns.
    job = at_step_of("drawknife", 15)
    told = answer_text(job.read("blade.magnet", "pass"), Shown())
    assert "cannot be right as things stand, a magnet holds on hard steel" in told
    assert "cannot be right" not in answer_text(job.read("blade.magnet", "fail"), Shown())
