"""The chance of a job moves with a reading; it does not leap at a limit, on either side of it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from itertools import pairwise
from math import inf, pi, sqrt
from typing import NamedTuple

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.ledger.course import HeatMark, Mark, ReadingMark
from coach.ledger.following import follow
from coach.ledger.forecast import forecast
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading, cold_reading
from coach.ledger.stepping import step_on
from coach.ledger.wanting import wanted
from coach.ledger.workpiece import Workpiece, at_stock
from coach.places import bundled_recipes
from coach.recipe.reader import read_recipe, read_recipe_file

NAMES = sorted(path.stem for path in bundled_recipes().glob("*.yaml"))
#: How steep the normal distribution is at its middle, for each standard uncertainty.
STEEPEST = 1.0 / sqrt(2.0 * pi)
#: One reading can bring two things to their limits at once, as a size and the metal: the product of two such
#: chances is at its steepest 1.22 times as steep as one, that of three 1.36 times (reckoned).
TOGETHER = 1.3


def most(reading: Reading, step_mm: float) -> float:
    """By how much so small a step of a reading may move a chance: its gauge leaves a doubt, and no less.

    A size is inside by the normal distribution of that doubt, whose slope is nowhere steeper: 2.4 points for
    a hundredth of a millimetre by calliper on 10 mm. At a limit it leapt by up to 90 points.
    """
    return TOGETHER * STEEPEST * step_mm / cold_reading(reading).doubt_mm


@cache
def begun(name: str) -> tuple[Plan, tuple[Workpiece, ...]]:
    """A recipe's plan, and the workpiece before each step with everything going as planned."""
    plan = look_back(read_recipe_file(bundled_recipes() / f"{name}.yaml"))
    starts = [at_stock(plan)]
    for step in plan.recipe.steps:
        starts.append(step_on(plan, starts[-1], step))
    return plan, tuple(starts)


def chance(plan: Plan, start: Workpiece, number: int, marks: list[Mark]) -> tuple[float, bool]:
    """The chance, and whether every reading is within two standard uncertainties of what was expected."""
    step = plan.recipe.steps[number - 1]
    course = follow(plan, start, step, marks, finished=False)
    surprises = [one.surprise.standardised for one in course.outcomes if one.surprise is not None]
    return forecast(plan, course, start, number).chance, all(abs(one) < 1.9 for one in surprises)


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=60)
@given(data=st.data())
def test_a_hundredth_of_a_millimetre_moves_the_chance_but_little(name: str, data: st.DataObject) -> None:
    plan, starts = begun(name)
    number = data.draw(st.integers(1, len(plan.recipe.steps)))
    step, start = plan.recipe.steps[number - 1], starts[number - 1]
    heats: list[Mark] = [HeatMark(100 + n) for n in range(data.draw(st.integers(0, step.heats)))]
    now = follow(plan, start, step, heats, finished=False).now
    asked = {}
    for check in step.checks:
        zone, dimension = check.rsplit(".", 1)
        if dimension in step.targets and dimension in now.zones[zone].shape.dimensions:
            limits, _ = wanted(plan, now, step, zone, dimension)
            if limits is not None and -inf < limits.low and limits.high < inf:
                asked[zone, dimension] = limits
    if not asked:
        return
    size = data.draw(st.sampled_from(sorted(asked)))
    marks = list(heats)
    for other, limits in asked.items():
        if other != size and data.draw(st.booleans()):
            at_mm = limits.nominal + data.draw(st.floats(-0.3, 0.3)) * (limits.high - limits.low)
            marks.append(ReadingMark(200 + len(marks), Reading(*other, at_mm, "calliper"), insisted=True))
    limits = asked[size]
    place = data.draw(st.floats(-0.4, 1.4))
    at_mm = limits.low + place * (limits.high - limits.low)
    first, second = (Reading(*size, mm, "calliper") for mm in (at_mm, at_mm + 0.01))
    before, after = (
        chance(plan, start, number, [*marks, ReadingMark(300, one, insisted=True)]) for one in (first, second)
    )
    if before[1] and after[1]:  # what is stood by against the reckoning is another matter
        assert abs(before[0] - after[0]) < most(first, 0.01)


#: Where a size passes from good to more to go, or back, what it leaves of the others changes with it.
AT_THE_END_OF_A_STEP = [(54.0, 3), (57.0, 4), (57.0, 3), (60.0, 4)]


@pytest.mark.parametrize(("length_mm", "heats"), AT_THE_END_OF_A_STEP)
def test_where_good_passes_into_more_to_go_neither_chance_leaps(length_mm: float, heats: int) -> None:
    """By so much as the slope of a normal distribution: at the guard band will pass leapt by 15 points."""
    plan, starts = begun("cold-chisel")
    beside = {"length": length_mm, "end_thickness": 4.0}
    marks: list[Mark] = [HeatMark(100 + n) for n in range(heats)]
    for name, mm in beside.items():
        marks.append(ReadingMark(200 + len(marks), Reading("edge", name, mm, "calliper"), insisted=True))
    found = []
    for at_mm in (23.77, 23.78, 23.79, 23.80, 23.81, 23.82, 23.83, 23.84):
        reading = Reading("edge", "end_width", at_mm, "calliper")
        course = follow(
            plan,
            starts[1],
            plan.recipe.steps[1],
            [*marks, ReadingMark(300, reading, insisted=True)],
            finished=False,
        )
        told = forecast(plan, course, starts[1], 2)
        assert told.will_pass is not None
        found.append((told.chance, told.will_pass.chance))
    for before, after in pairwise(found):
        assert abs(before[0] - after[0]) < most(reading, 0.01)
        assert abs(before[1] - after[1]) < most(reading, 0.01)


@pytest.mark.parametrize("hole_mm", [5.3, 5.5, 5.7])
@pytest.mark.parametrize("heats", [0, 1])
def test_where_what_the_metal_makes_passes_into_more_to_go_no_chance_leaps(
    hole_mm: float, heats: int
) -> None:
    """First hook: a plate 0.28 mm narrower than its step allows; there the chance leapt by 92 points."""
    plan, starts = begun("first-hook")
    hole = ReadingMark(200, Reading("plate", "hole_length", hole_mm, "calliper"))
    marks: list[Mark] = [*(HeatMark(100 + n) for n in range(heats)), hole]
    found = []
    for hundredths in range(1366, 1436):
        reading = Reading("plate", "width", hundredths / 100.0, "calliper")
        found.append(chance(plan, starts[7], 8, [*marks, ReadingMark(300, reading)])[0])
    assert all(abs(after - before) < most(reading, 0.01) for before, after in pairwise(found))


#: A crane's arm: what is drawn at its end is drawn to a section and takes up its length.
ARM = """
recipe: Pot crane arm
pieces:
  arm:
    metal: mild steel
    bar: 25 x 12
    zones:
      nose: round 14 ±1 to 8 ±1, long 130 ±11
      neck: 20 ±1.2 x 10 ±1, long 180 ±15
      root: 25 x 12, long 60 ±3
steps:
  - mark out: arm
  - draw: neck, 20 ±1.2 x 10 ±1, 2 heats
    check: width, thickness, length
  - taper: nose, round 14 ±1 to 8 ±1, 4 heats
    check: diameter, end diameter, length
  - cut: root, cold, kerf 1.5
"""


@pytest.mark.parametrize(
    ("number", "heats", "zone", "section", "low_mm"),
    [
        (3, 3, "nose", {"diameter": 14.2, "end_diameter": 8.3}, 119.0),
        (2, 2, "neck", {"width": 20.5, "thickness": 10.4}, 165.0),
    ],
)
def test_where_a_length_is_short_and_its_section_holds_the_metal_for_it_no_chance_leaps(
    number: int, heats: int, zone: str, section: dict[str, float], low_mm: float
) -> None:
    """A guard band, half a millimetre, below what the drawing allows the chance leapt by 92 and 99 points."""
    plan = look_back(read_recipe(ARM, "arm.yaml"))
    start = at_stock(plan)
    for step in plan.recipe.steps[: number - 1]:
        start = step_on(plan, start, step)
    marks: list[Mark] = [HeatMark(100 + n) for n in range(heats)]
    for name, mm in section.items():
        marks.append(ReadingMark(200 + len(marks), Reading(zone, name, mm, "calliper")))
    found = []
    for hundredths in range(-80, 70):
        reading = Reading(zone, "length", low_mm + hundredths / 100.0, "calliper")
        found.append(chance(plan, start, number, [*marks, ReadingMark(300, reading)])[0])
    # Two things pass at once, each as steep as the normal distribution at most.
    assert all(abs(after - before) < 2.0 * most(reading, 0.01) for before, after in pairwise(found))


class Told(NamedTuple):
    """What is told where a size was read, beside others that were read before it."""

    so_far: float
    will_pass: float
    by_size: Mapping[str, float]


def told_at(
    name: str,
    number: int,
    heats: int,
    beside: Mapping[str, float],
    size: str,
    at_mm: float,
    *,
    insisted: bool = False,
) -> Told:
    """The chances of a shelf recipe, and that of each size, as they are in the step with that number."""
    plan, starts = begun(name)
    marks: list[Mark] = [HeatMark(100 + n) for n in range(heats)]
    for of, mm in (*beside.items(), (size, at_mm)):
        zone, dimension = of.rsplit(".", 1)
        reading = Reading(zone, dimension, mm, "calliper")
        marks.append(ReadingMark(200 + len(marks), reading, insisted=insisted))
    course = follow(plan, starts[number - 1], plan.recipe.steps[number - 1], marks, finished=False)
    assert not any(one.questioned for one in course.outcomes)
    found = forecast(plan, course, starts[number - 1], number)
    assert found.will_pass is not None
    by_size = {one.name: one.chance for zone in found.zones.values() for one in zone.sizes}
    return Told(found.chance, found.will_pass.chance, by_size)


#: A coil's pitch, a rein's thickness, an adze's eye: what of the step in hand is reckoned as if it were
#: finished asked once more whether to believe a reading that the step as it goes believes; where it did not,
#: the chance of a size leapt by 69, 43 and 93 points.
ASKED_ONCE_MORE = [
    ("coiled-stove-poker", 5, 2, {"grip.inside": 18.61, "grip.wound_length": 98.69}, "grip.pitch", 13.15),
    (
        "bolt-tongs",
        11,
        5,
        {"arm 1 rein.end_thickness": 8.31, "arm 1 rein.length": 401.6, "arm 1 rein.width": 12.94},
        "arm 1 rein.thickness",
        9.69,
    ),
    (
        "carpenters-adze",
        27,
        2,
        {"eye.far_hole_length": 36.95, "eye.hole_length": 35.38, "eye.length": 53.6},
        "eye.width",
        50.69,
    ),
]


@pytest.mark.parametrize(("name", "number", "heats", "beside", "size", "at_mm"), ASKED_ONCE_MORE)
def test_what_a_step_believes_is_believed_of_its_end_too(
    name: str, number: int, heats: int, beside: Mapping[str, float], size: str, at_mm: float
) -> None:
    before, after = (told_at(name, number, heats, beside, size, mm) for mm in (at_mm, at_mm + 0.01))
    zone, dimension = size.rsplit(".", 1)
    bound = most(Reading(zone, dimension, at_mm, "calliper"), 0.01)
    assert abs(before.so_far - after.so_far) < bound
    assert abs(before.will_pass - after.will_pass) < bound
    assert all(abs(before.by_size[of] - after.by_size[of]) < bound for of in before.by_size)


#: What the step in hand leaves as it was read: a width just under its limit and stood by (89 points), a
#: length too long by what its section makes (50), one short of the drawing (72), and whether the heats that
#: nobody marked were taken (10).
LEFT_BY_DEGREES = [
    ("first-hook", 8, 0, {"plate.hole_width": 5.39, "plate.length": 45.37}, "plate.width", 13.72),
    (
        "hay-fork",
        3,
        5,
        {"tines.end_tine": 3.21, "tines.thickness": 9.24, "tines.tine": 8.38},
        "tines.length",
        281.1,
    ),
    ("folded-froe", 6, 3, {"blade.edge": 3.19, "blade.width": 52.28}, "blade.length", 247.18),
    (
        "cold-chisel",
        2,
        0,
        {"edge.end_width": 26.05, "edge.thickness": 17.15, "edge.width": 18.86},
        "edge.length",
        50.74,
    ),
]


@pytest.mark.parametrize(("name", "number", "heats", "beside", "size", "at_mm"), LEFT_BY_DEGREES)
def test_what_a_step_leaves_as_it_was_read_it_leaves_by_degrees(
    name: str, number: int, heats: int, beside: Mapping[str, float], size: str, at_mm: float
) -> None:
    before, after = (
        told_at(name, number, heats, beside, size, mm, insisted=True) for mm in (at_mm, at_mm + 0.01)
    )
    zone, dimension = size.rsplit(".", 1)
    bound = most(Reading(zone, dimension, at_mm, "calliper"), 0.01)
    assert abs(before.so_far - after.so_far) < bound
    assert abs(before.will_pass - after.will_pass) < bound
    assert all(abs(before.by_size[of] - after.by_size[of]) < bound for of in before.by_size)


def test_where_a_length_becomes_too_long_no_chance_leaps() -> None:
    """Cold chisel: inside, a length is told by the least that suffices, over it by the drawing.

    There the chances of the job leapt by 2.6 and 2.7 points, and that of a size by 7, for nothing.
    """
    beside = {"edge.end_thickness": 3.89, "edge.end_width": 25.89}
    found = [
        told_at("cold-chisel", 2, 3, beside, "edge.length", hundredths / 100.0, insisted=True)
        for hundredths in range(6046, 6058)
    ]
    bound = most(Reading("edge", "length", 60.5, "calliper"), 0.01)
    for before, after in pairwise(found):
        assert abs(before.so_far - after.so_far) < bound
        assert abs(before.will_pass - after.will_pass) < bound
        assert all(abs(before.by_size[of] - after.by_size[of]) < bound for of in before.by_size)


def test_a_size_beside_it_that_may_be_left_as_it_is_makes_no_leap() -> None:
    """A coil whose bar was read too thick, and is believed to be within: as it became sure, 14 points."""
    beside = {"grip.diameter": 8.32, "grip.inside": 17.99, "grip.pitch": 9.9}
    found = [
        told_at("coiled-stove-poker", 5, 3, beside, "grip.wound_length", hundredths / 100.0)
        for hundredths in range(8418, 8430)
    ]
    bound = most(Reading("grip", "wound_length", 84.2, "calliper"), 0.01)
    assert all(abs(after.so_far - before.so_far) < bound for before, after in pairwise(found))


def test_a_length_that_is_no_more_sure_to_be_short_makes_no_leap() -> None:
    """Whether the heats of a step were taken, though none was marked, is told by what has more to go.

    A poker's nose whose length passes from sure to be short into unsure: 18 points of its width.
    """
    found = [
        told_at("coiled-stove-poker", 3, 0, {"nose.width": 8.41}, "nose.length", hundredths / 100.0)
        for hundredths in range(4363, 4370)
    ]
    bound = most(Reading("nose", "length", 43.6, "calliper"), 0.01)
    for before, after in pairwise(found):
        assert abs(before.so_far - after.so_far) < bound
        assert all(abs(before.by_size[of] - after.by_size[of]) < bound for of in before.by_size)


def test_no_heat_is_taken_for_left_where_all_were_taken_but_for_a_hair() -> None:
    """A crane's nose: what was read beside it was told as hammered by a whole heat for a hundredth of one."""
    plan = look_back(read_recipe(ARM, "arm.yaml"))
    start = at_stock(plan)
    for step in plan.recipe.steps[:2]:
        start = step_on(plan, start, step)
    found = []
    for hundredths in range(870, 885):
        diameter = ReadingMark(200, Reading("nose", "diameter", 13.18, "calliper"))
        reading = Reading("nose", "end_diameter", hundredths / 100.0, "calliper")
        found.append(chance(plan, start, 3, [diameter, ReadingMark(300, reading)])[0])
    assert all(abs(after - before) < most(reading, 0.01) for before, after in pairwise(found))


def test_whether_a_length_is_short_of_its_section_is_as_doubtful_as_that() -> None:
    """A neck 20 x 9: a hundredth of its thickness is two tenths of the length that the metal then makes.

    Held by the gauge of the length alone, will pass fell by 11 points for that hundredth.
    """
    plan = look_back(read_recipe(ARM, "arm.yaml"))
    start = step_on(plan, at_stock(plan), plan.recipe.steps[0])
    found = []
    for hundredths in range(890, 906):
        length = ReadingMark(200, Reading("neck", "length", 181.76, "calliper"), insisted=True)
        reading = Reading("neck", "thickness", hundredths / 100.0, "calliper")
        marks: list[Mark] = [length, ReadingMark(300, reading, insisted=True)]
        course = follow(plan, start, plan.recipe.steps[1], marks, finished=False)
        told = forecast(plan, course, start, 2)
        assert told.will_pass is not None
        found.append((told.chance, told.will_pass.chance))
    for before, after in pairwise(found):
        assert abs(before[0] - after[0]) < most(reading, 0.01)
        assert abs(before[1] - after[1]) < most(reading, 0.01)


@pytest.mark.parametrize("beside", [{"grip.inside": 18.0, "grip.wound_length": 103.0}])
def test_a_bar_that_only_follows_from_its_coil_has_gone_past_by_degrees(beside: Mapping[str, float]) -> None:
    """A coil's pitch, inside and length read: its bar is what they leave, a third of a millimetre for one.

    Whether it has gone past its limit rose over one guard band of its small doubt: 7 points for a hundredth.
    """
    found = [
        told_at("coiled-stove-poker", 5, 4, beside, "grip.pitch", hundredths / 100.0, insisted=True)
        for hundredths in range(930, 1010)
    ]
    bound = most(Reading("grip", "pitch", 9.5, "calliper"), 0.01)
    for before, after in pairwise(found):
        assert abs(before.so_far - after.so_far) < bound
        assert abs(before.will_pass - after.will_pass) < bound


@pytest.mark.parametrize(("number", "heats"), [(1, 0), (7, 0)])
def test_a_bar_that_was_read_off_its_nominal_is_doubted_by_degrees(number: int, heats: int) -> None:
    """A round bar of 8, read 7.78: it was told as if the hundredth were three, for 7 points of the metal."""
    found = [
        told_at("coiled-stove-poker", number, heats, {}, "shank.diameter", hundredths / 100.0, insisted=True)
        for hundredths in range(770, 830)
    ]
    worst = max(abs(after.so_far - before.so_far) for before, after in pairwise(found))
    # A bar's own share of what is read grows with it: 1.4 times as steep as by its gauge alone (by hand:
    # m = c r³ / (c r² + 1) and s² = c r² / (c r² + 1), c = 0.64, r = 1, in the gauge's doubt: dm/dr / s).
    assert worst < 1.4 * most(Reading("shank", "diameter", 7.8, "calliper"), 0.01)


def test_a_width_just_short_may_stay_though_not_all_of_its_section_was_read() -> None:
    """First hook, a plate 14 wide, one hole read: just under the limit it was told as surely worked on.

    From 14.00 on it stays as it was read: there the chance fell by 46 points.
    """
    found = [
        told_at("first-hook", 8, 1, {"plate.far_hole_length": 5.56}, "plate.width", hundredths / 100.0).so_far
        for hundredths in range(1380, 1420)
    ]
    bound = most(Reading("plate", "width", 14.0, "calliper"), 0.01)
    assert all(abs(after - before) < bound for before, after in pairwise(found))


@pytest.mark.parametrize(
    ("beside", "size", "from_hundredths"),
    [
        ({"plate.width": 15.25}, "plate.far_hole_width", 534),
        ({"plate.far_hole_length": 5.77, "plate.width": 15.1}, "plate.length", 4029),
    ],
)
def test_a_hole_s_far_mouth_is_drifted_with_the_near_one_only_as_surely_as_that_is(
    beside: Mapping[str, float], size: str, from_hundredths: int
) -> None:
    """First hook: for a hundredth of a heat to come all that was read of the far mouth was forgotten.

    The chance of it fell by 27 points.
    """
    found = [
        told_at("first-hook", 8, 0, beside, size, hundredths / 100.0, insisted=True).by_size
        for hundredths in range(from_hundredths, from_hundredths + 12)
    ]
    for before, after in pairwise(found):
        for of in ("plate.far_hole_length", "plate.far_hole_width"):
            assert abs(before[of] - after[of]) < most(Reading("plate", "hole_width", 5.4, "calliper"), 0.01)


def test_what_is_just_more_than_the_metal_makes_of_its_section_is_not_surely_too_long() -> None:
    """An adze's blade, 75.08 long where its section makes 75.0 at the most, as far as that is known: 1.8 mm.

    At 75.07 it counted as going on with its section, at 75.08 as staying as long: 47 points of its length.
    """
    found = [
        told_at("carpenters-adze", 12, 0, {"blade.width": 43.33}, "blade.length", mm / 100.0, insisted=True)
        for mm in (*range(7500, 7520), *range(7600, 7604), *range(7700, 7704))
    ]
    bound = most(Reading("blade", "length", 75.0, "calliper"), 0.01)
    near = list(pairwise(found[:20]))
    near += [(found[at], found[at + 1]) for at in (20, 21, 22, 24, 25, 26)]
    for before, after in near:
        assert abs(before.so_far - after.so_far) < bound
        assert abs(before.will_pass - after.will_pass) < bound
        assert all(abs(before.by_size[of] - after.by_size[of]) < bound for of in before.by_size)
