"""A treatment ended before all of its heats: asked about, said, and on the list until it is mended."""

from __future__ import annotations

from coach.bench.answer import StepDone
from coach.bench.session import Session
from coach.telling.entered import answer_text, unsettled_text
from coach.telling.writing import Shown
from tests.bench.jobs import begun

#: A bar that is normalised three times before it is straightened, as its steel's card asks it.
SCRAPER = """
title: Bench scraper
pieces:
  bar: {metal: "1084", stock: {form: flat, width: 25, thickness: 6, length: 300}, zones: [blade]}
drawing:
  blade: {form: flat, width: 25 ±2, thickness: 6 ±0.8, length: 100 ±12, take up: length}
steps:
  - {do: cut, zone: blade, check: [length]}
  - {do: normalise, zone: blade, heats: 3, at: 870 °C}
  - {do: straighten, zone: blade, heats: 1, at: dull red, to: {bow: at most 1}}
"""


def at_normalising() -> Session:
    session = begun(SCRAPER)
    session.read("blade.length", "100")
    session.done()
    return session


def heated(times: int) -> Session:
    session = at_normalising()
    for _ in range(times):
        session.heat()
    return session


def listed(session: Session) -> list[str]:
    return [str(one.text) for one in session.standing().to_right if "heats were taken" in str(one.text)]


def test_before_its_end_it_is_said_how_many_of_its_heats_were_taken() -> None:
    told = unsettled_text(heated(2).done_warning(), Shown())
    assert told == "2 of 3 heats taken, and this treatment asks for each of them"
    assert heated(2).done_warning()


def test_its_end_says_so_is_bad_news_and_stays_on_the_list() -> None:
    session = heated(2)
    answer = session.done()
    assert isinstance(answer.did, StepDone)
    assert "2 of 3 heats taken" in answer_text(answer, Shown())
    assert answer.bad_news
    assert [one.startswith("2 of 3 heats were taken: ") for one in listed(session)] == [True]


def test_the_same_where_the_heats_are_told_at_its_end() -> None:
    session = at_normalising()
    answer = session.done(2)
    assert "2 of 3 heats taken" in answer_text(answer, Shown())
    assert len(listed(session)) == 1


def test_all_of_them_or_none_marked_is_nothing_to_say() -> None:
    for session in (heated(3), at_normalising()):
        assert not session.done_warning().heats
        answer = session.done()
        assert not answer.bad_news
        assert not listed(session)


def test_a_heat_marked_after_going_back_makes_it_good() -> None:
    session = heated(2)
    session.done()
    session.back()
    session.heat()
    assert not session.done_warning().heats
    session.done()
    assert not listed(session)


def test_it_can_be_ticked_off() -> None:
    session = heated(2)
    session.done()
    (right,) = session.standing().to_right
    session.righted(right.entry)
    assert not listed(session)


def test_forging_in_fewer_heats_than_planned_is_no_fault() -> None:
    drawn = "do: draw, zone: blade, form: flat, to: {width: 25 ±2, thickness: 5.8 ±0.8}, heats: 3"
    session = begun(SCRAPER.replace("do: normalise, zone: blade, heats: 3, at: 870 °C", drawn))
    session.done()
    session.heat()
    assert not session.done_warning().heats
    session.done()
    assert not listed(session)
