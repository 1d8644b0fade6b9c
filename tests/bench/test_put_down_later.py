"""A day that was worked from paper and typed in the evening has the hours of the day."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest

from coach.bench.entering import EntryFault
from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.cli.page import set_page
from coach.log.carry import export_job
from coach.telling.clock import moment
from coach.telling.sheet import sheet_page
from coach.telling.writing import Shown
from tests.bench.test_sheet import PEG
from tests.spelt_out import file_text
from tests.told import entry_text

#: Eight in the evening by the clock on the wall; entries are two seconds apart.
_EVENING = datetime(2026, 3, 2, 20, 0).astimezone()


def _clock() -> Callable[[], datetime]:
    at = [_EVENING]

    def now() -> datetime:
        at.append(at[-1] + timedelta(seconds=2))
        return at[-1].astimezone(UTC)

    return now


def _shop() -> Shop:
    return Shop(":memory:", _clock())


def a_day(shop: Shop) -> Session:
    """Begun at 9:00, the point done at 9:40, the shank at 10:00, the bend at 10:15, looked over at 10:20."""
    session = shop.begin(file_text(PEG), "peg.yaml", at="9:00")
    session.heat_then(1, "9:15")
    session.heat_then(1, "9:25")
    session.read("point.side", "8.1")
    for at in ("9:40", "10:00", "10:15", "10:20"):
        session.done(at=at)
    return session


def _told(session: Session) -> str:
    return " ".join(" ".join(set_page(sheet_page(session.sheet(), Shown()))).split())


def test_the_hours_are_those_of_the_day_and_not_of_the_typing() -> None:
    session = a_day(_shop())
    time = session.sheet().time
    assert time.in_all.value == 80 * 60.0
    assert time.at_the_fire.value == 75 * 60.0  # all but the five minutes of looking it over
    assert [step.worked.value for step in session.sheet().heats.steps] == [2400.0, 1200.0, 900.0, 300.0]
    assert (moment(time.began_at), moment(time.ended_at)) == ("2026-03-02 09:00", "2026-03-02 10:20")
    assert "not known" not in _told(session)


def test_a_day_typed_in_the_evening_was_worked_last_when_it_was_said_to_be() -> None:
    shop = _shop()
    session = a_day(shop)
    session.note("the bend is a little proud")  # which tells of no work
    assert moment(shop.jobs()[0].worked_at) == moment(session.worked_at) == "2026-03-02 10:20"
    assert moment(shop.jobs()[0].last_at) == "2026-03-02 20:00"
    session.strike(len(session.history()) - 1)  # the end of looking it over, said for 10:20
    assert moment(session.worked_at) == "2026-03-02 10:15"


def test_a_job_that_was_begun_and_no_more_was_worked_last_as_it_began() -> None:
    shop = _shop()
    session = shop.begin(file_text(PEG), "peg.yaml", at="9:00")
    assert moment(shop.jobs()[0].worked_at) == moment(session.worked_at) == "2026-03-02 09:00"


def test_the_log_tells_those_moments_and_each_is_struck_out_like_any_other() -> None:
    session = a_day(_shop())
    told = [entry_text(one) for one in session.history()]
    assert "begun at 2026-03-02 09:00, entered later" in told
    assert "a heat of step 1, at 2026-03-02 09:15, entered later" in told
    assert "step 2 done in 1 heat, at 2026-03-02 10:00, entered later" in told
    hours = [moment(one.taken_at) for one in session.history() if one.taken_at]
    assert hours[:3] == ["2026-03-02 09:15", "2026-03-02 09:25", "2026-03-02 09:40"]
    session.strike()
    assert session.standing().step is not None


def test_a_heat_before_the_job_was_entered_is_taken_once_it_is_said_when_it_was_begun() -> None:
    session = _shop().begin(file_text(PEG), "peg.yaml")
    with pytest.raises(EntryFault, match="say first when it was begun"):
        session.heat_then(1, "9:15")
    session.begun_before("9:00")
    session.heat_then(1, "9:15")
    session.done(at="9:40")
    assert session.sheet().heats.steps[0].worked.value == 2400.0


@pytest.mark.parametrize(
    ("at", "why"),
    [
        ("9:30", "Step 2 had not begun at 9:30: step 1 was finished after that"),
        ("23:10", "is still to come"),
        ("8:00", "The job had not begun at 8:00"),
        ("soon", "'soon' is no time"),
    ],
)
def test_an_end_that_cannot_have_come_then_is_refused(at: str, why: str) -> None:
    session = _shop().begin(file_text(PEG), "peg.yaml", at="9:00")
    session.done(at="9:40")
    with pytest.raises(EntryFault, match=why):
        session.done(at=at)
    assert session.standing().step is not None


def test_a_step_does_not_end_before_what_was_taken_in_it() -> None:
    session = _shop().begin(file_text(PEG), "peg.yaml", at="9:00")
    session.heat_then(1, "9:15")
    with pytest.raises(EntryFault, match="still worked after 9:10"):
        session.done(at="9:10")


def test_a_job_is_not_begun_after_what_is_entered_for_it_nor_in_days_to_come() -> None:
    shop = _shop()
    with pytest.raises(EntryFault, match="is still to come"):
        shop.begin(file_text(PEG), "peg.yaml", at="23:00")
    assert not shop.jobs(), "nothing is begun by a time that cannot be"
    session = shop.begin(file_text(PEG), "peg.yaml", at="9:00")
    session.heat_then(1, "9:15")
    with pytest.raises(EntryFault, match=r"begun by 9:30 already: entry \d+ is of 2026-03-02 09:15"):
        session.begun_before("9:30")


def test_the_hours_of_steps_that_say_none_are_not_known_and_the_others_are() -> None:
    session = _shop().begin(file_text(PEG), "peg.yaml", at="9:00")
    session.done(at="9:40")
    for _ in range(3):
        session.done()
    told = _told(session)
    assert "40 min, without the 2 steps whose hours are not known" in told


def test_such_a_job_is_carried_to_another_log() -> None:
    shop, other = _shop(), _shop()
    session = a_day(shop)
    carried = other.bring_in(export_job(shop.log, session.job))
    assert carried.sheet().time == session.sheet().time


def test_heats_that_say_their_time_teach_the_pace() -> None:
    session = a_day(_shop())
    session.back()
    assert session.ahead().pace.rests_on == 1  # ten minutes from 9:15 to 9:25


def _length_mm(session: Session, zone: str) -> float:
    return session.forms_now()[zone].size_mm("length")


def _after_a_burn(*entered: str) -> float:
    """The length of the point after two heats between which 10 mm burnt, as these are entered."""
    session = _shop().begin(file_text(PEG), "peg.yaml", at="9:00")
    deeds = {
        "first": lambda: session.heat_then(1, "9:15"),
        "burn": lambda: session.lose(LossAsked("point", "10 mm", "burnt"), "9:20"),
        "burn, no hour": lambda: session.lose(LossAsked("point", "10 mm", "burnt")),
        "second": lambda: session.heat_then(1, "9:25"),
    }
    for one in entered:
        deeds[one]()
    return _length_mm(session, "point")


def test_a_loss_with_its_hour_lies_between_the_heats_that_it_came_between() -> None:
    told = _after_a_burn("first", "second", "burn")
    assert told == pytest.approx(_after_a_burn("first", "burn", "second"))
    # After both heats 10 mm of the drawn point are gone; between them 10 mm of what was less drawn out: more.
    assert told < _after_a_burn("first", "second", "burn, no hour") - 1.0


def test_a_loss_or_a_way_back_with_an_hour_of_a_step_that_is_done_says_so() -> None:
    session = _shop().begin(file_text(PEG), "peg.yaml", at="9:00")
    session.done(at="9:40")
    entries = len(session.history())
    with pytest.raises(EntryFault, match=r"at 9:20 that was step 1, which is done: go back to it first"):
        session.lose(LossAsked("point", "10 mm"), "9:20")
    with pytest.raises(EntryFault, match=r"A way back is entered in the step in hand, and at 9:20"):
        session.take("mark-longer", "9:20")
    with pytest.raises(EntryFault, match="23:00 is still to come"):
        session.lose(LossAsked("point", "10 mm"), "23:00")
    assert len(session.history()) == entries


def test_a_way_back_is_taken_as_it_was_offered_then() -> None:
    session = _shop().begin(file_text(PEG), "peg.yaml", at="9:00")
    session.heat_then(1, "9:15")
    session.lose(LossAsked("point", "40 mm", "burnt"), "9:20")
    offered = session.ways_back()[0].name
    session.heat_then(1, "9:35")
    session.take(offered, "9:30")
    told = [entry_text(one) for one in session.history()][-1]
    assert told.endswith("at 2026-03-02 09:30, entered later")
    counted = [type(one.body).__name__ for one in session._state.counted.values()]
    assert [one for one in counted if one.startswith("Late")] == [
        "LateHeat",
        "LateLoss",
        "LateWayBack",
        "LateHeat",
    ]
    assert session.standing().left_out == ()


def test_a_note_and_a_photograph_belong_to_the_step_of_their_hour() -> None:
    session = a_day(_shop())
    session.note("the point split a little", "9:50")
    session.photograph("peg.jpg", "from above", "9:10")
    session.note("good", "10:30")
    sheet = session.sheet()
    assert [(one.step, one.text, moment(one.at)) for one in sheet.notes] == [
        (2, "the point split a little", "2026-03-02 09:50"),
        (0, "good", "2026-03-02 10:30"),
    ]
    assert [one.step for one in sheet.photographs] == [1]
    assert sheet.time.ended_at == a_day(_shop()).sheet().time.ended_at  # a note is no work


def test_a_note_with_its_hour_keeps_no_step_from_ending_before_it() -> None:
    session = _shop().begin(file_text(PEG), "peg.yaml", at="9:00")
    session.note("begun late", "9:50")
    session.done(at="9:40")
    assert session.sheet().steps_done == 1


def test_what_is_entered_with_its_hour_goes_with_the_job_to_another_log() -> None:
    shop, other = _shop(), _shop()
    session = shop.begin(file_text(PEG), "peg.yaml", at="9:00")
    session.heat_then(1, "9:15")
    session.lose(LossAsked("point", "10 mm", "burnt"), "9:20")
    session.note("clinker", "9:22")
    session.photograph("peg.jpg", "", "9:23")
    session.heat_then(1, "9:25")
    carried = other.bring_in(export_job(shop.log, session.job))
    assert carried.standing() == session.standing()
