"""One of several hooks of a bar is cut short and cut once more: what it left on the bar stays with the next.

By hand: a bar of 10 x 10 mm; hook 1's plate is to be cut off 36.4 mm long. Cut at 30 mm it leaves 6.4 mm,
640 mm³, in front of the mark that hook 2 begins at, whatever is made of hook 1 then.
"""

from __future__ import annotations

import pytest

from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.drafting.make import made_often
from coach.places import bundled_recipes
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import begun

WAY = "cut-another-hook-1"


def cut_short() -> tuple[Session, float]:
    """With hook 1's plate cut at 30 mm, and what hook 2's tip had before that, mm³."""
    text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    job = begun(made_often(text, 4))
    for _ in range(8):
        job.done()
    before = tip_mm3(job)
    job.read("hook 1 plate.length", "30", insist=True)
    return job, before


def tip_mm3(job: Session) -> float:
    now = job._state.now
    assert now is not None
    return now.volume_mm3("hook 2 tip")


@pytest.mark.parametrize("done_first", [False, True])
def test_what_it_left_is_in_front_of_the_next_one_once_it_is_cut_anew(*, done_first: bool) -> None:
    job, before = cut_short()
    if done_first:
        job.done()
    job.take(WAY)
    for _ in ("as it is taken", "and once the spoiled one lies aside"):
        assert tip_mm3(job) - before == pytest.approx(640.0, abs=30.0)
        job.done()


def test_it_is_marked_from_the_other_end_while_the_next_one_lies_at_this_one() -> None:
    job, _ = cut_short()
    way = next(one for one in job.ways_back() if one.name == WAY)
    told = write(way.changes, Shown("mm"))
    assert told.endswith("from the other end of the bar, or on another one: hook 2 lies at this end.")


def test_what_the_new_one_is_cut_short_by_is_no_metal_of_the_next_one() -> None:
    job, _ = cut_short()
    job.take(WAY)
    while (
        step := job.standing().step
    ) is not None and step.title != "Again: cut the plate from the bar: hook 1":
        job.done()
    there = tip_mm3(job)
    job.read("hook 1 plate.length", "33", insist=True)
    assert tip_mm3(job) == pytest.approx(there)


def test_metal_that_is_welded_on_takes_none_from_the_front_of_the_next_one() -> None:
    job, before = cut_short()
    there = tip_mm3(job)
    job.take("weld-on-more-hook-1-plate")
    assert tip_mm3(job) == pytest.approx(there, abs=1.0)
    job.heat()
    job.read("hook 1 plate.length", "36.5", insist=True)  # as it is welded longer: it says nothing of the cut
    assert tip_mm3(job) - before == pytest.approx(640.0, abs=30.0)
    job.done()
    assert tip_mm3(job) - before == pytest.approx(640.0, abs=30.0)


def test_nor_does_what_is_lost_of_it_after_the_cut() -> None:
    job, _ = cut_short()
    there = tip_mm3(job)
    job.lose(LossAsked("hook 1 plate", "5"))
    assert tip_mm3(job) == pytest.approx(there)


def test_nor_does_what_was_lost_of_a_piece_that_is_cut_anew_then() -> None:
    text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    job = begun(made_often(text, 4))
    for _ in range(8):
        job.done()
    before = tip_mm3(job)
    job.heat()
    job.lose(LossAsked("hook 1 plate", "9"))
    job.take(WAY)
    for _ in ("as it is taken", "and once the spoiled one lies aside"):
        assert tip_mm3(job) == pytest.approx(before, abs=1.0)
        job.done()


def short_of_the_first(cut: str = "25.2") -> Session:
    """Two hooks of the bar; hook 1's plate, to be cut 36.4 mm long, is cut 11.2 mm short."""
    text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    job = begun(made_often(text, 2))
    for _ in range(6):
        job.done()
    job.read("hook 1 plate.length", cut, insist=True)
    return job


def tip_mm(job: Session) -> float:
    now = job._state.now
    assert now is not None
    return now.form("hook 2 tip").length_mm


def test_what_lies_in_front_of_the_next_one_is_read_as_it_lies() -> None:
    """Some 11 mm more than the tip that was marked: that is what the rule says, and no slip."""
    whole, job = tip_mm(short_of_the_first("36.4")), short_of_the_first()
    assert tip_mm(job) - whole == pytest.approx(11.2, abs=0.5)
    job.read("hook 2 tip.length", f"{tip_mm(job):.1f}")
    check = next(one for one in job.standing().checks if one.name == "hook 2 tip.length")
    assert not check.is_questioned


@pytest.mark.parametrize("by", ["way", "loss"])
def test_what_is_cut_off_the_next_one_is_off_it(by: str) -> None:
    """Once it is cut off, the tip is as it was marked, and nothing offers to cut it again."""
    whole, job = tip_mm(short_of_the_first("36.4")), short_of_the_first()
    way = "too-much-metal-cut-hook-2-tip-length"
    assert way in [one.name for one in job.ways_back()]
    if by == "way":
        job.take(way)
    else:
        job.lose(LossAsked("hook 2 tip", "11.2"))
    assert tip_mm(job) == pytest.approx(whole, abs=1.0)
    assert way not in [one.name for one in job.ways_back()]
    job.read("hook 2 tip.length", f"{whole:.1f}")
    check = next(one for one in job.standing().checks if one.name == "hook 2 tip.length")
    assert not check.is_questioned
    there = tip_mm3(job)
    job.done()
    assert tip_mm3(job) == pytest.approx(there, abs=30.0)
