"""How far a steel's own tempering curve lies from the published one goes on to the next job of that steel."""

from __future__ import annotations

import pytest

from coach.bench.own_figures import own_figures
from coach.bench.planned import planned_tool
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.log.kinds.shop_known import ShopKnown
from coach.quantities import Words
from coach.telling.of_shop import own_figures_page
from coach.telling.page import Table
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import begun, shop
from tests.bench.test_own_curve import THICK, TWICE, curves, known


def treated(at: Shop, hrc: str, name: str | None = None) -> Session:
    """A hammer whose face is read after each of its two tempers."""
    session = begun(TWICE, at, name)
    while (step := session.standing().step) is not None:
        for _ in range(3 * (step.operation == "temper")):  # in a job five sizes are to be read
            session.read("poll.hardness", hrc, insist=True)
        session.done()
    return session


def tempers(session: Session) -> dict[str, ShopKnown]:
    bodies = (one.body for one in session._entries)
    return {one.what: one for one in bodies if isinstance(one, ShopKnown) and one.is_of_temper}


@pytest.fixture
def harder() -> Shop:
    """A shop whose steel came three HRC harder than the table, twice."""
    at = shop()
    first = begun(TWICE, shop())
    told = max(curve_points(first))
    for number in range(2):
        treated(at, f"{told + 3:.0f} HRC", f"job{number}")
    return at


def curve_points(session: Session) -> list[float]:
    """What the published curve gives at the middle of the temper's range."""
    from coach.ledger.hot_work import steels_of
    from coach.ledger.tempered import row_of
    from coach.metals.tempering import tempered_hrc

    step = next(one for one in session.recipe.steps if one.operation == "temper")
    (metal,) = steels_of(session.plan, step)
    row = row_of(session.plan, step, metal)
    assert row is not None
    return [tempered_hrc(row, 230.0, 2.0).hrc]


def test_a_new_job_of_that_steel_begins_with_it_and_is_told_by_it(harder: Shop) -> None:
    taught = begun(TWICE, harder, "new")
    (own,) = tempers(taught).values()
    assert 0.5 < own.value < 3.5
    assert own.jobs == 2
    told = taught.begun().did
    assert isinstance(told, Words)
    assert "(above published)" in write(told)
    while (step := taught.standing().step) is not None and step.operation != "temper":
        taught.done()
    assert "Your own readings make it" in known(taught)


def test_struck_out_the_published_curve_counts_again(harder: Shop) -> None:
    job = begun(TWICE, harder, "new")
    number = next(one.number for one in job._entries if one.body in tempers(job).values())
    job.strike(number)
    while (step := job.standing().step) is not None and step.operation != "temper":
        job.done()
    assert "own readings" not in known(job)


def test_what_a_job_learns_of_it_says_what_it_began_with(harder: Shop) -> None:
    job = treated(harder, "60 HRC", "new")
    (one,) = curves(job)
    assert one.of_shop == 2


def test_a_job_of_another_steel_begins_without_it(harder: Shop) -> None:
    assert tempers(begun(THICK, harder, "other")) == {}


def test_it_stands_among_the_shop_s_figures_with_its_jobs(harder: Shop) -> None:
    (one,) = (figure for figure in own_figures(harder).figures if figure.what.startswith("temper-"))
    assert one.published.value == 0.0
    assert {lesson.job for lesson in one.jobs} == {"job0", "job1"}
    page = own_figures_page(own_figures(harder), Shown())
    rows = [
        row.cells
        for part in page.sections
        for line in part.body
        if isinstance(line, Table)
        for row in line.rows
    ]
    assert any("HRC" in cells[2] for cells in rows if cells[0].startswith("temper-"))


def test_a_plan_tells_the_temper_as_the_job_of_it_does(harder: Shop) -> None:
    plan = begun(TWICE, shop()).plan
    told = planned_tool(plan, harder.begins_with(plan.recipe))
    advice = [write(words) for one in told.steps for words in one.step.know]
    assert any("Your own readings make it" in one for one in advice)
    by_book = [write(words) for one in planned_tool(plan).steps for words in one.step.know]
    assert not any("own readings" in one for one in by_book)
