"""A tool with steel laid on is treated by the card of its steel and passes its own check."""

from __future__ import annotations

import pytest

from coach.drafting.answers import Answers
from coach.drafting.draft import drafted
from coach.fire.limits import burning_limit
from coach.ledger.verdict import PlanState
from coach.metals.grade import grade, grades
from coach.metals.hardening import CannotHarden, hardening_advice
from coach.operations import Does
from coach.operations.does import HeatKind
from coach.telling.words import write

LAID = Answers(
    "Small slick",
    "wrought iron",
    "40 x 16",
    {
        "tang": "square 10 to 4, long 90",
        "neck": "22 x 12, long 60",
        "blade": "40 x 10 to 50 x 4, long 160",
    },
    laid_on="blade",
    steel="O1",
    steel_bar="40 x 5",
    steel_size="46 x 4, long 80",
    hard="blade",
)
#: Its blade is no wider than its bar, so that any steel is drawn to it in a few heats.
PLATE = LAID._replace(
    zones={"tang": "square 10 to 4, long 90", "blade": "40 x 10, long 110"}, steel_size="40 x 4, long 80"
)


def hardens(name: str) -> bool:
    try:
        hardening_advice(grade(name))
    except CannotHarden:
        return False
    return True


STEELS = sorted(one.name for one in grades() if hardens(one.name))


@pytest.mark.parametrize("steel", STEELS)
def test_whatever_steel_is_laid_on_the_proposal_passes_its_own_check(steel: str) -> None:
    draft = drafted(PLATE._replace(steel=steel))
    assert [write(one.sentence) for one in draft.planned.findings] == []
    assert draft.planned.questions == ()
    assert draft.planned.verdict is PlanState.ON_PLAN
    # A welding heat that is left out is counted as 1300 °C: it is said, and burns none of them.
    weld = next(one for one in draft.plan.recipe.steps if one.heat_kind is HeatKind.WELDING)
    most = burning_limit(grade(steel)).temperature
    assert weld.temperature_c is not None
    assert most is not None
    assert weld.temperature_c < most.value


# Property sheets of O1, undated: 20 and 30 min for an inch; 10 to 30 min of thin work (from memory); it
# is not normalised but annealed (its sheet, confirmed second-hand).
def test_o1_is_soaked_for_its_carbides_and_annealed_where_others_are_normalised() -> None:
    draft = drafted(LAID)
    assert [write(one.sentence) for one in draft.planned.findings] == []
    assert draft.planned.questions == ()
    assert draft.planned.verdict is PlanState.ON_PLAN
    steps = draft.plan.recipe.steps
    (harden,) = (one for one in steps if one.does(Does.QUENCHES))
    soak = harden.targets["soak"]
    assert (soak.low, soak.high) == (600.0, 1800.0)
    assert not any(one.does(Does.NORMALISES) for one in steps)
    (anneal,) = (one for one in steps if one.operation == "anneal")
    assert anneal.number == harden.number - 1
    assert "blade" in anneal.heated


def test_a_steel_whose_welding_heat_nobody_publishes_is_welded_below_where_it_burns_and_says_so() -> None:
    draft = drafted(LAID)
    assert "No welding heat is published for O1: weld and bend a coupon first." in draft.text
