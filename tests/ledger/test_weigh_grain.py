"""A quench of steel that is as coarse as its forging heats left it is asked about, at its step and once."""

from __future__ import annotations

import pytest

from coach.bench.step import step_to_do
from coach.ledger.questions import questions
from coach.telling.words import write
from tests.bench.jobs import begun
from tests.ledger.recipes import planned
from tests.ledger.test_weigh_treatment import BAR

NORMALISE = "  - normalise: bar, at 860 °C\n"


def asked(text: str) -> list[str]:
    told = [(one.step, write(one.sentence)) for one in questions(planned(text))]
    return [f"{step}: {sentence}" for step, sentence in told if "coarse grain" in sentence]


def known(text: str) -> list[str]:
    plan = planned(text)
    step = next(one for one in plan.recipe.steps if one.operation == "harden")
    return [one for one in map(write, step_to_do(plan, step).know) if "coarse grain" in one]


def test_steel_forged_and_hardened_without_normalising_is_asked_about_once_and_told_at_its_step() -> None:
    # Coarse grain cracks in the quench: Precision Machined Products Association; 1084 is normalised at 845 to
    # 870 °C by handbooks (from memory).
    text = BAR.replace(NORMALISE, "")
    (question,) = asked(text)
    assert question.startswith("2: Step 2, ")
    assert "bar is forged in step 1" in question
    assert "870 °C" in question
    (told,) = known(text)
    assert told in question
    assert not asked(BAR)
    assert not known(BAR)


def test_a_second_quench_of_what_was_quenched_is_not_asked_about() -> None:
    harden = "  - harden: bar, at 815 °C, quench fast oil\n"
    assert len(asked(BAR.replace(NORMALISE, "").replace(harden, 2 * harden))) == 1


@pytest.mark.parametrize(
    ("was", "put", "told"),
    [
        (NORMALISE, "  - anneal: bar, at 760 °C\n", False),
        # Forged again after it, the grain is coarse again.
        (NORMALISE, f"{NORMALISE}  - draw: bar, 1 heat, at 1000 °C\n", True),
        # No hotter than it is normalised at, it coarsens nothing; it makes nothing fine either.
        (NORMALISE, f"{NORMALISE}  - straighten: bar, 1 heat, at 800 °C\n", False),
        (NORMALISE, "  - straighten: bar, 1 heat, at 800 °C\n", True),
        # A bar that no fire worked is as fine as it came from the mill (common practice, no source).
        (
            "  - draw: bar, 2 heats, at 1000 °C\n  - normalise: bar, at 860 °C\n",
            "  - grind: bar, thickness 8 ±1\n",
            False,
        ),
    ],
)
def test_what_made_the_grain_fine_again_counts(was: str, put: str, told: bool) -> None:
    assert bool(asked(BAR.replace(was, put))) is told


def test_o1_is_told_what_is_done_in_its_place() -> None:
    # O1 is annealed after forging, not normalised (its makers, from memory).
    (question,) = asked(
        BAR.replace("1084", "O1").replace(NORMALISE, "").replace("815 °C, quench fast", "800 °C, quench")
    )
    assert "cooled slowly after forging and annealed" in question


@pytest.mark.parametrize("marks", [True, False])
def test_a_normalising_step_without_a_heat_is_told_as_the_quench_begins(marks: bool) -> None:
    """Of a smith who enters heats; who enters none is not asked of this one."""
    session = begun(BAR)
    if marks:
        session.heat()
    session.done()
    session.done()
    step = session.standing().step
    assert step is not None
    assert step.operation == "harden"
    assert bool([one for one in map(write, step.know) if "No heat of step 2" in one]) is marks


def test_a_normalising_step_with_its_heat_is_not_told() -> None:
    session = begun(BAR)
    session.heat()
    session.done()
    session.heat()
    session.done()
    step = session.standing().step
    assert step is not None
    assert not [one for one in map(write, step.know) if "No heat of step" in one]
