"""Where the skin goes deeper than the stone, more is left for it."""

from __future__ import annotations

import pytest

from coach.ledger.skinning import skins
from coach.telling.words import write
from tests.ledger.recipes import EDGED, FACED
from tests.ledger.situations import gone_wrong, offered, once_taken, short_skin

#: The face of an invented bar, ground 1.6 mm off its length; the skin wants 1.93.
FACE = short_skin("face", "body", 5, "length", 1.6, 1.93)
DEEP = gone_wrong(FACED, (), 3)._replace(short_skins=(FACE,))


def test_a_length_is_ground_deeper_to_the_next_tenth() -> None:
    offer = offered(DEEP)["grind-more-body-length"]
    assert write(offer.way.title) == "Grind 0.4 mm more off the body length"
    assert "Step 5 takes 2 mm off it instead of 1.6 mm" in write(offer.way.changes)
    (loss,) = offer.idea.amendment.losses
    assert loss.step == 5
    assert loss.length_mm == pytest.approx(2.0)


def test_taken_the_stone_goes_as_deep_as_the_skin() -> None:
    offer = offered(DEEP)["grind-more-body-length"]
    (before,), (after,) = (skins(one.plan, 2) for one in (DEEP, once_taken(DEEP, offer)))
    assert before.grinding is not None
    assert after.grinding is not None
    assert before.grinding.ground_mm == pytest.approx(1.6)
    assert after.grinding.ground_mm == pytest.approx(2.0)
    assert after.grinding.skin_mm == before.grinding.skin_mm


def test_a_thickness_is_left_greater_by_the_last_forging_ahead() -> None:
    edge = short_skin("blade", "blade", 2, "end_thickness", 0.4, 0.75)
    offer = offered(gone_wrong(EDGED, (), 1)._replace(short_skins=(edge,)))["grind-more-blade-end-thickness"]
    (target,) = offer.idea.amendment.targets
    assert (target.step, target.dimension) == (1, "end_thickness")
    assert target.limits.nominal == pytest.approx(2.4 + 0.4)
    assert target.limits.high - target.limits.low == pytest.approx(0.6)


def test_past_the_last_forging_a_thickness_has_no_more_to_leave() -> None:
    edge = short_skin("blade", "blade", 2, "end_thickness", 0.4, 0.75)
    late = gone_wrong(EDGED, (), 2)._replace(short_skins=(edge,))
    assert not any(name.startswith("grind-more") for name in offered(late))


def test_nothing_is_offered_where_the_stone_goes_deep_enough() -> None:
    assert not any(name.startswith("grind-more") for name in offered(gone_wrong(FACED, (), 3)))


def test_an_edge_that_is_also_ground_off_its_line_is_left_thicker_all_the_same() -> None:
    grind = "  - {do: grind, zone: blade, to: {end thickness: 2 ±0.3}, loses: 1 mm}\n"
    both = EDGED[: EDGED.index("  - {do: inspect")] + grind
    edge = short_skin("blade", "blade", 2, "end_thickness", 0.4, 0.75)
    offers = offered(gone_wrong(both, (), 1)._replace(short_skins=(edge,)))
    (target,) = offers["grind-more-blade-end-thickness"].idea.amendment.targets
    assert target.limits.nominal == pytest.approx(2.8)
