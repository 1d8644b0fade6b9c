"""What the readings have taught of the shop is told with its doubt and with the reading that taught most."""

from __future__ import annotations

from coach.bench.learned import LearnedOfShop, OfShop, Teacher
from coach.ledger.spreading import MeasuredHeat
from coach.quantities.figure import Figure, Kind, mm
from coach.telling.learned import learned_words, why
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import begun

TAUGHT = Teacher(7, 9, "poll", "length", mm(35.2), up=True, heat=None)
SCALE = LearnedOfShop(OfShop.SCALE, Figure(1.32, Kind.FACTOR, 0.18), Figure(1.0, Kind.FACTOR), TAUGHT, 2)
SPREAD = SCALE._replace(
    what=OfShop.SPREAD, now=Figure(0.344, Kind.FACTOR, 0.08), published=Figure(0.31, Kind.FACTOR)
)

STRAP = """
title: Strap
pieces:
  strap: {metal: mild steel, stock: {form: flat, width: 40, thickness: 20}}
drawing:
  strap: {form: flat, width: 42 ±1, thickness: 8 ±0.5, length: 240 ±12, take up: length}
scale: none
steps:
  - {do: draw, zone: strap, to: {thickness: 8 ±0.5, width: 42 ±1}, heats: 4}
"""


def test_the_factor_and_the_coefficient_are_told_as_finely_as_they_are_known() -> None:
    # By 1.645 standard uncertainties, 0.30 and 0.13, and the digits that these leave.
    assert write(learned_words(SCALE)) == "scale 1.32 ±0.30 × reckoned"
    assert write(learned_words(SPREAD)) == "spread 0.34 ±0.13 (book 0.31)"


def test_the_reading_that_taught_most_is_named_and_how_many_more_there_are() -> None:
    assert write(why(SCALE)) == "poll length 35.2 mm, step 9, took it up most, and 2 more"
    assert write(why(SCALE), Shown("in")).startswith("poll length 1.386 in, step 9,")  # 35.2 / 25.4
    assert write(why(SPREAD._replace(others=0))) == "poll length 35.2 mm, step 9, says how far it ran"
    assert write(why(SCALE._replace(by=None))) == "no reading has told otherwise yet"


def test_a_measured_heat_is_told_by_how_far_it_ran() -> None:
    heat = MeasuredHeat("poll", mm(40.0), mm(46.0), mm(20.0), mm(14.0))
    told = write(why(SPREAD._replace(by=TAUGHT._replace(heat=heat), others=0)))
    assert told == "poll ran from 40 to 46 mm wide as it went from 20 to 14 mm thick, step 9"


def test_a_heat_measured_half_way_teaches_the_job_its_spread() -> None:
    session = begun(STRAP)
    before = session.standing().learned[1]
    assert before.by is None
    session.heat()
    session.read("strap.thickness", "14")
    answer = session.read("strap.width", "46")
    after = session.standing().learned[1]
    assert after.by is not None
    assert after.by.entry == answer.entry
    assert after.by.heat is not None
    assert after.by.heat.width == mm(46.0)
    assert after.now.doubt is not None
    assert before.now.doubt is not None
    assert after.now.doubt < before.now.doubt
