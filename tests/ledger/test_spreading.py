"""Where metal runs that nobody asks for, and what the first measured heat teaches of it."""

from __future__ import annotations

from math import hypot, log

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.fire.spreading import GREATEST_BITE_SHARE, LEAST_BITE_SHARE
from coach.ledger.course import Course, HeatMark, Mark, ReadingMark, heats_to_go
from coach.ledger.following import follow
from coach.ledger.forecast import forecast
from coach.ledger.reading import Reading
from coach.ledger.running import mean_thickness_mm, published_coefficient
from coach.ledger.stepping import step_on
from coach.ledger.verdict import Verdict
from coach.ledger.workpiece import SPREAD, at_stock
from coach.operations import Shape
from coach.recipe.model import Step
from tests.ledger.recipes import planned

#: A flat spread under a fuller: nobody says how long it gets.
FAN = """
title: Fan
pieces:
  fan: {metal: mild steel, stock: {form: flat, width: 25, thickness: 25}}
drawing:
  fan: {form: flat, width: 29.5 ±4, thickness: 20 ±0.5, length: 60 ±12, take up: width}
scale: none
steps:
  - {do: spread, zone: fan, to: {thickness: 20 ±0.5}, bite: 15 mm, heats: 2}
"""

#: A bar drawn thinner and a little wider, the width dressed to size at the end.
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


def read(entry: int, name: str, size_mm: float, gauge: str = "calliper") -> Mark:
    zone, dimension = name.split(".")
    return ReadingMark(entry, Reading(zone, dimension, size_mm, gauge))


def course_of(text: str, *marks: Mark, finished: bool = False) -> Course:
    plan = planned(text)
    return follow(plan, at_stock(plan), plan.recipe.steps[0], list(marks), finished=finished)


def test_a_size_that_nobody_asks_for_runs_as_the_published_rule_says() -> None:
    # Tomlinson and Stringer, JISI 193 (1959) (from memory): bite 15 on 25 mm, s = 0.33656; a length
    # of 15 mm becomes 17.393 when 25 is brought down to 20, and the width 26.950.
    stage = planned(FAN).stages["fan"][0]
    longer = stage.form_after.size_mm("length") / stage.form_before.size_mm("length")
    wider = stage.form_after.size_mm("width") / stage.form_before.size_mm("width")
    assert longer == pytest.approx(17.3934 / 15.0, rel=1e-5)
    assert wider == pytest.approx(26.9498 / 25.0, rel=1e-5)
    assert longer * wider == pytest.approx(25.0 / 20.0)  # nothing is lost and nothing made


def test_the_job_reckons_the_same_run_as_the_plan() -> None:
    plan = planned(FAN)
    found = forecast(plan, None, at_stock(plan), 1)
    for size in found.zones["fan"].sizes:
        assert size.expected.value == pytest.approx(plan.stages["fan"][0].form_after.size_mm(size.dimension))


def test_a_zone_left_thicker_has_run_less_far() -> None:
    thick = course_of(FAN, HeatMark(1), read(2, "fan.thickness", 22.0)).now
    thin = course_of(FAN, HeatMark(1), read(2, "fan.thickness", 20.0)).now
    assert thick.size("fan", "length").value < thin.size("fan", "length").value
    assert thick.size("fan", "width").value < thin.size("fan", "width").value


def test_a_length_that_ran_further_teaches_that_the_width_runs_less() -> None:
    untaught = course_of(FAN, HeatMark(1), read(2, "fan.thickness", 20.0)).now
    long = untaught.size("fan", "length").value + 1.5
    taught = course_of(FAN, HeatMark(1), read(2, "fan.thickness", 20.0), read(3, "fan.length", long)).now
    assert taught.belief.mean(SPREAD) < -0.01
    assert taught.size("fan", "width").value < untaught.size("fan", "width").value


def test_the_first_measured_heat_refits_the_coefficient_as_a_textbook_update_would() -> None:
    marks = [HeatMark(1), read(2, "strap.thickness", 14.0), read(3, "strap.width", 46.0)]
    course = course_of(STRAP, *marks)
    heat = course.outcomes[-1].taught.heat
    assert heat is not None
    assert [size.value for size in heat[1:]] == pytest.approx([40.0, 46.0, 20.0, 14.0])
    seen = log(46.0 / 40.0) / log(20.0 / 14.0)
    # By the published rule at a bite of half the width: s = 0.14 + 0.18 - 0.0135 = 0.3065.
    assert published_coefficient(course.step, 40.0) == pytest.approx(0.3065)
    # Kalman by hand, with the doubt of the published figure (0.08) and of the heat (0.05, and the readings').
    outcomes = {o.mark.reading.dimension: o for o in course.outcomes}
    doubts = {name: o.surprise.cold.doubt_mm for name, o in outcomes.items() if o.surprise is not None}
    squeezed = log(20.0 / 14.0)
    own = (0.005**2 + (doubts["width"] / 46.0) ** 2) / squeezed**2
    own += seen**2 * (0.005**2 + (doubts["thickness"] / 14.0) ** 2) / squeezed**2
    gain = 0.08**2 / (0.08**2 + own + 0.05**2)
    assert course.now.belief.mean(SPREAD) == pytest.approx(gain * (seen - 0.3065), rel=1e-6)
    assert course.now.belief.doubt(SPREAD) == pytest.approx(0.08 * (1.0 - gain) ** 0.5, rel=1e-6)


def test_the_order_of_the_readings_does_not_matter() -> None:
    one = course_of(STRAP, HeatMark(1), read(2, "strap.thickness", 14.0), read(3, "strap.width", 46.0))
    other = course_of(STRAP, HeatMark(1), read(2, "strap.width", 46.0), read(3, "strap.thickness", 14.0))
    assert one.now.belief.mean(SPREAD) == pytest.approx(other.now.belief.mean(SPREAD))


@pytest.mark.parametrize(
    ("marks", "why"),
    [
        ([HeatMark(1), read(2, "strap.thickness", 14.0)], "one size alone"),
        ([read(1, "strap.thickness", 14.0), HeatMark(2), read(3, "strap.width", 46.0)], "two heats"),
        ([HeatMark(1), read(2, "strap.thickness", 14.0), read(3, "strap.width", 39.0)], "edges were worked"),
        ([HeatMark(1), read(2, "strap.thickness", 19.5), read(3, "strap.width", 40.3)], "hardly thinned"),
        ([HeatMark(1), read(2, "strap.thickness", 8.0), read(3, "strap.width", 42.0)], "dressed to size"),
    ],
)
def test_what_says_nothing_of_the_spread_teaches_nothing(marks: list[Mark], why: str) -> None:
    course = course_of(STRAP, *marks)
    assert course.now.belief.mean(SPREAD) == 0.0, why
    assert all(o.taught.heat is None for o in course.outcomes)


def test_only_the_first_measured_heat_of_a_step_teaches() -> None:
    first = [HeatMark(1), read(2, "strap.thickness", 14.0), read(3, "strap.width", 46.0)]
    again = [HeatMark(4), read(5, "strap.thickness", 11.0), read(6, "strap.width", 46.0)]
    once = course_of(STRAP, *first).now.belief.mean(SPREAD)
    assert course_of(STRAP, *first, *again).now.belief.mean(SPREAD) == once


@given(st.floats(9.5, 17.0), st.floats(41.0, 60.0))
def test_the_learned_coefficient_lies_between_the_published_one_and_what_was_seen(
    thick: float, wide: float
) -> None:
    course = course_of(STRAP, HeatMark(1), read(2, "strap.thickness", thick), read(3, "strap.width", wide))
    offset = course.now.belief.mean(SPREAD)
    if all(o.taught.heat is None for o in course.outcomes):
        assert offset == 0.0
        return
    seen = log(wide / 40.0) / log(20.0 / thick)
    assert 0.0 <= offset / (seen - 0.3065) <= 1.0


def test_a_width_that_ran_beyond_its_size_is_dressed_back_not_lost() -> None:
    plan = planned(STRAP)
    course = course_of(STRAP, HeatMark(1), read(2, "strap.thickness", 14.0), read(3, "strap.width", 46.0))
    outcome = course.outcomes[-1]
    assert outcome.judged is not None
    assert outcome.judged.verdict is Verdict.MORE_TO_GO
    assert outcome.run_wide
    assert heats_to_go(course, outcome) == 1
    finished = {size.dimension: size for size in forecast(plan, course, course.start, 1).zones["strap"].sizes}
    assert finished["width"].expected.value == pytest.approx(42.0)


def test_a_wide_thin_edge_folds_rather_than_go_back() -> None:
    thin = STRAP.replace("thickness: 8 ±0.5", "thickness: 4 ±0.5").replace("width: 42 ±1", "width: 60 ±1")
    course = course_of(thin, HeatMark(1), read(2, "strap.thickness", 6.0), read(3, "strap.width", 64.0))
    assert course.outcomes[-1].judged is not None
    assert course.outcomes[-1].judged.verdict is Verdict.GONE_PAST


def test_a_width_on_its_way_as_far_as_it_runs_by_itself_is_believed() -> None:
    # 45 × 35 brought towards 14 mm thick runs to about 60 mm wide before its edges are dressed to 50.
    bar = STRAP.replace("width: 40, thickness: 20", "width: 45, thickness: 35")
    bar = bar.replace("thickness: 8 ±0.5", "thickness: 14 ±1").replace("width: 42 ±1", "width: 50 ±1.5")
    course = course_of(bar, HeatMark(1), read(2, "strap.width", 58.0), read(3, "strap.thickness", 17.0))
    assert not course.outcomes[0].questioned


def test_a_slip_of_a_digit_is_questioned_though_the_hammer_could_have_been_anywhere() -> None:
    # The bar comes from 20 to 8 mm; a quarter of its size beyond that is no stroke of the hammer.
    slip = course_of(STRAP, HeatMark(1), read(2, "strap.thickness", 6.0))
    assert slip.outcomes[0].questioned
    assert slip.now.size("strap", "thickness").value > 7.5
    again = course_of(STRAP, HeatMark(1), read(2, "strap.thickness", 6.0), read(3, "strap.thickness", 6.1))
    assert not again.outcomes[1].questioned  # twice the same is what it is
    past = course_of(STRAP, HeatMark(1), read(2, "strap.thickness", 7.0))
    assert not past.outcomes[0].questioned


@given(st.floats(5.0, 200.0), st.sampled_from([LEAST_BITE_SHARE, GREATEST_BITE_SHARE]))
def test_the_nearest_published_bite_is_published_at_every_width(width_mm: float, share: float) -> None:
    """Rounding once carried a bite of one and a half widths beyond what is published, and stopped a job."""
    step = Step(1, "spread", ("blade",), "Spread", amounts={"bite_mm": 2.0 * share * width_mm})
    coefficient = published_coefficient(step, width_mm)
    assert coefficient is not None
    assert 0.0 < coefficient < 1.0


def test_a_reading_tells_how_far_it_moved_what_is_believed_of_the_spread() -> None:
    marks = [HeatMark(1), read(2, "strap.thickness", 14.0), read(3, "strap.width", 46.0)]
    course = course_of(STRAP, *marks)
    taught = [outcome.taught.spread for outcome in course.outcomes]
    assert taught[0] == 0.0
    assert taught[1] == pytest.approx(course.now.belief.mean(SPREAD))


def test_the_mean_of_a_taper_s_thicknesses_lies_half_way() -> None:
    assert mean_thickness_mm(Shape("taper"), {"thickness": 10.0, "end_thickness": 4.0}) == 7.0
    assert mean_thickness_mm(Shape("flat"), {"thickness": 10.0}) == 10.0


def test_a_run_is_as_doubtful_as_all_that_it_hangs_on() -> None:
    plan = planned(FAN)
    stock = at_stock(plan)
    before_mm = stock.size("fan", "length").value
    after = step_on(plan, stock, plan.recipe.steps[0]).size("fan", "length")
    # Tomlinson and Stringer as above: s = 0.33656, so that the length grows by (25/20)^0.66344.
    size, share = before_mm * 1.25**0.66344, 0.66344
    parts = (
        size / before_mm * 0.7,  # the mark that it was begun with
        size * share / 25.0 * 0.125,  # the bar's thickness, to 0.5 %
        size * share / 20.0 * 0.25,  # the thickness aimed at, 20 ±0.5
        size * log(1.25) * 0.08,  # the published coefficient
        0.01 * size,  # what no one coefficient says
    )
    assert after.value == pytest.approx(size, rel=1e-5)
    assert after.doubt == pytest.approx(hypot(*parts), rel=1e-4)


#: A flat bar becomes a fan that is equally thick from end to end: its far thickness goes with the near one.
EVEN_FAN = """
title: Fan
pieces:
  fan: {metal: mild steel, stock: {form: flat, width: 60, thickness: 6}}
drawing:
  fan: {form: taper, width: 66 ±4, end_width: 116 ±4, thickness: 3 ±0.5, length: 110 ±20}
scale: none
steps:
  - {do: spread, zone: fan, form: taper, to: TO, heats: 2}
"""


@pytest.mark.parametrize(
    "to",
    [
        "{width: 66, end_width: 116, thickness: 3, end_thickness: 3}",
        "{width: 66, end_width: 116, thickness: 3}",
        "{end_width: 116, thickness: 3}",
        "{thickness: 3}",
    ],
)
def test_a_plain_bar_is_spread_equally_thick_at_both_ends(to: str) -> None:
    plan = planned(EVEN_FAN.replace("TO", to))
    sizes = plan.stages["fan"][-1].form_after.sizes_mm()
    assert (sizes["thickness"], sizes["end_thickness"]) == (3.0, 3.0)
    after = step_on(plan, at_stock(plan), plan.recipe.steps[0])
    for name in ("thickness", "width", "end_width", "length"):
        assert after.size("fan", name).value == pytest.approx(sizes[name], rel=0.02), name
    # Both ends are thinned by one hammer: what is known of the one is known of the other, but for chance.
    assert after.size("fan", "end_thickness").value == pytest.approx(3.0)
    marks = [HeatMark(1), read(2, "fan.thickness", 3.4)]
    course = follow(plan, at_stock(plan), plan.recipe.steps[0], marks, finished=True)
    assert course.now.size("fan", "end_thickness").value == pytest.approx(3.4, abs=0.1)
