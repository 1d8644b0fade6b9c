"""What is cut or trimmed to a size comes out so: the zone's other sizes stay, and nobody hammers it since."""

from __future__ import annotations

from math import exp, hypot

import pytest

from coach.bench.session import Session
from coach.bench.standing import Standing
from coach.ledger.verdict import PlanState, Reason, SizeState
from coach.ledger.zone_forecast import FinishedSize
from coach.telling.words import write
from tests.bench.test_settled_sizes import at_step
from tests.told import why


def heated(step: int, **read: str) -> Session:
    """The first hook at a step, its heats taken, and sizes read of its first zone, one after the other."""
    job = at_step("first-hook", step)
    standing = job.standing()
    assert standing.step is not None
    for _ in range(standing.step.heats_planned):
        job.heat()
    for name, size in read.items():
        job.read(name.replace("__", "."), size, insist=True)
    return job


def row(told: Standing, name: str) -> FinishedSize:
    return next(size for size in told.sizes if size.name == name)


def test_a_plate_trimmed_with_its_thickness_unread_is_as_wide_as_it_was_trimmed() -> None:
    job = heated(7, plate__width="19")
    before = row(job.standing(), "plate.thickness").expected
    job.take("trim-the-width")
    told = job.standing()
    assert row(told, "plate.width").expected.value == pytest.approx(16.0, abs=0.01)
    assert row(told, "plate.thickness").expected.value == pytest.approx(before.value, abs=0.02)
    check = next(one for one in told.checks if one.name == "plate.width")
    assert check.wanted is not None
    assert check.wanted.limits.nominal == pytest.approx(16.0)  # and not 19, as its thin metal would make
    job.read("plate.width", "16")
    told = job.standing()
    assert row(told, "plate.width").expected.value == pytest.approx(16.0, abs=0.05)
    assert row(told, "plate.width").state is SizeState.GOOD
    assert row(told, "plate.thickness").expected.value == pytest.approx(before.value, abs=0.05)
    assert "short" not in why(told)


def test_a_plate_run_too_wide_of_the_metal_there_was_is_thinner_or_shorter_and_is_asked_for() -> None:
    # 16 × 5 × 44 mm of metal, 19 wide: 185 mm² are left for thickness and length, where 220 are drawn.
    told = heated(7, plate__width="19").standing()
    thick, long = (row(told, f"plate.{name}").expected for name in ("thickness", "length"))
    left_mm2 = thick.value * long.value
    assert thick.doubt is not None
    assert long.doubt is not None
    doubt_mm2 = left_mm2 * hypot(thick.doubt / thick.value, long.doubt / long.value)
    # The metal itself is known no better than the marks that it lies between, so within what is told of it.
    assert left_mm2 == pytest.approx(16 * 5 * 44 / 19, abs=doubt_mm2)
    assert left_mm2 < 0.9 * 5 * 44


def test_a_punch_works_no_length_that_nobody_measures_beside_it_nearer_to_its_target() -> None:
    """By hand: of ln(19/16) = 0.172 that the plate is too wide the metal, the thickness and the length each

    have the share of their variances: of (0.029² + 0.08² + 0.045² + 0.01²) = 0.0094, as they are before the
    width is read (3530 ±102 mm³ by its marks and its cut, 5 ±0.4 and 44 ±2 by the hand). The metal is then
    3585 mm³, so that 188.7 mm² are left; to the first order, and no more.
    """
    told = heated(7, plate__width="19").standing()
    thick, long = (row(told, f"plate.{name}").expected for name in ("thickness", "length"))
    assert thick.value * long.value == pytest.approx(188.7, rel=0.005)
    assert long.value == pytest.approx(44.0 * exp(-0.172 * 0.045**2 / 0.0094), rel=0.01)


def test_a_tip_drawn_too_long_is_cut_by_what_it_is_too_long() -> None:
    # 105 for 90 ±9, of the metal that was marked out for 90: it is thinner, and nothing of it is to spare.
    job = heated(2, tip__length="105")
    way = next(one for one in job.ways_back() if one.name == "too-much-metal-cut-tip-length")
    assert "Cut 15 mm off" in write(way.title)
    job.take(way.name)
    told = job.standing()
    assert (told.chance, told.verdict) == (way.chance, way.verdict)
    assert told.verdict is not PlanState.OFF_PLAN
    assert row(told, "tip.length").expected.value == pytest.approx(90.0, abs=0.1)
    for name, size in (("length", "90"), ("end_thickness", "3.2"), ("thickness", "7.6")):
        job.read(f"tip.{name}", size)
    told = job.standing()
    assert row(told, "tip.length").expected.value == pytest.approx(90.0, abs=0.1)
    assert all(size.state is SizeState.GOOD for size in told.sizes if size.zone == "tip")
    assert told.verdict is not PlanState.OFF_PLAN


def test_an_end_that_nobody_measured_is_no_better_known_where_it_is_cut() -> None:
    """What a saw leaves lies between the sizes that were there: nobody has read those."""
    job = heated(2, tip__length="105")
    before = {name: row(job.standing(), f"tip.{name}").expected for name in ("thickness", "end_thickness")}
    job.take("too-much-metal-cut-tip-length")
    after = row(job.standing(), "tip.end_thickness").expected
    assert after.doubt is not None
    assert after.doubt > 0.8 * min(one.doubt or 0.0 for one in before.values())


def test_the_end_of_a_square_taper_that_is_cut_is_square() -> None:
    job = heated(2, tip__length="105")
    job.take("too-much-metal-cut-tip-length")
    told = job.standing()
    wide, thick = (row(told, f"tip.end_{name}").expected.value for name in ("width", "thickness"))
    assert wide == pytest.approx(thick, abs=0.05)


def test_nothing_is_welded_on_a_tip_that_is_too_long() -> None:
    offered = [way.name for way in heated(2, tip__length="105").ways_back()]
    assert offered
    assert not [name for name in offered if name.startswith(("weld-on", "let-it-give", "more-steel"))]


@pytest.mark.parametrize(
    ("step", "recipe", "name", "size"),
    [
        (2, "first-hook", "tip.length", "105"),
        (6, "drawknife", "right_tang.length", "141.4"),
    ],
)
def test_a_size_measured_out_is_told_before_one_that_nobody_measured(
    recipe: str, step: int, name: str, size: str
) -> None:
    job = at_step(recipe, step)
    standing = job.standing()
    assert standing.step is not None
    for _ in range(standing.step.heats_planned):
        job.heat()
    job.read(name, size, insist=True)
    assert "length is" in why(job.standing())
    assert "over the" in why(job.standing())


def test_a_length_with_more_to_go_is_told_as_its_metal_brings_it() -> None:
    # The end is 4.5 mm and comes to 3: of the same metal the taper is then some 91 mm long, not 80.
    job = heated(2, tip__end_thickness="4.5", tip__thickness="8.2", tip__length="80")
    told = job.standing()
    length = row(told, "tip.length")
    assert length.expected.value == pytest.approx(90.0, abs=3.0)
    assert length.state is SizeState.GOOD
    assert "short of its least" not in why(told)


@pytest.mark.parametrize("length", ["103", "105", "108"])
def test_what_is_left_longer_is_told_by_one_figure(length: str) -> None:
    job = heated(2, tip__length=length)
    job.take("too-much-metal-leave-tip-length")
    told = job.standing()
    spare = next(one for one in told.spares if (one.zone, one.dimension) == ("tip", "length"))
    assert spare.spare.value == pytest.approx(float(length) - 81.0, abs=0.3)
    if isinstance(told.reason, Reason) and (told.reason.zone, told.reason.dimension) == ("tip", "length"):
        assert told.reason.beyond.value == pytest.approx(spare.spare.value, abs=0.3)
    assert "above the least" not in why(told)


@pytest.mark.parametrize(
    ("recipe", "step", "read"),
    [
        ("ring-and-chain", 13, {"ring.length": "262.52"}),
        ("punches-and-drifts", 3, {"struck end.length": "12.27"}),
        ("bolt-tongs", 10, {"arm 2 joint.length": "31.52", "arm 2 joint.width": "29.40"}),
    ],
)
def test_nothing_is_on_plan_beside_a_size_told_outside_of_the_drawing(
    recipe: str, step: int, read: dict[str, str]
) -> None:
    job = at_step(recipe, step)
    standing = job.standing()
    assert standing.step is not None
    for _ in range(standing.step.heats_planned):
        job.heat()
    for name, size in read.items():
        job.read(name, size, insist=True)
        told = job.standing()
        if any(size.state is not SizeState.GOOD for size in told.sizes):
            assert told.verdict is not PlanState.ON_PLAN


def test_nothing_is_cut_by_a_length_that_nobody_read_before_it_is_measured() -> None:
    """A cut cannot be undone, and a reading costs nothing (common practice, no source)."""
    job = at_step("cold-chisel", 2)
    for _ in range(4):
        job.heat()
    for name, size in (("end_width", "23.5"), ("end_thickness", "3.4"), ("thickness", "16")):
        job.read(f"edge.{name}", size, insist=True)
    ways = job.ways_back()
    (cut,) = (way for way in ways if way.name == "too-much-metal-cut-edge-length")
    assert write(cut.title).startswith("Measure the edge length first. Cut ")
    assert ways[0].name != cut.name
    job.read("edge.length", "68", insist=True)
    (cut,) = (way for way in job.ways_back() if way.name == "too-much-metal-cut-edge-length")
    assert write(cut.title).startswith("Cut ")
