"""Entries struck out and brought back, and where a job may be put down."""

from __future__ import annotations

import pytest

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from tests.bench.jobs import HAMMER, at_step, begun, in_hand
from tests.ledger.recipes import DRAW
from tests.told import entry_text, said, summary_of

# ── striking out ────────────────────────────────────────────────────────────────────────────────────


def same_but_for_its_entries(one: Session, other: Session) -> bool:
    first, second = one.standing(), other.standing()
    return (first.step, first.heats, first.checks, first.sizes, first.notes, first.done, first.state) == (
        second.step,
        second.heats,
        second.checks,
        second.sizes,
        second.notes,
        second.done,
        second.state,
    )


@pytest.mark.parametrize(
    ("kind", "told"),
    [
        ("heat", "Struck out: heat."),
        ("reading", "Struck out: poll side 34.5 mm by calliper."),
        ("done", "Struck out: step 2 done in 2 heats."),
        ("note", "Struck out: note: Cold shut?"),
        ("rest", "Struck out: put down to rest."),
        ("aside", "Struck out: set aside."),
    ],
)
def test_every_kind_of_entry_can_be_struck_out_and_brought_back(kind: str, told: str) -> None:
    session, untouched = at_step(2), at_step(2)
    enter = {
        "heat": session.heat,
        "reading": lambda: session.read("poll.side", "34.5"),
        "done": session.done,
        "note": lambda: session.note("Cold shut?"),
        "rest": session.rest,
        "aside": session.set_aside,
    }
    made = enter[kind]()
    with_it = session.standing()
    answer = session.strike()
    assert said(answer) == told
    assert same_but_for_its_entries(session, untouched)
    assert answer.entry is not None
    again = session.strike(answer.entry)
    assert said(again) == f"Entry {made.entry} counts again."
    back = session.standing()
    assert (back.heats, back.checks, back.notes, back.done, back.state) == (
        with_it.heats,
        with_it.checks,
        with_it.notes,
        with_it.done,
        with_it.state,
    )


def test_striking_without_a_number_takes_the_latest_that_counts() -> None:
    session = at_step(2)
    session.note("one")
    session.note("two")
    session.strike()
    session.strike()
    assert session.standing().notes == ()


def test_an_entry_is_named_by_its_number() -> None:
    session = begun(DRAW)
    one = session.note("one").entry
    session.note("two")
    session.strike(one)
    assert [note.text for note in session.standing().notes] == ["two"]


def test_what_cannot_be_struck_out_is_refused_with_the_reason() -> None:
    session = begun(HAMMER)
    with pytest.raises(EntryFault, match="nothing to strike out yet"):
        session.strike()
    with pytest.raises(EntryFault, match="beginning of a job cannot be struck out"):
        session.strike(1)
    with pytest.raises(EntryFault, match="no entry 40; the entries are numbered 1 to 1"):
        session.strike(40)
    note = session.note("one").entry
    session.strike(note)
    with pytest.raises(EntryFault, match=f"Entry {note} is struck out already"):
        session.strike(note)


def test_a_step_cannot_be_struck_out_from_under_later_ones() -> None:
    session = begun(HAMMER)
    first = session.done().entry
    session.done()
    with pytest.raises(EntryFault, match="finished step 1, and later steps are done since"):
        session.strike(first)
    session.back()
    session.strike(first)
    assert in_hand(session) == 1


def test_a_finish_brought_back_after_its_step_was_finished_again_says_nothing() -> None:
    session = begun(HAMMER)
    session.done()
    struck = session.back().entry
    session.done()
    session.strike(struck)
    assert in_hand(session) == 2
    assert [done.number for done in session.standing().done] == [1]
    assert session.history()[-1].step == 2


def test_going_back_is_undone_before_what_was_entered_ahead_of_it() -> None:
    session = at_step(2)
    session.done(2)
    session.heat()
    ahead = session.standing()
    session.back()
    assert said(session.strike()) == "Returned to step 3, Punch the eye."
    assert in_hand(session) == 3
    assert session.standing().heats == ahead.heats == 1
    assert said(session.strike()) == "Struck out: heat."


def test_going_back_straight_after_the_end_of_a_step_is_undone_and_then_that_end() -> None:
    session = at_step(2)
    session.done(2)
    session.back()
    session.strike()
    assert in_hand(session) == 3
    assert said(session.strike()) == "Struck out: step 2 done in 2 heats."
    assert in_hand(session) == 2


def test_what_was_entered_since_going_back_is_struck_out_before_it() -> None:
    session = at_step(3)
    session.back()
    session.heat()
    assert said(session.strike()) == "Struck out: heat."
    session.strike()
    assert in_hand(session) == 3


def test_going_back_from_the_end_of_the_job_is_undone_to_the_end() -> None:
    session = at_step(13)
    assert said(session.back()).endswith("; undo returns to where every step is done.")
    assert said(session.strike()) == "Returned: every step is done."
    assert session.standing().step is None


# ── resting and setting aside ───────────────────────────────────────────────────────────────────────


_TACK = "a tack lets go, and the faces under it rust where nothing can clean them"
#: What is to be done at once at each step that may not be left.
_NOW = {6: "Weld now", 7: "Weld now", 10: "Go on now", 11: "Temper now"}
_QUENCH = "quenched steel that is left untempered cracks by itself, often overnight"


def test_a_job_rests_and_is_taken_up_again() -> None:
    session = at_step(3)
    assert said(session.rest()) == "The job rests; it will be here as you leave it."
    assert session.standing().state == "resting"
    session.resume()
    assert session.standing().state == "under way"


def test_work_takes_a_resting_job_up_by_itself() -> None:
    session = at_step(2)
    session.rest()
    session.heat()
    assert session.standing().state == "under way"


@pytest.mark.parametrize(
    ("number", "begin", "why"),
    [
        (
            7,
            False,
            f"Step 6, Tack the poll, must be followed by its weld before the job may rest: {_TACK}.",
        ),
        (
            7,
            True,
            f"Step 6, Tack the poll, must be followed by its weld before the job may rest: {_TACK}.",
        ),
        (
            6,
            True,
            f"Step 6, Tack the poll, must be followed by its weld before the job may rest: {_TACK}.",
        ),
        (
            11,
            False,
            f"Step 10, Harden the poll, must be followed by its temper before the job may rest: {_QUENCH}.",
        ),
        (
            11,
            True,
            f"Step 10, Harden the poll, must be followed by its temper before the job may rest: {_QUENCH}.",
        ),
        (10, False, "The recipe says not to rest after step 9, Normalise the poll."),
    ],
)
def test_a_job_may_not_rest_where_it_is_not_safe(number: int, begin: bool, why: str) -> None:
    session = at_step(number)
    if begin:
        session.heat()
    assert session.standing().rest_reason
    before = session.standing().last_entry
    with pytest.raises(EntryFault) as refusal:
        session.rest()
    assert str(refusal.value) == why
    assert session.standing().last_entry == before
    assert summary_of(session)[1] == f"{_NOW[number]}: {why}", "before anything is measured"


@pytest.mark.parametrize("number", [1, 2, 6, 8, 9, 12])
def test_a_job_may_rest_where_it_is_safe(number: int) -> None:
    session = at_step(number)
    assert not session.standing().rest_reason
    session.rest()


def test_insisting_on_a_rest_is_allowed_and_logged() -> None:
    session = at_step(11)
    answer = session.rest(force=True)
    assert answer.bad_news
    assert "against advice: Step 10, Harden the poll" in entry_text(session.history()[-1])


def test_a_finished_job_has_nothing_to_rest_from() -> None:
    with pytest.raises(EntryFault, match="nothing to rest from"):
        at_step(13).rest()


@pytest.mark.parametrize("number", [1, 13])
def test_a_job_is_set_aside_and_taken_up_whether_finished_or_not(number: int) -> None:
    session = at_step(number)
    before = session.standing().state
    with pytest.raises(EntryFault, match="not set aside"):
        session.bring_back()
    session.set_aside()
    assert session.standing().state == "set aside"
    with pytest.raises(EntryFault, match="set aside already"):
        session.set_aside()
    session.bring_back()
    assert session.standing().state == before


def test_a_heat_struck_out_of_a_finished_step_gives_its_scale_back() -> None:
    session, twice = at_step(2), at_step(2)
    for one in (session, twice):
        first = one.heat().entry
        one.heat()
    session.heat()
    session.done()
    twice.done()
    assert session.standing().heats_total == 3
    session.strike(first)
    standing = session.standing()
    assert standing.heats_total == 2
    assert standing.done[-1].heats == 2
    assert standing.spares == twice.standing().spares


def test_going_back_leaves_the_later_step_its_own_heats_and_readings() -> None:
    session = at_step(2)
    session.read("poll.side", "34.1")
    before = session.standing()
    session.done(2)
    session.heat()
    session.read("eye.hole length", "26.1")
    later = session.standing()
    session.back()
    back = session.standing()
    assert (back.heats, back.checks) == (before.heats, before.checks)
    assert back.heats_total == 1
    session.done(2)
    again = session.standing()
    assert (again.step, again.heats, again.checks) == (later.step, later.heats, later.checks)


def test_a_strike_says_which_entry_it_strikes_and_nothing_else_does() -> None:
    session = begun(HAMMER)
    heat = session.heat().entry
    session.strike()
    assert [view.strikes for view in session.history()] == [None, None, heat]


def test_what_is_entered_for_a_job_off_plan_is_bad_news_unless_it_changes_no_metal() -> None:
    session = begun(HAMMER)
    session.read("poll.length", "20", insist=True)
    assert session.standing().verdict == "off plan"
    assert session.heat().bad_news
    assert session.strike().bad_news
    assert not session.note("the fire was dirty").bad_news
    assert not session.rest().bad_news
    assert not session.resume().bad_news
    assert not session.set_aside().bad_news


def test_a_reading_that_was_corrected_is_struck_out_as_what_it_really_was() -> None:
    session = begun(HAMMER)
    session.done()
    read = session.read("poll.side", "33").entry
    session.correct(read, "34.2")
    assert "34.2" in said(session.strike(read))
