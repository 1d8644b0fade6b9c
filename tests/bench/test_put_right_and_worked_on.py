"""What a step puts right is no size of its metal, and a heat of the step makes another of it all the same."""

from __future__ import annotations

import pytest

from coach.bench.checks import Check
from coach.bench.session import Session
from tests.bench.jobs import at_step_of


def _check(job: Session, name: str) -> Check:
    return next(one for one in job.standing().checks if one.name == name)


# Each is the whole work of its step: what another heat leaves, only a new reading tells (by definition).
@pytest.mark.parametrize(
    ("recipe", "step", "name", "typed"),
    [
        ("hay-fork", 9, "neck.wind", "1.5"),
        ("cold-chisel", 5, "edge.bow", "0.3"),
        ("cross-peen-hammer", 18, "peen.groove_depth", "25"),
        ("bolt-tongs", 13, "arm 1 jaw.groove_depth", "3"),
        ("folded-froe", 2, "eye.scarf_length", "16"),
        ("ring-and-chain", 7, "link 1.scarf_length", "15"),
        ("hedging-hatchet", 15, "edge.barb_height", "1"),
        ("carpenters-adze", 12, "blade.shoulder", "6.5"),
        ("scrolled-bracket", 16, "collar.gap", "0.4"),
    ],
)
def test_what_was_read_before_another_heat_of_its_step_is_old_and_asked_for_again(
    recipe: str, step: int, name: str, typed: str
) -> None:
    job = at_step_of(recipe, step)
    job.heat()
    job.read(name, typed)
    read = _check(job, name).reading
    assert read is not None
    assert not read.old
    job.heat()
    read = _check(job, name).reading
    assert read is not None
    assert read.old
    assert read.judged is None
    assert _check(job, name).is_open
    job.read(name, typed)
    assert not _check(job, name).is_open


def test_a_wind_that_was_out_is_not_put_right_by_a_heat_until_it_is_read_again() -> None:
    job = at_step_of("hay-fork", 9)
    job.heat()
    job.read("neck.wind", "4")
    job.heat()
    assert _check(job, "neck.wind").is_open
    answer = job.done().did
    assert "neck.wind" in [one.name for one in answer.unsettled.checks]  # type: ignore[union-attr]
