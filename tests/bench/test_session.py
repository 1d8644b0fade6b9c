"""What can be entered for a job, what is answered, and what is refused."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.bench.session import LONGEST_NOTE, EntryFault, Session
from coach.quantities import Shown
from tests.bench.jobs import HAMMER, begun
from tests.ledger.recipes import DRAW


def at_step(number: int) -> Session:
    """The hammer with that step in hand."""
    session = begun(HAMMER)
    for _ in range(number - 1):
        session.done()
    return session


def in_hand(session: Session) -> int:
    step = session.standing().step
    return 0 if step is None else step.number


def entries(session: Session) -> int:
    return session.standing().last_entry


# ── heats and steps ─────────────────────────────────────────────────────────────────────────────────


def test_a_heat_is_counted_against_those_planned() -> None:
    session = at_step(2)
    assert session.heat().sentence == "Heat 1 of 2 planned marked."
    assert session.heat().sentence == "Heat 2 of 2 planned marked."
    standing = session.standing()
    assert (standing.heats, standing.heats_total) == (2, 2)


def test_a_heat_of_a_cold_step_is_counted_without_a_plan() -> None:
    assert begun(HAMMER).heat().sentence == "Heat 1 marked."


def test_a_step_is_done_in_the_heats_that_were_marked() -> None:
    session = at_step(2)
    for _ in range(3):
        session.heat()
    answer = session.done()
    assert "no heat was marked" not in answer.sentence
    assert session.standing().done[-1].heats == 3


def test_a_step_without_marked_heats_took_those_planned() -> None:
    session = at_step(2)
    answer = session.done()
    assert "no heat was marked, so the planned 2 heats count" in answer.sentence
    assert session.standing().done[-1].heats == 2


def test_the_smith_may_say_how_many_heats_a_step_took() -> None:
    session = at_step(2)
    session.heat()
    session.done(5)
    assert session.standing().done[-1].heats == 5
    assert session.standing().heats_total == 5


def test_more_heats_leave_less_metal() -> None:
    few, many = at_step(2), at_step(2)
    few.done(1)
    many.done(9)
    assert many.standing().spares[0].spare < few.standing().spares[0].spare


def test_a_step_cannot_have_taken_fewer_heats_than_were_marked() -> None:
    session = at_step(2)
    session.heat()
    session.heat()
    before = entries(session)
    with pytest.raises(
        EntryFault, match="2 heats are marked in this step already, so it cannot have taken 1"
    ):
        session.done(1)
    assert entries(session) == before


def test_finishing_names_what_comes_next() -> None:
    assert begun(HAMMER).done().sentence.endswith("Next: Draw the poll.")
    assert at_step(12).done().sentence.endswith("That was the last step.")


def test_finishing_unmeasured_is_warned_of_and_allowed() -> None:
    session = at_step(2)
    assert session.done_warning() == "poll side is not measured; poll length is not measured"
    session.read("poll.side", "36")
    assert "poll side is more to go" in session.done_warning()
    session.read("poll.side", "34.0")
    session.read("poll.length", "500")
    assert "poll length waits to be measured again" in session.done_warning()
    assert "waits to be measured again" in session.done().sentence
    assert in_hand(session) == 3


def test_going_back_takes_the_last_step_up_again() -> None:
    session = at_step(3)
    answer = session.back()
    assert answer.sentence == "Back at step 2, Draw the poll."
    assert in_hand(session) == 2
    session.back()
    assert in_hand(session) == 1
    with pytest.raises(EntryFault, match="No step is finished yet"):
        session.back()


def test_going_back_brings_back_the_step_s_own_heats_and_readings() -> None:
    session = at_step(2)
    session.heat()
    session.read("poll.side", "34.2")
    before = session.standing()
    session.done()
    session.back()
    after = session.standing()
    assert (after.heats, after.checks, after.spares) == (before.heats, before.checks, before.spares)


def test_nothing_can_be_worked_on_when_every_step_is_done() -> None:
    session = at_step(13)
    standing = session.standing()
    assert (standing.state, standing.step, standing.checks) == ("finished", None, ())
    for attempt in (session.heat, session.done, lambda: session.read("poll.side", "34")):
        with pytest.raises(EntryFault, match="Every step of this job is done"):
            attempt()
    assert session.done_warning() == ""
    session.note("Hangs well.")
    session.back()
    assert in_hand(session) == 12
    assert session.standing().state == "under way"


# ── notes ───────────────────────────────────────────────────────────────────────────────────────────


def test_a_note_is_kept_with_its_step() -> None:
    session = at_step(3)
    answer = session.note("  Left cheek is thin.\n")
    (note,) = session.standing().notes
    assert (note.text, note.step, note.entry) == ("Left cheek is thin.", 3, answer.entry)
    assert any("Noted at step 3: Left cheek is thin." in line for line in session.summary())


@settings(max_examples=30, deadline=None)
@given(st.text(min_size=1, max_size=200))
def test_any_text_can_be_noted_and_comes_back_as_it_was(text: str) -> None:
    session = begun(DRAW)
    if not text.strip():
        with pytest.raises(EntryFault, match="note is empty"):
            session.note(text)
        return
    session.note(text)
    assert session.standing().notes[0].text == text.strip()


def test_an_empty_or_endless_note_is_refused() -> None:
    session = begun(DRAW)
    with pytest.raises(EntryFault, match="The note is empty"):
        session.note("   ")
    with pytest.raises(
        EntryFault, match=f"is {LONGEST_NOTE + 1} characters long; keep it under {LONGEST_NOTE}"
    ):
        session.note("x" * (LONGEST_NOTE + 1))
    session.note("x" * LONGEST_NOTE)


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
        ("note", "Struck out: note: Cold shut?."),
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
    assert answer.sentence == told
    assert same_but_for_its_entries(session, untouched)
    assert answer.entry is not None
    again = session.strike(answer.entry)
    assert again.sentence == f"Entry {made.entry} counts again."
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


# ── resting and setting aside ───────────────────────────────────────────────────────────────────────


def test_a_job_rests_and_is_taken_up_again() -> None:
    session = at_step(3)
    assert session.rest().sentence == "The job rests; it will be here as you leave it."
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
        (7, False, "Step 6, Tack the poll, must be followed by its weld before the job may rest."),
        (7, True, "Step 6, Tack the poll, must be followed by its weld before the job may rest."),
        (6, True, "Step 6, Tack the poll, must be followed by its weld before the job may rest."),
        (11, False, "Step 10, Harden the poll, must be followed by its temper before the job may rest."),
        (11, True, "Step 10, Harden the poll, must be followed by its temper before the job may rest."),
        (10, False, "The recipe says not to rest after step 9, Normalise the poll."),
    ],
)
def test_a_job_may_not_rest_where_it_is_not_safe(number: int, begin: bool, why: str) -> None:
    session = at_step(number)
    if begin:
        session.heat()
    assert not session.standing().may_rest
    before = entries(session)
    with pytest.raises(EntryFault) as refusal:
        session.rest()
    assert str(refusal.value) == why
    assert entries(session) == before
    assert why in session.summary()


@pytest.mark.parametrize("number", [1, 2, 6, 8, 9, 12])
def test_a_job_may_rest_where_it_is_safe(number: int) -> None:
    session = at_step(number)
    assert session.standing().may_rest
    session.rest()


def test_insisting_on_a_rest_is_allowed_and_logged() -> None:
    session = at_step(11)
    answer = session.rest(force=True)
    assert answer.bad_news
    assert "against advice: Step 10, Harden the poll" in session.history()[-1].text


def test_a_finished_job_has_nothing_to_rest_from() -> None:
    with pytest.raises(EntryFault, match="nothing to rest from"):
        at_step(13).rest()


@pytest.mark.parametrize("number", [1, 13])
def test_a_job_is_set_aside_and_taken_up_whether_finished_or_not(number: int) -> None:
    session = at_step(number)
    before = session.standing().state
    with pytest.raises(EntryFault, match="not set aside"):
        session.take_up()
    session.set_aside()
    assert session.standing().state == "set aside"
    with pytest.raises(EntryFault, match="set aside already"):
        session.set_aside()
    session.take_up()
    assert session.standing().state == before


# ── telling ─────────────────────────────────────────────────────────────────────────────────────────


def test_the_history_tells_every_entry_in_the_shop_s_words() -> None:
    session = begun(HAMMER)
    session.done()
    session.heat()
    session.read("poll.side", "34.6", hot="900 C")
    session.note("Scale in the corner.")
    session.strike()
    told = [(view.step, view.text, view.struck) for view in session.history()]
    assert told == [
        (1, "began Hand hammer", False),
        (1, "step 1 done in 0 heats", False),
        (2, "heat", False),
        (2, "poll side 34.6 mm by calliper, hot at 900 °C", False),
        (2, "note: Scale in the corner.", True),
        (2, "entry 5 struck out", False),
    ]


def test_the_summary_says_where_the_job_stands_and_what_comes() -> None:
    session = at_step(2)
    session.heat()
    lines = session.summary()
    assert lines[0] == "Hand hammer: step 2 of 12, Draw the poll."
    assert lines[1] == "Heats in this step: 1 of 2; in the whole job: 1."
    assert lines[2].startswith("On plan: ")
    assert "To be measured at this step: poll side, poll length." in lines
    assert "After it: Punch the eye." in lines
    assert "Last finished: step 1, Mark out the body, in 0 heats." in lines


def test_sizes_can_be_shown_in_the_other_units() -> None:
    session = at_step(2)
    session.show_in(Shown("in"))
    standing = session.standing()
    assert standing.units == "in"
    assert standing.sizes[0].text.endswith(" in")
    session.read("poll.side", "1 3/8")
    assert session.standing().checks[0].reading is not None
    assert session.standing().checks[0].reading.size == pytest.approx(34.925)


def test_the_checks_ask_for_the_first_size_without_a_believed_reading() -> None:
    session = at_step(2)
    assert session.standing().next_check == "poll.side"
    session.read("poll.side", "34.1")
    assert session.standing().next_check == "poll.length"
    session.read("poll.length", "400")
    assert session.standing().next_check == "poll.length"
    assert [check.name for check in session.standing().questioned] == ["poll.length"]


def test_every_answer_names_the_entry_it_made() -> None:
    session = at_step(2)
    for enter in (
        session.heat,
        lambda: session.note("x"),
        lambda: session.read("poll.side", "34"),
        session.done,
    ):
        assert enter().entry == entries(session)
