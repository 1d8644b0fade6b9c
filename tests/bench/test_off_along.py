"""A hole punched off its place along the bar, and a face that bulges or is hollow: each with its figures.

By hand: the hatchet's marks lie at 17.4 (poll) and 65.2 mm (eye) of a bar of 900 mm², the middle of the eye
at 41.3. The poll is set down to 19 before that, and the middle of the eye then lies at 19 + 47.8 / 2 = 42.9.
Punched at 46.6 it stands 3.7 beyond that: on the bar the eye ended at 68.9. The poll's end is where it was
forged: read 34 x 24 x 19 it is 15.5 cm³, 17.2 mm of the bar, and has none of the 3.7 x 900 mm³. Where nobody
read it, it ended at 21.1 and has them.
"""

from __future__ import annotations

import re

import pytest

from coach.bench.session import Session
from coach.places import bundled_recipes
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of, begun
from tests.told import said

PUNCH = 3


def volume_mm3(job: Session, zone: str) -> float:
    now = job._state.now
    assert now is not None
    return now.volume_mm3(zone)


def figures(told: str) -> list[float]:
    """How far off it stands, and where the marks on both sides of it are then, mm."""
    found = re.search(r"stands ([\d.]+) mm .* ends at ([\d.]+) mm, the eye at ([\d.]+) mm", told)
    assert found
    return [float(one) for one in found.groups()]


def punching(*, poll_long: str = "") -> Session:
    """With the eye's punching in hand, the poll's sizes read before it where its length is given."""
    job = at_step_of("hedging-hatchet", PUNCH - 1)
    read = {"width": "34", "thickness": "24", "length": poll_long} if poll_long else {}
    for name, size in read.items():
        job.read(f"poll.{name}", size)
    job.done()
    return job


def test_an_eye_off_its_place_along_the_bar_tells_where_its_marks_are_then() -> None:
    """Of a poll that was not read it is reckoned that it came to 18.8: the eye's middle lay at 42.7."""
    told = write(punching().read("eye.centre", "46.6").beware, Shown("mm"))
    assert figures(told) == pytest.approx([3.9, 21.3, 69.1], abs=0.15)
    assert "beyond its place" in told
    assert "at step 1, as poll.mark and eye.mark" in told


@pytest.mark.parametrize(
    ("long", "centre", "off_mm", "eye_ends_mm", "words"),
    [("19", "46.6", 3.7, 68.9, "more before its hole"), ("18", "38", 3.9, 61.3, "less before its hole")],
)
def test_a_poll_that_was_forged_and_read_stays_where_it_ends(
    long: str, centre: str, off_mm: float, eye_ends_mm: float, words: str
) -> None:
    told = write(punching(poll_long=long).read("eye.centre", centre).beware, Shown("mm"))
    found = re.search(r"stands ([\d.]+) mm .* ends at ([\d.]+) mm", told)
    assert found
    assert [float(one) for one in found.groups()] == pytest.approx([off_mm, eye_ends_mm], abs=0.6)
    assert words in told
    assert "poll.mark" not in told
    assert "Read that at step 1, as eye.mark" in told


def test_insisted_a_mark_that_later_readings_speak_against_stands() -> None:
    job = punching(poll_long="18")
    job.read("poll.mark", "12.6", insist=True, then=job.then(1))
    marking = job._state.courses()[0]
    read = next(one for one in marking.outcomes if one.mark.reading[:2] == ("poll", "mark"))
    assert not read.questioned


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


def mattock_upset() -> Session:
    """Of a thinner bar: its eye is marked from 100 to 197 mm and upset to 71.5, its middle at 135.75."""
    text = (bundled_recipes() / "mattock.yaml").read_text(encoding="utf-8")
    job = begun(text.replace("bar: square 38, long 900", "bar: square 35, long 900"))
    for name, at_mm in (("pick.mark", "100"), ("eye.mark", "197")):
        job.read(name, at_mm, insist=True)
    job.done()
    job.read("eye.length", "71.5")
    job.done()
    return job


def test_upset_before_it_goes_in_a_hole_has_its_place_in_what_the_upset_leaves() -> None:
    job = mattock_upset()
    assert not job.read("eye.centre", "136").beware


def test_off_that_place_it_is_told_by_how_much_and_the_marks_in_mm_of_the_bar() -> None:
    told = write(mattock_upset().read("eye.centre", "146").beware, Shown("mm"))
    off_mm = 146.0 - 135.75
    in_bar_mm = off_mm * 97.0 / 71.5  # that much of the bar is in it, for 97 mm came to 71.5
    assert figures(told) == pytest.approx([off_mm, 100.0 + in_bar_mm, 197.0 + in_bar_mm], abs=0.6)


def test_outside_its_zone_it_is_asked_about_and_no_mark_is_moved() -> None:
    # 250 is 114.25 beyond 135.75, and the eye ends 35.75 beyond it.
    told = write(mattock_upset().read("eye.centre", "250").beware, Shown("mm"))
    off, _, rest = told.removeprefix("that is ").partition(" mm ")
    assert float(off) == pytest.approx(114.25, abs=0.6)
    assert rest.startswith("beyond its place, and outside the eye: is it a slip?")
    assert "pick.mark" not in told


def adze_punched(*, eye_long: str = "46.3") -> Session:
    """The adze's poll forged to 35.4 mm and read; its eye some 42.7 long before the punch, 46.3 then."""
    job = at_step_of("carpenters-adze", 9)
    job.heat()
    for name, mm in (("side", "33"), ("length", "35.4")):
        job.read(f"poll.{name}", mm, insist=True)
    job.done()
    for _ in range(3):
        job.heat()
    if eye_long:
        job.read("eye.length", eye_long)
    return job


@pytest.mark.parametrize("eye_long", ["46.3", ""])
def test_a_hole_in_the_middle_of_what_the_punch_has_lengthened_is_in_its_place(eye_long: str) -> None:
    """35.4 + 46.3 / 2 = 58.55."""
    assert not adze_punched(eye_long=eye_long).read("eye.centre", "58.5").beware


def test_a_hole_that_would_reach_into_a_poll_that_was_read_is_asked_about() -> None:
    """The slot is 32 long: with its middle at 37 it begins at 21, and 14.4 of it would lie in the poll."""
    told = write(adze_punched().read("eye.centre", "37").beware, Shown("mm"))
    found = re.search(
        r"^that is ([\d.]+) mm short of its place, and the hole would reach ([\d.]+) mm into", told
    )
    assert found
    assert [float(one) for one in found.groups()] == pytest.approx([21.5, 14.4], abs=0.6)
    assert "is it a slip?" in told
    assert "eye.mark" not in told
