"""What is brought in passes the gate of what is typed: an entry that no command would make is refused."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coach.bench import admission
from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.ledger.amendment import Amendment, Moved
from coach.ledger.amendment_kept import frozen
from coach.ledger.hand import USUAL_HAND, can_be_handed_on
from coach.log.carry import JobFileFault, export_job
from coach.log.kinds.hand_known import HandKnown
from coach.quantities.units import System
from tests.bench.jobs import HAMMER, begun, shop
from tests.ledger.recipes import LAID
from tests.log.bodies import WAY_BACK
from tests.log.hand_made import AT, Made, job_file


def carried(session: Session, place: Shop, *made: Made) -> str:
    """The job file of a job, with these entries after its own."""
    first, *others = place.log.entries(session.job)
    own = [(entry.kind, entry.body.to_json()) for entry in others]
    return job_file(*own, *made, began=first.body.to_json(), at=AT)


READ = {
    "zone": "blade",
    "dimension": "width",
    "typed": "30.6",
    "size": 30.6,
    "gauge": "calliper",
    "hot_c": None,
    "hot_doubt_c": 0.0,
    "insisted": False,
    "step": 1,
    "taken_at": "",
}
CORRECTION = {"entry": 2, "typed": "31", "size": 31.0, "hot_doubt_c": 0.0, "insisted": False}
WAY = {**WAY_BACK.to_json(), "amendment": frozen(Amendment())}

HAND = {
    "job": "first-hook",
    "sizes": 12,
    "scatter": 0.8,
    "scatter_doubt": 0.15,
    "habit": 0.1,
    "habit_doubt": 0.1,
}


def moving(volume_mm3: float, doubt_mm3: float) -> dict[str, object]:
    """A way back by which so much metal goes to the blade."""
    return {**WAY, "amendment": frozen(Amendment(moved=(Moved("blade", volume_mm3, doubt_mm3),)))}


def lost(volume_mm3: float) -> dict[str, object]:
    """A loss of so much of the blade."""
    way = moving(-volume_mm3, 1.0)
    kept = {name: way[name] for name in ("title", "changes", "step", "amendment")}
    return {**kept, "zone": "blade", "cause": "burnt", "corner_end_mm": None, "corner_side_mm": None}


def hand_known(session: Session) -> None:
    session.know_hand(HandKnown.from_json(HAND))


def nothing(_: Session) -> None:
    """A job that has just begun."""


def one_reading(session: Session) -> None:
    session.read("blade.width", "30.6")


def one_step(session: Session) -> None:
    session.done(2)


def a_struck_reading(session: Session) -> None:
    one_reading(session)
    session.strike(2)


def two_heats(session: Session) -> None:
    session.heat()
    session.heat()


def every_step(session: Session) -> None:
    while session.standing().step is not None:
        session.done()


REFUSED: list[tuple[Callable[[Session], None], Made, str]] = [
    (nothing, ("heat", {"step": 2}), "A heat of step 2 cannot be entered while step 1 is in hand."),
    (nothing, ("fire", {"step": 3}), "of step 3 cannot be entered while step 1 is in hand"),
    (one_step, ("heat", {"step": 1}), "of step 1 cannot be entered while step 2 is in hand"),
    (every_step, ("heat", {"step": 6}), "Every step of this job is done"),
    (
        nothing,
        ("done", {"step": 2, "heats": 1, "marked": False, "told": False}),
        "of step 2 cannot be entered while step 1",
    ),
    (
        two_heats,
        ("done", {"step": 1, "heats": 1, "marked": False, "told": False}),
        "2 heats are marked in this",
    ),
    (
        nothing,
        ("done", {"step": 1, "heats": 2, "marked": True, "told": False}),
        "are not those that are marked",
    ),
    (nothing, ("brought back", {}), "The job is not set aside."),
    (every_step, ("rested", {"forced": False, "reason": ""}), "there is nothing to rest from"),
    (nothing, ("rested", {"forced": True, "reason": "said so"}), "The advice that it was put down against"),
    (nothing, ("note", {"text": "  ", "step": 1}), "The note is empty"),
    (nothing, ("note", {"text": "thin", "step": 0}), "A note of no step cannot be entered while step 1"),
    (nothing, ("to put right", {"text": "bit: open", "zone": "", "step": 1}), "another zone or text"),
    (one_reading, ("put right", {"entry": 2}), "There is nothing to put right with the number 2."),
    (every_step, ("went back", {"entry": 2}), "Entry 2 is not the end of the last finished step."),
    (a_struck_reading, ("struck", {"entry": 2}), "Entry 2 is struck out already."),
    (a_struck_reading, ("corrected", CORRECTION), "Entry 2 is struck out already."),
    (one_reading, ("corrected", {**CORRECTION, "size": 40.0}), "'31' is not read as the size"),
    (one_reading, ("corrected", {**CORRECTION, "insisted": True}), "'31' is not read as the size"),
    (nothing, ("reading", {**READ, "size": 40.0}), "'30.6' is not read as what is held of it"),
    (nothing, ("reading", {**READ, "typed": "thirty"}), "thirty"),
    (nothing, ("reading", {**READ, "gauge": "scales"}), "no gauge called 'scales'"),
    (nothing, ("reading", {**READ, "dimension": "colour"}), "has no 'colour' at this step"),
    (nothing, ("reading", {**READ, "hot_c": 812.5, "hot_doubt_c": 1.0}), "is not read as what is held"),
    (nothing, ("reading", {**READ, "hot_doubt_c": 1.0}), "is not read as what is held"),
    (nothing, ("reading", {**READ, "step": 2}), "says no time, and that step is not in hand"),
    (nothing, ("reading", {**READ, "taken_at": "2026-11-24T09:00:00Z"}), "The job had not begun"),
    (nothing, ("reading", {**READ, "taken_at": "2026-11-26T09:00:00Z"}), "was still to come"),
    (nothing, ("reading", {**READ, "step": 2, "taken_at": AT}), "may be of step 1 to 1 as yet"),
    (nothing, ("hand known", {**HAND, "job": "\u202eabc"}), "none is called '\\u202eabc'"),
    (nothing, ("hand known", {**HAND, "job": " "}), "from another job, and none is called"),
    (nothing, ("hand known", {**HAND, "job": "../x"}), "from another job, and none is called"),
    (nothing, ("hand known", {**HAND, "job": "hand-made"}), "from another job, and none is called"),
    (nothing, ("hand known", {**HAND, "scatter": 4.9}), "more, or otherwise, than any job can tell"),
    (nothing, ("hand known", {**HAND, "scatter_doubt": 0.01}), "than any job can tell"),
    (nothing, ("hand known", {**HAND, "habit_doubt": 0.9}), "than any job can tell"),
    (one_reading, ("hand known", HAND), "is the second entry of a job, or none"),
    (hand_known, ("hand known", HAND), "is the second entry of a job, or none"),
    (nothing, ("way back", moving(1e9, 10.0)), "So much metal of the blade cannot come or go"),
    (nothing, ("way back", moving(-1e9, 10.0)), "So much metal of the blade cannot come or go"),
    (nothing, ("way back", moving(10.0, 1e9)), "So much metal of the blade cannot come or go"),
    (nothing, ("metal lost", lost(1e9)), "So much metal of the blade cannot come or go"),
    (nothing, ("way back", {**WAY, "step": 2}), "of step 2 cannot be entered while step 1 is in hand"),
]


@pytest.mark.parametrize(("before", "made", "says"), REFUSED)
def test_an_entry_that_no_command_would_make_is_refused_with_its_line(
    before: Callable[[Session], None], made: Made, says: str
) -> None:
    with shop() as one, shop() as other:
        session = begun(LAID, one)
        before(session)
        last = len(one.log.entries(session.job)) + 1
        with pytest.raises(JobFileFault) as caught:
            other.bring_in(carried(session, one, made))
        sentence = str(caught.value)
        assert says in sentence
        if "Line" not in sentence:
            assert (
                f"Entry {last} of the job file, line {last + 1}, would be refused if it were typed: "
                in sentence
            )
        assert other.jobs() == ()


def test_what_was_set_aside_twice_is_refused() -> None:
    with shop() as one, shop() as other:
        session = begun(LAID, one)
        session.set_aside()
        with pytest.raises(JobFileFault, match="The job is set aside already"):
            other.bring_in(carried(session, one, ("set aside", {})))
        assert other.bring_in(carried(session, one, ("brought back", {}))).standing().state == "under way"


def test_a_step_gone_back_to_twice_is_refused() -> None:
    with shop() as one, shop() as other:
        session = begun(LAID, one)
        session.done()
        done = ("went back", {"entry": 2})
        with pytest.raises(JobFileFault, match="Entry 4 of the job file, line 5, would be refused"):
            other.bring_in(carried(session, one, done, done))
        assert other.jobs() == ()


def everything(session: Session) -> None:
    """One of each thing that can be entered, in the shop's order."""
    session.fire()
    session.heat()
    session.read("poll.mark", "30.5", gauge="rule")
    session.read("poll.mark", "1 1/4 in")
    session.correct(session.standing().last_entry, "31 mm")
    session.read("poll.side", "36.2", hot="full red")
    session.read("poll.side", "36.1", hot="900 °C", insist=True)
    session.read("poll.side", "36.1", hot="1500 F")
    session.strike()
    session.note("thin at the heel")
    session.to_right("poll: a lap")
    session.righted(session.standing().to_right[0].entry)
    session.done(3)
    session.back()
    session.done()
    session.read("poll.mark", "31", then=session.then(1))
    session.rest(force=True)
    session.resume()
    session.set_aside()
    session.bring_back()
    session.heat()
    session.read("poll.side", "35", hot="", insist=True)
    session.done()


@pytest.mark.parametrize("system", ["mm", "in"])
def test_whatever_was_entered_is_taken_in_as_it_was(system: System) -> None:
    with shop() as one, shop() as other:
        one.system = system
        session = begun(HAMMER, one)
        everything(session) if system == "mm" else session.read("poll.side", "1 3/8")
        while session.standing().step is not None:
            session.heat()
            session.done()
        session.read("poll.side", "34.1 mm")
        session.note("done")
        text = export_job(one.log, session.job)
        here = other.bring_in(text)
        assert export_job(other.log, here.job) == text
        assert here.recipe == session.recipe


def test_a_file_that_would_be_gone_through_without_end_is_refused_soon() -> None:
    with shop() as one, shop() as other:
        session = begun(LAID, one)
        struck = [("struck", {"entry": number}) for number in range(2, 1500)]
        with pytest.raises(JobFileFault, match="Too much was read, struck out and corrected before it"):
            other.bring_in(carried(session, one, ("note", {"text": "x", "step": 1}), *struck))
        assert other.jobs() == ()


def test_readings_without_end_are_refused_before_any_is_weighed(monkeypatch: pytest.MonkeyPatch) -> None:
    with shop() as one, shop() as other:
        session = begun(LAID, one)
        monkeypatch.setattr(admission, "_MOST_AGAIN", 300)
        monkeypatch.setattr(admission, "admitted", None)  # whoever weighs one fails
        with pytest.raises(JobFileFault, match=r"Entry 27 of the job file.* Too much was read"):
            other.bring_in(carried(session, one, *[("reading", READ)] * 100))
        assert other.jobs() == ()


def test_how_far_it_has_come_is_told_where_there_is_much_to_weigh(monkeypatch: pytest.MonkeyPatch) -> None:
    told: list[int] = []
    with shop() as one, shop() as other:
        session = begun(LAID, one)
        monkeypatch.setattr(admission, "_TOLD_AFTER", 20)
        other.bring_in(carried(session, one, *[("reading", READ)] * 15), told.append)
        # Each reading is weighed with those before it: 21, 45, 66 and 91 of them in all by these entries.
        assert told == [8, 11, 13, 15]


def test_the_demonstration_is_taken_in_like_any_other() -> None:
    from coach.cli.commands.demo import JOB_FILE

    with shop() as place:
        assert place.bring_in(JOB_FILE.read_text(encoding="utf-8")).standing().step is not None


def test_a_hand_that_a_job_has_handed_on_is_taken_in() -> None:
    with shop() as one, shop() as other:
        session = begun(LAID, one)
        hand_known(session)
        text = export_job(one.log, session.job)
        assert export_job(other.log, other.bring_in(text).job) == text


@pytest.mark.parametrize("off", [0.01, 1.0, 100.0, 5000.0])
def test_whatever_hand_a_job_comes_to_know_can_be_handed_on(off: float) -> None:
    hand = USUAL_HAND
    assert can_be_handed_on(hand.known)
    for number in range(400):
        hand = hand.having_landed(off, 1.0, (-1.0) ** (number % 2) * 2.0, 0.01)
        assert can_be_handed_on(hand.known)


def test_as_much_as_a_zone_is_can_be_lost_of_it_by_name() -> None:
    with shop() as one, shop() as other:
        session = begun(HAMMER, one)
        session.lose(LossAsked("poll", "1 g"))
        text = export_job(one.log, session.job)
        assert export_job(other.log, other.bring_in(text).job) == text
