"""A recipe is proposed for every form there is: what is bent, rolled, split or closed as well as drawn."""

from __future__ import annotations

import math

import pytest

from coach.drafting import zone_steps
from coach.drafting.answers import Answers, CannotDraft
from coach.drafting.draft import drafted
from coach.forms import kinds
from coach.ledger.verdict import PlanState
from coach.recipe.shapes import bar_kinds
from coach.telling.words import write

#: By what it is, its bar and its zones.
WORK = {
    "collar": ("20 x 6", {"collar": "collar, inside wide 24, inside height 12 ±2, wide 16, thick 4"}),
    "fork": (
        "30 x 10",
        {
            "tines": "fork, tine 9, thick 9, end tine 4, end thick 4, long 250",
            "shank": "round 14, long 80",
        },
    ),
    "uneven fork": (
        "square 12",
        {
            "prongs": "uneven fork, tine 8, thick 9, end tine 4, end thick 4, long 90, other tine 6, "
            "other thick 9, other end tine 3.5, other end thick 3.5, other long 60",
            "shank": "square 12, long 300",
        },
    ),
    "link": ("round 10", {"link": "link, inner long 67 ±8, inner wide 20 ±1.5, diameter 9.8"}),
    "hoop": ("25 x 6", {"hoop": "ring of 25 x 6 on edge, inside 150"}),
    "hoop of heavier bar": ("30 x 8", {"hoop": "ring of 25 x 6 on edge, inside 150"}),
    "rivet": (
        "round 8",
        {"rivet": "rivet, heads two, diameter 8, grip 20, head diameter 14, head height 4.5"},
    ),
    "open eye": ("round 12", {"point": "round 12 to 3, long 80", "eye": "ring of round 12, inside 40"}),
    "round scroll": (
        "round 10",
        {"shank": "round 10, long 200", "curl": "round scroll, across 64, eye 18, pitch 14, diameter 7"},
    ),
    "coil": (
        "round 10",
        {"grip": "coil of round 8, inside 18, pitch 11, wound long 90", "shank": "round 10, long 200"},
    ),
    "scroll": (
        "25 x 6",
        {"shank": "25 x 6, long 200", "curl": "scroll, across 60, eye 16, pitch 14, wide 25, thick 6"},
    ),
    "socket": (
        "30 x 10",
        {"blade": "30 x 10 to 25 x 4, long 150", "socket": "socket, mouth 36, neck 20, wall 2.6, long 105"},
    ),
    "socket at the first end": (
        "30 x 10",
        {"socket": "socket, mouth 36, neck 20, wall 2.6, long 105", "blade": "30 x 10 to 25 x 4, long 150"},
    ),
    "ferrule": ("65 x 3", {"ferrule": "socket, mouth 23, neck 23, wall 3, long 30"}),
    "strap eye": (
        "40 x 6",
        {"eye": "strap eye, inside 13, wide 40, thick 6, lap 8 ±3", "strap": "40 x 6 to 28 x 4, long 320"},
    ),
    "twisted taper": (
        "square 12",
        {"grip": "12 x 12 to 8 x 8, long 90, twisted 3 turns", "shank": "square 12, long 100"},
    ),
    "twisted": ("square 12", {"grip": "square 10, long 90, twisted 3 turns", "shank": "square 12, long 100"}),
    "edge": ("40 x 6", {"tang": "14 x 5 to 8 x 4, long 90", "blade": "42 x 6, edge 1.5 over 25, long 200"}),
}


@pytest.mark.parametrize("name", WORK)
def test_it_is_on_plan_and_nothing_is_found_or_asked(name: str) -> None:
    bar, zones = WORK[name]
    draft = drafted(Answers(name, "mild steel", bar, zones))
    assert [write(one.sentence) for one in draft.planned.findings] == []
    assert draft.planned.questions == ()
    assert draft.planned.verdict is PlanState.ON_PLAN


def test_every_form_there_is_has_its_proposal() -> None:
    assert kinds().keys() <= {*bar_kinds(), *zone_steps._MAKES}


def test_a_form_of_ones_own_that_has_none_is_said_in_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delitem(zone_steps._MAKES, "link")
    with pytest.raises(CannotDraft) as refused:
        drafted(Answers("Link", "mild steel", *WORK["link"]))
    assert write(refused.value.words).startswith("No steps are proposed for a link yet, which link is")


# The middle of a ring of 12 mm bar, 80 mm inside, is π · (80 + 12) = 289 mm; the scarf wastes more.
def test_a_ring_is_cut_as_long_as_its_middle_and_what_the_weld_takes() -> None:
    draft = drafted(Answers("Ring", "mild steel", "round 12", {"ring": "ring of round 12, inside 80"}))
    (cut,) = draft.planned.cuts
    assert math.pi * 92 < cut.length.value < math.pi * 92 * 1.08
    assert [write(one.sentence) for one in draft.planned.findings] == []
