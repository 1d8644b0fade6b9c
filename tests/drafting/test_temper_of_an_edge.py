"""A blade's temper goes by its edge, which is thin, and never leaves that harder than was asked for."""

from __future__ import annotations

import pytest

from coach.drafting.answers import Answers
from coach.drafting.draft import drafted
from coach.metals.tempering import tempered_hrc
from coach.metals.tempering_table import tempering_row
from coach.operations import Does

HOOK = Answers(
    "Bill hook",
    "mild steel",
    "50 x 12",
    {"tang": "square 12 to 5, long 130", "blade": "60 x 8, long 220"},
    laid_on="blade",
    steel="1084",
    steel_bar="50 x 6",
    steel_size="50 x 6, long 100, remains 2",
    hard="blade",
    hardness="54 to 58",
)


@pytest.mark.parametrize("steel", ["1084", "1095"])
def test_an_edge_is_no_harder_than_was_asked_for(steel: str) -> None:
    # Thin 1095 has 65 HRC after 149 °C and 62.5 after 204 (facts E2): 155 °C leaves far more than 58.
    draft = drafted(HOOK._replace(steel=steel))
    (temper,) = [one for one in draft.plan.recipe.steps if one.does(Does.TEMPERS)]
    row = tempering_row(steel, 3.0, "fast oil")
    assert row is not None
    limits = temper.targets["temperature"]
    for heat_c in (limits.low, limits.nominal, limits.high):
        assert 53.0 <= tempered_hrc(row, heat_c, 1.5).hrc <= 59.0
    assert "for an edge up to 6 mm thick: thin it" in draft.text


def test_a_thin_blade_is_told_nothing_of_it() -> None:
    zones = {**HOOK.zones, "blade": "60 x 4, long 220"}
    draft = drafted(HOOK._replace(zones=zones, steel_bar="50 x 3", steel_size="50 x 3, long 100"))
    assert "thin it" not in draft.text
