"""What a day's readings say of the metal: spare, shortage, sizes that are stuck."""

from __future__ import annotations

import pytest

from coach.bench.session import Session
from coach.telling.figures import write_figure
from coach.telling.sizes import spare_text
from coach.telling.writing import Shown
from tests.bench.jobs import HAMMER, begun
from tests.ledger.recipes import DRAW, FLAT_SCALE, LAID
from tests.told import said, summary_of, why

CUT = """
title: Cut and drawn
pieces:
  bar: {metal: mild steel, stock: {form: square, side: 20}}
drawing:
  bar: {form: square, side: 16 ±0.5, length: 150 ±6}
steps:
  - {do: cut, zone: bar, heats: 1, check: [length]}
  - {do: draw, zone: bar, to: {side: 16 ±0.5}, heats: 3, check: [side, length]}
"""

#: A draw, an eye through the width, and a last squaring: drawn too thin, the eye leaves no wall.
THIN_EYE = """
title: Eye in a strap
pieces:
  strap: {metal: mild steel, stock: {form: flat, width: 30, thickness: 20}}
drawing:
  strap: {form: eyed, through: width, width: 30, thickness: 16 ±1, length: 60,
    hole length: 20, hole width: 10}
steps:
  - {do: draw, zone: strap, to: {thickness: 16 ±1}, heats: 1}
  - {do: punch, zone: strap, through: width, free: length, to: {hole length: 20, hole width: 10}, heats: 2}
  - {do: square, zone: strap, free: length, to: {thickness: 16 ±1, width: 30}, heats: 1}
"""


def spare(session: Session, label: str) -> float:
    return next(one.spare.value for one in session.standing().spares if one.label == label)


def test_a_job_begins_with_the_spare_its_drawing_allows() -> None:
    session = begun(DRAW)
    standing = session.standing()
    # 240 mm are marked out for, 228 would do.
    assert spare(session, "strap length") == pytest.approx(12.0, abs=0.01)
    assert standing.verdict == "on plan"
    assert spare_text(standing.spares[0].spare, Shown()).startswith("12 mm (at least ")


def test_a_short_bar_is_told_as_a_shortage_before_it_is_cut() -> None:
    session = begun(CUT)
    cut = session.plan.cuts[0].length.value
    whole = spare(session, "bar length")
    answer = session.read("bar.length", f"{cut - 10:.1f}", insist=True)
    # 10 mm of 20 mm square is 15.6 mm of 16 mm square.
    assert spare(session, "bar length") == pytest.approx(whole - 15.6, abs=1.0)
    assert answer.bad_news
    standing = session.standing()
    assert spare_text(standing.spares[0].spare, Shown()).startswith("short by")
    assert standing.verdict == "off plan"
    assert "short of the least the drawing allows" in why(standing)


def test_cutting_at_the_length_reckoned_leaves_the_job_where_it_was() -> None:
    session = begun(CUT)
    before = spare(session, "bar length")
    session.heat()
    assert spare(session, "bar length") == pytest.approx(before, abs=0.05)
    session.done()
    assert spare(session, "bar length") == pytest.approx(before, abs=0.05)
    session.read("bar.length", f"{session.plan.cuts[0].length.value:.1f}", gauge="rule")
    assert session.standing().questioned == ()


def test_a_size_gone_past_that_no_step_restores_is_off_plan_for_good() -> None:
    session = begun(DRAW)
    session.read("strap.thickness", "7.0", insist=True)
    session.read("strap.thickness", "7.0")
    session.done()
    standing = session.standing()
    assert standing.verdict == "off plan"
    assert "Strap thickness is 7 ±0.2 mm, 0.5 mm under the 7.5 mm the drawing allows" in why(standing)
    assert next(size.state for size in standing.sizes if size.dimension == "thickness") == "under"


def test_a_size_that_is_still_too_big_goes_on_plan_while_its_step_lasts() -> None:
    session = begun(DRAW)
    session.read("strap.thickness", "10.5")
    assert session.standing().verdict == "on plan"
    session.done()
    # Left so, nothing brings it down any more.
    assert session.standing().verdict == "off plan"
    assert "over the 8.5 mm the drawing allows" in why(session.standing())


def test_steel_is_never_counted_as_iron() -> None:
    session = begun(f"{FLAT_SCALE}\n{LAID}")
    session.done()
    session.heat()
    session.read("bit.thickness", "5")
    session.read("bit.width", "40")
    session.read("bit.length", "65", insist=True)
    more_steel = session.standing()
    for _ in range(3):
        session.done()
    standing = session.standing()
    # What it was when it went on is told, less the scale of the heats till then.
    assert {size.dimension: size.expected.value for size in standing.sizes if size.zone == "bit"} == {
        "thickness": pytest.approx(5, abs=0.3),
        "width": pytest.approx(40, abs=0.3),
        "length": pytest.approx(65, abs=0.3),
    }
    assert more_steel.spares[0].zone == "shank"
    # 2 mm more of 40 × 5 steel than was expected is 1 mm more of a 42 × 10 blade: the metal adds up.
    plain = begun(f"{FLAT_SCALE}\n{LAID}")
    for _ in range(4):
        plain.done()
    assert spare(session, "blade length") - spare(plain, "blade length") == pytest.approx(1.0, abs=0.4)


def test_metal_that_cannot_go_on_is_told_and_a_strike_heals_it() -> None:
    session = begun(f"{FLAT_SCALE}\n{THIN_EYE}")
    before = session.standing()
    made = session.read("strap.thickness", "7", insist=True)
    assert made.bad_news
    standing = session.standing()
    assert "leaves no wall" in str(standing.trouble)
    assert standing.reason == standing.trouble
    assert (standing.verdict, standing.chance) == ("off plan", 0.0)
    session.done()
    session.heat()
    session.done()
    session.note("Started again with a heavier bar.")
    stopped = session.standing()
    assert "leaves no wall" in str(stopped.trouble)
    assert stopped.step is not None
    assert stopped.checks == ()
    assert said(session.read("strap.length", "60")) == why(stopped)
    assert any(line.startswith("Stands: Off plan, under 1 %: ") for line in summary_of(session))
    session.strike(made.entry)
    healed = session.standing()
    assert not healed.trouble
    assert "above the least the drawing allows" in why(healed)  # and only that is held against it
    assert healed.verdict == "tight"
    assert not before.trouble


def test_a_day_of_readings_sharpens_what_is_known() -> None:
    session = begun(HAMMER)
    doubts = [session.standing().spares[0].spare.doubt or 0.0]
    session.read("poll.length", f"{session.plan.start_mm3['poll'] / 36**2:.1f}", gauge="calliper")
    doubts.append(session.standing().spares[0].spare.doubt or 0.0)
    session.done()
    session.heat()
    session.heat()
    session.read("poll.side", "34.0")
    doubts.append(session.standing().spares[0].spare.doubt or 0.0)
    length = session.standing().checks[1].expected
    assert length is not None
    session.read("poll.length", f"{length.value:.1f}", gauge="calliper")
    doubts.append(session.standing().spares[0].spare.doubt or 0.0)
    assert doubts == sorted(doubts, reverse=True)


def test_an_expected_size_is_shown_for_the_end_of_the_step() -> None:
    session = begun(DRAW)
    standing = session.standing()
    assert [check.expected and write_figure(check.expected) for check in standing.checks] == [
        "8 mm",
        "40 mm",
        "240 mm",
    ]
