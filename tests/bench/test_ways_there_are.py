"""A way back that a smith has by its own rules is offered, and is not one that mends nothing."""

from __future__ import annotations

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from coach.bench.session import Session
from coach.ledger.verdict import PlanState, SizeState
from coach.quantities import Kind
from coach.quantities.refusal import Refusal
from tests.bench.test_laws import NAMES
from tests.bench.test_settled_sizes import at_step


def read_of(recipe: str, step: int, **read: str) -> Session:
    """A recipe at a step, its heats taken, with sizes stood by: each zone and size as `zone__size`."""
    job = at_step(recipe, step)
    standing = job.standing()
    assert standing.step is not None
    for _ in range(standing.step.heats_planned):
        job.heat()
    for name, size in read.items():
        job.read(name.replace("__", "."), size, insist=True)
    return job


def state_of(job: Session, name: str) -> SizeState:
    return next(size.state for size in job.standing().sizes if size.name == name)


def offered(job: Session) -> set[str]:
    return {way.name for way in job.ways_back()}


def test_an_edge_run_too_thin_and_too_long_is_taken_back_to_where_both_are_inside() -> None:
    # 2.4 thick and some 185 long, 3 to 5 and at most 169 drawn: 16 mm back it is 4.2 thick, 72.5 of 72 wide.
    job = read_of("mattock", 11, blade__end_thickness="2.4")
    way = next(one for one in job.ways_back() if one.name.startswith("take-back"))
    assert way.verdict is not PlanState.OFF_PLAN
    assert 15.0 < way.price.value < 20.0
    job.take(way.name)
    assert state_of(job, "blade.end_thickness") is SizeState.GOOD
    assert state_of(job, "blade.length") is SizeState.GOOD


def test_a_length_with_more_to_go_and_its_section_unread_is_worked_on() -> None:
    job = read_of("drawknife", 6, **{"right tang__length": "109.3"})
    assert "forge-further-right-tang-length" in offered(job)


@pytest.mark.parametrize("length", ["48.4", "52.8"])
def test_a_plate_spread_too_long_is_cut_to_its_length(length: str) -> None:
    job = read_of("first-hook", 7, plate__length=length)
    job.take("too-much-metal-cut-plate-length")
    assert state_of(job, "plate.length") is SizeState.GOOD


def test_a_wedge_is_cut_no_further_than_its_edge_is_thin_enough() -> None:
    # 11.4 mm of rise in 31: 3.4 mm off its 31.4 leave the end 5.2 thick, where 4.5 is the most.
    job = read_of("cross-peen-hammer", 17, tongue__length="31.57")
    job.take("too-much-metal-cut-tongue-length")
    assert state_of(job, "tongue.length") is SizeState.GOOD
    assert state_of(job, "tongue.end_thickness") is SizeState.GOOD


def test_the_thick_end_of_a_taper_is_upset_however_thin_its_point_is() -> None:
    # 6.4 at the root of a taper 106 long: 16 thicknesses; its 3 mm point stays out of the heat.
    job = read_of("first-hook", 2, tip__thickness="6.4")
    assert "upset-tip-thickness" in offered(job)
    job.take("upset-tip-thickness")
    assert state_of(job, "tip.thickness") is SizeState.GOOD
    assert state_of(job, "tip.width") is SizeState.GOOD


def test_ways_are_told_at_the_mark_out_where_an_eye_could_not_be_made_so_small() -> None:
    job = at_step("mattock", 1)
    for check in job.standing().checks:
        if check.wanted is not None:
            job.read(check.name, f"{check.wanted.limits.nominal * 0.8:.2f}", insist=True)
            assert job.ways_back() is not None
            job.strike()


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=3, phases=(Phase.generate,), derandomize=True)
@given(data=st.data())
def test_what_a_way_brings_inside_is_told_so_and_stands_once_it_is_read(
    name: str, data: st.DataObject
) -> None:
    job = at_step(name, 1)
    for _ in range(data.draw(st.integers(0, len(job.recipe.steps) - 1))):
        job.done()
    standing = job.standing()
    assert standing.step is not None
    for _ in range(standing.step.heats_planned):
        job.heat()
    asked = [one for one in standing.checks if one.wanted is not None and one.kind is Kind.LENGTH]
    for check in asked[: data.draw(st.integers(0, 3))]:
        assert check.wanted is not None
        off = data.draw(st.sampled_from([0.0, 0.03, -0.03, 0.05, -0.05, 0.1, -0.1, 0.2, -0.2]))
        try:
            job.read(check.name, f"{check.wanted.limits.nominal * (1.0 + off):.2f}", insist=True)
        except Refusal:
            continue
    drawing, told = job.recipe.drawing, {size.name for size in standing.sizes}
    for offer in job._offers():
        brought = {
            f"{one.zone}.{one.dimension}": one.size_mm
            for one in offer.idea.amendment.regained
            if f"{one.zone}.{one.dimension}" in told
            and drawing[one.zone].limits[one.dimension].contains(one.size_mm)
        }
        if offer.way.again:
            continue
        job.take(offer.way.name)
        for of in brought:
            assert state_of(job, of) is SizeState.GOOD, (offer.way.name, of)
        for of, size_mm in brought.items():
            job.read(of, f"{size_mm:.2f}")
        assert not [one.name for one in job.standing().questioned if one.name in brought], offer.way.name
        for of in brought:
            assert state_of(job, of) is SizeState.GOOD, (offer.way.name, of, "read")
        for _ in range(len(brought) + 1):
            job.strike()
