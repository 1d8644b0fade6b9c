"""Steel from an oil bath is wiped before it is tempered: the oil smokes, and can take fire."""

from __future__ import annotations

import pytest

from coach.bench.step import step_to_do
from coach.ledger.looking_back import look_back
from coach.recipe.reader import read_recipe
from tests.bench.test_changes import CHISEL


# Parts are washed of quench oil before they are tempered: ASM Handbook vol. 4 (from memory).
@pytest.mark.parametrize(("bath", "oily"), [("oil", True), ("fast oil", True), ("water", False)])
def test_it_is_said_at_the_first_temper_after_such_a_bath(bath: str, *, oily: bool) -> None:
    text = CHISEL.replace("quench water", f"quench {bath}") + "  - temper: edge, at 280 °C\n"
    plan = look_back(read_recipe(text, "chisel.yaml"))
    tempers = [step for step in plan.recipe.steps if step.operation == "temper"]
    told = [" ".join(step_to_do(plan, step).cautions) for step in tempers]
    assert ["Wipe the quench oil off first" in one for one in told] == [oily, False]
