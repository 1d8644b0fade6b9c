"""A spoiled piece that is the end of its bar still is cut off before the piece behind it is worked.

What lies behind another on one bar cannot be forged before that is off (by definition).
"""

from __future__ import annotations

from coach.bench.session import Session
from coach.drafting.from_bar import from_bars
from coach.drafting.make import made_often
from coach.places import bundled_recipes
from coach.telling.words import write
from tests.bench.jobs import shop


def six_steps_of_three_chisels() -> Session:
    """Chisel 1 is off the bar; chisel 2 is its end, with chisel 3 behind it, and being drawn."""
    text = (bundled_recipes() / "cold-chisel.yaml").read_text(encoding="utf-8")
    made = from_bars(made_often(text, 3), "cold-chisel.yaml", ["hexagon 19, long 520"]).text
    job = shop().begin(made, "cold-chisel.yaml", None)
    for _ in range(5):
        job.done()
    job.heat()
    return job


def take_another(job: Session, piece: int) -> str:
    """Take the way that cuts a chisel anew; what it says that it changes."""
    job.read(f"chisel {piece} edge.crack_test", "fail")
    way = next(one for one in job.ways_back() if one.name.startswith("cut-another"))
    job.take(way.name)
    return write(way.changes)


def listed(job: Session) -> list[str]:
    return [write(one.words) for one in job.standing().to_right if "end of its bar" in one.text]


def test_a_spoiled_piece_with_another_behind_it_is_listed_to_be_cut_off_until_that_is_worked() -> None:
    job = six_steps_of_three_chisels()
    assert "cut it off before chisel 3 is worked" in take_another(job, 2)
    assert ["spoiled chisel 2 is still the end of its bar" in one for one in listed(job)] == [True]
    while (step := job.standing().step) is not None and step.title != "Draw out the edge: chisel 3":
        job.done()
    assert len(listed(job)) == 1
    job.done()
    assert listed(job) == []


def test_one_that_is_cut_off_is_put_right_by_its_number() -> None:
    job = six_steps_of_three_chisels()
    take_another(job, 2)
    [entry] = [one.entry for one in job.standing().to_right if "end of its bar" in one.text]
    job.righted(entry)
    assert listed(job) == []


def test_once_the_piece_behind_it_is_given_up_its_own_cut_takes_both_off() -> None:
    job = six_steps_of_three_chisels()
    take_another(job, 2)
    job.done()
    job.change("give up chisel 3")
    assert listed(job) == []


def test_of_the_last_on_the_bar_nothing_is_listed() -> None:
    job = six_steps_of_three_chisels()
    while (step := job.standing().step) is not None and step.title != "Draw out the edge: chisel 3":
        job.done()
    job.heat()
    assert "end of its bar" not in take_another(job, 3)
    assert listed(job) == []
