"""A reading that counted before its step was ended counts after it, and no hundredth of it turns the tale."""

from __future__ import annotations

import random
from itertools import pairwise

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import Verdict
from coach.log.kinds.heat import Heat
from coach.log.kinds.reading import Reading
from coach.places import bundled_recipes
from tests.bench.jobs import shop
from tests.bench.law_of_done import NAMES, Job, before, places, steps_of


def hatchet_punched(thickness: str, *, holes: bool) -> Session:
    """A hatchet's eye punched in its four heats, its hole read or not; 28.5 thick is expected."""
    path = bundled_recipes() / "hedging-hatchet.yaml"
    job = shop().begin(path.read_text(encoding="utf-8"), path.name, None)
    for name, size in (("poll", "17.4"), ("eye", "65.2"), ("blade", "90.5"), ("bit", "116.1")):
        job.read(f"{name}.mark", size)
    job.done()
    for _ in range(2):
        job.heat()
    for name, size in (("width", "34"), ("thickness", "24"), ("length", "18.8")):
        job.read(f"poll.{name}", size)
    job.done()
    for _ in range(4):
        job.heat()
    if holes:
        job.read("eye.hole_length", "30")
        job.read("eye.hole_width", "9")
    job.read("eye.thickness", thickness)
    return job


@pytest.mark.parametrize("thickness", ["24.85", "25.15", "25.5", "25.9", "26", "27"])
def test_a_thickness_that_was_called_good_counts_as_much_once_its_step_is_ended(thickness: str) -> None:
    job = hatchet_punched(thickness, holes=True)
    was = job.standing()
    job.done()
    now = job.standing()
    assert now.chance == pytest.approx(was.chance, abs=0.005)
    assert now.verdict is was.verdict
    assert not any(row.questioned for row in job.history())


@pytest.mark.parametrize("holes", [True, False])
@pytest.mark.parametrize("least", ["24.55", "24.6", "24.7", "24.8", "25.1", "25.85", "25.95"])
def test_no_twentieth_of_a_millimetre_of_a_thickness_turns_what_is_told_once_its_step_is_ended(
    least: str, *, holes: bool
) -> None:
    # The normal distribution of a doubt of 0.17 mm rises by at most 0.4 / 0.17 x 0.05 = 12 points in 0.05 mm,
    # and 1.3 times that where two limits are met at once (see tests/ledger/test_no_cliff.py): 15 points.
    found = []
    for by in (0.0, 0.05):
        job = hatchet_punched(f"{float(least) + by:.2f}", holes=holes)
        job.done()
        found.append(job.standing().chance)
    assert all(abs(one - other) < 0.15 for one, other in pairwise(found))


def read_by(job: Job, zone: str, dimension: str, size_mm: float) -> Job:
    """With a size read by calliper, not stood by."""
    typed = f"{size_mm:.2f}"
    return job.with_entry(
        Reading(
            zone=zone,
            dimension=dimension,
            typed=typed,
            size=float(typed),
            gauge="calliper",
            hot_c=None,
            hot_doubt_c=0.0,
            insisted=False,
            step=job.step.number,
            taken_at="",
        )
    )


@pytest.mark.parametrize("name", NAMES)
def test_no_reading_that_counted_is_dropped_as_its_step_is_ended(name: str) -> None:
    draw = random.Random(f"counts before and after {name}")
    for _ in range(6):
        job = before(name, draw.randint(1, steps_of(name)), measured=draw.random() < 0.5)
        for _ in range(draw.randint(0, job.step.heats)):
            job = job.with_entry(Heat(step=job.step.number))
        asked = job.asked()
        for size in draw.sample(sorted(asked), draw.randint(min(1, len(asked)), len(asked))):
            near = [one for one in list(places(asked[size]))[:5] if one > 0.0] or [asked[size].nominal]
            job = read_by(job, *size, draw.choice(near))
        course = job.state.course()
        outcomes = course.outcomes if course is not None else ()
        counted = {one.mark.entry for one in outcomes if one.counts and one.verdict is not Verdict.MORE_TO_GO}
        ended = job.done().state.records[-1].course
        assert ended is not None
        dropped = [one.mark.reading for one in ended.outcomes if one.questioned and one.mark.entry in counted]
        assert not dropped
