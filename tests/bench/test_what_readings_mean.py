"""What a reading means: possible or not, old or not, in whatever order it was typed."""

from __future__ import annotations

import re
from itertools import permutations
from math import isfinite
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.bench.checks import Check, SizeRead
from coach.bench.session import Session
from coach.ledger.verdict import SizeState, Verdict
from coach.telling.entered import unsettled_text
from coach.telling.reading import reading_sentence
from coach.telling.why import reason_text
from coach.telling.writing import Shown
from tests.bench.jobs import begun, shop
from tests.bench.test_settled_sizes import at_step
from tests.told import said

ROOT = Path(__file__).parents[2]
PEG = """
title: Tent peg
pieces:
  peg: {metal: mild steel, stock: {form: square, side: 12}, zones: [point, shank]}
drawing:
  point: {form: square, side: 8 ±0.8, length: 90 ±4, take up: length}
  shank: {form: square, side: 10 ±1, length: 120 ±12, take up: length}
steps:
  - {do: draw, zone: point, to: {side: 8 ±0.8}, heats: 2, colour: light yellow, check: [side, length]}
  - {do: draw, zone: shank, to: {side: 10 ±1}, heats: 1, colour: yellow, check: [side]}
  - {do: inspect, zone: shank}
"""
#: A pin whose metal is reckoned by hand in docs/recipes.md.
PIN = """
title: Drift pin
pieces:
  pin: {metal: mild steel, stock: {form: round, diameter: 12}}
scale: {forging: 0.03 mm}
drawing:
  pin: {form: round taper, diameter: 12 ±0.5, end diameter: 6 ±0.5, length: 100 ±3}
steps:
  - {do: cut, zone: pin, heat: cold, kerf: 1.5 mm, check: [length]}
  - {do: taper, zone: pin, form: round taper, to: drawing, heats: 2, check: [length]}
"""


def peg(*sizes: str) -> Session:
    session = begun(PEG)
    for size in sizes:
        if size == "heat":
            session.heat()
        else:
            session.read(*size.split("="))
    return session


def check(session: Session, name: str) -> Check:
    return next(one for one in session.standing().checks if one.name == name)


def reading(session: Session, name: str) -> SizeRead:
    found = check(session, name).reading
    assert found is not None
    return found


def told(session: Session, name: str) -> str:
    return reading_sentence(check(session, name), Shown("mm"))


# ── questioned before a heat ────────────────────────────────────────────────────────────────────────


def test_a_reading_questioned_before_a_heat_that_works_its_size_is_old_after_it() -> None:
    """It can be stood by no more, and the step's end asks for the size again."""
    session = peg("heat", "point.side=30")
    assert reading(session, "point.side").questioned
    session.heat()
    read = reading(session, "point.side")
    assert (read.questioned, read.old, read.judged) == (False, True, None)
    assert session.standing().questioned == ()
    assert check(session, "point.side").is_open
    assert told(session, "point.side").endswith("read before it was last worked. Read it again.")


def test_a_reading_of_what_the_heat_does_not_work_is_questioned_after_it_as_before() -> None:
    session = peg("heat", "shank.side=30", "heat")
    assert reading(session, "shank.side").questioned


# ── what is possible ────────────────────────────────────────────────────────────────────────────────


@pytest.mark.parametrize("length", ["8.8", "30", "0.3"])
def test_drawing_makes_nothing_shorter(length: str) -> None:
    # By volume: 90 × 8² = 40 × 12², and scale; the point was marked out at 41 mm of bar.
    session = peg(f"point.length={length}")
    assert reading(session, "point.length").questioned
    assert "this step cannot make it less than 41" in told(session, "point.length")
    assert [one.spare.value for one in session.standing().spares] == pytest.approx(
        [one.spare.value for one in peg().standing().spares]
    ), "nothing is made of it"


def test_drawing_makes_no_bar_thicker_than_it_was() -> None:
    session = peg("point.side=14")
    assert reading(session, "point.side").questioned
    assert "this step cannot make it more than 12 mm" in told(session, "point.side")


def test_drawing_makes_nothing_longer_than_its_metal_gives_in_the_section_worked_to() -> None:
    # By volume 90 mm at 8 square; 8 ±0.8 is 10 % either way, 20 % of the length, and a little for the
    # mark that 41 mm of bar was measured by.
    session = peg("point.length=150")
    assert reading(session, "point.length").questioned
    assert "in the section that this step works to the metal makes 11" in told(session, "point.length")
    assert "mm at most" in told(session, "point.length")
    assert [one.spare.value for one in session.standing().spares] == pytest.approx(
        [one.spare.value for one in peg().standing().spares]
    ), "nothing is made of it"


@pytest.mark.parametrize(("length", "impossible"), [("117", False), ("150", True)])
def test_a_taper_may_be_as_long_as_all_its_low_limits_make_it(length: str, impossible: bool) -> None:
    # By hand: 30.6 mm of a bar 10 mm square are 3060 mm³, and two heats scale some 50 to 100 mm³ of it off.
    # The frustum from 7.2 mm square to 2 mm has a mean section of (7.2² + 7.2 · 2 + 2²) ÷ 3 = 23.4 mm²: it
    # is 126 to 129 mm long; from 7.3 mm to 2.1 mm 24.3 mm² make it 121 to 124 mm.
    hook = shop().begin((ROOT / "recipes" / "first-hook.yaml").read_text(encoding="utf-8"), "first-hook.yaml")
    for size in ("tip.mark=30.6", "shank.mark=103", "plate.mark=139.5"):
        hook.read(*size.split("="))
    hook.done()
    hook.heat()
    hook.heat()
    hook.read("tip.length", length)
    assert reading(hook, "tip.length").questioned is impossible
    if impossible:
        most = re.search(r"the metal makes (\d+(?:\.\d+)?) mm at most", told(hook, "tip.length"))
        assert most is not None
        assert 126 <= float(most[1]) <= 140


def test_a_length_stood_by_that_no_section_worked_to_makes_is_not_good() -> None:
    session = begun(PEG.replace("length: 90 ±4, take up: length", "length: 90, take up: length"))
    session.read("point.length", "150", insist=True)
    assert check(session, "point.length").verdict is Verdict.OUT


@pytest.mark.parametrize(
    "order", [("point.side=6.6", "point.length=132"), ("point.length=132", "point.side=6.6")]
)
def test_a_section_that_was_read_says_how_long_its_metal_may_be(order: tuple[str, str]) -> None:
    # 90 × (8 / 6.6)² = 132: gone past, and the length is what that makes of the metal.
    session = peg(*order)
    assert not reading(session, "point.length").questioned
    assert not reading(session, "point.side").questioned


@pytest.mark.parametrize(("first", "other"), [("3.1", "3.5"), ("8.8", "9.9"), ("150", "160")])
def test_another_impossible_number_does_not_make_the_first_stand(first: str, other: str) -> None:
    session = peg(f"point.length={first}", f"point.length={other}")
    assert reading(session, "point.length").questioned
    session.read("point.length", first)
    assert not reading(session, "point.length").questioned, "the same number twice is stood by"


def test_a_little_past_a_wide_limit_is_not_called_far() -> None:
    # A tip of 3 ±1 mm at 1.8 is two tenths under, and 1.3 is seven: a fifth of 3 mm and more.
    text = PEG.replace("side: 8 ±0.8}, heats: 2", "side: 3 ±1}, heats: 2").replace(
        "side: 8 ±0.8, length: 90 ±4", "side: 3 ±1, length: 640 ±300"
    )
    session = begun(text)
    session.read("point.side", "1.8")
    assert not reading(session, "point.side").questioned
    session = begun(text)
    session.read("point.side", "1.3")
    assert "far under the 2 mm that this step works to" in told(session, "point.side")


def test_a_size_that_is_just_possible_is_not_questioned() -> None:
    assert not reading(peg("point.side=11.8"), "point.side").questioned
    assert not reading(peg("point.length=43"), "point.length").questioned


# ── the later one counts ────────────────────────────────────────────────────────────────────────────


def test_an_odd_reading_is_outweighed_by_a_later_one_with_no_heat_between() -> None:
    session = peg("point.side=6.9", "point.side=9.5")
    assert not reading(session, "point.side").questioned
    once = peg("point.side=9.5")
    assert session.standing().chance == pytest.approx(once.standing().chance)
    assert session.standing().sizes == once.standing().sizes


def test_one_that_was_insisted_on_is_not_outweighed() -> None:
    session = begun(PEG)
    session.read("point.side", "6.9", insist=True)
    session.read("point.side", "9.5")
    assert reading(session, "point.side").questioned


@pytest.mark.parametrize(
    ("now", "moved"), [("point.side=7.2", "point.length"), ("point.length=104", "point.side")]
)
def test_what_is_drawn_further_with_no_heat_marked_leaves_what_was_read_before_old(
    now: str, moved: str
) -> None:
    """A point of 7.2 mm square is longer than it was at 8; and one that is longer is thinner."""
    session = peg("heat", "heat", "point.side=8", "point.length=90")
    assert not reading(session, moved).old
    session.read(*now.split("="))
    assert reading(session, moved).old
    assert check(session, moved).is_open


def test_two_readings_that_cannot_both_be_true_stand_side_by_side_in_no_order() -> None:
    """90 mm of point at 7.2 mm square hold a fifth less than at 8 mm: nothing took that away."""
    chances = []
    for order in (["point.side=8", "point.side=7.2", "point.length=84"],
                  ["point.side=8", "point.length=84", "point.side=7.2"]):  # fmt: skip
        session = peg("heat", "heat", *order)
        assert check(session, "point.length").is_open
        chances.append(session.standing().chance)
    assert chances[0] == pytest.approx(chances[1], abs=0.03)


def test_a_section_and_the_length_that_goes_with_it_are_both_as_they_are_now() -> None:
    session = peg("heat", "heat", "point.side=9.5", "point.length=64", "point.side=8", "point.length=90")
    for name in ("point.side", "point.length"):
        assert not reading(session, name).old
        assert check(session, name).verdict is Verdict.GOOD


# ── old ─────────────────────────────────────────────────────────────────────────────────────────────


def test_a_reading_before_a_heat_that_worked_its_size_is_old_and_never_good() -> None:
    session = peg("heat", "point.side=8", "point.length=90", "heat")
    for name in ("point.side", "point.length"):
        assert reading(session, name).old
        assert check(session, name).verdict is None
        assert check(session, name).is_open
        assert "read before it was last worked" in told(session, name)
    assert session.standing().next_check == "point.side", "it is asked for again"
    assert "point side and point length are not measured since last worked" in said(session.done())


def test_a_size_that_the_heat_does_not_work_stays_as_it_was_read() -> None:
    session = peg("shank.side=12", "heat")
    assert not reading(session, "shank.side").old


# ── heats that nobody marked ────────────────────────────────────────────────────────────────────────


def test_planned_heats_that_were_not_marked_come_before_what_was_read() -> None:
    session = begun(PIN)
    session.read("pin.length", "59.8")
    session.done()
    session.read("pin.length", "100")
    expected = {one.name: one.expected.value for one in session.standing().checks if one.expected}
    assert expected["pin.length"] == pytest.approx(100.0, abs=0.5)
    session.done()
    assert {one.label: one.expected.value for one in session.standing().sizes}["pin length"] == pytest.approx(
        100.0, abs=0.5
    )


# ── verdicts ────────────────────────────────────────────────────────────────────────────────────────


def test_a_length_is_judged_by_the_drawing_once_nothing_ahead_shapes_its_zone() -> None:
    assert check(peg("point.side=8.6", "point.length=80"), "point.length").verdict is Verdict.MORE_TO_GO
    over = check(peg("point.side=7.7", "point.length=96"), "point.length")
    assert over.verdict is Verdict.OUT
    assert "out, 2 mm over the 94 mm allowed" in reading_sentence(over, Shown("mm"))
    assert check(peg("point.side=8", "point.length=90"), "point.length").verdict is Verdict.GOOD


def test_a_length_is_never_out_while_its_section_is_still_to_be_worked() -> None:
    for sizes in (["point.length=60"], ["point.side=10", "point.length=58"], ["point.length=45"]):
        assert check(peg(*sizes), "point.length").verdict in (Verdict.MORE_TO_GO, Verdict.GOOD, None)
    assert check(peg("point.length=60"), "point.length").verdict is Verdict.MORE_TO_GO


@given(
    side=st.sampled_from(["8", "8.4", "9.5", "7.3", "6.6"]),
    length=st.sampled_from(["90", "75", "97", "50"]),
    shank=st.sampled_from(["12", "11.9"]),
)
def test_the_order_of_typing_changes_nothing(side: str, length: str, shank: str) -> None:
    sizes = [f"point.side={side}", f"point.length={length}", f"shank.side={shank}"]
    standings = [peg(*order).standing() for order in permutations(sizes)]
    for one in standings[1:]:
        assert one.chance == pytest.approx(standings[0].chance, abs=1e-9)
        assert one.verdict is standings[0].verdict
        for size, other in zip(one.sizes, standings[0].sizes, strict=True):
            assert size.expected.value == pytest.approx(other.expected.value)
        mine, first = ({c.name: (c.verdict, c.is_questioned) for c in s.checks} for s in (one, standings[0]))
        assert mine == first


# ── a finished tool ─────────────────────────────────────────────────────────────────────────────────


def finished(*sizes: str, insist: bool = True) -> Session:
    session = peg("heat", "heat", "point.side=8", "point.length=90")
    session.done()
    session.read("shank.side", "10")
    session.done()
    for size in sizes:
        session.read(*size.split("="), insist=insist)
    session.done()
    return session


def test_a_finished_tool_is_on_plan_only_where_every_size_is_inside() -> None:
    assert finished("shank.length=120").standing().verdict == "on plan"
    long = finished("shank.length=150").standing()
    assert long.verdict == "off plan"
    assert long.is_bad_news
    assert "Shank length is 150 ±0.5 mm, 18 mm over the 132 mm the drawing allows" in reason_text(
        long.reason, Shown("mm")
    )


def test_a_size_on_its_limit_is_not_told_as_certain() -> None:
    standing = finished("shank.length=131.8").standing()
    assert standing.verdict != "on plan"
    assert 0.05 < standing.chance < 0.95
    assert standing.is_bad_news


def test_what_nobody_has_measured_is_not_told_as_inside() -> None:
    session = peg()
    for _ in range(3):
        session.done()
    standing = session.standing()
    assert standing.verdict == "tight"
    assert "too near the" in reason_text(standing.reason, Shown("mm"))


@given(hundredths=st.integers(-300, 300))
def test_the_chance_of_a_finished_tool_has_no_cliff(hundredths: int) -> None:
    one, other = (
        finished(f"shank.length={132 + (hundredths + more) / 100:.2f}").standing().chance for more in (0, 1)
    )
    assert abs(one - other) < 0.02


# ── past this step ──────────────────────────────────────────────────────────────────────────────────


def test_a_size_past_its_step_but_inside_the_drawing_says_so_and_is_no_bad_news() -> None:
    text = PEG.replace("to: {side: 8 ±0.8}, heats: 2", "to: {side: 8 ±0.3}, heats: 2")
    # 7.4 square runs a sixth longer than 8 square: the drawing has room for that.
    session = begun(text.replace("length: 90 ±4", "length: 90 ±30"))
    answer = session.read("point.side", "7.4")
    found = check(session, "point.side")
    assert found.verdict is Verdict.PAST_STEP
    assert not answer.bad_news
    past = "past this step, 0.3 mm under the 7.7 mm allowed, and inside what is asked of it from here on."
    assert said(answer) == f"point side 7.4 mm: {past}"
    assert session.read("point.side", "6.9", insist=True).bad_news
    assert check(session, "point.side").verdict is Verdict.GONE_PAST


def test_what_was_measured_and_is_outside_is_told_before_what_nobody_has_measured() -> None:
    session = peg()
    session.done()
    session.read("shank.side", "11.6", insist=True)
    session.done()
    session.done()
    standing = session.standing()
    assert standing.verdict == "off plan"
    assert reason_text(standing.reason, Shown("mm")).startswith("Shank side is 11.")
    unmeasured = peg()
    for _ in range(3):
        unmeasured.done()
    assert "is not measured; it is reckoned at" in reason_text(unmeasured.standing().reason, Shown("mm"))


def test_finishing_a_step_that_moves_nothing_does_not_change_the_verdict() -> None:
    session = peg("heat", "heat", "point.side=8", "point.length=90")
    session.done()
    session.heat()
    session.read("shank.side", "10")
    session.done()
    session.read("shank.length", "131.9", insist=True)
    before = session.standing()
    session.done()
    after = session.standing()
    assert before.verdict == after.verdict
    assert reason_text(before.reason, Shown("mm")) == reason_text(after.reason, Shown("mm"))
    assert before.chance == pytest.approx(after.chance, abs=0.02)
    assert before.verdict != "on plan"


@pytest.mark.parametrize("first", [None, "75"])
def test_a_taper_is_no_shorter_than_the_bar_it_is_drawn_from(first: str | None) -> None:
    hook = at_step("first-hook", 2)
    hook.heat()
    if first is not None:
        hook.read("tip.length", first)
    for slip in ("8.2", "20"):
        hook.read("tip.length", slip)
        assert reading(hook, "tip.length").questioned
        hook.strike()
    hook.read("tip.length", "88")
    assert not reading(hook, "tip.length").questioned


# ── the bound of a length ───────────────────────────────────────────────────────────────────────────


def hook_shank(*sizes: str) -> Session:
    """The shank of the first hook, drawn: 110 ±10 mm long in the drawing, and no step ahead draws it."""
    session = at_step("first-hook", 3)
    session.heat()
    session.heat()
    for size in sizes:
        session.read(*size.split("="))
    return session


def test_a_length_whose_section_is_good_is_told_with_what_its_reading_is_held_against() -> None:
    """Not with a bound that is only so while the section has more to give."""
    told_before = check(hook_shank("shank.side=8.2"), "shank.length").wanted
    assert told_before is not None
    assert told_before.limits.low == pytest.approx(100.0, abs=0.1)
    assert told_before.limits.high == pytest.approx(120.0, abs=0.1)
    told_after = check(hook_shank("shank.side=8.2", "shank.length=105"), "shank.length").wanted
    assert told_after is not None
    assert told_after.limits == told_before.limits


def test_a_length_whose_section_has_more_to_go_keeps_the_least_that_holds_its_metal() -> None:
    wanted = check(hook_shank("shank.side=9.5"), "shank.length").wanted
    assert wanted is not None
    assert not isfinite(wanted.limits.high)  # the rest of the section makes it longer still


def test_the_end_of_a_step_asks_with_what_the_drawing_refuses_of_it_then() -> None:
    session = hook_shank("shank.side=8.2", "shank.length=96")
    asks = "shank length ends at 96 mm, 4 mm under the 100 mm the drawing allows, and no step ahead works it"
    warning = session.done_warning()
    assert unsettled_text(warning, Shown("mm")) == asks
    assert warning.is_bad_news
    answer = session.done()
    assert f"({asks})" in said(answer)
    assert reason_text(session.standing().reason, Shown("mm")).endswith(
        "under the 100 mm the drawing allows."
    )


@pytest.mark.parametrize("heats", [0, 2])
def test_the_end_of_a_step_says_of_a_length_what_it_counts_as_where_its_section_was_not_read(
    heats: int,
) -> None:
    """It goes with the section, which counts as worked: the row says so, and no verdict refuses it."""
    session = at_step("first-hook", 3)
    for _ in range(heats):
        session.heat()
    session.read("shank.length", "70")
    warning = session.done_warning()
    assert warning.outside == {}
    answer = said(session.done())
    assert "shank length was 70 mm when it was read and counts as worked on, to about 110 mm" in answer
    assert "no step ahead works it" not in answer
    row = next(size for size in session.standing().sizes if size.name == "shank.length")
    assert row.state is SizeState.GOOD


def test_the_end_of_a_step_says_what_a_length_is_where_its_section_was_read_with_it() -> None:
    """64 + 121 + 9 mm^2 over six times 74 mm are 2393 of 3060 mm^3 by the width asked for: it stays at 74."""
    session = at_step("first-hook", 2)
    for _ in range(3):
        session.heat()
    for typed in ("thickness=8", "end_thickness=3", "length=74"):
        name, _, size = typed.partition("=")
        session.read(f"tip.{name}", size)
    warning = session.done_warning()
    asks = "tip length ends at 74 mm, 7 mm under the 81 mm the drawing allows, and no step ahead works it"
    assert (unsettled_text(warning, Shown("mm")), warning.counted) == (asks, {})
    session.done()
    assert session.standing().is_off


def test_the_end_of_a_step_says_no_such_thing_of_a_size_that_a_step_ahead_works() -> None:
    session = at_step("cold-chisel", 2)
    session.heat()
    session.read("edge.end_thickness", "6")
    assert session.done_warning().outside == {}


@pytest.mark.parametrize("diameter", ["7.8", "7.85", "7.9"])
def test_a_wound_bar_is_told_no_thicker_than_the_bar_that_it_is_wound_of(diameter: str) -> None:
    """A round bar of 8, read thinner at its shank: five heats thin what is wound of it, and no hammer does.

    It was told as worked to 7.9, and scaled from there.
    """
    session = at_step("coiled-stove-poker", 1)
    session.read("shank.diameter", diameter, insist=True)
    grip, shank = (
        next(one.expected.value for one in session.standing().sizes if one.name == f"{zone}.diameter")
        for zone in ("grip", "shank")
    )
    assert grip <= shank
