"""The sheet of a job: what was drawn against what was read, and what it took."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from coach.bench.session import Session
from coach.bench.sheet import Sheet
from coach.bench.shop import Shop
from coach.bench.sizes_came import SizeCame, SizeVerdict
from coach.bench.taken import HandKept
from coach.cli.page import set_page
from coach.ledger.verdict import PlanState, Verdict
from coach.operations.shop_test import Result
from coach.quantities import Figure, mm
from coach.quantities.figure import Kind
from coach.telling.entered import unsettled_text
from coach.telling.page import Line
from coach.telling.sheet import sheet_page, sizes_section, taught_section
from coach.telling.size_came import size_row
from coach.telling.writing import METRIC, Shown
from tests.bench.jobs import at_step_of, begun
from tests.bench.test_settled_sizes import at_step
from tests.spelt_out import file_text
from tests.told import why

#: An invented peg, whose shank is bent over in the end.
PEG = """
title: Tent peg
time: half an hour
pieces:
  peg: {metal: mild steel, stock: {form: square, side: 12}, zones: [point, shank]}
drawing:
  point: {form: square, side: 8 ±0.8, length: 90 ±9, take up: length}
  shank: {form: square, side: 10 ±1, length: 120 ±12, take up: length}
steps:
  - {do: draw, zone: point, to: {side: 8 ±0.8}, heats: 2, check: [side, length]}
  - {do: draw, zone: shank, to: {side: 10 ±1}, heats: 1, check: [side, ring test]}
  - {do: bend, zone: shank, to: {angle: 90 ±5, radius: 20 ±4}, heats: 1, check: [angle, radius]}
  - {do: inspect, zone: shank, check: [crack test]}
"""


def peg(**read: str) -> Session:
    """The peg with every step done; read of it what is given, the last reading of a size at its step."""
    session = begun(PEG)
    for heats in (2, 1, 1, 0):
        for _ in range(heats):
            session.heat()
        checks = {check.name for check in session.standing().checks}
        for name, typed in read.items():
            if (at := name.replace("__", ".")) in checks:
                session.read(at, typed)
        session.done()
    return session


def size(sheet: Sheet, name: str) -> SizeCame:
    return next(one for one in (*sheet.sizes, *sheet.apart) if one.name == name)


def test_a_size_that_was_read_within_its_limits_is_within() -> None:
    sheet = peg(point__side="8.1").sheet()
    came = size(sheet, "point.side")
    assert came.verdict is SizeVerdict.WITHIN
    assert came.came is not None
    assert came.came.value == pytest.approx(8.1)
    assert came.read is not None
    assert (came.read.step, came.read.gauge) == (1, "calliper")


def test_a_size_that_nobody_measured_is_never_told_as_if_it_had_come() -> None:
    sheet = peg().sheet()
    assert all(one.came is None for one in (*sheet.sizes, *sheet.apart))
    assert {one.verdict for one in (*sheet.sizes, *sheet.apart)} == {SizeVerdict.NOT_MEASURED}
    assert size(sheet, "shank.side").reckoned is not None
    assert (sheet.as_drawn, sheet.asked) == (0, 4)  # the bend's angle and radius are not of the drawing
    assert (sheet.apart_as_wanted, sheet.apart_asked) == (0, 2)


def test_a_size_beyond_a_limit_says_which_side_and_by_how_much() -> None:
    sheet = peg(shank__side="11.6", shank__angle="97").sheet()
    over, bent = size(sheet, "shank.side"), size(sheet, "shank.angle")
    assert over.verdict is SizeVerdict.OVER
    assert over.beyond is not None
    assert over.beyond.value == pytest.approx(
        11.6 - 11.0 - 2 * 0.0336, abs=1e-3
    )  # the bend scales both faces
    assert bent.verdict is SizeVerdict.OVER
    assert bent.beyond is not None
    assert bent.beyond.value == pytest.approx(97.0 - 95.0)
    assert sheet.verdict is PlanState.OFF_PLAN


def test_a_size_too_near_its_limit_for_the_gauge_is_not_sure() -> None:
    # 8.75 with a calliper on a forged face, known to some 0.15 mm, may as well be 8.85.
    assert size(peg(point__side="8.75").sheet(), "point.side").verdict is SizeVerdict.NOT_SURE


@pytest.mark.parametrize(("side", "side_of"), [("8.81", "over"), ("8.95", "over"), ("7.12", "under")])
def test_a_size_outside_by_less_than_its_doubt_is_as_unsure_on_the_sheet_as_at_the_bench(
    side: str, side_of: str
) -> None:
    # ISO 14253-1:2017: outside is proven beyond the limit by the guard band, one-sided 95 %, and no nearer.
    job = begun(PEG)
    job.read("point.side", side)
    check = next(one for one in job.standing().checks if one.name == "point.side")
    assert check.verdict in (Verdict.UNSURE, Verdict.MORE_TO_GO)
    job = peg(point__side=side)
    sheet, standing = job.sheet(), job.standing()
    came = size(sheet, "point.side")
    assert came.verdict is SizeVerdict.NOT_SURE
    assert f"not sure: it seems {'0.1 mm' if side != '8.81' else 'a hair'} {side_of}" in str(
        size_row(came, METRIC).cells[-1]
    )
    told = next(one for one in standing.sizes if one.name == "point.side")
    assert told.told == f"seems {side_of}"
    assert f"which seems {'0.1 mm' if side != '8.81' else 'a hair'} {side_of} the" in why(standing)


def let_go() -> Session:
    session = begun(PEG)
    session.heat()
    session.read("point.side", "6.6")
    session.take("accept-point-side")
    return session


def test_a_size_let_go_by_a_way_back_is_neither_within_nor_wrong() -> None:
    came = size(let_go().sheet(), "point.side")
    assert came.verdict is SizeVerdict.TO_COME  # there are heats of the step still to be taken
    session = let_go()
    session.done()
    came = size(session.sheet(), "point.side")
    assert came.verdict is SizeVerdict.LET_GO
    assert came.wanted is not None
    assert came.wanted.limits.nominal == 8.0  # as it was drawn
    assert came.allowed is not None
    assert came.allowed.limits.nominal == pytest.approx(6.6, abs=0.05)
    assert came.let_go is not None
    assert came.let_go.step == 1
    assert [way.entry for way in session.sheet().ways_back] == [came.let_go.entry]


def test_a_way_back_that_is_struck_out_lets_nothing_go() -> None:
    session = let_go()
    session.strike()
    session.done()
    came = size(session.sheet(), "point.side")
    assert came.verdict is SizeVerdict.UNDER
    assert came.let_go is None
    assert session.sheet().ways_back == ()


@pytest.mark.parametrize("side", ["7", "7.3", "8", "8.7", "9.2"])
def test_no_size_is_wrong_where_the_verdict_is_on_plan(side: str) -> None:
    sheet = peg(point__side=side, shank__side="10", shank__angle="90", shank__radius="20").sheet()
    wrong = {SizeVerdict.UNDER, SizeVerdict.OVER} & {one.verdict for one in sheet.sizes}
    assert not (wrong and sheet.verdict is PlanState.ON_PLAN)


def test_a_finished_tool_that_is_measured_again_tells_the_later_size() -> None:
    session = peg(point__side="8.1")
    ended = session.sheet().time.ended_at
    session.read("point.side", "7.9")
    sheet = session.sheet()
    came = size(sheet, "point.side")
    assert came.came is not None
    assert came.came.value == pytest.approx(7.9)
    assert came.read is not None
    assert came.read.at > ended == sheet.time.ended_at
    assert sheet.time.in_all == peg(point__side="8.1").sheet().time.in_all  # measuring it is not forging it


def test_a_size_is_told_as_it_was_typed() -> None:
    came = size(peg(point__length="93.46").sheet(), "point.length")
    assert size_row(came, METRIC).cells[2] == "93.46 mm"


def test_a_reading_that_later_work_has_made_old_is_told_as_it_was_typed() -> None:
    again = "  - {do: draw, zone: point, to: {side: 7.8 ±0.8}, heats: 1}\n"
    job = begun(PEG.replace("  - {do: inspect", f"{again}  - {{do: inspect"))
    job.read("point.length", "92.46")
    while job.standing().step is not None:
        job.done()
    told = size_row(size(job.sheet(), "point.length"), METRIC).cells[3]
    assert "read 92.46 mm at step 1" in told


def test_a_reading_that_is_questioned_still_is_on_the_record() -> None:
    job = begun(PEG)
    job.heat()
    job.heat()
    job.read("point.side", "8.1")
    job.read("point.length", "40")
    assert job.standing().questioned
    while job.standing().step is not None:
        job.done()
    came = size(job.sheet(), "point.length")
    assert came.verdict is SizeVerdict.NOT_MEASURED
    told = "read 40 mm at step 1, which is questioned and counts for nothing"
    assert told in size_row(came, METRIC).cells[3]
    job.read("point.length", "89.8")
    came = size(job.sheet(), "point.length")
    assert came.questioned is None
    assert "questioned" not in size_row(came, METRIC).cells[3]


def test_an_unfinished_job_says_what_is_still_to_come() -> None:
    session = begun(PEG)
    session.heat()
    session.heat()
    session.read("point.side", "8")
    session.done()
    sheet = session.sheet()
    assert not sheet.finished
    assert sheet.time.ended_at == ""
    assert size(sheet, "point.side").verdict is SizeVerdict.WITHIN
    assert size(sheet, "shank.side").verdict is SizeVerdict.TO_COME
    assert (sheet.as_drawn, sheet.asked) == (1, 2)  # the point's length is not measured
    assert (sheet.heats.taken, sheet.heats.planned_so_far, sheet.heats.planned) == (2, 3, 4)


def test_the_bend_that_no_drawing_holds_is_told_with_the_step_that_asked_for_it() -> None:
    bend = size(peg(shank__angle="90", shank__radius="20").sheet(), "shank.angle")
    assert (bend.step, bend.verdict) == (3, SizeVerdict.WITHIN)


@pytest.mark.parametrize(("typed", "result"), [("pass", Result.PASS), ("fail", Result.FAIL)])
def test_a_test_of_the_shop_is_told_with_what_came_of_it(typed: str, result: Result) -> None:
    sheet = peg(shank__ring_test="pass", shank__crack_test=typed).sheet()
    assert {test.test: test.result for test in sheet.tests} == {
        "ring_test": Result.PASS,
        "crack_test": result,
    }
    assert len(sheet.to_right) == (result is Result.FAIL)


def test_a_test_that_was_asked_for_and_not_made_says_so() -> None:
    assert [test.result for test in peg().sheet().tests] == [None, None]


def test_a_test_that_failed_and_then_passed_says_both() -> None:
    session = peg(shank__crack_test="fail")
    session.read("shank.crack_test", "pass")
    (cracks,) = (test for test in session.sheet().tests if test.test == "crack_test")
    assert (cracks.result, cracks.failed_before) == (Result.PASS, 1)


def test_hours_are_told_without_the_rests_and_what_was_at_the_fire_apart() -> None:
    session = begun(PEG)  # its clock goes on by a minute an entry, the beginning at 0:00
    session.heat()  # 0:01
    session.heat()  # 0:02
    session.done()  # 0:03, all of it in a step with heats
    session.rest()  # 0:04, in the second step
    session.resume()  # the minute of the rest is left out
    session.heat()
    session.done()
    session.heat()
    session.done()
    session.done()
    time = session.sheet().time
    assert time.in_all.value == 60 * 9
    assert time.at_the_fire.value == 60 * 8  # but for the minute of looking it over
    assert time.planned == "half an hour"
    assert time.days == 1


def test_the_metal_lost_is_what_the_bar_had_and_the_tool_has_not() -> None:
    metal = peg(point__side="8").sheet().metal
    assert metal is not None
    # 12 mm square by the length of bar, at the 7.85 g/cm³ of mild steel (EN 10025-2; the plan's own metal).
    (piece,) = metal.pieces
    assert metal.planned.value == pytest.approx(12 * 12 * piece.length.value * 0.00785, rel=0.01)
    assert metal.lost.value == pytest.approx(metal.used.value - metal.left.value)
    assert not metal.weighed
    assert metal.planned_tool.value == pytest.approx(metal.planned.value - metal.planned_lost.value)


def test_a_tool_that_was_weighed_in_the_end_counts_as_weighed() -> None:
    session = peg(point__side="8")
    session.read("peg.mass", "138 g")
    metal = session.sheet().metal
    assert metal is not None
    assert metal.weighed
    assert metal.left.value == pytest.approx(138.0)
    by = {one.gauge: one.readings for one in session.sheet().gauges}
    assert by["scales"] == 1, "what it was weighed with is told beside what its sizes were read with"


def test_nothing_can_be_said_of_a_hand_from_one_size() -> None:
    assert peg(point__side="8.1").sheet().hand is None


def test_the_picture_of_the_tool_has_the_sizes_that_were_read() -> None:
    session = peg(point__side="8.1", point__length="94")
    assert session.forms_came()["point"].sizes_mm() == pytest.approx({"side": 8.1, "length": 94.0}, abs=0.01)


def test_a_finished_tool_that_is_amended_tells_what_was_let_go_at_the_end() -> None:
    session = peg(point__side="8", shank__side="10", shank__angle="90", shank__radius="20")
    session.read("shank.length", "150", insist=True)
    assert size(session.sheet(), "shank.length").verdict is SizeVerdict.OVER
    session.take("too-much-metal-leave-shank-length")
    came = size(session.sheet(), "shank.length")
    assert came.verdict is SizeVerdict.LET_GO
    assert came.let_go is not None
    assert came.let_go.step == 0


def test_what_is_over_by_less_than_is_told_is_a_hair_over_and_not_nothing() -> None:
    job = at_step("first-hook", 9)
    job.done()
    job.read("tip.end_width", "4.01", insist=True)
    rows = [row for part in sizes_section(job.sheet(), METRIC).body for row in part.rows]  # type: ignore[union-attr]
    told = next(row for row in rows if "tip end width" in row.cells[0])
    assert told.cells[3] == "not sure: it seems a hair over"  # 0.01 mm is less than its doubt


@pytest.mark.parametrize(("radius", "verdict"), [("6", SizeVerdict.WITHIN), ("1", SizeVerdict.NOT_SURE)])
def test_what_only_an_eye_judges_is_on_the_sheet_what_it_was_at_the_bench(
    radius: str, verdict: SizeVerdict
) -> None:
    # The hook's tip is curled to 5 ±3 by eye, and its step asks for no gauge.
    session = at_step("first-hook", 4)
    session.read("tip.radius", radius)
    came = size(session.sheet(), "tip.radius")
    assert came.verdict is verdict
    told = size_row(came, METRIC).cells[-1]
    assert told == ("within by eye" if radius == "6" else "not sure: by eye it cannot be settled")


def test_a_size_drawn_anew_is_wanted_as_it_is_drawn_now_and_was_not_let_go() -> None:
    session = begun(PEG)
    for _ in range(2):
        session.heat()
    session.change("point.length=105 ±4")
    session.read("point.side", "8")
    session.read("point.length", "105", insist=True)
    while session.standing().step is not None:
        session.done()
    came = size(session.sheet(), "point.length")
    assert came.wanted is not None
    assert (came.wanted.limits.low, came.wanted.limits.high) == (101.0, 109.0)
    assert came.verdict in (SizeVerdict.WITHIN, SizeVerdict.NOT_SURE)
    assert came.allowed is None


def paced(step_s: float) -> Session:
    """The peg, its entries so many seconds apart."""
    at = [datetime(2026, 3, 2, 8, 0, tzinfo=UTC)]

    def clock() -> datetime:
        at.append(at[-1] + timedelta(seconds=step_s))
        return at[-1]

    session = Shop(":memory:", clock).begin(file_text(PEG), "peg.yaml")
    while session.standing().step is not None:
        session.heat()
        session.heat()
        session.done()
    return session


def told_of(session: Session) -> str:
    return " ".join(" ".join(set_page(sheet_page(session.sheet(), Shown()))).split())


def test_hours_do_not_lose_a_part_of_a_second_at_each_entry() -> None:
    session = paced(62.4)
    gaps = len(session.history()) - 1
    assert session.sheet().time.in_all.value == round(gaps * 62.4)


def test_hours_of_what_was_put_down_afterwards_are_not_known() -> None:
    told = told_of(paced(1.0))
    assert "not known: 8 heats were put down within" in told
    assert "not known, on one day" in told
    assert "not known" not in told_of(paced(62.4))
    assert not any(one.hours_known for one in paced(1.0).sheet().heats.steps if one.done), "the cold ones too"


def test_what_hammered_sizes_tell_of_the_hand_stands_beside_them() -> None:
    session = paced(62.4)
    few = hand_section(session.sheet()._replace(hand=HandKept(4, mm(0.4))))
    assert few.startswith("hand: 4 hammered sizes came 0.4 mm from their aim on average; too few to tell")
    told = hand_section(session.sheet()._replace(hand=HandKept(6, mm(2.1), Figure(1.5, Kind.FACTOR, 0.3), 5)))
    # Six were read, and a shop that begins with what they taught says five: each is told for what it is.
    assert told.endswith(
        "; it lands 1.5 ±0.5 times as wide of it as is usual, by 5 sizes,"
        " each counted as surely as the hand brought it there"
    )
    more = session.sheet()._replace(hand=HandKept(6, mm(2.1), Figure(1.5, Kind.FACTOR, 0.3), 13, 8))
    assert "by 13 sizes, 8 of them in jobs before, each" in hand_section(more)


def hand_section(sheet: Sheet) -> str:
    lines = (one.words for one in taught_section(sheet, Shown()).body if isinstance(one, Line))
    return next(line for line in lines if line.startswith("hand"))


def test_a_size_that_was_worked_since_it_was_read_tells_where_it_was_read_last() -> None:
    """Read good at the first heat of the spread, and not believed at the second: neither is it unread."""
    session = at_step("first-hook", 7)
    session.heat()
    for name, size in {"thickness": "5.8", "length": "44.5"}.items():
        session.read(f"plate.{name}", size)
    session.heat()
    for name, size in {"thickness": "5.0", "length": "14.9"}.items():
        session.read(f"plate.{name}", size)
    session.done()
    session.heat()
    warned = unsettled_text(session.done_warning(), Shown())
    assert "never measured" not in warned
    assert "are unmeasured now" in warned
    while session.standing().step is not None:
        session.done()
    assert "not measured since it was worked: read 44.5 mm at step 7" in told_of(session)


def test_a_bow_that_was_read_before_the_last_heat_is_told_as_one_worked_since() -> None:
    session = at_step("scrolled-bracket", 6)
    session.heat()
    session.read("stem.bow", "0.6")
    session.heat()
    session.done()
    bow = next(one for one in session.sheet().apart if one.name == "stem.bow")
    assert (bow.verdict, bow.came) == (SizeVerdict.NOT_MEASURED, None)
    assert "not measured since it was worked: read 0.6 mm at step 6" in told_of(session)


@pytest.mark.parametrize(
    ("name", "number", "size", "typed", "told"),
    [
        ("garden-sickle", 5, "blade.angle", "85", "85°"),
        ("bolt-tongs", 15, "arm 1 bow.angle", "85", "85°"),  # the step asks for its radius alone
        ("bolt-tongs", 19, "arm 1 rein.wind", "2", "2 mm"),  # and this one for the bow
    ],
)
def test_a_bend_read_before_the_last_heat_is_not_forgotten_in_its_step_and_after(
    name: str, number: int, size: str, typed: str, told: str
) -> None:
    """Asked for or not: it was left out where nobody had asked, and in the step that was still to come."""
    session = at_step(name, number)
    session.heat()
    session.read(size, typed, insist=True)
    session.heat()
    worked_since = f"not measured since it was worked: read {told} at step {number}"
    assert worked_since in told_of(session)
    counted = session.sheet().apart_asked
    session.done()  # the sickle's blade is spread next: that has not begun, and makes no other angle yet
    assert worked_since in told_of(session)
    asked = size in session.recipe.steps[number - 1].checks
    assert (session.sheet().apart_asked > counted) or not asked
    row = next(one for one in session.sheet().apart if one.name == size)
    assert row.came is None
    assert row.verdict is (SizeVerdict.NOT_MEASURED if asked else SizeVerdict.AS_READ)


#: An invented drift of tool steel, which is looked over before it is hardened.
DRIFT = """
title: Drift
time: an hour
pieces:
  drift: {metal: C80, stock: {form: square, side: 14}, zones: [point, head]}
drawing:
  point: {form: square, side: 10 ±0.8, length: 60 ±6, take up: length}
  head: {form: square, side: 14 ±1, length: 60 ±6, take up: length}
steps:
  - {do: draw, zone: point, to: {side: 10 ±0.8}, heats: 1, check: [side, ring test]}
  - {do: inspect, zone: point, check: [crack test]}
  - {do: inspect, zone: head, check: [crack test]}
  - do: harden
    zone: point
    quench: fast oil
    to: {temperature: 790 to 810 °C}
    heats: 1
    check: [file test]
  - {do: temper, zone: point, to: {temperature: 220 to 240 °C}, check: [crack test]}
"""


def test_a_test_that_was_made_before_the_quench_which_undoes_it_is_old() -> None:
    session = begun(DRIFT)
    session.read("point.ring_test", "pass")
    session.done()
    session.read("point.crack_test", "pass")
    session.done()
    session.read("head.crack_test", "pass")
    session.done()
    assert [one.undone_by for one in session.sheet().tests] == [0, 0, 0]
    session.read("point.file_test", "pass")
    session.done()
    old = {one.label: one.undone_by for one in session.sheet().tests}
    # A quench can crack its zone, and so spoil the ring of the piece. The head stayed out of it.
    assert old == {
        "point ring test": 4,
        "point crack test": 4,
        "head crack test": 0,
        "point file test": 0,
    }
    told = set_page(sheet_page(session.sheet(), METRIC))
    assert any("~ point ring test   passed, before step 4: old" in line for line in told)
    session.read("point.crack_test", "pass")
    assert {one.label: one.undone_by for one in session.sheet().tests}["point crack test"] == 0


def test_what_a_step_asked_for_stays_in_the_record_and_a_hardness_that_nobody_measured_is_listed() -> None:
    session = at_step_of("cold-chisel", 5)
    session.heat()
    session.read("edge.bow", "0.3")
    for _ in range(8):
        session.done()
    apart = {one.name: one for one in session.sheet().apart if one.zone == "edge"}
    assert apart["edge.bow"].came == Figure(0.3, Kind.GAP)
    assert apart["edge.bow"].verdict is SizeVerdict.WITHIN
    assert apart["edge.hardness"].verdict is SizeVerdict.NOT_MEASURED
