"""A bar of another section is drawn to that of what is bent of it, where a recipe is proposed."""

from __future__ import annotations

import pytest

from coach.drafting.alike import made_like
from coach.drafting.answers import answers_of
from coach.drafting.checked import checked
from coach.drafting.draft import drafted
from coach.ledger.weigh import Cannot
from coach.places import bundled_recipes

POKER = (bundled_recipes() / "twisted-poker.yaml").read_text(encoding="utf-8")
BRACKET = (bundled_recipes() / "scrolled-bracket.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize("bar", ["round 16", "hexagon 15", "20 x 14", "octagon 15"])
def test_a_poker_from_another_bar_is_square_before_it_is_twisted(bar: str) -> None:
    now = checked(made_like(POKER, "poker", bar=bar))
    assert [one for one in now.planned.findings if one.what is Cannot.KEEP_SECTION] == []
    drawn = [step for step in now.plan.recipe.steps if step.operation == "draw" and step.zones == ("grip",)]
    twist = next(s for s in now.plan.recipe.steps if s.operation == "twist" and s.zones == ("grip",))
    assert [step.number < twist.number for step in drawn] == [True]


def test_from_a_bar_that_is_too_thin_it_is_said_and_not_written_as_sound() -> None:
    now = checked(made_like(POKER, "poker", bar="round 9"))
    assert Cannot.KEEP_SECTION in {one.what for one in now.planned.findings}


ZONES = [
    ("square 12, long 90, twisted 2 turns", "round 16"),
    ("square 12, long 90, twisted 2 turns", "hexagon 16"),
    ("square 12, long 90, twisted 2 turns", "20 x 12"),
    ("scroll, across 72, eye 18, pitch 14, wide 20, thick 5.5", "octagon 20"),
    ("round scroll, across 72, eye 18, pitch 14, diameter 8", "square 10"),
    ("ring of round 10, inside 60", "hexagon 12"),
    ("socket, mouth 38, neck 22, wall 3, long 110", "round 30"),
    ("fork, tine 8, thick 8, end tine 4, end thick 4, long 120", "round 22"),
    ("rivet, diameter 8, grip 25, head diameter 14, head height 5", "hexagon 10"),
]


@pytest.mark.parametrize(("zone", "bar"), ZONES)
def test_what_is_proposed_is_never_bent_of_a_bar_that_has_another_section(zone: str, bar: str) -> None:
    told = {"name": "Thing", "metal": "mild steel", "bar": bar, "zones": {"part": zone}}
    found = drafted(answers_of(told)).planned.findings
    assert [one for one in found if one.what is Cannot.KEEP_SECTION] == []
