"""Blows that a smith has counted: kept with their heat, told in the record, and learned by the shop."""

from __future__ import annotations

from math import exp, log, sqrt

import pytest

from coach.bench.blows_a_heat import BLOWS_BOOK_SPREAD, BLOWS_HEAT_SPREAD, BOOK_BLOWS
from coach.bench.entering import EntryFault
from coach.bench.own_blows import blows_a_heat
from coach.bench.own_figures import leave_out, own_figures
from coach.bench.planned import planned_tool
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.cli.page import set_page
from coach.ledger.looking_back import look_back
from coach.log.carry import export_job
from coach.log.kinds.forged_with import ForgedWith
from coach.log.kinds.shop_known import ShopKnown
from coach.quantities import Refusal
from coach.recipe.reader import read_recipe
from coach.telling.of_shop import own_figures_page
from coach.telling.plan import plan_page
from coach.telling.sheet import sheet_page
from coach.telling.time_ahead import time_ahead_page
from coach.telling.writing import Shown
from tests.bench.jobs import begun, shop
from tests.bench.test_sheet import PEG
from tests.spelt_out import file_text

#: The sizes that are read, five of them, that a job teaches its shop.
_READ = ("8.1", "90", "8.0", "91", "8.1")


def struck(at: Shop, *blows: int, hammer: str = "") -> Session:
    """A peg whose point took so many heats, each with its blows counted, and of which five sizes are read."""
    job = at.begin(file_text(PEG), "peg.yaml", made=ForgedWith(fire="", hammer=hammer))
    for one in blows:
        job.heat()
        job.count_blows(one)
    for number, size in enumerate(_READ):
        job.read("point.length" if number % 2 else "point.side", size)
    job.done()
    return job


def _told(page: object) -> str:
    return " ".join(" ".join(set_page(page)).split())  # type: ignore[arg-type]


def test_nothing_is_told_where_nobody_counted() -> None:
    job = begun(PEG)
    job.heat()
    assert job.standing().step is not None
    assert "lows" not in _told(time_ahead_page(job.ahead(), Shown()))
    assert all(one.blows_of == 0 for one in job.sheet().heats.steps)
    job.done()
    assert "blows" not in _told(sheet_page(job.sheet(), Shown()))
    assert not any(one.what.startswith("blows") for one in own_figures(shop()).figures)


def test_a_count_is_of_the_last_heat_and_a_later_one_is_meant() -> None:
    job = begun(PEG)
    with pytest.raises(
        EntryFault, match="No heat is marked that these blows were struck in: mark the heat first"
    ):
        job.count_blows(40)
    job.heat()
    job.count_blows(40)
    assert "not 40" in str(job.count_blows(38).did)
    assert job.sheet().heats.steps[0].blows == 38
    job.strike()
    assert job.sheet().heats.steps[0].blows == 40


def test_the_blows_of_a_heat_that_is_struck_out_do_not_count() -> None:
    job = begun(PEG)
    job.heat()
    heat = job.history()[-1].number
    job.count_blows(40)
    job.strike(heat)
    assert job.sheet().heats.steps[0].blows_of == 0


@pytest.mark.parametrize("blows", [0, -3, 2001])
def test_nobody_strikes_so_many(blows: int) -> None:
    job = begun(PEG)
    job.heat()
    with pytest.raises(Refusal, match="The blows of a counted heat must be a whole number from 1 to 2000"):
        job.count_blows(blows)


def test_the_record_tells_them_by_step_and_in_how_many_heats_they_were() -> None:
    job = begun(PEG)
    job.heat()
    job.count_blows(30)
    job.heat()
    told = _told(sheet_page(job.sheet(), Shown()))
    assert "30 in 1 heat" in told
    job.count_blows(36)
    assert job.sheet().heats.steps[0][-2:] == (66, 2)
    assert "66 in" not in _told(sheet_page(job.sheet(), Shown()))  # in each of its heats


def test_what_the_job_counted_is_weighed_with_the_usual_by_hand() -> None:
    """Two heats of 30 and of 36, beside the usual 42 in doubt by 0.5 of a logarithm, each heat by 0.3.

    By hand: weights 1/0.25 = 4 and 2/0.09 = 22.222; ln 42 = 3.73767, ln 30 + ln 36 = 6.98472; the mean
    (4 × 3.73767 + 6.98472 / 0.09) / 26.222 = 3.52983, e^3.52983 = 34.12; its doubt 34.12 / √26.222 = 6.66.
    """
    assert (BOOK_BLOWS, BLOWS_BOOK_SPREAD, BLOWS_HEAT_SPREAD) == (42.0, 0.5, 0.3)
    job = begun(PEG)
    for blows in (30, 36):
        job.heat()
        job.count_blows(blows)
    found = blows_a_heat(job._state, "draw")
    assert found is not None
    assert found.a_heat.value == pytest.approx(34.12, abs=0.01)
    assert found.a_heat.doubt == pytest.approx(6.66, abs=0.01)
    assert (found.rests_on, found.of_shop) == (2, 0)
    assert blows_a_heat(job._state, "bend") is None
    # The shank is drawn too, in one heat; each differs by 0.3 from the next: √(0.19528² + 0.3²) = 0.35796;
    # nine times in ten 34.12 × e^∓(1.645 × 0.35796) = 34.12 × 0.5550 and × 1.8019.
    job.done()
    told = job.ahead()
    drawn = next(one for one in told.steps if one.number == 2).blows
    assert drawn is not None
    assert drawn.low == pytest.approx(18.93, abs=0.02)
    assert drawn.high == pytest.approx(61.48, abs=0.03)
    assert next(one for one in told.steps if one.number == 3).blows is None  # nobody counted a bend's
    page = _told(time_ahead_page(told, Shown()))
    assert "draw: about 30, 20 to 50 a heat, by 2 heats of this job" in page
    assert "5 to 60" not in page
    assert "20 to 60" in page


def test_the_shop_learns_them_by_operation_and_by_hammer_and_the_next_job_begins_with_them() -> None:
    at = shop()
    struck(at, 20, 24, 22, hammer="1 kg")
    struck(at, 70, 75, 80, hammer="3 kg")
    light, heavy = sorted(
        (one for one in own_figures(at).figures if one.what == "blows-draw"), key=lambda one: one.hammer
    )
    assert (light.hammer, heavy.hammer) == ("1 kg", "3 kg")
    # What the job says alone: the mean of three logarithms, in doubt by 0.3/√3.
    (alone,) = light.jobs
    assert alone.said.value == pytest.approx(exp((log(20) + log(24) + log(22)) / 3))
    assert alone.said.doubt == pytest.approx(alone.said.value * 0.3 / sqrt(3))
    assert light.published.value == pytest.approx(42.0)
    assert 22.0 < light.shop.value < 42.0  # drawn towards the usual, as long as it is one job
    assert 42.0 < heavy.shop.value < 75.0
    assert "blows-draw (a heat), 42 ±35" in _told(own_figures_page(own_figures(at), Shown()))
    at.forged_with = ForgedWith(fire="", hammer="1 kg")
    begun_here = at.begin(file_text(PEG), "peg.yaml")
    known = {one.body.what: one.body for one in begun_here._entries if isinstance(one.body, ShopKnown)}
    assert known["blows-draw"].value == pytest.approx(light.next_job.value)
    told = _told(time_ahead_page(begun_here.ahead(), Shown()))
    assert "a heat, by 1 job of this shop" in told


def test_the_plan_tells_them_for_the_steps_of_that_operation_alone() -> None:
    known = ShopKnown(what="blows-draw", unit="1", value=35.0, doubt=4.0, jobs=2, names="a, b")
    planned = planned_tool(look_back(read_recipe(file_text(PEG), "peg.yaml")), (known,))
    assert [one.step.blows is not None for one in planned.steps] == [True, True, False, False]
    # 35 in doubt by 4, each heat by 0.3: in two 70 × e^∓(1.645 × √(0.1143² + 0.3²/2)), × 0.671 to × 1.491.
    assert "a heat, by 2 jobs of this shop; 50 to 100 in 2 heats" in _told(plan_page(planned, Shown()))


def test_what_a_job_taught_of_them_is_left_out_like_any_figure() -> None:
    at = shop()
    job = struck(at, 20, 24, 22)
    leave_out(at, "blows-draw", job.job)
    (figure,) = (one for one in own_figures(at).figures if one.what == "blows-draw")
    assert figure.shop.value == pytest.approx(figure.published.value)
    begun_here = at.begin(file_text(PEG), "peg.yaml")
    assert not any(
        isinstance(one.body, ShopKnown) and "blows" in one.body.what for one in begun_here._entries
    )


def test_two_heats_in_each_of_some_jobs_teach_the_shop_together() -> None:
    """Whoever draws in two heats never has three of them in one job."""
    at = shop()
    struck(at, 20, 20)
    (one,) = (one for one in own_figures(at).figures if one.what == "blows-draw")
    for _ in range(3):
        struck(at, 20, 20)
    (four,) = (one for one in own_figures(at).figures if one.what == "blows-draw")
    # A job of two heats says 20, in doubt by 0.3/√2 as a logarithm: about 4 (by hand).
    (said, *_) = one.jobs
    assert said.said.value == pytest.approx(20.0)
    assert said.said.doubt == pytest.approx(20.0 * 0.3 / sqrt(2.0))
    assert four.shop.value < one.shop.value < one.published.value
    assert (four.shop.doubt or 0.0) < (one.shop.doubt or 0.0)
    assert at.begin(file_text(PEG), "peg.yaml").ahead().blows


def test_a_figure_of_no_operation_is_refused_with_what_there_is() -> None:
    with pytest.raises(EntryFault, match="blows-draw for the blows of an operation"):
        leave_out(shop(), "blows-nothing-of-it-all", "")


def test_they_go_with_the_job_to_another_log() -> None:
    at, other = shop(), shop()
    job = struck(at, 20, 24, 22)
    carried = other.bring_in(export_job(at.log, job.job))
    assert carried.sheet().heats == job.sheet().heats
