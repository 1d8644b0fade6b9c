"""Things to put right stay listed until they are; corrected readings count where they were taken."""

from __future__ import annotations

import pytest

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.quantities import Words
from coach.quantities.refusal import Refusal
from coach.telling.page import Line, Table, Tone
from coach.telling.reading import reading_sentence
from coach.telling.righting import notes_told
from coach.telling.standing import standing_page
from coach.telling.summary import summary
from coach.telling.why import reason_text
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import HAMMER, at_step, begun
from tests.bench.test_session_steel import CHISEL, WELDED
from tests.told import care_text, entry_text, said, summary_of, worries


def test_what_is_noted_to_put_right_stays_until_it_is_said_to_be_right() -> None:
    session = begun(HAMMER)
    answer = session.to_right("poll: not square to the eye")
    assert said(answer) == "On the list to put right of the poll: not square to the eye."
    session.to_right("check the tongs", None)
    first, second = session.standing().to_right
    assert (first.zone, first.text, first.step) == ("poll", "not square to the eye", 1)
    assert second.zone == "", "a mark-out goes over several zones"
    assert "To put right: poll: not square to the eye (step 1, 2026-03-02)" in summary_of(session)
    session.righted(first.entry)
    assert [one.entry for one in session.standing().to_right] == [second.entry]
    session.strike()
    assert len(session.standing().to_right) == 2, "undo brings it back"


def test_the_zone_is_that_of_the_step_unless_the_text_or_the_smith_says_another() -> None:
    session = at_step(2)
    session.to_right("a lap at the shoulder")
    session.to_right("cheek thin", "EYE")
    session.to_right("eye: leans")
    assert [one.zone for one in session.standing().to_right] == ["poll", "eye", "eye"]


def test_a_test_that_did_not_pass_is_on_the_list_until_it_passes_at_whatever_step() -> None:
    session = begun(WELDED)
    session.read("body.weld_line", "fail")
    (open_weld,) = session.standing().to_right
    assert (open_weld.zone, open_weld.text) == ("body", "weld line failed")
    session.done()
    assert session.standing().to_right, "though its step is done"
    session.read("body.weld_line", "2")
    assert session.standing().to_right[0].text == "weld line in doubt"
    session.read("body.weld_line", "1")
    assert session.standing().to_right == ()


def test_before_the_job_is_finished_what_is_left_is_told() -> None:
    session = begun(WELDED)
    session.done()
    session.to_right("body: grind the rim flush")
    session.read("body.ring_test", "1")
    length = next(check for check in session.standing().checks if check.name == "body.length")
    assert length.wanted is not None
    session.read("body.length", f"{length.wanted.limits.nominal:.1f}")
    assert worries(session.done_warning()) == "still to be put right: body: grind the rim flush (step 2)"


@pytest.mark.parametrize(
    ("text", "zone", "why"),
    [
        ("  ", None, "Nothing was said"),
        ("x" * 401, None, "1 to 400 characters on one line, not 401"),
        ("loose", "handle", "no zone called 'handle'; the zones are poll, eye, face"),
    ],
)
def test_what_cannot_be_on_the_list_is_refused(text: str, zone: str | None, why: str) -> None:
    session = begun(HAMMER)
    with pytest.raises(Refusal, match=why):
        session.to_right(text, zone)
    with pytest.raises(EntryFault, match="nothing to put right with the number 7"):
        session.righted(7)
    assert len(session.history()) == 1


def test_a_corrected_reading_counts_from_where_it_was_taken() -> None:
    wrong, right = begun(CHISEL), begun(CHISEL)
    for session, typed in ((wrong, "6.9"), (right, "4.9")):
        session.heat()
        session.read("chisel.thickness", typed)
        session.done()
    wrong.correct(3, "4.9")
    assert wrong.standing().chance == pytest.approx(right.standing().chance, rel=1e-9)
    assert wrong.standing().done[0].verdicts == right.standing().done[0].verdicts
    assert entry_text(wrong.history()[-1]) == "entry 3 corrected to 4.9"
    assert "6.9" in entry_text(wrong.history()[2]), "the log keeps what was typed"
    wrong.strike()
    assert wrong.standing().chance != pytest.approx(right.standing().chance, rel=1e-3)


def test_a_reading_can_be_corrected_again_and_the_last_word_counts() -> None:
    session = begun(CHISEL)
    session.read("chisel.thickness", "6.9")
    session.correct(2, "5.9")
    session.correct(2, "4.95")
    check = next(one for one in session.standing().checks if one.dimension == "thickness")
    assert check.reading is not None
    assert check.reading.size.value == 4.95
    session.strike()
    check = next(one for one in session.standing().checks if one.dimension == "thickness")
    assert check.reading is not None
    assert check.reading.size.value == 5.9


def test_a_correction_to_what_cannot_be_says_that_it_is_questioned() -> None:
    session = begun(CHISEL)
    session.read("chisel.thickness", "5")
    plain = session.correct(2, "5.1")
    assert not plain.bad_news
    odd = session.correct(2, "51")
    assert odd.bad_news
    assert isinstance(odd.did, Words)
    assert write(odd.did).endswith("it is questioned as it is now, and does not count: read it again")


def test_only_a_reading_that_counts_can_be_corrected() -> None:
    session = begun(CHISEL)
    session.heat()
    with pytest.raises(EntryFault, match="only readings can be corrected"):
        session.correct(2, "5")
    session.read("chisel.thickness", "6.9")
    with pytest.raises(EntryFault, match="is not a length"):
        session.correct(3, "thick")
    session.strike(3)
    with pytest.raises(EntryFault, match="struck out already"):
        session.correct(3, "5")


def test_resting_says_what_to_do_with_piece_and_fire() -> None:
    session = at_step(2)
    session.heat()
    told = care_text(session)
    assert "still air until it is black" in told
    assert "nothing burns unattended" in told
    fit = next(step.number for step in session.recipe.steps if step.operation in ("fit", "tack", "weld"))
    assert "oil them" in care_text(at_step(fit))


def test_taken_up_again_the_sizes_to_check_first_are_told_as_believed() -> None:
    session = at_step(2)
    session.rest()
    # The poll of the bar is still 36 mm square, and is to be 34.
    assert "poll side about 36 mm" in measured_first(session)
    session.heat()
    assert "poll side between 34 mm and 36 mm" in measured_first(session)
    marked_mm = session.plan.bar_of("poll").length_mm
    assert f"poll length between {marked_mm:.1f} mm and" in measured_first(session)
    session.read("poll.side", "35.3")
    assert "poll side about 35.3 mm" in measured_first(session)
    session.done()
    assert "poll side" not in measured_first(session)


def measured_first(session: Session) -> str:
    """What taking the job up again asks to be measured before the first heat."""
    return next(line for line in summary_of(session) if line.startswith("Measure first: Cold"))


def test_a_test_says_nothing_of_how_far_a_zone_is_forged() -> None:
    session = begun(WELDED)
    session.heat()
    before = measured_first(session)
    assert "between" in before
    session.read("body.weld_line", "pass")
    assert measured_first(session) == before


def test_a_zone_that_changes_its_form_is_measured_as_the_form_that_it_has_till_then() -> None:
    session = begun(HAMMER)
    steps = session.recipe.steps
    punch = next(step for step in steps if step.operation == "punch")
    untouched = measured_first(at_step(punch.number))
    assert "hole" not in untouched
    assert f"{punch.zones[0]} length about" in untouched


def test_a_weld_in_doubt_is_not_on_plan_until_it_passes() -> None:
    session = at_step(9)
    assert session.standing().verdict is PlanState.ON_PLAN
    session.read("poll.weld_line", "doubt")
    standing = session.standing()
    assert standing.verdict is PlanState.TIGHT
    assert "weld line in doubt" in reason_text(standing.reason, Shown())
    session.read("poll.weld_line", "pass")
    assert session.standing().verdict is PlanState.ON_PLAN


def test_a_test_is_made_again_after_another_heat() -> None:
    session = at_step(7)
    session.read("poll.weld_line", "pass")
    session.heat()
    check = next(one for one in session.standing().checks if one.dimension == "weld_line")
    assert check.is_open
    assert "Make it again" in reading_sentence(check, Shown())


def with_an_eye() -> Session:
    session = begun(HAMMER)
    while session.standing().step.title != "Drift the eye":  # type: ignore[union-attr]
        session.done()
    return session


def cheeks(session: Session, one: str, other: str) -> list[str]:
    session.read("eye.cheek", one)
    session.read("eye.other cheek", other)
    return [right.text for right in session.standing().to_right]


@pytest.mark.parametrize(
    ("one", "other", "listed"),
    [
        # The drift makes the hole 17 ±0.8 in an eye 42 ±3 across: some 25 for both cheeks. A bare size may be
        # out by half a millimetre or a twentieth of it, whichever is more.
        ("10", "15", ["cheek too low", "other cheek too high"]),
        ("12.4", "12.9", []),
        ("12", "13.2", []),  # each 0.6 from their mean of 12.6, which allows 0.63
        ("11.5", "13.4", ["cheek too low", "other cheek too high"]),  # 0.95 from 12.45, which allows 0.62
    ],
)
def test_cheeks_that_are_not_alike_are_to_put_right(one: str, other: str, listed: list[str]) -> None:
    session = with_an_eye()
    assert cheeks(session, one, other) == listed
    session.done()
    assert [right.text for right in session.standing().to_right] == listed
    assert (session.standing().verdict is PlanState.ON_PLAN) is (not listed)


def test_cheeks_that_were_made_alike_are_put_right() -> None:
    session = with_an_eye()
    cheeks(session, "10", "15")
    assert cheeks(session, "12.4", "12.6") == []


def test_one_cheek_alone_says_nothing() -> None:
    session = with_an_eye()
    session.read("eye.cheek", "14")
    assert session.standing().to_right == ()


def test_where_a_job_stands_begins_with_what_was_left_open_and_its_day() -> None:
    session = begun(HAMMER)
    session.to_right("poll: not square to the eye")
    session.note("Left cheek is thin.")
    headings = [part.heading for part in standing_page(session.standing(), Shown()).sections]
    assert headings[1:3] == ["To put right", "Noted"]
    table = next(notes_told(session.standing().notes))
    assert isinstance(table, Table)
    noted = table.rows[0].cells
    assert noted[0].startswith("2026-03-02 ")
    assert noted[1:] == ("step 1", "Left cheek is thin.")


def test_of_very_many_notes_the_newest_are_told_and_how_many_more_there_are() -> None:
    session = begun(HAMMER)
    for number in range(1, 13):
        session.note(f"note {number}")
    *_, last = notes_told(session.standing().notes)
    assert last == Line("", tone=Tone.QUIET)
    session.note("note 13")
    assert len(session.standing().notes) == 13
    table, more = notes_told(session.standing().notes)
    assert isinstance(table, Table)
    assert [row.cells[-1] for row in table.rows] == [f"note {number}" for number in range(2, 14)]
    assert more == Line("1 earlier note in the log", tone=Tone.QUIET)
    told = [line.words for line in summary(session.standing(), (), Shown()).body if isinstance(line, Line)]
    assert told[1] == "1 earlier note in the log"
    assert told[2].startswith("note 2 (step 1, ")
