"""Marks are asked for, shown and read as marks, each from the end of the bar."""

from __future__ import annotations

import pytest

from coach.bench.entering import EntryFault
from coach.bench.session import Session
from coach.ledger.verdict import PlanState, Verdict
from coach.telling.standing import wanted_text
from coach.telling.writing import Shown
from tests.bench.jobs import begun
from tests.told import said

#: Three zones along one bar.
HEAD = """
title: Head
pieces:
  bar: {metal: mild steel, stock: {form: square, side: 30, length: 400}, zones: [poll, waist, blade]}
drawing:
  poll: {form: square, side: 30 ±1, length: 40 ±4, take up: length}
  waist: {form: square, side: 30 ±1, length: 50 ±4, take up: length}
  blade: {form: flat, width: 30 ±2, thickness: 15 ±1, length: 120 ±8, take up: length}
steps:
  - {do: mark out, piece: bar}
  - {do: draw, zone: blade, form: flat, to: {width: 30 ±2, thickness: 15 ±1}, heats: 2}
"""


def marks(session: Session) -> dict[str, float]:
    """The plan's marks: place by the zone that ends there."""
    return {
        check.zone: check.wanted.limits.nominal
        for check in session.standing().checks
        if check.dimension == "mark" and check.wanted is not None
    }


def expected_mm(session: Session, name: str) -> float:
    return next(size.expected.value for size in session.standing().sizes if size.name == name)


def test_a_mark_out_asks_for_every_mark_from_the_end() -> None:
    session = begun(HEAD)
    assert [check.name for check in session.standing().checks] == ["poll.mark", "waist.mark", "blade.mark"]
    placed = marks(session)
    # Of the same bar a zone that keeps its section keeps its length: 40, then 50 more.
    assert placed["poll"] == pytest.approx(40.0, abs=3.0)
    assert placed["waist"] - placed["poll"] == pytest.approx(50.0, abs=3.0)
    assert placed["blade"] - placed["waist"] == pytest.approx(120.0 * 15.0 / 30.0, rel=0.08)
    first = session.standing().checks[0]
    assert wanted_text(first, Shown()).startswith("poll mark, from the end, wanted ")


def test_marks_in_their_places_are_good() -> None:
    session = begun(HEAD)
    for zone, at_mm in marks(session).items():
        session.read(f"{zone}.mark", f"{at_mm:.1f}")
    standing = session.standing()
    assert {check.verdict for check in standing.checks} == {Verdict.GOOD}
    assert standing.verdict is PlanState.ON_PLAN


def test_a_mark_gives_to_one_zone_what_it_takes_from_its_neighbour() -> None:
    session = begun(HEAD)
    placed = marks(session)
    poll, waist, blade = (expected_mm(session, f"{zone}.length") for zone in ("poll", "waist", "blade"))
    session.read("poll.mark", f"{placed['poll'] + 3.0:.1f}", insist=True)
    session.read("waist.mark", f"{placed['waist']:.1f}", insist=True)
    session.read("blade.mark", f"{placed['blade']:.1f}", insist=True)
    assert expected_mm(session, "poll.length") == pytest.approx(poll + 3.0, abs=0.5)
    assert expected_mm(session, "waist.length") == pytest.approx(waist - 3.0, abs=0.5)
    assert expected_mm(session, "blade.length") == pytest.approx(blade, abs=1.0)


def test_a_mark_out_of_its_place_says_how_far() -> None:
    session = begun(HEAD)
    at_mm = marks(session)["waist"]
    answer = session.read("waist.mark", f"{at_mm - 6.0:.1f}", insist=True)
    assert "waist mark" in said(answer)
    assert "out" in said(answer)


def test_a_slip_in_a_mark_is_questioned() -> None:
    session = begun(HEAD)
    at_mm = marks(session)["waist"]
    session.read("waist.mark", f"{10.0 * at_mm:.0f}")
    assert session.standing().checks[1].is_questioned


@pytest.mark.parametrize("off_mm", [3.0, -4.0])
def test_a_mark_a_little_off_its_place_is_asked_for_again_and_not_called_impossible(off_mm: float) -> None:
    session = begun(HEAD)
    at_mm = round(marks(session)["waist"], 1)
    told = said(session.read("waist.mark", f"{at_mm + off_mm:.1f}"))
    assert session.standing().checks[1].is_questioned
    assert f"that is {abs(off_mm):.0f} mm off its place. Read it again, or make it anew;" in told
    assert "cannot be right" not in told


def test_the_distance_between_two_marks_can_still_be_read() -> None:
    session = begun(HEAD)
    placed = marks(session)
    between = placed["waist"] - placed["poll"]
    assert "good" in said(session.read("waist.length", f"{between:.1f}"))


def test_once_the_bar_is_forged_there_are_no_marks_to_read() -> None:
    session = begun(HEAD)
    session.done()
    with pytest.raises(EntryFault, match="no 'mark' at this step"):
        session.read("waist.mark", "90")


def test_a_mark_out_of_its_place_is_made_anew_and_asked_for_again() -> None:
    session = begun(HEAD)
    placed = marks(session)
    session.read("poll.mark", f"{placed['poll']:.1f}")
    session.read("waist.mark", f"{placed['waist'] - 7.0:.1f}", insist=True)
    session.read("blade.mark", f"{placed['blade']:.1f}")
    assert session.standing().verdict is PlanState.OFF_PLAN
    way = next(one for one in session.ways_back() if one.name == "move-metal-waist-mark")
    assert way.verdict is PlanState.ON_PLAN
    session.take(way.name)
    standing = session.standing()
    assert standing.verdict is PlanState.ON_PLAN
    assert standing.next_check == "waist.mark"
    assert marks(session) == pytest.approx(placed)
    assert "good" in said(session.read("waist.mark", f"{placed['waist']:.1f}"))


def to_right(session: Session) -> list[tuple[str, str]]:
    return [(one.zone, one.text) for one in session.standing().to_right]


def of_bar_mm(session: Session, zone: str) -> float:
    """How much of the 30 mm bar a zone has now."""
    now = session._state.now
    assert now is not None
    return now.volume_mm3(zone) / 900.0


def waist_marked_at_80(*, finished: bool) -> Session:
    session = begun(HEAD)
    session.read("waist.mark", "80", insist=True)
    if finished:
        session.done()
    return session


@pytest.mark.parametrize(
    ("way", "finished"),
    [
        ("move-metal-waist-mark", False),
        ("move-metal-waist-mark", True),
        ("mark-longer-waist", True),
        ("move-metal-blade-waist", False),
        ("move-metal-blade-waist", True),
    ],
)
def test_a_mark_that_a_way_back_moves_is_settled(way: str, finished: bool) -> None:
    session = waist_marked_at_80(finished=finished)
    assert to_right(session) == [("waist", "mark too low")]
    session.take(way)
    assert to_right(session) == []
    assert not [check for check in session.standing().checks if check.is_beyond]
    assert not [one for done in session.standing().done for one in done.verdicts if one.zone == "waist"]


def test_a_wrong_mark_is_not_forgotten_by_the_end_of_its_step_but_by_the_forging() -> None:
    session = begun(HEAD)
    session.read("blade.mark", "160", insist=True)  # 9 mm more than wanted: metal enough
    for _ in range(2):
        standing = session.standing()
        assert standing.verdict is PlanState.TIGHT
        assert to_right(session) == [("blade", "mark too high")]
        if standing.step is not None and standing.step.number == 1:
            session.done()
    assert session.ways_back()[0].name == "move-metal-blade-mark"
    session.heat()
    assert to_right(session) == [], "once it is forged, the metal is what counts"


def test_the_mark_at_the_end_of_the_bar_is_made_anew() -> None:
    session = begun(HEAD)
    session.read("blade.mark", "160", insist=True)
    session.done()
    session.take("move-metal-blade-mark")
    assert session.standing().verdict is PlanState.ON_PLAN
    assert of_bar_mm(session, "blade") == pytest.approx(60.7, abs=0.3)
    assert of_bar_mm(session, "waist") == pytest.approx(50.0, abs=0.3)


def test_a_mark_beyond_the_next_one_can_be_made_anew_on_the_cold_bar() -> None:
    session = begun(HEAD)
    session.read("poll.mark", "140", insist=True)
    session.done()
    assert session.standing().verdict is PlanState.OFF_PLAN
    session.take("move-metal-poll-mark")
    assert session.standing().verdict is PlanState.ON_PLAN
    assert of_bar_mm(session, "poll") == pytest.approx(40.0, abs=0.5)


@pytest.mark.parametrize("gone_back", [False, True])
def test_a_new_mark_that_is_read_is_not_counted_twice(gone_back: bool) -> None:
    session = waist_marked_at_80(finished=True)
    session.take("mark-longer-waist")
    if gone_back:
        session.back()
        check = session.read("waist.mark", "90", insist=True)
        session.done()
    else:
        check = session.read("waist.mark", "90", then=session.then(1))
    assert "good" in said(check)
    assert to_right(session) == []
    assert of_bar_mm(session, "waist") == pytest.approx(90.0 - 40.0, abs=0.5)
    assert of_bar_mm(session, "blade") == pytest.approx(150.7 - 80.0, abs=1.0), "its own mark moved along"
    assert session.standing().left_out == ()


def test_a_mark_made_anew_and_read_in_its_place_is_believed_at_once() -> None:
    session = begun(HEAD)
    session.read("waist.mark", "80", insist=True)
    assert "good" in said(session.read("waist.mark", "90"))
    assert to_right(session) == []
    assert session.standing().verdict is PlanState.ON_PLAN
    assert of_bar_mm(session, "waist") == pytest.approx(50.0, abs=0.5)


@pytest.mark.parametrize("read", [("80",), ("80", "95"), ("90.5", "89.7")])
def test_of_a_mark_that_was_made_anew_the_last_one_alone_counts(read: tuple[str, ...]) -> None:
    def waist_at(*places: str) -> Session:
        session = begun(HEAD)
        session.read("poll.mark", "40")
        for place in places:
            session.read("waist.mark", place, insist=True)
        session.read("blade.mark", "150.7")
        session.read("waist.mark", "90")
        return session

    alone, anew = waist_at(), waist_at(*read)
    for name in ("poll.length", "waist.length", "blade.length"):
        sizes = [
            next(size.expected for size in each.standing().sizes if size.name == name)
            for each in (alone, anew)
        ]
        assert sizes[1].value == pytest.approx(sizes[0].value, abs=0.001)
        assert sizes[1].doubt == pytest.approx(sizes[0].doubt, rel=0.001)
    assert anew.standing().chance == pytest.approx(alone.standing().chance, abs=0.0001)
    assert said(anew.read("waist.mark", "90")) == said(alone.read("waist.mark", "90"))


def test_letting_a_length_give_leaves_every_other_mark_where_it_is() -> None:
    session = begun(HEAD)
    for zone, at_mm in (("poll", "40"), ("waist", "80"), ("blade", "150.7")):
        session.read(f"{zone}.mark", at_mm, insist=True)
    session.take("let-it-give-waist-length")
    placed = marks(session)
    assert placed["poll"] == pytest.approx(40.0, abs=0.1)
    assert placed["waist"] == pytest.approx(80.0, abs=1.0), "it stays where it was made"
    assert placed["blade"] == pytest.approx(150.7, abs=0.1)
    assert to_right(session) == []
    assert not [check for check in session.standing().checks if check.is_beyond]
