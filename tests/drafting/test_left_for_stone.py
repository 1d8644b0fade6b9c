"""A proposal forges a thin hard edge thicker than it is drawn, and grinds it after the temper."""

from __future__ import annotations

import pytest

from coach.drafting.answers import Answers
from coach.drafting.checked import Draft
from coach.drafting.draft import drafted
from coach.ledger.skinning import skins
from coach.telling.words import write

KNIFE = Answers(
    "Small knife",
    "1084",
    "30 x 5",
    {"tang": "20 x 5 to 8 x 4, long 90", "blade": "30 x 4, edge 0.6 over 20 on both sides, long 110"},
    hard="blade",
    hardness="58 to 61",
)
CHISEL = Answers(
    "Cold chisel",
    "C80",
    "octagon 20",
    {"head": "octagon 20, long 100", "edge": "20 x 18 to 24 x 3, long 70"},
    hard="edge",
    hardness="56 to 60",
)


def told(draft: Draft) -> list[str]:
    found = [write(one.sentence) for one in draft.planned.findings]
    return found + [write(one.sentence) for one in draft.planned.questions]


# Steel loses its carbon at its faces in the fire, and what lost it does not harden: it is ground off after
# the temper (common practice, no source). By Fick's law here; more is ground off than that.
@pytest.mark.parametrize(("answers", "zone"), [(KNIFE, "blade"), (CHISEL, "edge")], ids=["knife", "chisel"])
def test_a_thin_hard_edge_is_forged_thicker_and_ground(answers: Answers, zone: str) -> None:
    draft = drafted(answers)
    assert told(draft) == []
    skin = next(one for one in skins(draft.plan) if one.zone == zone)
    assert skin.grinding is not None
    assert skin.grinding.ground_mm >= 2 * skin.grinding.skin_mm
    works = [step.operation for step in draft.plan.recipe.steps if zone in step.zones]
    assert works[-3:] == ["temper", "grind", "sharpen"]


# What is not hardened loses nothing that it needs.
def test_an_edge_that_stays_soft_is_worked_to_its_drawing() -> None:
    draft = drafted(KNIFE._replace(hard="none", hardness="none"))
    assert "grind" not in [step.operation for step in draft.plan.recipe.steps]
