"""A section that its step left short: another heat of that work, put in again or offered as a way back."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of
from tests.bench.test_remedies import offered


def blade_left_short(end_width: str = "48") -> Session:
    """The hatchet's blade, whose end is to be 54 ±2 by 9 ±0.8, left thicker and the spreading ended."""
    job = at_step_of("hedging-hatchet", 7)
    job.heat()
    job.heat()
    sizes = {"width": "34.2", "thickness": "17.2", "end_width": end_width, "end_thickness": "11.2"}
    for name, size in {**sizes, "length": "38"}.items():
        job.read(f"blade.{name}", size)
    job.done()
    assert job.standing().verdict is PlanState.OFF_PLAN
    return job


def test_a_step_that_is_done_again_works_what_the_first_left_short() -> None:
    job = blade_left_short()
    assert job.change_told("again 7").after.verdict is PlanState.ON_PLAN
    job.change("again 7")
    assert job.standing().verdict is PlanState.ON_PLAN
    ends = {size.name: size.expected.value for size in job.standing().sizes}
    assert ends["blade.end_width"] == pytest.approx(54.0, abs=0.5)
    assert ends["blade.end_thickness"] == pytest.approx(9.0, abs=0.3)


def test_a_width_that_is_still_short_in_the_step_done_again_has_more_to_go_and_is_not_out() -> None:
    job = blade_left_short()
    job.change("again 7")
    job.heat()
    job.read("blade.end_width", "50")
    found = next(one for one in job.standing().checks if one.name == "blade.end_width")
    assert found.verdict == "more to go"


def test_what_was_left_short_is_worked_on_as_a_way_back_and_comes_out_as_offered() -> None:
    job = blade_left_short()
    way = offered(job)["work-on-blade"]
    title = write(way.title, Shown("mm"))
    assert title == "Work the blade on: end width to 54 mm, end thickness to 9 mm"
    assert way.heats == 2
    assert way.verdict is PlanState.ON_PLAN
    job.take("work-on-blade")
    assert job.standing().verdict is way.verdict
    assert job.standing().chance == pytest.approx(way.chance, abs=1e-6)


def test_what_is_only_too_thick_is_drawn_again_and_has_no_second_way_of_the_same() -> None:
    found = offered(blade_left_short(end_width="54"))
    assert any(name.startswith("draw-again") for name in found)
    assert "work-on-blade" not in found
