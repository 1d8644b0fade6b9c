"""A test of the shop that is made where it can say nothing is told so, whatever came of it."""

from __future__ import annotations

import pytest

from coach.telling.entered import answer_text
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of


@pytest.mark.parametrize(
    ("name", "number", "check"),
    [
        # Steel that no quench has hardened is filed, chopped with and sprung for nothing (common practice).
        ("cold-chisel", 6, "edge.file test"),
        ("hedging-hatchet", 20, "bit.chop test"),
        ("drawknife", 5, "blade.flex test"),
    ],
)
def test_a_pass_before_the_quench_proves_nothing_yet(name: str, number: int, check: str) -> None:
    told = answer_text(at_step_of(name, number).read(check, "pass"), Shown())
    assert "proves nothing yet" in told
    assert "is the first to treat" in told


@pytest.mark.parametrize(
    ("name", "number", "zone"), [("cold-chisel", 12, "shank"), ("hedging-hatchet", 32, "poll")]
)
def test_a_file_that_skates_over_what_no_step_hardens_is_told(name: str, number: int, zone: str) -> None:
    told = answer_text(at_step_of(name, number).read(f"{zone}.file test", "pass"), Shown())
    assert "hard" in told
    assert "no step hardens it" in told
