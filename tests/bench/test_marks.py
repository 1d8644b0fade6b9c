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
    session.read("waist.mark", f"{3.0 * at_mm:.0f}")
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


HOOKS = """\
recipe: Hook
make: 3
scale: none
pieces:
  hook:
    metal: mild steel
    bar: square 10
    zones:
      tip: square 8 ±0.8 to 3 ±1, long 90 ±9
      plate: 16 ±2 x 5 ±0.8, long 44 ±4
steps:
  - mark out: hook
  - taper: tip, 3 heats
  - cut: plate, 1 heat
  - spread: plate, flat, thick 5 ±0.8, long 44 ±4, 2 heats
"""


def wanted_mark(session: Session, name: str) -> float:
    (check,) = [one for one in session.standing().checks if one.name == name]
    assert check.wanted is not None
    assert check.wanted.limits is not None
    return check.wanted.limits.nominal


def test_the_marks_of_several_on_one_bar_are_measured_in_one_row_from_its_one_end() -> None:
    # By hand: a taper of 8 to 3 mm, 90 mm long, is (64 + 24 + 9) / 3 * 90 = 2910 mm3, 29.1 mm of bar;
    # a plate of 16 x 5 x 44 is 35.2 mm: 64.3 each. The second hook's tip ends at 93.4, the third's at 157.7.
    session = begun(HOOKS)
    assert wanted_mark(session, "hook 1 tip.mark") == pytest.approx(29.1, abs=0.05)
    session.done()
    assert wanted_mark(session, "hook 2 tip.mark") == pytest.approx(93.4, abs=0.05)
    assert wanted_mark(session, "hook 2 plate.mark") == pytest.approx(128.6, abs=0.05)
    plan = session.plan.pieces["hook 3"]
    assert [mark.at.value for mark in plan.marks] == pytest.approx([157.7, 192.9], abs=0.05)
    assert plan.begins.value == pytest.approx(128.6, abs=0.05)


def test_a_mark_off_its_place_gives_to_the_next_piece_what_it_takes_from_this_one() -> None:
    # By hand: the first ends at 66.3 instead of 64.3; a tip that ends at 93.4 is 27.1 mm of bar, not 29.1. A
    # rule is read to some tenths, and so is what is believed by it.
    session = begun(HOOKS)
    session.read("hook 1 tip.mark", "29.1")
    session.read("hook 1 plate.mark", "66.3")
    session.done()
    told = session.read("hook 2 tip.mark", "93.4")
    assert not told.bad_news
    now = session._state.course()
    assert now is not None
    assert now.now.size("hook 2 tip", "length").value == pytest.approx(27.1, abs=0.5)
    assert now.now.size("hook 1 plate", "length").value == pytest.approx(37.2, abs=0.5)


def test_the_figures_of_a_piece_that_is_the_end_of_its_bar_are_its_own() -> None:
    session = begun(HOOKS)
    for _ in range(3):
        session.done()
    for _ in range(2):  # the first is drawn and cut off
        session.done()
    course = session._state.course()
    assert course is not None
    assert course.step.title == "Taper the hook 2 tip"
    assert course.now.size("hook 2 tip", "mark").value < 100


def test_a_change_after_the_first_is_marked_leaves_the_next_to_begin_where_that_one_ends() -> None:
    # By hand: a plate of 16 x 5 x 54 takes 43.2 mm of bar, 8 mm more. The first is marked to 64.3 already.
    session = begun(HOOKS)
    session.done()
    session.change("plate.length=54 ±4")
    assert wanted_mark(session, "hook 2 tip.mark") == pytest.approx(93.4, abs=0.05)
    assert wanted_mark(session, "hook 2 plate.mark") == pytest.approx(136.6, abs=0.05)


def test_marks_go_by_the_section_that_was_read_of_the_bar_so_that_each_zone_has_its_metal() -> None:
    # By hand: 29.1 mm of 10 mm square is 2910 mm3, so of a side s it is 2910 / s2; so too of the second hook,
    # whose bar that is.
    session = begun(HOOKS)
    for zone in ("tip", "plate"):
        session.read(f"hook 1 {zone}.side", "10.4", gauge="calliper")
    course = session._state.course()
    assert course is not None
    side_mm = course.now.size("hook 2 tip", "side").value
    assert side_mm == pytest.approx(10.35, abs=0.1)
    tip_mm, all_mm = 2910 / side_mm**2, (2910 + 3520) / side_mm**2
    assert wanted_mark(session, "hook 1 tip.mark") == pytest.approx(tip_mm, abs=0.1)
    assert wanted_mark(session, "hook 1 plate.mark") == pytest.approx(all_mm, abs=0.2)
    session.read("hook 1 tip.mark", f"{tip_mm:.1f}")
    session.read("hook 1 plate.mark", f"{all_mm:.1f}")
    session.done()
    assert wanted_mark(session, "hook 2 tip.mark") == pytest.approx(all_mm + tip_mm, abs=0.6)
    course = session._state.course()
    assert course is not None
    assert course.now.volume_mm3("hook 1 tip") == pytest.approx(2910, rel=0.02)


def test_the_bar_that_is_drawn_at_a_mark_out_begins_where_the_piece_does() -> None:
    from coach.screens.bench_marks import bar_of_marks

    session = begun(HOOKS)
    session.done()
    standing = session.standing()
    _, figures, _, _ = bar_of_marks(standing, None, Shown(), 80)
    assert figures.plain.split() == ["64.3", "93.4", "128.5"]  # beyond 100 mm to half a millimetre


def test_a_mark_that_a_way_back_moves_while_the_bar_is_marked_is_wanted_where_it_is_made() -> None:
    session = begun(HEAD)
    session.read("waist.mark", "86.5", insist=True)  # and 90 is its place
    way = next(one for one in session.ways_back() if one.name.startswith(("mark-longer-waist", "move-metal")))
    session.take(way.name)
    check = next(one for one in session.standing().checks if one.name == "waist.mark")
    assert check.wanted is not None
    place_mm = check.wanted.limits.nominal
    assert place_mm == pytest.approx(of_bar_mm(session, "poll") + of_bar_mm(session, "waist"), abs=0.3)
    assert "good" in said(session.read("waist.mark", f"{place_mm:.1f}"))


# The bar is 400 mm long: no mark lies 2700 mm along it, however often that is typed (by definition).
def test_a_mark_beyond_the_end_of_its_bar_is_not_entered() -> None:
    session = begun(HEAD)
    entries = len(session.history())
    for typed in ("2700", "2700", "401"):
        with pytest.raises(EntryFault, match="the bar of the bar is 400 mm long"):
            session.read("poll.mark", typed)
    assert len(session.history()) == entries
    session.read("poll.mark", "40")
    with pytest.raises(EntryFault, match="mark cannot be 4000 mm"):
        session.correct(session.history()[-1].number, "4000")


def test_where_nobody_says_how_long_the_bar_is_a_mark_may_lie_anywhere_on_it() -> None:
    session = begun(HEAD.replace(", length: 400", ""))
    session.read("poll.mark", "2700")
    assert len(session.history()) > 1
