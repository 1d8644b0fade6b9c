"""Random recipes over every form, operation and join: each is planned, or has its faults with lines."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.working import LedgerError
from coach.recipe.faults import Fault, RecipeFaults
from coach.recipe.reader import read_recipe
from tests.recipes.random_recipes import random_recipe
from tests.recipes.test_faults import faults_of
from tests.recipes.texts import PIN

EACH = 300


RING = PIN.replace("round 12 to 6 ±0.5, long 100 ±3", "ring of round 12, inside 60")
BENT = "  - bend: pin, ring of round 12, inside 60\n"


def planned_or_refused(text: str) -> Plan | tuple[Fault, ...]:
    """A plan, or the faults with their lines; none where it is the account that cannot go on."""
    try:
        return look_back(read_recipe(text, "random.yaml"))
    except RecipeFaults as refused:
        return refused.faults
    except LedgerError as error:
        return () if error.step or error.zone else pytest.fail("the account stops without saying where")


@pytest.mark.parametrize("first", range(0, 4 * EACH, EACH))
def test_a_random_recipe_is_planned_or_refused_and_its_metal_is_conserved(first: int) -> None:
    planned = split = 0
    for number in range(first, first + EACH):
        text = random_recipe(number)
        found = planned_or_refused(text)
        if isinstance(found, Plan):
            planned += 1
            split += any(piece.branches for piece in found.recipe.pieces.values())
            told = planned_tool(found)
            places = [(one.line, one.column) for one in told.findings]
            places += [(one.line, one.column) for one in told.questions]
            assert all(line > 1 and column >= 1 for line, column in places)
            assert_conserved(found)
        else:
            lines = text.count("\n") + 1
            assert all(1 <= fault.line <= lines and fault.column >= 1 for fault in found)
    assert planned > EACH // 30, "hardly any of them was sound"
    assert split, "no sound one is split"


def assert_conserved(plan: Plan) -> None:
    """Nothing comes and nothing goes: V' = V + laid - taken, from the bar to the end."""
    for piece in plan.recipe.pieces.values():
        for whole, branches in piece.branches.items():
            split_mm3 = plan.stages[whole][-1].after_mm3
            assert sum(plan.start_mm3[one.zone] for one in branches) == pytest.approx(split_mm3, rel=1e-9)
    for zone, way in plan.stages.items():
        volume = plan.start_mm3[zone]
        for stage in way:
            assert stage.before_mm3 == pytest.approx(volume, rel=1e-9)
            taken = sum(stage.taken_mm3.values())
            assert all(one >= 0.0 for one in stage.taken_mm3.values()), (zone, stage.step.title)
            volume = stage.before_mm3 + stage.laid_mm3 - taken
            assert stage.after_mm3 == pytest.approx(volume, rel=1e-9), (zone, stage.step.title)
            assert stage.form_after.volume_mm3() == pytest.approx(volume, rel=1e-6), (zone, stage.step.title)


def test_a_zone_that_has_become_a_ring_cannot_be_cut_to_length() -> None:
    text = PIN.replace("round 12 to 6 ±0.5, long 100 ±3", "ring of round 12, inside 60")
    text = text.replace(
        "  - taper: pin\n", "  - bend: pin, ring of round 12, inside 60\n  - cut: pin, long 3\n"
    )
    (fault,) = faults_of(text)
    assert "a round ring form has no length to cut: do it before" in str(fault.message)
    assert (fault.line, fault.column) == (9, 5)


def test_a_cut_makes_no_other_form() -> None:
    (fault,) = faults_of(PIN.replace("  - taper: pin\n", "  - cut: pin, square 10\n  - taper: pin\n"))
    assert "cut makes no other form of a round form" in str(fault.message)
    assert (fault.line, fault.column) == (8, 15)


def test_a_length_is_lost_of_what_has_one() -> None:
    text = PIN.replace("round 12 to 6 ±0.5, long 100 ±3", "ring of round 12, inside 60")
    text = text.replace(
        "  - taper: pin\n", "  - bend: pin, ring of round 12, inside 60\n  - grind: pin, loses 3 mm\n"
    )
    (fault,) = faults_of(text)
    assert "a round ring form has no length to lose" in str(fault.message)
    assert (fault.line, fault.column) == (9, 23)


def test_a_hole_that_fits_at_the_middle_and_not_where_the_zone_runs_short_is_a_fault() -> None:
    text = PIN.replace("round 12 to 6 ±0.5, long 100 ±3", "20 ±9 x 12, long 60, round hole 15")
    text = text.replace("  - taper: pin\n", "  - punch: pin\n")
    (fault,) = faults_of(text)
    assert "cannot be made where it runs short" in str(fault.message)
    assert "leaves no wall" in str(fault.message)
    assert fault.line == 6
