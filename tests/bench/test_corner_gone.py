"""A corner that is gone once the steel is hard: no hammer comes to it any more, and the tool shows it."""

from __future__ import annotations

import pytest

from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.places import bundled_recipes
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.told import why


def hatchet(step: int) -> Session:
    text = (bundled_recipes() / "hedging-hatchet.yaml").read_text(encoding="utf-8")
    job = begun(text)
    while (now := job.standing().step) is not None and now.number < step:
        job.done()
    return job


def hard() -> Session:
    """The hatchet hardened and tempered, about to be sharpened."""
    text = (bundled_recipes() / "hedging-hatchet.yaml").read_text(encoding="utf-8")
    steps = begun(text).recipe.steps
    return hatchet(next(step.number for step in steps if step.operation == "sharpen"))


@pytest.fixture(scope="module")
def without_its_corner() -> Session:
    job = hard()
    job.lose(LossAsked("bit", "corner 12 x 8", "burnt"))
    return job


def test_a_hatchet_without_its_corner_is_not_on_plan(without_its_corner: Session) -> None:
    standing = without_its_corner.standing()
    assert standing.verdict is not PlanState.ON_PLAN
    assert [(right.zone, right.text) for right in standing.to_right] == [("bit", "a corner of it is gone")]


def test_what_takes_it_out_is_told_in_figures(without_its_corner: Session) -> None:
    # A triangle of 12 along the end and 8 along the side is past it 8 behind the end, or 12 in from the side.
    assert "Grind the end back by 8 mm, or that side by 12 mm" in why(without_its_corner.standing())


def test_it_is_struck_off_the_list_once_it_is_put_right() -> None:
    job = hard()
    before = job.standing().verdict
    job.lose(LossAsked("bit", "corner 12 x 8", "burnt"))
    job.righted(job.standing().to_right[0].entry)
    assert job.standing().to_right == ()
    assert job.standing().verdict is before


def test_a_corner_that_is_forged_in_by_a_step_ahead_is_metal_alone() -> None:
    text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    job = begun(text)
    while (step := job.standing().step) is not None and step.operation != "spread":
        job.done()
    told = job.lose(LossAsked("plate", "corner 3 x 2", "burnt"))
    assert told.entry
    assert job.standing().to_right == ()
    assert "corner" in write(job.history()[-1].words, Shown())
