"""A line of a paper note is read as what it says: a size, a heat, a loss, a note, each with its hour."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.quantities import Refusal
from coach.screens.paper_line import entered_from_paper
from tests.bench.test_put_down_later import _shop
from tests.bench.test_sheet import PEG
from tests.spelt_out import file_text
from tests.told import entry_text


@pytest.fixture
def session() -> Session:
    begun = _shop().begin(file_text(PEG), "peg.yaml", at="9:00")
    begun.heat_then(1, "9:15")
    return begun


@pytest.mark.parametrize(
    ("line", "told"),
    [
        (
            "lost point=10 burnt at 9:20",
            "lost: 10 mm of the end of the point, burnt, at 2026-03-02 09:20, entered later",
        ),
        (
            "Lost point = 10 mm, cut wrong at 9:20",
            "lost: 10 mm of the end of the point, cut wrong, at 2026-03-02 09:20, entered later",
        ),
        ("lost point=5 g", "lost: 5 g of the point, not said how"),
        ("note the fire was low", "note: the fire was low"),
        ("note burnt at 9:20", "note: burnt, at 2026-03-02 09:20, entered later"),
        ("note looked at the point at noon", "note: looked at the point at noon"),
        ("heat at 9:25", "a heat of step 1, at 2026-03-02 09:25, entered later"),
        ("side=8.2 at 9:30", "point side 8.2 mm by calliper, taken at step 1"),
    ],
)
def test_a_line_is_entered_as_what_it_says(session: Session, line: str, told: str) -> None:
    entered_from_paper(session, 1, line)
    assert entry_text(session.history()[-1]) == told


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("point.side=8.2 at 9:30", "point side 8.2 mm by calliper, taken at step 1"),
        ("heat at 9:25", "a heat of step 1, at 2026-03-02 09:25, entered later"),
    ],
)
def test_a_time_says_the_step_where_the_chosen_one_was_not_in_hand_then(
    session: Session, line: str, told: str
) -> None:
    session.done(at="9:40")
    entered_from_paper(session, 2, line)
    assert entry_text(session.history()[-1]) == told


def test_a_time_at_which_no_step_was_in_hand_is_refused(session: Session) -> None:
    session.done(at="9:40")
    with pytest.raises(Refusal, match="begun"):
        entered_from_paper(session, 2, "point.side=8.2 at 8:30")


@pytest.mark.parametrize("line", ["note", "lost", "lost 10", "lost point=", "burnt"])
def test_a_line_that_says_nothing_enters_nothing(session: Session, line: str) -> None:
    entries = len(session.history())
    with pytest.raises(Refusal):
        entered_from_paper(session, 1, line)
    assert len(session.history()) == entries


@pytest.mark.parametrize(
    "line", ["heat at 9:25, 40 blows", "heat 9:25 40 blows", "heat, 40 blows", "out 9:25, 40 blows"]
)
def test_the_blows_of_a_heat_are_said_with_it(session: Session, line: str) -> None:
    entered_from_paper(session, 1, line)
    step = session.sheet().heats.steps[0]
    assert (step.heats, step.blows, step.blows_of) == (2, 40, 1)
