"""What can be entered for a job, what is answered, and what is refused."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.log.kinds.note import LONGEST_NOTE
from coach.log.limits import OutOfLimits
from coach.telling.figures import write_figure
from coach.telling.writing import Shown
from tests.bench.jobs import HAMMER, at_step, begun, in_hand
from tests.ledger.recipes import DRAW
from tests.told import entry_text, said, summary_of, worries


def entries(session: Session) -> int:
    return session.standing().last_entry


# ── heats and steps ─────────────────────────────────────────────────────────────────────────────────


def test_a_heat_is_counted_against_those_planned() -> None:
    session = at_step(2)
    assert said(session.heat()) == "Heat 1 of 2 is marked."
    assert said(session.heat()) == "Heat 2 of 2 is marked."
    standing = session.standing()
    assert (standing.heats, standing.heats_total) == (2, 2)
    assert said(session.heat()) == "Heat 3 is marked; 2 were planned."


def test_a_heat_of_a_cold_step_is_counted_without_a_plan() -> None:
    told = said(begun(HAMMER).heat())
    assert told.startswith("Heat 1 is marked; step 1 needs no fire")
    assert "planned" not in told


def test_a_step_is_done_in_the_heats_that_were_marked() -> None:
    session = at_step(2)
    for _ in range(3):
        session.heat()
    answer = session.done()
    assert "no heat was marked" not in said(answer)
    assert session.standing().done[-1].heats == 3


def test_a_step_without_marked_heats_took_those_planned() -> None:
    session = at_step(2)
    answer = session.done()
    assert "no heat was marked, so the planned 2 heats count" in said(answer)
    assert session.standing().done[-1].heats == 2


def test_the_smith_may_say_how_many_heats_a_step_took() -> None:
    session = at_step(2)
    session.heat()
    session.done(5)
    assert session.standing().done[-1].heats == 5
    assert session.standing().heats_total == 5


def test_going_back_and_finishing_again_keeps_the_heats_that_were_told() -> None:
    session = at_step(2)
    session.done(heats=5)
    session.back()
    session.done()
    assert session.standing().done[-1].heats == 5
    session.back()
    session.heat()
    session.done()
    assert session.standing().done[-1].heats == 6, "and one more since"
    session.back()
    session.done(heats=2)
    assert session.standing().done[-1].heats == 2


def test_a_heat_marked_after_going_back_stands_for_the_one_that_was_taken_for_granted() -> None:
    session = at_step(2)
    session.done()  # by the plan: two heats, none of them marked
    session.back()
    assert "in place of the 2 planned heats that were counted before" in said(session.heat())
    assert "in place" not in said(session.heat())
    shown = session.standing()
    assert (shown.heats, shown.heats_total) == (2, 2)
    session.done()
    assert session.standing().done[-1].heats == 2
    assert session.standing().heats_total == 2


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
    assert said(begun(HAMMER).done()).endswith("Next: Draw the poll.")
    assert said(at_step(12).done()).endswith("That was the last step.")


def test_finishing_unmeasured_is_warned_of_and_allowed() -> None:
    session = at_step(2)
    assert worries(session.done_warning()) == "poll side and poll length are not measured"
    session.read("poll.side", "36")
    assert "poll side has more to go" in worries(session.done_warning())
    session.read("poll.side", "34.0")
    session.read("poll.length", "500")
    assert "poll length is to be measured again" in worries(session.done_warning())
    assert "is to be measured again" in said(session.done())
    assert in_hand(session) == 3


def test_going_back_takes_the_last_step_up_again() -> None:
    session = at_step(3)
    answer = session.back()
    assert said(answer) == "Back at step 2, Draw the poll; undo returns to step 3."
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
    for attempt in (session.heat, session.done):
        with pytest.raises(EntryFault, match="Every step of this job is done"):
            attempt()
    assert worries(session.done_warning()) == ""
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
    assert "Noted: Left cheek is thin. (step 3, 2026-03-02)" in summary_of(session)


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
        OutOfLimits, match=f"text of a note must be 1 to {LONGEST_NOTE} .*, not {LONGEST_NOTE + 1} of them"
    ):
        session.note("x" * (LONGEST_NOTE + 1))
    session.note("x" * LONGEST_NOTE)


# ── telling ─────────────────────────────────────────────────────────────────────────────────────────


def test_the_history_tells_every_entry_in_the_shop_s_words() -> None:
    session = begun(HAMMER)
    session.done()
    session.heat()
    session.read("poll.side", "34.6", hot="900 C")
    session.note("Scale in the corner.")
    session.strike()
    told = [(view.step, entry_text(view), view.struck) for view in session.history()]
    assert told == [
        (1, "began Hand hammer", False),
        (1, "step 1 done", False),
        (2, "heat", False),
        (2, "poll side 34.6 mm by calliper, hot at 900 °C", False),
        (2, "note: Scale in the corner.", True),
        (2, "entry 5 struck out", False),
    ]


def test_the_summary_says_where_the_job_stands_and_what_comes() -> None:
    session = at_step(2)
    session.heat()
    lines = summary_of(session)
    assert lines[0] == "In hand: Hand hammer: step 2 of 12, Draw the poll"
    assert "Heats: 1 of 2 in this step, 1 in the whole job" in lines
    assert any(line.startswith("Stands: On plan, 99 %: ") for line in lines)
    assert "At this step: poll side, poll length" in lines
    assert "Then: Punch the eye" in lines
    assert "Last finished: step 1, Mark out the body" in lines


def test_what_was_left_open_comes_before_what_to_measure_and_that_before_the_rest() -> None:
    session = at_step(2)
    session.note("Left cheek is thin.")
    session.to_right("poll: not square")
    session.heat()
    labels = [line.partition(":")[0] for line in summary_of(session)[1:]]
    assert labels[:4] == ["To put right", "Noted", "Measure first", "At this step"]
    assert labels[4] == "Stands"
    assert labels[-1] == "Then"


def test_sizes_can_be_shown_in_the_other_units() -> None:
    session = at_step(2)
    session.system = "in"
    standing = session.standing()
    assert write_figure(standing.sizes[0].expected, Shown(session.system)).endswith(" in")
    session.read("poll.side", "1 3/8")
    reading = session.standing().checks[0].reading
    assert reading is not None
    assert reading.size.value == pytest.approx(34.925)


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


def test_more_sizes_than_two_are_counted_so_that_what_comes_next_is_not_pushed_out_of_sight() -> None:
    session = begun(HAMMER)
    while len(session.standing().checks) < 3:
        session.done()
    checks = len(session.standing().checks)
    assert worries(session.done_warning()) == f"{checks} sizes are not measured"
    assert f"({checks} sizes are not measured). Next: " in said(session.done())


def test_going_back_leaves_every_entry_the_step_that_was_in_hand_when_it_was_made() -> None:
    session = begun(HAMMER)
    session.done()
    session.done()
    session.note("the third step")
    session.back()
    session.note("the second again")
    session.strike(session.history()[-2].number)  # the going back was a slip
    session.note("the third again")
    told = [(one.step, one.kind) for one in session.history()]
    assert told == [
        (1, "began"),
        (1, "done"),
        (2, "done"),
        (3, "note"),
        (3, "went back"),
        (2, "note"),
        (2, "struck"),
        (3, "note"),
    ]
