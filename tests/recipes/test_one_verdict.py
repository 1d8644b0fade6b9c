"""Whatever a recipe says, a job begun from it stands as check and plan have it."""

from __future__ import annotations

import pytest

from coach.bench.outlook import outlook
from coach.ledger.looking_back import look_back
from coach.ledger.verdict import PlanState
from coach.ledger.working import LedgerError
from coach.recipe.faults import RecipeFaults
from coach.recipe.reader import read_recipe
from tests.bench.jobs import shop
from tests.recipes.random_recipes import random_recipe
from tests.recipes.strange_recipes import strange_recipe

EACH = 30
#: Once told otherwise by check than by the job: a skin that the stone leaves.
FOUND = (2037,)


def assert_one_verdict(text: str) -> bool:
    """A recipe and a job of it agree; whether it can be planned at all."""
    try:
        plan = look_back(read_recipe(text, "strange.yaml"))
    except (RecipeFaults, LedgerError):
        with pytest.raises((RecipeFaults, LedgerError)):
            shop().begin(text, "strange.yaml", None)
        return False
    seen = outlook(plan)
    job = shop().begin(text, "strange.yaml", None)
    stands = job.standing()
    assert (stands.verdict, stands.reason) == (seen.verdict, seen.reason), text
    assert stands.chance == pytest.approx(seen.chance, abs=1e-9), text
    refused = seen.verdict is PlanState.OFF_PLAN or bool(seen.findings)
    assert job.begun().bad_news is refused, text
    return True


@pytest.mark.parametrize("first", range(0, 4 * EACH, EACH))
def test_a_job_of_a_sound_recipe_with_one_thing_changed_stands_as_its_plan(first: int) -> None:
    planned = sum(assert_one_verdict(strange_recipe(number)) for number in range(first, first + EACH))
    assert planned > EACH // 2, "hardly any of them could be planned"


@pytest.mark.parametrize("number", FOUND)
def test_a_job_of_one_that_was_told_otherwise_stands_as_its_plan(number: int) -> None:
    assert assert_one_verdict(strange_recipe(number))


def test_a_job_of_a_random_recipe_stands_as_its_plan() -> None:
    planned = sum(assert_one_verdict(random_recipe(number)) for number in range(60))
    assert planned, "none of them could be planned"
