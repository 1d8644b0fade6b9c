"""An edge that has gone too thin is taken back to where it is thick enough."""

from __future__ import annotations

import pytest

from coach.ledger.laid_steel import laid_steels
from coach.ledger.looking_back import look_back
from coach.ledger.remedies.take_back import back_by
from coach.ledger.weigh import weigh_steel
from coach.places import bundled_recipes
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from tests.ledger.recipes import CLEFT, EDGED, LAID
from tests.ledger.situations import gone_wrong, offered, once_taken, read, standing_at

#: Steel in a cleft whose iron and steel are drawn out to an edge together.
TAPERED = CLEFT.replace(
    "body: {form: flat, width: 40 ±1, thickness: 12 ±1, length: 80 ±10}",
    "body: {form: taper, width: 40 ±1, thickness: 12 ±1, end width: 40 ±1, end thickness: 2 ±0.3, "
    "length: 150 +20 -30, take up: length}",
).replace("length: 30 ±2}", "length: 30 ±2, remains: 40}") + (
    "  - {do: taper, zone: body, to: {end thickness: 2 ±0.3}, heats: 4, temperature: 1100 °C}\n"
)
HOOK = bundled_recipes() / "first-hook.yaml"
THIN = gone_wrong(EDGED, read(blade__end_thickness=1.0), 2)


def test_it_goes_back_by_similar_triangles() -> None:
    # Twelve down to one over the length: two is an eleventh of the way back (elementary geometry).
    length = THIN.now.form("blade").size_mm("length")
    found = back_by(THIN.now, "blade", "end_thickness", 2.0)
    assert found is not None
    back, sizes = found
    thickness = THIN.now.form("blade").size_mm("thickness")
    end = THIN.now.form("blade").size_mm("end_thickness")
    assert back == pytest.approx(length * (2.0 - end) / (thickness - end))
    assert sizes["length"] == pytest.approx(length - back)
    assert sizes["end_thickness"] == pytest.approx(2.0)


def test_what_is_left_is_the_end_that_it_was_and_no_other() -> None:
    before = THIN.now.form("blade")
    offer = offered(THIN)["take-back-blade-end-thickness"]
    after = once_taken(THIN, offer).now.form("blade")
    length = after.size_mm("length")
    assert length < before.size_mm("length")
    for share in (0.0, 0.3, 0.7, 1.0):
        at = share * length
        assert after.section(at).area_mm2 == pytest.approx(before.section(at).area_mm2, rel=1e-6)


def test_it_saves_the_drawing_where_the_length_has_the_metal() -> None:
    offer = offered(THIN)["take-back-blade-end-thickness"]
    assert offer.way.verdict.value == "on plan"
    assert offer.way.soundness.value == "good practice"
    assert next(iter(offered(THIN))) == "take-back-blade-end-thickness"


def test_it_does_not_hide_that_the_length_is_short_then() -> None:
    short = gone_wrong(EDGED.replace("length: 90 ±20", "length: 90 ±1"), read(blade__end_thickness=1.0), 2)
    assert offered(short)["take-back-blade-end-thickness"].way.verdict.value == "off plan"


def test_it_is_not_offered_for_an_edge_that_is_thick_enough() -> None:
    thick = gone_wrong(EDGED, read(blade__end_thickness=2.0), 2)
    assert "take-back-blade-end-thickness" not in offered(thick)


def test_an_end_that_is_no_taper_is_not_taken_back() -> None:
    blade = gone_wrong(LAID, (), 6).now
    assert back_by(blade, "blade", "thickness", 12.0) is None


@pytest.mark.parametrize("wanted", [0.5, 12.5, 11.0])
def test_it_goes_no_way_that_would_not_help(wanted: float) -> None:
    assert back_by(THIN.now, "blade", "end_thickness", wanted) is None


def test_an_edge_is_not_driven_up_that_would_only_fold_over() -> None:
    # 1 mm thick and some 90 long.
    assert not any(name.startswith("upset") for name in offered(THIN))


def test_the_steel_that_lies_in_it_gets_shorter_by_as_much_and_stays_so() -> None:
    thin = gone_wrong(TAPERED, read(body__end_thickness=1.2), 3)
    offer = offered(thin)["take-back-body-end-thickness"]
    back = thin.now.form("body").size_mm("length") - once_taken(thin, offer).now.form("body").size_mm(
        "length"
    )
    (before,), (after,) = (laid_steels(one.plan) for one in (thin, once_taken(thin, offer)))
    assert back > 5.0
    assert before.left.value - after.left.value == pytest.approx(back, rel=1e-3)
    assert after.needed > before.needed
    told = f"about {round(after.left.value, 1):g} mm of hard steel is then left in it, 40 mm is wanted"
    assert write(offer.way.caution) == told


def test_steel_that_is_too_short_after_it_is_told() -> None:
    thin = gone_wrong(TAPERED.replace("remains: 40", "remains: 48"), read(body__end_thickness=1.2), 3)
    after = once_taken(thin, offered(thin)["take-back-body-end-thickness"])
    assert not any("hard steel" in write(one.sentence) for one in weigh_steel(thin.plan))
    found = [write(one.sentence) for one in weigh_steel(after.plan)]
    assert any("taken back, about" in sentence and "48 mm is wanted" in sentence for sentence in found), found


def test_an_end_is_taken_back_no_further_than_its_length_has_room() -> None:
    """Of a tip from 8 to 1.6 mm over 90 mm, ten are gone where it is 2.25 mm thick, and 81 must be left."""
    hook = standing_at(
        look_back(read_recipe(HOOK.read_text(encoding="utf-8"), "first-hook.yaml")),
        read(tip__end_thickness=1.6, tip__thickness=8.0, tip__length=90.0),
        2,
    )
    offer = offered(hook)["take-back-tip-end-thickness"]
    left = once_taken(hook, offer)
    assert 81.0 < left.now.form("tip").size_mm("length") < 90.0
    assert left.now.form("tip").size_mm("end_thickness") > 2.0
    assert offer.way.chance > 0.5


def test_what_lies_where_the_end_was_cut_is_known_no_better_than_what_it_lay_between() -> None:
    """The end was read to 0.15 mm: where it is thicker by similar triangles it is not known to hundredths."""
    offer = offered(THIN)["take-back-blade-end-thickness"]
    before = THIN.now.size("blade", "end_thickness").doubt
    assert once_taken(THIN, offer).now.size("blade", "end_thickness").doubt > 0.8 * before
