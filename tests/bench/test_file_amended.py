"""A job follows its recipe's changed file: shown before it is taken, struck out again, kept in replay."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from coach.bench.entering import EntryFault
from coach.bench.file_amended import ADDED, CHANGED, GONE
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.bench.zones_matched import CannotFollow
from coach.ledger.verdict import PlanState
from coach.telling.file_amended import file_amended_page
from coach.telling.page import Line
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import shop as a_shop

TOOL = """\
recipe: Strap
pieces:
  strap:
    metal: mild steel
    bar: 40 x 12
    zones:
      blade: 40 ±1 x 8 ±0.5, long 240 ±12
      tang: 20 ±1 x 12, long 120 ±10
steps:
  - mark out: strap
  - draw: blade, 3 heats
  - draw: tang, 2 heats
  - straighten: blade, bow at most 2, 1 heat, at orange
"""


@pytest.fixture
def shop() -> Iterator[Shop]:
    with a_shop() as opened:
        yield opened


def begun(shop: Shop, done: int = 1) -> Session:
    session = shop.begin(TOOL, "strap.yaml")
    for _ in range(done):
        session.done()
    return session


def changed(was: str, now: str, text: str = TOOL) -> str:
    assert was in text
    return text.replace(was, now)


def test_the_same_file_changes_nothing_and_is_not_taken(shop: Shop) -> None:
    session = begun(shop)
    assert session.file_changes(TOOL, "strap.yaml").changes.is_none
    with pytest.raises(EntryFault, match="nothing to take"):
        session.amend(TOOL, "strap.yaml")


def test_steps_added_gone_and_changed_are_told_with_what_is_otherwise(shop: Shop) -> None:
    session = begun(shop)
    text = changed("draw: tang, 2 heats", "draw: tang, 4 heats")
    text = changed("  - straighten: blade, bow at most 2, 1 heat, at orange\n", "", text)
    text = changed("  - draw: tang", "  - inspect: blade\n  - draw: tang", text)
    told = session.file_changes(text, "strap.yaml")
    assert {(one.what, one.title) for one in told.changes.ahead} == {
        (ADDED, "Inspect the blade"),
        (GONE, "Straighten the blade"),
        (CHANGED, "Draw the tang"),
    }
    (tang,) = [one for one in told.changes.ahead if one.what == CHANGED]
    assert write(tang.words) == "4 heats, was 2"
    assert (told.before.heats, told.after.heats) == (6, 7)
    assert len(session.recipe.steps) == 4  # nothing was entered by looking


def test_taken_it_counts_from_here_on_and_after_opening_again_and_undo_takes_it_back(shop: Shop) -> None:
    session = begun(shop)
    text = changed("  - draw: tang", "  - inspect: blade\n  - draw: tang")
    answer = session.amend(text, "strap.yaml")
    assert [step.title for step in session.recipe.steps][2] == "Inspect the blade"
    again = shop.open(session.job)
    assert [step.title for step in again.recipe.steps] == [step.title for step in session.recipe.steps]
    assert shop.summary(session.job).steps == 5
    session.strike(answer.entry)
    assert [step.title for step in session.recipe.steps][2] == "Draw the tang"
    assert shop.summary(session.job).steps == 4


def test_what_is_done_is_too_late_and_stays_as_it_was_done(shop: Shop) -> None:
    session = begun(shop, done=2)
    text = changed("draw: blade, 3 heats", "draw: blade, 40 x 6, 5 heats")
    told = session.file_changes(text, "strap.yaml")
    (late,) = told.changes.too_late
    assert (late.number, late.what) == (2, CHANGED)
    assert "thickness 6 mm, was 8 ±0.5 mm" in write(late.words)
    session.amend(changed("long 120 ±10", "long 120 ±20", text), "strap.yaml")
    assert session.recipe.steps[1].targets["thickness"].nominal == 8.0


def test_a_new_limit_of_the_drawing_changes_the_spare_by_as_much(shop: Shop) -> None:
    session = begun(shop)
    told = session.file_changes(changed("long 240 ±12", "long 240 ±20"), "strap.yaml")
    (size,) = told.changes.sizes
    assert (size.zone, size.dimension, size.now.limits.low) == ("blade", "length", 220.0)
    spare = {
        when: next(
            one.spare.value for one in stands.spares if (one.zone, one.dimension) == ("blade", "length")
        )
        for when, stands in (("before", told.before), ("after", told.after))
    }
    assert spare["after"] - spare["before"] == pytest.approx(8.0)  # 240 − 12 and 240 − 20
    lines = [
        one.words
        for part in file_amended_page(told, Shown()).sections
        for one in part.body
        if isinstance(one, Line)
    ]
    assert any(line.startswith("on plan") for line in lines)


@pytest.mark.parametrize(
    ("was", "now", "told"),
    [
        ("bar: 40 x 12", "bar: 50 x 12", "The bar of strap in the file is another"),
        ("  strap:\n", "  hook:\n", "The file makes the hook, and this job the strap"),
    ],
)
def test_a_file_of_another_tool_is_refused_in_one_sentence(shop: Shop, was: str, now: str, told: str) -> None:
    session = begun(shop)
    text = changed(was, now).replace("out: strap", "out: hook") if "hook" in now else changed(was, now)
    with pytest.raises(CannotFollow) as refused:
        session.file_changes(text, "strap.yaml")
    assert told in write(refused.value.words)


def test_a_file_of_another_steel_is_followed_and_says_so(shop: Shop) -> None:
    told = begun(shop).file_changes(changed("mild steel", "C45"), "strap.yaml")
    assert [tuple(one) for one in told.changes.grades] == [("strap", "mild steel", "C45")]
    lines = [one for part in file_amended_page(told, Shown()).sections for one in part.body]
    assert any(isinstance(one, Line) and one.words == "strap: C45, was mild steel" for one in lines)


def test_a_step_that_is_begun_cannot_go(shop: Shop) -> None:
    session = begun(shop)
    session.heat()
    with pytest.raises(CannotFollow) as refused:
        session.file_changes(changed("  - draw: blade, 3 heats\n", ""), "strap.yaml")
    assert "is begun and the file has it no more" in write(refused.value.words)


def test_a_step_that_is_begun_takes_its_new_size(shop: Shop) -> None:
    session = begun(shop)
    session.heat()
    session.amend(changed("draw: blade, 3 heats", "draw: blade, 40 ±1 x 9 ±0.5, 3 heats"), "strap.yaml")
    step = session.standing().step
    assert step is not None
    assert [one.wanted.limits.nominal for one in step.targets if one.dimension == "thickness"] == [9.0]
    assert session.standing().heats == 1


def test_it_is_struck_out_only_once_what_was_entered_since_is(shop: Shop) -> None:
    session = begun(shop)
    entry = session.amend(changed("draw: tang, 2 heats", "draw: tang, 4 heats"), "strap.yaml").entry
    session.heat()
    with pytest.raises(EntryFault, match="strike that out first"):
        session.strike(entry)
    session.strike()
    session.strike(entry)
    assert session.recipe.steps[2].heats == 2


TWO = """\
recipe: Strap and its wedge
pieces:
  strap:
    metal: mild steel
    bar: 40 x 12
    zones:
      blade: 40 ±1 x 8 ±0.5, long 240 ±12
      tang: 20 ±1 x 12, long 120 ±10
  wedge:
    metal: mild steel
    bar: 25 x 10
    zones:
      nose: 25 ±1 x 6 ±0.5, long 60 ±4
steps:
  - mark out: strap
  - draw: blade, 3 heats
  - draw: tang, 2 heats
  - mark out: wedge
  - draw: nose, 2 heats
"""


def the_mark(session: Session, zone: str) -> float:
    """Where the zone is expected to end on its bar, mm."""
    now = session._state.now
    assert now is not None
    return now.size(zone, "mark").value


def test_a_bar_that_is_not_marked_yet_is_marked_for_the_new_size(shop: Shop) -> None:
    # By hand: the blade keeps its section, 40 x 8 of a bar of 40 x 12, so that half the length wants half
    # the bar, but for the scale of its heats.
    session = begun(shop, done=0)
    was = the_mark(session, "blade")
    told = session.file_changes(changed("long 240 ±12", "long 120 ±6"), "strap.yaml")
    assert told.after.verdict is told.before.verdict
    assert [one.zone for one in told.marks] == ["blade", "tang"]
    assert "Marks still to be made" in [part.heading for part in file_amended_page(told, Shown()).sections]
    session.amend(changed("long 240 ±12", "long 120 ±6"), "strap.yaml")
    assert the_mark(session, "blade") == pytest.approx(was / 2.0, rel=0.02)
    (length,) = [one for one in session.standing().sizes if one.name == "blade.length"]
    assert length.expected.value == pytest.approx(120.0, abs=1.0)
    session.strike(session._entries[-1].number)
    assert the_mark(session, "blade") == pytest.approx(was)


def test_a_bar_that_is_marked_stays_as_it_is_marked(shop: Shop) -> None:
    session = begun(shop, done=1)
    was = the_mark(session, "blade")
    session.amend(changed("long 240 ±12", "long 120 ±6"), "strap.yaml")
    assert the_mark(session, "blade") == pytest.approx(was)
    assert session.standing().verdict is not PlanState.ON_PLAN  # twice as long as the drawing wants it


def test_a_mark_that_was_read_stays_where_it_was_read(shop: Shop) -> None:
    session = begun(shop, done=0)
    was = the_mark(session, "blade")
    session.read("blade.mark", str(was))
    session.amend(changed("long 240 ±12", "long 228 ±12"), "strap.yaml")
    assert the_mark(session, "blade") == pytest.approx(was, abs=1.0)


def test_another_bar_that_is_not_marked_yet_is_marked_anew_too(shop: Shop) -> None:
    session = shop.begin(TWO, "strap.yaml")
    for _ in range(2):
        session.done()
    was, blade = the_mark(session, "nose"), the_mark(session, "blade")
    session.amend(changed("long 60 ±4", "long 90 ±4", TWO), "strap.yaml")
    assert the_mark(session, "nose") == pytest.approx(1.5 * was, rel=0.02)
    assert the_mark(session, "blade") == pytest.approx(blade)
    assert session.standing().verdict is PlanState.ON_PLAN


# ── other zones and other pieces ────────────────────────────────────────────────────────────────────

PARTED = TOOL.replace(
    "      tang: 20 ±1 x 12, long 120 ±10\n",
    "      shoulder: 30 ±1 x 12, long 40 ±4\n      tang: 20 ±1 x 12, long 60 ±6\n",
).replace("  - draw: tang, 2 heats\n", "  - draw: shoulder, 1 heat\n  - draw: tang, 1 heat\n")


def metal_mm3(session: Session, *zones: str) -> float:
    now = session._state.now
    assert now is not None
    return sum(now.volume_mm3(zone) for zone in zones)


def test_a_zone_that_nothing_was_done_to_can_be_parted_and_its_metal_stays(shop: Shop) -> None:
    # By hand: 30 · 12 · 40 = 14 400 mm³ and 20 · 12 · 60 = 14 400 mm³ finished, so either has about half of
    # what the tang was, but for their scale.
    session = begun(shop, done=2)
    tang_mm3 = metal_mm3(session, "tang")
    told = session.file_changes(PARTED, "strap.yaml")
    (piece,) = told.changes.pieces
    assert (piece.was, piece.now) == (("blade", "tang"), ("blade", "shoulder", "tang"))
    assert "shoulder" in {one.zone for one in told.marks}
    session.amend(PARTED, "strap.yaml")
    assert metal_mm3(session, "shoulder", "tang") == pytest.approx(tang_mm3)
    assert metal_mm3(session, "shoulder") == pytest.approx(0.5 * tang_mm3, rel=0.03)
    session.read("shoulder.width", "30")
    session.done()
    session.done()
    step = session.standing().step
    assert step is not None
    assert step.number == 5
    again = shop.open(session.job)
    assert metal_mm3(again, "tang") == pytest.approx(metal_mm3(session, "tang"))


def test_a_parted_zone_can_be_made_one_again_and_struck_out_comes_back(shop: Shop) -> None:
    session = shop.begin(PARTED, "strap.yaml")
    session.done()
    session.done()
    both_mm3 = metal_mm3(session, "shoulder", "tang")
    entry = session.amend(TOOL, "strap.yaml").entry
    assert metal_mm3(session, "tang") == pytest.approx(both_mm3)
    assert session.sheet() is not None
    session.strike(entry)
    assert metal_mm3(session, "shoulder", "tang") == pytest.approx(both_mm3)


def test_a_zone_ahead_takes_another_name_with_what_was_read_of_its_mark(shop: Shop) -> None:
    session = begun(shop, done=0)
    session.read("tang.mark", str(the_mark(session, "tang") + 3.0))
    session.done()
    was = the_mark(session, "tang")
    session.amend(TOOL.replace("tang", "tail"), "strap.yaml")
    assert the_mark(session, "tail") == pytest.approx(was)


@pytest.mark.parametrize(
    ("was", "now", "told"),
    [
        ("blade", "leaf", "Step 2, Draw the blade, is done"),
        ("      blade: 40", "      tip: 20 x 8, long 30\n      blade: 40", "There is no bar for the tip"),
    ],
)
def test_what_is_worked_keeps_its_zones(shop: Shop, was: str, now: str, told: str) -> None:
    session = begun(shop, done=2)
    with pytest.raises(CannotFollow) as refused:
        session.file_changes(TOOL.replace(was, now), "strap.yaml")
    assert told in write(refused.value.words)


def test_a_zone_whose_bar_would_be_left_over_is_not_taken_out(shop: Shop) -> None:
    session = begun(shop, done=2)
    text = changed("      tang: 20 ±1 x 12, long 120 ±10\n", "")
    text = changed("  - draw: tang, 2 heats\n", "", text)
    with pytest.raises(CannotFollow) as refused:
        session.file_changes(text, "strap.yaml")
    assert "The bar of the tang is still there" in write(refused.value.words)


PIN = "  pin:\n    metal: mild steel\n    bar: round 12\n    size: round 8 ±0.5, long 60 ±6\n"


def test_a_piece_is_added_changed_and_taken_out_while_nothing_is_done_to_it(shop: Shop) -> None:
    session = shop.begin(TWO, "strap.yaml")
    session.done()
    session.done()
    text = changed("steps:\n", PIN + "steps:\n", TWO) + "  - draw: pin, 2 heats\n"
    text = changed("    bar: 25 x 10\n", "    bar: 30 x 10\n", text)
    blade_mm3 = metal_mm3(session, "blade")
    told = session.file_changes(text, "strap.yaml")
    assert ("pin", (), ("pin",)) in [tuple(one) for one in told.changes.pieces]
    assert [one.piece for one in told.changes.bars] == ["wedge"]
    session.amend(text, "strap.yaml")
    assert metal_mm3(session, "blade") == pytest.approx(blade_mm3)
    while session.standing().step is not None:
        session.done()
    assert {size.zone for size in session.sheet().sizes} >= {"pin", "nose", "blade"}
    metal = session.sheet().metal
    assert metal is not None
    assert [piece.piece for piece in metal.pieces] == ["strap", "wedge", "pin"]


def test_a_piece_is_taken_out_of_the_file_before_anything_is_done_to_it_and_no_later(shop: Shop) -> None:
    session = shop.begin(TWO, "strap.yaml")
    session.done()
    session.amend(TOOL, "strap.yaml")
    assert [*session.recipe.pieces] == ["strap"]
    session.strike()
    while session.standing().step is not None:
        session.done()
    session.back()
    with pytest.raises(CannotFollow, match="give it up"):
        session.file_changes(TOOL, "strap.yaml")


def test_another_zone_before_the_marks_are_made_begins_from_the_whole_bar(shop: Shop) -> None:
    session = begun(shop, done=0)
    session.read("blade.mark", str(the_mark(session, "blade")))
    session.amend(PARTED, "strap.yaml")
    assert shop.begin(PARTED, "p.yaml")._state.now is not None
    assert the_mark(session, "tang") == pytest.approx(the_mark(shop.begin(PARTED, "q.yaml"), "tang"))
    assert shop.open(session.job).standing().verdict is PlanState.ON_PLAN


def test_where_its_end_is_still_in_the_bar_a_zone_more_takes_more_of_that(shop: Shop) -> None:
    # By hand: a neck of 20 x 12 by 30 mm is 7200 mm³. Its one heat takes about 0.034 mm off the bare sides of
    # 15 mm of bar and of 30 mm of neck: 0.034 · (2 · 52 · 15 + 2 · 32 · 30) / 2 = 59 mm³.
    text = TOOL.replace("  - straighten: blade", "  - cut: tang, cold, kerf 2\n  - straighten: blade")
    session = shop.begin(text, "strap.yaml")
    session.done()
    session.done()
    tang_mm3 = metal_mm3(session, "tang")
    more = text.replace("      tang: 20", "      neck: 20 ±1 x 12 ±0.5, long 30 ±3\n      tang: 20")
    session.amend(more.replace("  - draw: tang", "  - draw: neck, 1 heat\n  - draw: tang"), "strap.yaml")
    assert metal_mm3(session, "neck") == pytest.approx(7200.0, rel=0.02)
    assert metal_mm3(session, "tang") == pytest.approx(tang_mm3, rel=0.01)
    assert session.standing().verdict is PlanState.ON_PLAN


def test_another_steel_before_the_marks_are_made_is_told_as_that_and_not_as_another_bar(shop: Shop) -> None:
    session = begun(shop, done=0)
    text = changed("metal: mild steel", "metal: C45")
    told = session.file_changes(text, "strap.yaml")
    assert [(one.piece, one.was, one.now) for one in told.changes.grades] == [("strap", "mild steel", "C45")]
    assert told.changes.bars == ()
    assert "strap of C45" in write(told.changes.words)


def test_another_bar_of_another_steel_is_told_as_both(shop: Shop) -> None:
    session = begun(shop, done=0)
    text = changed("    metal: mild steel\n    bar: 40 x 12", "    metal: C45\n    bar: 50 x 12")
    told = session.file_changes(text, "strap.yaml")
    assert [one.now for one in told.changes.grades] == ["C45"]
    ((piece, was, now),) = told.changes.bars
    assert (piece, write(was), write(now)) == ("strap", "flat 40 × 12 mm", "flat 50 × 12 mm")


def test_another_bar_is_told_by_its_section_and_its_length_and_those_it_had(shop: Shop) -> None:
    session = begun(shop, done=0)
    text = changed("    bar: 40 x 12", "    bar: 45 x 12, long 900")
    told = file_amended_page(session.file_changes(text, "strap.yaml"), Shown("mm"))
    told_lines = [one.words for part in told.sections for one in part.body if isinstance(one, Line)]
    assert "strap: flat 45 × 12 mm, 900 mm long, was flat 40 × 12 mm" in told_lines


LATCH = """\
recipe: Latch
scale: none
pieces:
  bar:
    metal: mild steel
    bar: square 12
    zones:
      tongue: 12 ±1 x 6 ±0.6, long 60 ±5
      grip: square 12 ±0.6, long 96 ±6
      end: square 12 ±0.6 to 5 ±0.6, long 90 ±8
usual: {at: light yellow, kerf: 1.5}
steps:
  - mark out: bar
  - draw: tongue, 2 heats
  - cut: end, cold
  - taper: end, 3 heats
"""
#: The end is 20 mm of neck and a shorter taper: 60·(144 + 60 + 25)/3 mm³ is 31.8 mm of bar (by hand).
WITH_NECK = LATCH.replace(
    "      end: square 12 ±0.6 to 5 ±0.6, long 90 ±8",
    "      neck: square 12 ±0.6, long 20 ±2\n      end: square 12 ±0.6 to 5 ±0.6, long 60 ±6",
)


def test_a_mark_that_the_changed_file_adds_is_asked_for_at_the_bench_until_its_step_is_done(
    shop: Shop,
) -> None:
    session = shop.begin(LATCH, "latch.yaml")
    for zone, at in (("tongue", "30"), ("grip", "126")):
        session.read(f"{zone}.mark", at)
    session.done()
    assert not session.standing().by_hand
    session.amend(WITH_NECK, "latch.yaml")
    (anew,) = session.standing().by_hand
    # 30 and 96 of bar as it is, then 20 of neck; the end takes 31.8 and a kerf of 1.5 behind that.
    told = write(anew.words)
    assert "Mark the bar from its end: neck 146 mm, end 179.5 mm" in told
    assert "grip" not in told  # that mark was made
    session.strike(session.history()[-1].number)
    assert not session.standing().by_hand
    session.amend(WITH_NECK, "latch.yaml")
    session.done()  # the tongue is drawn from 30 to 60 mm: both marks lie 30 mm further from its end
    told = write(session.standing().by_hand[0].words)
    assert "Mark the bar from its end: neck 176 mm, end 209.5 mm" in told
    session.done()
    assert not session.standing().by_hand  # it is cut there


def test_a_mark_that_the_file_adds_where_another_was_to_be_made_is_told_with_the_others(shop: Shop) -> None:
    """Nothing is marked: neck's lies where end's was to, and end's 20 mm of bar further."""
    session = shop.begin(LATCH, "latch.yaml")
    told = session.file_changes(WITH_NECK.replace("long 60 ±6", "long 90 ±8"), "latch.yaml")
    assert {one.zone for one in told.marks} == {"neck", "end"}


def test_the_marks_of_a_piece_more_are_told(shop: Shop) -> None:
    session = shop.begin(STAKES, "stake.yaml")
    told = session.file_changes(STAKES.replace("make: 2", "make: 3"), "stake.yaml")
    assert {one.zone for one in told.marks} >= {"stake 3 point"}


STAKES = """\
recipe: Tent stake
make: 2
pieces:
  stake:
    metal: mild steel
    bar: round 8, long 1200
    zones:
      point: round 8 to 3, long 60 ±6
      shank: round 8, long 120 ±6
usual: {at: light yellow, kerf: 2}
steps:
  - mark out: stake
  - taper: point
  - cut: shank, cold
"""


def test_a_mark_that_stays_where_it_was_read_is_none_still_to_be_made(shop: Shop) -> None:
    session = shop.begin(LATCH, "latch.yaml")
    session.read("grip.mark", "126.2")
    session.done()
    told = file_amended_page(session.file_changes(WITH_NECK, "latch.yaml"), Shown("mm"))
    (marks,) = [part for part in told.sections if part.heading == "Marks still to be made"]
    assert "neck" in str(marks)
    assert "grip" not in str(marks)


def test_another_bar_for_a_piece_that_is_begun_is_told_as_too_late(shop: Shop) -> None:
    session = shop.begin(LATCH, "latch.yaml")
    session.done()
    short = LATCH.replace("bar: square 12\n", "bar: square 12, long 150\n")
    changes = session.file_changes(short, "latch.yaml").changes
    (bar,) = changes.late_bars
    assert (bar.piece, write(bar.now)) == ("bar", "square 12 mm, 150 mm long")
    with pytest.raises(EntryFault, match="another bar, and nothing else ahead is otherwise"):
        session.amend(short, "latch.yaml")
    assert not session.file_changes(LATCH, "latch.yaml").changes.late_bars


def test_another_bar_before_anything_is_done_is_no_late_one(shop: Shop) -> None:
    session = shop.begin(LATCH, "latch.yaml")
    changes = session.file_changes(LATCH.replace("bar: square 12\n", "bar: square 12, long 900\n"), "l.yaml")
    assert changes.changes.bars
    assert not changes.changes.late_bars


def test_an_allowance_that_the_file_has_now_is_told_and_taken_before_the_bar_is_marked(shop: Shop) -> None:
    """A grip that stays as its bar is 96 mm of it; 10 % more are 105.6, so its mark is 9.6 mm further."""
    session = shop.begin(LATCH, "latch.yaml")
    fuller = LATCH.replace("long 96 ±6", "long 96 ±6, allowance 10 %")
    told = session.file_changes(fuller, "latch.yaml")
    assert [(one.zone, one.was, one.now) for one in told.changes.allowances] == [("grip", 0.0, 0.1)]
    moved = {one.zone: (one.was.value, one.now.value) for one in told.marks if one.was is not None}
    assert moved["grip"][1] - moved["grip"][0] == pytest.approx(9.6, abs=0.05)
    assert "grip: 10.0 %, was 0.0 %" in str(file_amended_page(told, Shown("mm")))
    session.amend(fuller, "latch.yaml")
    assert session.file_changes(fuller, "latch.yaml").changes.is_none


def test_an_allowance_of_a_bar_that_is_marked_is_nothing_to_take(shop: Shop) -> None:
    session = shop.begin(LATCH, "latch.yaml")
    session.done()
    fuller = LATCH.replace("long 96 ±6", "long 96 ±6, allowance 10 %")
    assert session.file_changes(fuller, "latch.yaml").changes.is_none
