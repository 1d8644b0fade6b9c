"""A step as it goes: heats and readings in the order they come."""

from __future__ import annotations

import pytest

from coach.ledger.belief import Change
from coach.ledger.course import Course, HeatMark, Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.heats import scaled
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading
from coach.ledger.stepping import step_on
from coach.ledger.wanting import wanted
from coach.ledger.workpiece import SCALE, Workpiece, at_stock, volume_name
from tests.ledger.recipes import DRAW, EYE, LAID, planned

#: 40 × 36 flat drawn down to 28 thick.
DOWN = """
title: Poll
pieces:
  poll: {metal: C45, stock: {form: flat, width: 40, thickness: 36}}
drawing:
  poll: {form: flat, width: 40 ±1, thickness: 28 ±1, length: 120 ±6, take up: length}
steps:
  - {do: draw, zone: poll, to: {width: 40 ±1, thickness: 28 ±1}, heats: 4}
"""


def course_of(plan: Plan, marks: list[Mark], step: int = 1, *, finished: bool = False) -> Course:
    start = at_stock(plan)
    for done in plan.recipe.steps[: step - 1]:
        start = step_on(plan, start, done)
    return follow(plan, start, plan.recipe.steps[step - 1], marks, finished=finished)


def read(
    entry: int, name: str, size_mm: float, gauge: str = "calliper", *, insisted: bool = False
) -> ReadingMark:
    zone, dimension = name.split(".")
    return ReadingMark(entry, Reading(zone, dimension, size_mm, gauge), insisted)


def verdicts(course: Course) -> list[str]:
    return [str(outcome.judged.verdict) if outcome.judged else "" for outcome in course.outcomes]


def test_a_section_on_its_way_down_has_more_to_go_and_under_size_has_gone_past() -> None:
    plan = planned(DOWN)
    assert verdicts(course_of(plan, [read(2, "poll.thickness", 31.0)])) == ["more to go"]
    assert verdicts(course_of(plan, [read(2, "poll.thickness", 28.0)])) == ["good"]
    assert verdicts(course_of(plan, [read(2, "poll.thickness", 26.0)])) == ["gone past"]


def test_a_hole_on_its_way_open_has_more_to_go_and_over_size_has_gone_past() -> None:
    plan = planned(EYE)
    assert verdicts(course_of(plan, [read(2, "block.hole_width", 15.0)], step=2)) == ["more to go"]
    assert verdicts(course_of(plan, [read(2, "block.hole_width", 22.5)], step=2)) == ["gone past"]


def test_a_second_reading_after_more_hammering_is_believed() -> None:
    course = course_of(planned(DOWN), [read(2, "poll.thickness", 31.0), read(3, "poll.thickness", 28.2)])
    assert [outcome.questioned for outcome in course.outcomes] == [False, False]
    assert verdicts(course) == ["more to go", "good"]
    assert course.now.size("poll", "thickness").value == pytest.approx(28.2, abs=0.05)


def test_a_few_blows_too_many_are_believed_and_a_slip_of_the_pen_is_not() -> None:
    plan = planned(DOWN)
    marks: list[Mark] = [read(2, "poll.thickness", 27.9)]
    assert verdicts(course_of(plan, [*marks, read(3, "poll.thickness", 25.5)])) == ["good", "gone past"]
    assert not course_of(plan, [*marks, read(3, "poll.thickness", 25.5)]).outcomes[1].questioned
    assert course_of(plan, [*marks, read(3, "poll.thickness", 2.8)]).outcomes[1].questioned


def test_heats_between_two_readings_let_the_size_move() -> None:
    marks: list[Mark] = [
        read(2, "poll.thickness", 33.0),
        HeatMark(3),
        HeatMark(4),
        read(5, "poll.thickness", 28.6),
    ]
    course = course_of(planned(DOWN), marks)
    assert course.heats == 2
    assert not any(outcome.questioned for outcome in course.outcomes)


def test_an_impossible_reading_is_questioned_and_not_taken_in() -> None:
    plan = planned(DOWN)
    course = course_of(plan, [read(2, "poll.thickness", 62.0)])
    (outcome,) = course.outcomes
    assert outcome.questioned
    assert course.now.belief.mean("poll.thickness") == course_of(plan, []).now.belief.mean("poll.thickness")


def test_the_same_impossible_reading_twice_stands() -> None:
    course = course_of(planned(DOWN), [read(2, "poll.thickness", 62.0), read(3, "poll.thickness", 61.9)])
    # They are one account, in whatever order: the first counts with the second.
    assert [outcome.questioned for outcome in course.outcomes] == [False, False]
    assert course.now.size("poll", "thickness").value > 55.0


def test_two_different_impossible_readings_are_both_questioned() -> None:
    course = course_of(planned(DOWN), [read(2, "poll.thickness", 62.0), read(3, "poll.thickness", 75.0)])
    assert [outcome.questioned for outcome in course.outcomes] == [True, True]


def test_a_reading_insisted_on_stands_at_once() -> None:
    course = course_of(planned(DOWN), [read(2, "poll.thickness", 62.0, insisted=True)])
    assert not course.outcomes[0].questioned
    assert course.now.size("poll", "thickness").value > 50.0


@pytest.mark.parametrize(("text", "name", "step"), [(DRAW, "strap.length", 1), (LAID, "blade.length", 5)])
def test_insisting_on_a_length_moves_the_metal_account_most_of_the_way(
    text: str, name: str, step: int
) -> None:
    plan = planned(text)
    zone = name.split(".", maxsplit=1)[0]
    believed = course_of(plan, [], step).now.size(zone, "length").value
    said = 0.5 * believed
    course = course_of(plan, [read(2, name, said, "rule", insisted=True)], step)
    # The reckoning is made unsure until the reading lies two of its standard uncertainties off: then the
    # reading carries nearly all the weight, whether the zone holds one metal or two.
    assert course.now.size(zone, "length").value == pytest.approx(said, abs=0.05 * believed)


def test_a_length_that_is_short_while_the_section_is_thick_is_more_to_go() -> None:
    plan = planned(DRAW.replace("width: 40 ±1}", "width: 40 ±1, length: 240 ±12}"))
    marks = [read(2, "strap.thickness", 10.0), read(3, "strap.length", 190.0, "rule")]
    for order in (marks, [read(2, "strap.length", 190.0, "rule"), read(3, "strap.thickness", 10.0)]):
        course = course_of(plan, list(order))
        assert sorted(verdicts(course)) == ["more to go", "more to go"]


def test_a_length_is_enough_when_it_holds_the_metal_at_the_section_it_has() -> None:
    marks = [read(2, "strap.thickness", 10.0), read(3, "strap.length", 190.0, "rule")]
    assert verdicts(course_of(planned(DRAW), list(marks))) == ["more to go", "good"]


def test_a_length_that_is_short_while_the_section_is_good_is_out() -> None:
    course = course_of(
        planned(DRAW),
        [
            read(2, "strap.thickness", 8.0),
            read(3, "strap.width", 40.0),
            read(4, "strap.length", 215.0, "rule"),
        ],
    )
    assert verdicts(course) == ["good", "good", "out"]


def test_a_section_read_thick_in_a_later_heat_does_not_excuse_an_earlier_short_length() -> None:
    course = course_of(
        planned(DRAW),
        [
            read(2, "strap.thickness", 8.0),
            read(3, "strap.length", 215.0, "rule", insisted=True),
            read(6, "strap.width", 40.0),
            HeatMark(4),
            read(5, "strap.thickness", 9.5),
        ],
    )
    assert verdicts(course)[1] == "out"


def test_a_finished_step_that_nobody_measured_came_to_its_targets() -> None:
    plan = planned(DRAW)
    going, done = course_of(plan, []), course_of(plan, [], finished=True)
    assert done.now.size("strap", "thickness").value == pytest.approx(8.0)
    assert done.now.size("strap", "thickness").doubt == pytest.approx(0.25)  # ±0.5 holds nineteen in twenty
    assert going.now.size("strap", "thickness").doubt > done.now.size("strap", "thickness").doubt


def test_heats_marked_one_by_one_scale_as_much_as_the_same_heats_at_once() -> None:
    plan = planned(DRAW)
    one_by_one = course_of(plan, [HeatMark(2), HeatMark(3), HeatMark(4)]).now
    at_once = step_on(plan, at_stock(plan), plan.recipe.steps[0])
    lost = plan.start_mm3["strap"] - at_once.volume_mm3("strap")
    assert plan.start_mm3["strap"] - one_by_one.volume_mm3("strap") == pytest.approx(lost, rel=0.01)


def test_a_heat_never_adds_metal_however_little_scale_a_shop_has_found() -> None:
    plan = planned(DRAW)
    start = at_stock(plan)
    odd = Workpiece(start.zones, start.belief.predict({SCALE: Change(-0.5, {SCALE: 1.0})}))
    step = plan.recipe.steps[0]
    forms = {"strap": odd.form("strap")}
    assert scaled(plan, odd, step, forms, 3.0).volume_mm3("strap") < odd.volume_mm3("strap")
    assert step_on(plan, odd, step).volume_mm3("strap") < odd.volume_mm3("strap")


def test_short_lengths_teach_the_shop_s_scale_factor() -> None:
    heavy = DRAW.replace("heats: 3", "heats: 12")
    plan = planned(heavy)
    marks: list[Mark] = [HeatMark(n) for n in range(2, 14)]
    marks += [read(14, "strap.thickness", 8.0), read(15, "strap.width", 40.0)]
    short = course_of(plan, [*marks, read(16, "strap.length", 236.0)]).now
    long = course_of(plan, [*marks, read(16, "strap.length", 244.0)]).now
    assert short.belief.mean(SCALE) > 1.0 > long.belief.mean(SCALE)
    assert short.belief.doubt(SCALE) < plan.recipe.scale.doubt_share


def test_a_reading_of_one_side_of_a_round_hole_is_one_of_both() -> None:
    plan = planned(
        """
title: Nail plate
pieces:
  plate: {metal: mild steel, stock: {form: flat, width: 20, thickness: 6}}
drawing:
  plate: {form: eyed, hole: round, width: 20 ±2, thickness: 6, length: 40, hole length: 6, hole width: 6}
steps:
  - {do: punch, zone: plate, to: drawing, heats: 1, check: [hole width]}
"""
    )
    ways: list[list[Mark]] = [
        [read(2, "plate.hole_width", 6.3)],
        [read(2, "plate.hole_length", 6.3)],
        [read(2, "plate.hole_width", 6.3), HeatMark(3), read(4, "plate.hole_length", 6.4)],
    ]
    for marks in ways:
        course = course_of(plan, marks)
        form = course.now.form("plate")
        assert form.size_mm("hole_width") == pytest.approx(form.size_mm("hole_length"), rel=1e-9)
        assert form.size_mm("hole_width") == pytest.approx(6.3, abs=0.15)
        assert form.size_mm("far_hole_width") == pytest.approx(form.size_mm("hole_width"), rel=1e-9)
        slopes = course.now.free_slopes("plate", form)
        wider = form.with_sizes({"hole_length": 6.4, "far_hole_length": 6.4}).solved(
            "width", form.volume_mm3()
        )
        narrower = form.with_sizes({"hole_length": 6.2, "far_hole_length": 6.2}).solved(
            "width", form.volume_mm3()
        )
        by_hand = (wider.size_mm("width") - narrower.size_mm("width")) / 0.2
        along = sum(slopes.get(f"plate.{name}", 0.0) for name in form.DIMENSIONS if "hole" in name)
        assert along == pytest.approx(by_hand, rel=0.02)


def test_a_straight_hole_read_at_one_mouth_is_straight_to_the_other() -> None:
    course = course_of(planned(EYE), [read(2, "block.hole_width", 20.9)], step=2)
    form = course.now.form("block")
    assert form.size_mm("far_hole_width") == pytest.approx(form.size_mm("hole_width"), abs=0.01)


def test_the_far_mouth_read_by_itself_makes_the_hole_taper() -> None:
    marks = [read(2, "block.hole_width", 20.0), read(3, "block.far_hole_width", 19.4)]
    form = course_of(planned(EYE), list(marks), step=2).now.form("block")
    assert 0.2 < form.size_mm("hole_width") - form.size_mm("far_hole_width") < 0.6


def test_readings_of_a_zone_that_was_laid_on_are_only_noted() -> None:
    plan = planned(LAID)
    course = course_of(plan, [read(2, "bit.length", 60.0)], step=5)
    assert course.outcomes[0].surprise is None
    assert course.now.belief.mean(volume_name("bit")) == pytest.approx(
        course_of(plan, [], step=5).now.belief.mean(volume_name("bit"))
    )


def test_a_free_size_is_wanted_at_least_as_big_as_the_rest_of_the_job_needs() -> None:
    plan = planned(LAID)
    course = course_of(plan, [], step=4)
    limits, grows = wanted(plan, course.now, course.step, "blade", "length")
    assert limits is not None
    assert grows is None
    stage = plan.by_step[4]["blade"]
    assert limits.nominal == pytest.approx(stage.after_mm3 / (41 * 17))
    slack = plan.wanted_mm3["blade"] - plan.least_mm3["blade"]
    assert limits.low == pytest.approx((stage.after_mm3 - slack) / (41 * 17))
    assert not limits.is_two_sided


def test_the_last_step_that_shapes_a_zone_is_held_against_the_drawing() -> None:
    plan = planned(LAID)
    course = course_of(plan, [], step=6)
    limits, _ = wanted(plan, course.now, course.step, "blade", "thickness")
    assert limits == plan.recipe.drawing["blade"].limits["thickness"]


def test_angles_and_other_extras_are_judged_without_touching_the_metal() -> None:
    plan = planned(
        """
title: Bracket
pieces:
  arm: {metal: mild steel, stock: {form: flat, width: 30, thickness: 10}}
drawing:
  arm: {form: flat, width: 30, thickness: 10, length: 160}
steps:
  - {do: bend, zone: arm, to: {angle: 90 ±5, radius: 10 ±3}, heats: 1, check: [angle, radius]}
"""
    )
    course = course_of(
        plan, [read(2, "arm.angle", 92.0), read(3, "arm.radius", 18.0), read(4, "arm.curve_height", 3.0)]
    )
    assert verdicts(course) == ["good", "more to go", ""]
    tight = course_of(plan, [read(2, "arm.angle", 104.0), read(3, "arm.radius", 4.0)])
    assert verdicts(tight) == ["out", "out"]
    assert course.now.volume_mm3("arm") == pytest.approx(course_of(plan, []).now.volume_mm3("arm"))
    assert all(outcome.surprise is None for outcome in course.outcomes)


def test_the_latest_reading_of_a_size_is_the_one_that_counts() -> None:
    course = course_of(planned(DOWN), [read(2, "poll.thickness", 31.0), read(3, "poll.thickness", 28.2)])
    last = course.last("poll", "thickness")
    assert last is not None
    assert last.mark.entry == 3
    assert course.last("poll", "width") is None
