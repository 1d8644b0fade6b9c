"""What a step leaves over its limit is out, too near to tell, or good, by one rule for every kind of size."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.bench.sizes_came import SizeCame, SizeVerdict
from coach.ledger.verdict import PlanState
from coach.telling.entered import answer_text
from coach.telling.size_came import size_row
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of, begun

WEDGE = """
recipe: Splitting wedge
pieces:
  wedge:
    metal: C45
    bar: 30 x 12, long 300
    zones:
      nose: 30 ±1.5 x 12 ±0.8 to 34 ±2 x 3 ±0.6, long 70 ±6
      body: 30 ±1 x 12 ±0.8, long 60 ±4
usual: {at: light orange}
steps:
  - mark out: wedge
  - taper: nose, 2 heats
    check: end thickness, end width, length
  - cut: body, 1 heat
    check: length
  - straighten: nose, bow at most 0.5, 1 heat, also hot body
    check: bow
  - inspect: body
    check: width, length
"""


def straightened(bow: str) -> Session:
    job = begun(WEDGE)
    for _ in range(3):
        job.done()
    job.heat()
    job.read("nose.bow", bow)
    return job


def came(job: Session, name: str) -> SizeCame:
    sheet = job.sheet()
    return next(one for one in (*sheet.sizes, *sheet.apart) if one.name == name)


# A calliper is some 0.16 mm in doubt on a forged face (`operations.gauges`): 1.645 of that are 0.26 mm.
@pytest.mark.parametrize("bow", ["0.49", "0.50", "0.51", "0.6"])
def test_a_bow_about_its_limit_is_as_unsure_over_it_as_under_it(bow: str) -> None:
    job = straightened(bow)
    assert not job.done().bad_news
    assert job.standing().to_right == ()
    assert job.standing().verdict is PlanState.ON_PLAN
    assert came(job, "nose.bow").verdict is SizeVerdict.NOT_SURE


def test_a_bow_that_is_surely_too_high_is_bad_news_as_its_step_ends() -> None:
    job = straightened("0.9")
    answer = job.done()
    assert [one.zone for one in job.standing().to_right] == ["nose"]
    assert answer.bad_news
    assert came(job, "nose.bow").verdict is SizeVerdict.OVER


def test_what_was_wrong_before_makes_no_later_end_of_a_step_bad_but_the_last() -> None:
    job = begun(WEDGE)
    job.done()
    job.to_right("nose a little twisted", "nose")
    assert not job.done().bad_news


@pytest.mark.parametrize("length", ["81.00", "81.01"])
def test_the_sheet_tells_no_length_read_inside_as_under(length: str) -> None:
    # The first hook's tip is drawn 90 ±9 mm long, at least 81.
    job = at_step_of("first-hook", 2)
    job.heat()
    job.heat()
    job.read("tip.length", length)
    job.done()
    told = " ".join(size_row(came(job, "tip.length"), Shown("mm")).cells)
    assert "under" not in told
    assert "too near the limit" in told


# 8 ±0.8 mm: a calliper's guard band on a forged face is some 0.28 mm.
@pytest.mark.parametrize(("thickness", "bad"), [("8.81", False), ("9.4", True)])
def test_a_thickness_left_over_its_limit_is_bad_news_by_the_same_rule(thickness: str, bad: bool) -> None:
    job = at_step_of("first-hook", 2)
    job.heat()
    job.heat()
    job.read("tip.thickness", thickness)
    answer = job.done()
    assert answer.bad_news is bad
    told = answer_text(answer, Shown("mm"))
    assert ("it seems a hair over the 8.8 mm the drawing allows" in told) is not bad
    assert ("9.4 mm, 0.6 mm over the 8.8 mm the drawing allows" in told) is bad
