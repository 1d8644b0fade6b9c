"""A hole punched off its place along the bar, and a face that bulges or is hollow: each with its figures.

By hand: the hatchet's marks lie at 17.4 (poll) and 65.2 mm (eye) of a bar of 900 mm², the middle of the eye
at 41.3. Punched at 45 it stands 3.7 beyond that: the poll ends at 21.1, the eye at 68.9, and the poll has
3.7 x 900 mm³ more.
"""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of
from tests.told import said

PUNCH = 3


def volume_mm3(job: Session, zone: str) -> float:
    now = job._state.now
    assert now is not None
    return now.volume_mm3(zone)


def test_an_eye_off_its_place_along_the_bar_tells_where_its_marks_are_then() -> None:
    job = at_step_of("hedging-hatchet", PUNCH)
    told = write(job.read("eye.centre", "45").beware, Shown("mm"))
    assert told.startswith("the hole stands 3.7 mm beyond its place")
    assert "the poll ends at 21.1 mm, the eye at 68.9 mm" in told
    assert "at step 1, as poll.mark and eye.mark" in told


def test_read_so_the_metal_is_counted_so() -> None:
    job = at_step_of("hedging-hatchet", PUNCH)
    before = {zone: volume_mm3(job, zone) for zone in ("poll", "eye", "blade")}
    for zone, at_mm in (("poll", "21.1"), ("eye", "68.9")):
        job.read(f"{zone}.mark", at_mm, insist=True, then=job.then(1))
    assert volume_mm3(job, "poll") - before["poll"] == pytest.approx(3.7 * 900.0, rel=0.12)
    assert volume_mm3(job, "eye") - before["eye"] == pytest.approx(0.0, abs=300.0)
    assert volume_mm3(job, "blade") - before["blade"] == pytest.approx(-3.7 * 900.0, rel=0.12)


def test_in_its_place_nothing_is_said_of_it() -> None:
    job = at_step_of("hedging-hatchet", PUNCH)
    assert not job.read("eye.centre", "41.5").beware
    assert not job.standing().to_right


@pytest.mark.parametrize(
    ("dimension", "read", "figures"),
    [
        ("bulge", "1.2", "the crown is to come down by 1.2 mm, by 0.9 mm at the least"),
        ("hollow", "0.8", "0.8 mm are to come off around it, 0.5 mm at the least"),
    ],
)
def test_a_face_that_is_out_has_its_cure_in_figures(dimension: str, read: str, figures: str) -> None:
    job = at_step_of("hedging-hatchet", PUNCH)
    job.change(f"add: straighten: eye, {dimension} at most 0.3, 1 heat")
    assert figures in said(job.read(f"eye.{dimension}", read)).lower()
    job.done()
    assert [one.zone for one in job.standing().to_right] == ["eye"]
