"""Whatever went wrong and whatever was taken for it, the ways back are told: nothing stops the coach."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from functools import partial

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.cli.from_bar import with_bars
from coach.ledger.verdict import PlanState
from coach.places import bundled_recipes
from coach.quantities import Kind
from coach.quantities.refusal import Refusal
from tests.bench.jobs import at_step_of, shop
from tests.bench.test_laws import NAMES

#: What goes wrong in a step: a test that fails, sizes all too large or all too small, metal that is lost.
HAPPENINGS = ("fail", "over", "under", "lost")


def goes_wrong(job: Session, how: str) -> None:
    """Enter what goes wrong, as far as the step in hand asks for anything of the kind."""
    standing = job.standing()
    tests = [one.name for one in standing.checks if one.kind is Kind.TEST]
    sizes = [one for one in standing.checks if one.wanted is not None and one.kind is Kind.LENGTH]
    asked: list[Callable[[], object]] = []
    if how == "lost":
        zones = [size.zone for size in standing.sizes if size.dimension == "length"]
        asked = [partial(job.lose, LossAsked(zone, "8 mm")) for zone in zones[:1]]
    elif how == "fail":
        asked = [partial(job.read, name, "fail") for name in tests]
    else:
        by = {"over": 1.08, "under": 0.92}[how]
        for one in sizes:
            assert one.wanted is not None
            typed = f"{one.wanted.limits.nominal * by:.2f}"
            asked.append(partial(job.read, one.name, typed, insist=True))
    for enter in asked:
        with suppress(Refusal):  # one clear sentence, and nothing is entered
            enter()


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=3, phases=(Phase.generate,), derandomize=True, deadline=None)
@given(data=st.data())
def test_the_ways_back_are_told_whatever_went_wrong_and_was_taken(name: str, data: st.DataObject) -> None:
    steps = len(at_step_of(name, 1).recipe.steps)
    job = at_step_of(name, 1 + data.draw(st.integers(0, steps)))
    goes_wrong(job, data.draw(st.sampled_from(HAPPENINGS)))
    kept = [way for way in job.ways_back() if not way.again]
    if kept:
        believed = {one.name for one in job.standing().checks if one.reading and not one.reading.questioned}
        way = data.draw(st.sampled_from(kept))
        job.take(way.name)
        job.ways_back()
        standing = job.standing()
        assert not standing.left_out
        assert abs(standing.chance - way.chance) < 0.02, "it is what was promised"
        doubted = {one.name for one in standing.checks if one.reading and one.reading.questioned}
        assert not believed & doubted, "what was read before keeps its meaning"


def folded_froe(bars: str, *days: tuple[int, dict[str, str]]) -> Session:
    """A froe from these bars: of each of its steps so far the heats and what was read after them."""
    text = (bundled_recipes() / "folded-froe.yaml").read_text(encoding="utf-8")
    job = shop().begin(with_bars(text, "froe.yaml", bars).recipe.text, "froe.yaml", None)
    for number, (heats, read) in enumerate(days):
        if number:
            job.done()
        for _ in range(heats):
            job.heat()
        for size, typed in read.items():
            job.read(size, typed)
    return job


def test_behind_a_folded_eye_the_ways_back_are_told_though_that_eye_has_no_length() -> None:
    # A strap eye has a lap and an inside; its length was that of the bar that it was folded from.
    job = folded_froe(
        "froe=55 x 8, long 700; band=6 x 25, long 800",
        (0, {}),
        (2, {}),
        (1, {"eye.width": "48.2", "eye.thickness": "7.9"}),
        (1, {"eye.inside": "36.4"}),
        (2, {"eye.weld line": "fail", "eye.thickness": "7.2", "eye.inside": "37.8"}),
    )
    job.take("do-again")
    # What is folded has no more of the bar to be marked out on.
    assert "mark-longer-eye" not in {way.name for way in job.ways_back()}


def test_a_blade_behind_a_folded_eye_is_marked_longer_on_the_bar() -> None:
    # Its mark was made 30 mm short, and it is cut from the bar only after the eye is welded.
    job = folded_froe("froe=50 x 8, long 700; band=6 x 25, long 900", (0, {}))
    mark = next(one for one in job.standing().checks if one.name == "blade.mark")
    assert mark.wanted is not None
    job.read("blade.mark", f"{mark.wanted.limits.nominal - 30.0:.1f}", insist=True)
    for heats in (0, 1, 1):
        job.done()
        for _ in range(heats):
            job.heat()
    job.take("mark-longer-blade")
    assert job.standing().verdict is PlanState.ON_PLAN
