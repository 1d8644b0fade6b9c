"""What the job cannot bear is refused before it is written; what cannot be replayed takes no job with it."""

from __future__ import annotations

from typing import Any

import pytest

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.drafting.bar_there import change
from coach.ledger import following
from coach.ledger.working import LedgerError
from tests.bench.jobs import HAMMER, at_step_of, begun, shop
from tests.told import entry_text

#: A reading that the reckoning is made to stumble over, whatever the cause.
ODD_MM = 47.125


class Stumble(ArithmeticError):
    """A fault of the program that one entry brings to light."""


@pytest.fixture
def said() -> list[str]:
    """What those errors say, the last of it."""
    return ["the metal cannot make that"]


@pytest.fixture
def stumbles(monkeypatch: pytest.MonkeyPatch, said: list[str]) -> list[type[Exception]]:
    """Errors that following a step raises, the last of them, once the odd reading is among its marks."""
    raised: list[type[Exception]] = []
    follow = following.follow

    def stumbling(plan: Any, start: Any, step: Any, marks: Any, **named: Any) -> Any:
        odd = (m for m in marks if getattr(getattr(m, "reading", None), "size_mm", None) == ODD_MM)
        if raised and next(odd, None) is not None:
            raise raised[-1](said[-1])
        return follow(plan, start, step, marks, **named)

    for module in ("bench.job_state", "ledger.ended"):
        monkeypatch.setattr(f"coach.{module}.follow", stumbling)
    return raised


@pytest.mark.parametrize("long", [100, 110])
def test_a_bar_too_short_is_refused_for_what_it_lacks_and_for_no_step_far_off(long: int) -> None:
    """The hook's marks end at 139.5 mm: what a step cannot punch of the rest is only what follows."""
    session = at_step_of("first-hook", 1)
    with pytest.raises(EntryFault, match=f"it is {long} mm long and the job needs 139\\.5"):
        change(session, f"bar square 10, long {long}")
    assert session.standing().last_entry == 1


def with_the_odd_reading(at: Shop) -> Session:
    session = begun(HAMMER, at)
    session.read("poll.length", "48")
    session.read("eye.length", str(ODD_MM), insist=True)
    session.note("the bar is pitted")
    return session


def test_a_reading_that_stops_the_reckoning_is_refused_before_it_is_written(
    stumbles: list[type[Exception]],
) -> None:
    session = begun(HAMMER)
    stumbles.append(LedgerError)
    with pytest.raises(EntryFault, match="not entered, for the job could not go on with it: the metal"):
        session.read("eye.length", str(ODD_MM))
    assert session.standing().last_entry == 1
    session.read("eye.length", "46")
    assert session.standing().last_entry == 2


@pytest.mark.parametrize("sentence", ["the metal cannot make that", "The metal cannot make that: strike it."])
def test_a_refusal_ends_in_one_full_stop_whether_its_reason_has_one(
    stumbles: list[type[Exception]], said: list[str], sentence: str
) -> None:
    session = begun(HAMMER)
    said.append(sentence)
    stumbles.append(LedgerError)
    with pytest.raises(EntryFault, match=r"[a-z]\.$"):
        session.read("eye.length", str(ODD_MM))


def test_a_correction_that_stops_the_reckoning_is_refused_too(stumbles: list[type[Exception]]) -> None:
    session = begun(HAMMER)
    session.read("eye.length", "46")
    stumbles.append(LedgerError)
    with pytest.raises(EntryFault, match="not entered"):
        session.correct(2, str(ODD_MM))
    assert session.standing().last_entry == 2


def test_an_entry_that_cannot_be_replayed_counts_as_struck_and_is_told(
    stumbles: list[type[Exception]],
) -> None:
    with shop() as at:
        job = with_the_odd_reading(at).job
        stumbles.append(Stumble)
        session = at.open(job)
        standing = session.standing()
        assert [one.entry for one in standing.left_out] == [3]
        assert standing.is_bad_news
        assert [note.text for note in standing.notes] == ["the bar is pitted"], "what follows it counts"
        read = {check.name: check.reading for check in standing.checks}
        assert read["poll.length"] is not None
        assert read["eye.length"] is None
        odd = session.history()[2]
        assert odd.struck
        assert "cannot be reckoned with" in entry_text(odd)
        assert [one.job for one in at.jobs()] == [job]


def test_a_job_with_such_an_entry_goes_on(stumbles: list[type[Exception]]) -> None:
    with shop() as at:
        job = with_the_odd_reading(at).job
        stumbles.append(Stumble)
        session = at.open(job)
        session.read("eye.length", "46")
        session.done()
        assert len(session.standing().done) == 1
        session.back()
        assert [one.entry for one in session.standing().left_out] == [3]
