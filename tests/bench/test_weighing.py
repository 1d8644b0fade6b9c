"""Scales as a gauge: a whole piece, or the slug that fell from the eye."""

from __future__ import annotations

from math import sqrt

import pytest

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.quantities import grams
from coach.telling.reading import reading_sentence
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.told import entry_text, said

EYE = """
title: Eye block
pieces:
  body: {metal: mild steel, stock: {form: square, side: 38}, zones: [eye, shank]}
drawing:
  eye:
    form: eyed
    hole: slot
    width: 44 ±3
    thickness: 38 ±1
    length: 40 ±2
    hole length: 30 ±1
    hole width: 10 ±0.5
    take up: width
  shank: {form: square, side: 30 ±1, length: 60 ±5}
steps:
  - {do: punch, zone: eye, to: drawing, slug: 6 mm, heats: 3}
  - {do: draw, zone: shank, to: drawing, heats: 2}
"""

ON_ITS_BAR = """
title: Pin
pieces:
  pin: {metal: mild steel, stock: {form: round, diameter: 12, length: 300}}
drawing:
  pin: {form: round, diameter: 12, length: 100 ±3}
steps:
  - {do: inspect, zone: pin}
  - {do: cut, zone: pin, heat: cold, kerf: 1.5 mm}
  - {do: inspect, zone: pin}
"""


def doubt_of(session: Session, name: str) -> float:
    return next(size.expected.doubt or 0.0 for size in session.standing().sizes if size.name == name)


def spare_of(session: Session, zone: str) -> float:
    return next(spare.spare.value for spare in session.standing().spares if spare.zone == zone)


def test_a_weighed_slug_says_what_it_was_reckoned_to_weigh() -> None:
    answer = begun(EYE).read("eye.slug", "13.1 g")
    # A stadium of 30 × 10 has 278.54 mm², 6 mm thick 1671.2 mm³, 13.1 g at 7.85 g/cm³: computed.
    assert said(answer) == "eye slug 13.1 g: as reckoned (13 g)."
    assert not answer.bad_news


def test_a_heavier_slug_leaves_less_metal_in_the_eye() -> None:
    session = begun(EYE)
    before = spare_of(session, "eye")
    session.read("eye.slug", "18 g")
    # By hand: 5 g more are 620 mm³, and with the eye's 38 × 40 the width is 0.41 mm less, if all is believed.
    assert before - spare_of(session, "eye") == pytest.approx(0.41, abs=0.05)


def test_a_slug_that_differs_by_grams_is_told_as_heavier_or_lighter() -> None:
    # Reckoned are 13.1 g, and the scales are good to a gram or two.
    assert said(begun(EYE).read("eye.slug", "18 g")) == "eye slug 18 g: 5 g more than the 13 g reckoned."
    assert said(begun(EYE).read("eye.slug", "8 g")) == "eye slug 8 g: 5 g less than the 13 g reckoned."


def test_weighing_the_slug_sharpens_what_is_known_of_the_eye() -> None:
    session = begun(EYE)
    before = doubt_of(session, "eye.width")
    session.read("eye.slug", "13 g")
    assert doubt_of(session, "eye.width") < before


def test_a_whole_piece_is_weighed_and_every_zone_learns_from_it() -> None:
    session = begun(EYE)
    eye, shank = spare_of(session, "eye"), spare_of(session, "shank")
    reckoned = session.read("body.mass", "1090 g", insist=True)
    assert "less than the" in said(reckoned) or "more than the" in said(reckoned)
    light = spare_of(session, "eye") - eye, spare_of(session, "shank") - shank
    assert light[0] * light[1] > 0.0


def test_a_mass_that_cannot_be_is_questioned_and_the_same_twice_stands() -> None:
    session = begun(EYE)
    first = session.read("body.mass", "1.5 kg")
    assert first.bad_news
    assert "not what was expected" in said(first)
    # It stands: of so much more metal so much lies in the eye that it comes 60 mm wide, and 47 are allowed.
    assert "623 g more than the 877 g reckoned" in said(session.read("body.mass", "1.5 kg"))
    assert not session.standing().questioned
    assert session.standing().verdict is PlanState.OFF_PLAN


def test_scales_are_trusted_no_further_than_the_metal_s_density_is_known() -> None:
    session = begun(EYE)
    # A square of 38 mm at 7.85 g/cm³; out of the eye comes the slug, 1671.2 mm³ as above.
    eye_g, shank_g = (7.85e-3 * 38.0**2 * session.plan.bar_of(z).size_mm("length") for z in ("eye", "shank"))
    eye_g -= 7.85e-3 * 1671.2
    session.read("body.mass", "1000 g", insist=True)
    (check,) = (one for one in session.standing().checks if one.name == "body.mass")
    assert check.reading is not None
    # 1 g a weighing and 1 g of the scales themselves; in proportion 0.2 % of the scales, 0.5 % of the
    # density, and 1.2 % of what is hammered, for its sections bulge: the root of the squares (GUM,
    # JCGM 100:2008, 5.1.2; the figures common practice, no source).
    whole_g = eye_g + shank_g
    doubt_g = sqrt(1.0 + 1.0 + (0.002 * whole_g) ** 2 + (0.005 * whole_g) ** 2 + (0.012 * eye_g) ** 2)
    assert check.reading.cold.doubt == pytest.approx(doubt_g, abs=0.02)


@pytest.mark.parametrize(
    ("found_g", "told"), [(2500.0, "230 g more than the 2.27 kg"), (2032.8, "230 g less than the 2.27 kg")]
)
def test_a_weighing_is_held_against_what_was_reckoned_as_finely_as_both_are_known(
    found_g: float, told: str
) -> None:
    session = begun(EYE)
    session.read("body.mass", "1000 g", insist=True)
    (check,) = (one for one in session.standing().checks if one.name == "body.mass")
    assert check.reading is not None
    # 1.645 × √(20² + 12²) = 38 g, which is told to tens of grams, and so is what stands before it.
    reading = check.reading._replace(cold=grams(found_g, 20.0), looked_for=grams(2266.4, 12.0))
    assert told in reading_sentence(check._replace(reading=reading), Shown())


def test_a_piece_that_hangs_on_its_bar_is_not_weighed() -> None:
    session = begun(ON_ITS_BAR)
    with pytest.raises(EntryFault, match="hangs on its bar until step 2 cuts it off"):
        session.read("pin.mass", "90 g")
    session.done()
    session.done()
    assert "as reckoned" in said(session.read("pin.mass", "88.8 g"))


def test_a_zone_is_not_weighed_its_whole_piece_is() -> None:
    session = begun(EYE)
    with pytest.raises(EntryFault, match=r"weighed whole: type body\.mass"):
        session.read("eye.mass", "1.2 kg")


def test_a_length_is_no_mass() -> None:
    with pytest.raises(EntryFault, match="slug"):
        begun(EYE).read("eye.slug", "13 mm")


def test_a_weighing_is_told_in_the_log_and_survives_striking_out() -> None:
    session = begun(EYE)
    untouched = session.standing().spares
    session.read("eye.slug", "18 g")
    assert entry_text(session.history()[-1]) == "eye slug 18 g by scales"
    session.strike()
    assert session.standing().spares == untouched
