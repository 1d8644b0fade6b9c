"""A length that runs over counts in the step in hand; done with nothing new known keeps the chance."""

from __future__ import annotations

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from coach.bench.session import Session
from coach.ledger.verdict import PlanState, Reason, SizeState, Verdict
from coach.quantities import Kind
from coach.quantities.refusal import Refusal
from coach.telling.why import stands_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.test_laws import NAMES
from tests.bench.test_settled_sizes import at_step

SHOWN = Shown()


def row(job: Session, name: str) -> SizeState:
    return next(size.state for size in job.standing().sizes if size.name == name)


@pytest.mark.parametrize("side", ["7.5", "7.4", "7.3"])
def test_a_section_smaller_than_drawn_makes_a_length_run_over_at_once_and_done_changes_nothing(
    side: str,
) -> None:
    # 110 of 8 square is 125 of 7.5 square, 130 of 7.4 and 132 of 7.3; the drawing allows 120.
    job = at_step("first-hook", 3)
    job.read("shank.side", side)
    before = job.standing()
    assert row(job, "shank.length") is SizeState.OVER
    assert before.verdict is PlanState.OFF_PLAN
    assert before.chance < 0.80
    assert "hank length" in stands_text(before, SHOWN)
    job.done()
    after = job.standing()
    assert after.verdict is before.verdict
    assert after.chance == pytest.approx(before.chance, abs=0.03)


def test_accepting_a_section_tells_the_length_that_it_brings_and_holds_once_done() -> None:
    # 110 × 64 mm² at 6.5 square is 167 mm.
    job = at_step("first-hook", 3)
    for name, size in {"end_thickness": "3", "thickness": "8", "length": "92"}.items():
        job.read(f"tip.{name}", size, then=job.then(2))
    job.heat()
    job.read("shank.side", "6.5", insist=True)
    way = next(one for one in job.ways_back() if one.name == "accept-shank-side")
    assert "shank length then comes out at 16" in write(way.changes, SHOWN)
    assert way.price.value > 40.0
    job.take("accept-shank-side")
    taken = job.standing()
    assert (taken.verdict, taken.chance) == (way.verdict, way.chance)
    job.done()
    assert job.standing().verdict is taken.verdict
    assert job.standing().chance == pytest.approx(taken.chance, abs=0.05)


def test_more_metal_than_is_wanted_is_told_before_it_is_measured_but_loses_nothing_yet() -> None:
    # A cut left 8 mm too long: the bit runs to some 77 where 70 is the most, and can be cut back any time.
    job = at_step("carpenters-adze", 15)
    name = next(check.name for check in job.standing().checks if check.name.endswith("length"))
    job.read(name, "40", insist=True)
    job.done()
    assert row(job, "bit.length") is SizeState.OVER
    assert job.standing().verdict is not PlanState.ON_PLAN


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=25, phases=(Phase.generate,), derandomize=True)
@given(data=st.data())
def test_done_without_new_knowledge_keeps_the_chance(name: str, data: st.DataObject) -> None:
    job = at_step(name, 1)
    steps = len(job.recipe.steps)
    for _ in range(data.draw(st.integers(0, steps - 2))):
        job.done()
    for check in job.standing().checks:
        if check.wanted is None or check.kind is not Kind.LENGTH or not data.draw(st.booleans()):
            continue
        off = data.draw(st.sampled_from([0.0, 0.01, -0.01, 0.02, -0.02, 0.05, -0.05]))
        try:
            job.read(check.name, f"{check.wanted.limits.nominal * (1.0 + off):.2f}", insist=True)
        except Refusal:
            continue
    before = job.standing()
    # What is short of its aim, or may be, the step would still have worked on.
    if before.trouble or any(
        check.verdict in (Verdict.MORE_TO_GO, Verdict.UNSURE) for check in before.checks
    ):
        return
    job.done()
    after = job.standing()
    assert after.chance == pytest.approx(before.chance, abs=0.05), (
        stands_text(before, SHOWN),
        stands_text(after, SHOWN),
    )


def test_a_tight_job_names_the_size_that_makes_it_so() -> None:
    # A poll 35 ±2 wide read at 33.4: 0.4 above the least, and all the rest as drawn.
    job = at_step("hedging-hatchet", 2)
    job.heat()
    job.heat()
    sizes = (("width", "33.5"), ("thickness", "23.8"), ("length", "18.9"), ("width", "33.4"))
    for name, size in sizes:
        job.read(f"poll.{name}", size)
    told = job.standing()
    assert told.verdict is PlanState.TIGHT
    assert isinstance(told.reason, Reason)
    assert (told.reason.zone, told.reason.dimension) == ("poll", "width")


def test_a_size_read_a_hair_over_in_hand_has_one_expected_size_in_verdict_row_and_reason() -> None:
    # Drifting makes the eye no narrower: 49.1 stays, less the scale of two heats; the drawing has 46.5 ±2.5.
    job = at_step("carpenters-adze", 27)
    job.heat()
    job.read("eye.width", "49.1")
    told = job.standing()
    size = next(one for one in told.sizes if one.name == "eye.width")
    assert size.expected.value == pytest.approx(49.0, abs=0.15)
    assert "48.9" in stands_text(told, SHOWN) or "49" in stands_text(told, SHOWN)
    assert "0 mm over" not in stands_text(told, SHOWN)
    job.done()
    after = job.standing()
    assert after.verdict is told.verdict
    assert after.chance == pytest.approx(told.chance, abs=0.03)


@pytest.mark.parametrize("width", ["49.3", "49.6"])
def test_what_came_out_too_wide_can_be_trimmed_or_left_while_its_step_is_in_hand(width: str) -> None:
    job = at_step("carpenters-adze", 27)
    job.heat()
    job.read("eye.width", width, insist=True)
    assert job.standing().verdict is not PlanState.ON_PLAN
    assert [
        way.name for way in job.ways_back() if "eye-width" in way.name or way.name == "trim-the-width-eye"
    ]


def test_no_way_is_offered_that_makes_the_chance_worse() -> None:
    job = at_step("hedging-hatchet", 1)
    job.read("poll.mark", "17.5", insist=True)
    job.read("eye.mark", "60", insist=True)
    chance = job.standing().chance
    for way in job.ways_back():
        assert way.again or way.name.startswith("too-much-metal") or way.chance > chance - 0.02, way.name


def test_a_ground_edge_that_is_short_is_told_by_what_was_read_of_it() -> None:
    # 53 read, 54 the least: a millimetre short, known to half of one, and not to ±1.7.
    job = at_step("carpenters-adze", 32)
    job.read("bit.end_thickness", "2", insist=True)
    job.read("bit.length", "53", insist=True)
    told = stands_text(job.standing(), SHOWN)
    assert "Bit length is 5" in told
    assert "±1.7" not in told
