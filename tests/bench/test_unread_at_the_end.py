"""A step's end moves what is said only by what was left undone, and that is named before it is taken."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.ledger.verdict import Reason
from coach.places import bundled_recipes
from coach.telling.entered import unsettled_text
from coach.telling.writing import Shown
from tests.bench.jobs import shop
from tests.bench.law_of_done import NAMES, before
from tests.bench.test_plain_day import asked_for

#: A chance moves so far without anything having been left undone (judgement).
NEARLY = 0.05


def begun_of(name: str) -> Session:
    path = bundled_recipes() / f"{name}.yaml"
    return shop().begin(path.read_text(encoding="utf-8"), path.name)


@pytest.mark.parametrize("heated", [True, False], ids=["heats marked", "nothing entered"])
@pytest.mark.parametrize("name", NAMES)
def test_what_was_never_read_is_named_before_the_end_that_makes_it_count(name: str, *, heated: bool) -> None:
    session = begun_of(name)
    while (step := session.standing().step) is not None:
        for _ in range(step.heats_planned if heated else 0):
            session.heat()
        was, warning = session.standing(), session.done_warning()
        session.done()
        now = session.standing()
        if now.chance >= was.chance - NEARLY:
            continue
        if not isinstance(now.reason, Reason):
            worst = min((one for one in now.sizes if not one.measured), key=lambda one: one.chance)
            named = {one.name for one in warning.checks} | {one.name for one in warning.unread}
            assert worst.name in named, (step.number, worst.name)
        assert unsettled_text(warning, Shown()), step.number


@pytest.mark.parametrize("name", NAMES)
def test_where_all_that_is_asked_for_is_read_no_end_moves_what_is_said(name: str) -> None:
    job = before(name, 1, measured=False)
    while job.state.step is not None:
        job = job.heated()
        job = job.read({size: limits.nominal for size, limits in asked_for(job).items()})
        was = job.standing()
        job = job.done()
        now = job.standing()
        assert now.chance == pytest.approx(was.chance, abs=NEARLY), len(job.state.records)


def test_an_unread_size_that_decides_is_asked_for_by_its_name() -> None:
    session = begun_of("first-hook")
    while session.standing().coming[1:]:
        session.done()
    told = unsettled_text(session.done_warning(), Shown())
    assert "unmeasured now: read them, or they count as made with this hand" in told
    assert "shank length" in told
