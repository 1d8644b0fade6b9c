"""What the jobs of a shop have taught of it goes on to the next, each figure as an entry of its own."""

from __future__ import annotations

from datetime import timedelta

import pytest

from coach.bench.learned import OfShop
from coach.bench.own_figures import bring_back, leave_out, own_figures
from coach.bench.planned import planned_tool
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.bench.shop_figures import SCALE_OF_SHOP, of_rates, shop_figures
from coach.cli.page import set_page
from coach.ledger.looking_back import look_back
from coach.ledger.over_jobs import Known, over_jobs
from coach.ledger.workpiece import LEAST_SCALE, SCALE
from coach.log.carry import export_job
from coach.log.kinds.forged_with import ForgedWith
from coach.log.kinds.shop_known import ShopKnown
from coach.quantities import Refusal, Words
from coach.recipe.reader import read_recipe
from coach.telling.next_time import next_time_page
from coach.telling.of_shop import figure_cells, own_figures_page
from coach.telling.page import Line
from coach.telling.plan import fire_words
from coach.telling.time_ahead import time_ahead_page
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import FIRST, shop
from tests.told import entry_text
from tests.worlds.study import forged
from tests.worlds.tools import TOOLS
from tests.worlds.worlds import World

#: A fire that takes three times what the recipe says, and a smith who reads every size and weighs the piece.
HUNGRY = World(hunger=3.0, takes=1.0, weighs=True)
TOOL = TOOLS[2].cut_first


def begun(at: Shop, made: ForgedWith | None = None) -> Session:
    return at.begin(TOOL.text(1.6), "stake.yaml", made=made)


def known(job: Session) -> dict[str, ShopKnown]:
    return {one.body.what: one.body for one in job._entries if isinstance(one.body, ShopKnown)}


def scale_of(job: Session) -> float:
    now = job._state.now
    assert now is not None
    return now.belief.mean(SCALE)


@pytest.fixture
def hungry() -> Shop:
    """A shop with such a fire, in which two jobs were forged."""
    at = shop()
    for number in range(2):
        forged(TOOLS[2], number, HUNGRY, 5, at)
    return at


def test_a_new_job_begins_with_what_the_fire_took_in_those_before(hungry: Shop) -> None:
    job = begun(hungry)
    assert known(job)["scale"].value > 1.2
    assert known(job)["scale"].jobs == 2
    assert scale_of(job) == pytest.approx(known(job)["scale"].value)
    told = job.begun().did
    assert isinstance(told, Words)
    assert "the shop's own: scale (× reckoned)" in write(told)
    assert job.standing().chance < begun(shop()).standing().chance


def test_struck_out_the_published_figure_counts_again(hungry: Shop) -> None:
    job = begun(hungry)
    number = next(
        one.number for one in job._entries if isinstance(one.body, ShopKnown) and one.body.what == "scale"
    )
    job.strike(number)
    assert scale_of(job) == pytest.approx(1.0)
    assert job.standing().learned[0].of_shop == 0


def test_what_is_learned_says_how_many_jobs_it_began_from(hungry: Shop) -> None:
    learned = {one.what: one for one in begun(hungry).standing().learned}
    assert learned[OfShop.SCALE].of_shop == 2


def test_more_jobs_go_further_and_know_it_better(hungry: Shop) -> None:
    two = known(begun(hungry))["scale"]
    for number in range(2, 6):
        forged(TOOLS[2], number, HUNGRY, 5, hungry)
    six = known(begun(hungry))["scale"]
    assert six.value > two.value
    assert six.doubt < two.doubt


def test_a_job_that_began_from_the_shop_says_only_what_it_learned_itself(hungry: Shop) -> None:
    """One more job without a reading is no lesson, however sure it begins."""
    before = known(begun(hungry))["scale"]
    begun(hungry)
    assert known(begun(hungry))["scale"] == before


def test_a_fire_that_is_named_counts_for_itself(hungry: Shop) -> None:
    gas = ForgedWith(fire="gas", hammer="")
    assert "scale" not in known(begun(hungry, gas))
    forged(TOOLS[2], 7, World(takes=1.0, weighs=True), 5, hungry, gas)
    assert known(begun(hungry, gas))["scale"].jobs == 1
    assert known(begun(hungry))["scale"].jobs == 2


def test_what_a_job_taught_can_be_left_out_and_counted_again(hungry: Shop) -> None:
    taught = known(begun(hungry))["scale"]
    one = own_figures(hungry).figures
    rests_on = [lesson.job for figure in one if figure.what == "scale" for lesson in figure.jobs]
    leave_out(hungry, "scale", rests_on[0])
    assert known(begun(hungry))["scale"].jobs == 1
    leave_out(hungry, "scale", "")
    assert "scale" not in known(begun(hungry))
    assert "calliper" in known(begun(hungry))
    bring_back(hungry, "scale", "")
    again = known(begun(hungry))["scale"]  # the same jobs, though their order is another
    assert (again.value, again.doubt, again.jobs) == pytest.approx((taught.value, taught.doubt, 2))


def test_what_cannot_be_left_out_is_refused_in_a_sentence(hungry: Shop) -> None:
    with pytest.raises(Refusal, match="No figure of a shop is called 'scael'"):
        leave_out(hungry, "scael", "")
    told = "Nothing is to be changed: what they all told of the scale counts already"
    with pytest.raises(Refusal, match=told):
        bring_back(hungry, "scale", "")
    job = next(own.jobs[0].job for own in own_figures(hungry).figures if own.what == "scale")
    leave_out(hungry, "scale", job)
    with pytest.raises(Refusal, match=f"what {job} told of the scale is left out already"):
        leave_out(hungry, "scale", job)


def test_it_is_carried_to_another_shop_with_its_job(hungry: Shop) -> None:
    job = begun(hungry, ForgedWith(fire="", hammer="two pounds"))
    there = shop().bring_in(export_job(hungry.log, job.job))
    assert known(there) == known(job)
    assert there.standing().chance == pytest.approx(job.standing().chance)


def test_the_pace_of_the_shop_is_that_of_a_new_job(hungry: Shop) -> None:
    """The made-up clock goes on by a minute or two between heats, where five to ten are usual."""
    usual, job = begun(shop()), begun(hungry)
    assert job.ahead().pace.of_shop == 2
    assert job.ahead().pace.a_heat.value < 0.6 * usual.ahead().pace.a_heat.value


def test_finished_jobs_are_told_beside_what_they_were_told(hungry: Shop) -> None:
    told = own_figures(hungry).told
    assert sum(one.jobs for one in told) >= 2
    assert all(0 <= one.came <= one.jobs for one in told)
    assert all(one.low <= one.told <= one.high for one in told)


def test_what_a_job_begins_with_is_no_metal_that_its_first_step_took(hungry: Shop) -> None:
    job = begun(hungry)
    was = {(one.zone, one.dimension): one.spare.value for one in job.standing().spares}
    job.done()
    first = [one for one in job.spare_gone().points if one.entry == 0]
    assert first
    for one in first:
        assert one.spare.value == pytest.approx(was[one.zone, one.dimension], abs=0.01)


def test_what_a_job_says_of_a_scale_is_never_that_the_fire_gives_metal_back() -> None:
    at = shop()
    for number in range(2):
        forged(TOOLS[2], number, World(hunger=0.05, takes=1.0, weighs=True), 5, at)
    scales = [one for one in own_figures(at).figures if one.what == "scale"]
    assert scales
    assert min(lesson.said.value for one in scales for lesson in one.jobs) > 0.0


def test_what_a_job_is_told_to_say_of_a_scale_is_what_the_shop_s_figure_is_reckoned_from() -> None:
    """Drawn together by hand, the told lessons make the told figure, though one of them is at its bound."""
    at = shop()
    for number in range(2):
        forged(TOOLS[2], number, World(hunger=0.05, takes=1.0, weighs=True), 5, at)
    taught = at.jobs_before.all_taught()
    (scale,) = (one for one in shop_figures() if one.what == SCALE_OF_SHOP)
    low = taught[0]._replace(says={SCALE_OF_SHOP: Known(-0.4, 0.3)})
    assert of_rates(scale, low, low.rates) == Known(LEAST_SCALE, 0.3)
    (told,) = (one for one in own_figures(at).figures if one.what == "scale")
    doubts = [one.said.doubt for one in told.jobs if one.said.doubt is not None]
    lessons = [Known(one.said.value, doubt) for one, doubt in zip(told.jobs, doubts, strict=True)]
    assert told.published.doubt is not None
    drawn = over_jobs(Known(told.published.value, told.published.doubt), lessons)
    assert drawn.shop.value == pytest.approx(told.shop.value)
    assert drawn.next_job.value == pytest.approx(told.next_job.value)


def test_finished_jobs_that_were_not_surely_measured_are_told_as_not_counted() -> None:
    at = shop()
    job = begun(at)
    while job.standing().step is not None:
        job.done()
    own = own_figures(at)
    assert (own.told, own.not_sure) == ((), 1)
    page = own_figures_page(own, Shown())
    told = [one.words for part in page.sections for one in part.body if isinstance(one, Line)]
    assert "Not counted: 1 finished job, where a size that decides was not surely measured." in told


def test_what_to_change_next_time_is_reckoned_by_the_shop_s_own_figures_as_its_plan_is(hungry: Shop) -> None:
    job = hungry.open(hungry.log.jobs()[-1])
    found = hungry.next_time(job)
    edit = next(cost.edit for cost in found.costs if cost.edit is not None)
    began = job.recipe_begun_by
    plan = planned_tool(look_back(began), hungry.begins_with(began))
    assert edit.chance_before == plan.chance
    assert plan.published is not None
    assert edit.chance_before != plan.published.chance
    told = " ".join(" ".join(set_page(next_time_page(found, Shown()))).split())
    assert "by the shop's own figures (" in told
    assert "scale (× reckoned)" in told


def test_what_to_change_next_time_goes_by_the_fire_that_the_job_was_begun_with(hungry: Shop) -> None:
    gas = ForgedWith(fire="gas", hammer="")
    for number in (7, 8):
        forged(TOOLS[2], number, HUNGRY, 5, hungry, gas)
    job = hungry.open(hungry.log.jobs()[-1])
    assert job.forged_with == gas
    own = hungry.begins_with(job.recipe_begun_by, gas)
    hungry.forged_with = ForgedWith(fire="coal", hammer="")  # set since, for other jobs
    assert hungry.next_time(job).shops_own == tuple(one.in_short() for one in own)


def test_a_figure_of_jobs_in_no_named_fire_says_so_once_another_fire_is_set(hungry: Shop) -> None:
    hungry.forged_with = ForgedWith(fire="coal", hammer="")
    scale = next(one for one in own_figures(hungry).figures if one.what == "scale")
    assert (scale.unnamed, scale.begins) == ("fire", False)
    told = " ".join(" ".join(set_page(own_figures_page(own_figures(hungry), Shown()))).split())
    assert figure_cells(scale, Shown())[0].endswith(", no fire named")
    assert "a new job begins without it: another fire or hammer is set" in told
    assert "scale" not in known(begun(hungry))
    hungry.forged_with = ForgedWith(fire="", hammer="")
    assert "no fire named" not in " ".join(set_page(own_figures_page(own_figures(hungry), Shown())))


def test_more_heats_than_planned_move_the_plan_s_hours_though_no_pace_is_known() -> None:
    heats = ShopKnown(what="heats", unit="1", value=2.0, doubt=0.1, jobs=3, names="a, b, c")
    plan = look_back(read_recipe(TOOL.text(1.6), "stake.yaml"))
    book, here = planned_tool(plan), planned_tool(plan, (heats,))
    assert here.at_the_fire.high > book.at_the_fire.high
    assert here.heats_here == 2 * book.heats
    told = write(fire_words(here))
    assert told.startswith(
        f"{book.heats} heats planned and about {here.heats_here} taken as this shop takes them, "
    )


def test_the_pace_and_the_heats_of_the_shop_are_told_each_by_their_own_jobs(hungry: Shop) -> None:
    """Two jobs told of the pace; that four told of the heats makes the pace no surer."""
    job = begun(shop())
    job.begin_with(known(begun(hungry))["pace"])
    job.begin_with(ShopKnown(what="heats", unit="1", value=2.0, doubt=0.1, jobs=4, names="a, b, c, d"))
    told = " ".join(" ".join(set_page(time_ahead_page(job.ahead(), Shown()))).split())
    assert " a heat, by 2 jobs of this shop: none is timed yet. " in told
    assert "This shop takes 2.0 heats where one is planned, by 4 jobs." in told


def test_what_a_job_began_with_counts_on_a_day_that_is_entered_from_paper(hungry: Shop) -> None:
    day = FIRST.astimezone() - timedelta(days=1)
    job = hungry.begin(TOOL.text(1.6), "stake.yaml", at=f"{day:%Y-%m-%d} 9:00")
    began = known(job)["scale"].value
    job.heat_then(1, f"{day:%Y-%m-%d} 9:10")
    assert job.standing().left_out == ()
    assert scale_of(job) == pytest.approx(began)
    assert not any("struck out" in entry_text(one) for one in job.history())
