"""A mark that a way back moves lies where it was moved: at the bench, on paper and on the plan."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from coach.bench.as_marked import with_marks_moved
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.ledger.amendment import Amendment, Regained
from coach.ledger.course import AmendmentMark
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.ledger.verdict import Verdict
from coach.places import bundled_recipes
from coach.quantities import Limits
from coach.recipe.reader import read_recipe
from coach.telling.in_the_end import in_the_end_text
from coach.telling.writing import Shown

HOOK = bundled_recipes() / "first-hook.yaml"

TONGS = bundled_recipes() / "bolt-tongs.yaml"


def moved_hook(folder: Path) -> tuple[Shop, Session]:
    """The mark at the end of the tip struck 3.6 mm short, and the way back that moves it into the shank."""
    shop = Shop(folder / "shop.sqlite", lambda: datetime(2026, 3, 2, 8, tzinfo=UTC))
    session = shop.begin(HOOK.read_text(encoding="utf-8"), HOOK.name)
    session.read("tip.mark", "27", insist=True)
    session.read("shank.mark", "103")
    session.read("plate.mark", "139.5")
    session.take("move-metal-shank-tip")
    return shop, session


def wanted(session: Session, name: str) -> Limits:
    check = next(one for one in session.standing().checks if one.name == name)
    assert check.wanted is not None
    return check.wanted.limits


def test_the_sheet_and_the_plan_have_a_moved_mark_where_the_bench_wants_it(tmp_path: Path) -> None:
    shop, session = moved_hook(tmp_path)
    with shop:
        asked = wanted(session, "tip.mark")
        sheet = session.on_paper()
        box = next(one for one in sheet.steps[0].to_read if one.name == "tip.mark")
        assert box.wanted is not None
        assert box.wanted.limits == pytest.approx(asked)
        for planned in (sheet.plan, session.as_planned()):
            piece = planned.pieces[0]
            places = {mark.ends: mark.at.value for mark in piece.marks}
            assert places["tip"] == pytest.approx(asked.nominal)
            lengths = {zone.zone: zone.length.value for zone in piece.zones}
            # By the definition of a mark: each zone is as long as the two at its ends are apart.
            assert lengths["tip"] == pytest.approx(places["tip"])
            assert lengths["shank"] == pytest.approx(places["shank"] - places["tip"])
            assert lengths["plate"] == pytest.approx(places["plate"] - places["shank"])
            assert piece.length.value == pytest.approx(places["plate"])


def test_it_stays_there_once_the_marking_is_done(tmp_path: Path) -> None:
    shop, session = moved_hook(tmp_path)
    with shop:
        asked = wanted(session, "tip.mark").nominal
        session.read("tip.mark", f"{asked:.1f}")
        session.done()
        for planned in (session.on_paper().plan, session.as_planned()):
            assert planned.pieces[0].marks[0].at.value == pytest.approx(asked)


def test_a_mark_moved_after_the_marking_is_moved_on_paper_too(tmp_path: Path) -> None:
    with Shop(tmp_path / "shop.sqlite", lambda: datetime(2026, 3, 2, 8, tzinfo=UTC)) as shop:
        session = shop.begin(HOOK.read_text(encoding="utf-8"), HOOK.name)
        session.read("tip.mark", "27", insist=True)
        session.done()
        was = session.as_planned().pieces[0].marks[0].at.value
        session.take("move-metal-shank-tip")
        by_hand = session.standing().step
        assert by_hand is not None
        assert by_hand.number == 2
        # It lay at 27 mm, and so much of it as the way says is moved: not from where the plan had it.
        assert 27.0 < session.on_paper().plan.pieces[0].marks[0].at.value < was


def test_mark_and_length_of_one_place_have_one_verdict_once_the_mark_is_moved(tmp_path: Path) -> None:
    """The tip begins at the end of the bar, so that its mark lies as far along as it is long."""
    for size in ("28.0", "28.9", "29.8"):
        found = []
        for name in ("tip.mark", "tip.length"):
            folder = tmp_path / f"{name}-{size}"
            folder.mkdir()
            shop, session = moved_hook(folder)
            with shop:
                assert wanted(session, "tip.length") == pytest.approx(wanted(session, "tip.mark"), abs=0.05)
                session.read(name, size)
                found.append(next(one.verdict for one in session.standing().checks if one.name == name))
        assert found == [Verdict.GOOD, Verdict.GOOD], size


def test_the_neighbour_is_wanted_by_so_much_longer_as_the_mark_before_it_is_nearer(tmp_path: Path) -> None:
    shop, session = moved_hook(tmp_path)
    with shop:
        places = [mark.at.value for mark in session.as_planned().pieces[0].marks]
        assert wanted(session, "shank.length").nominal == pytest.approx(places[1] - places[0], abs=0.1)


def test_what_is_told_of_the_end_begins_at_the_moved_mark(tmp_path: Path) -> None:
    shop, session = moved_hook(tmp_path)
    with shop:
        standing = session.standing()
        length = next(one for one in standing.checks if one.name == "tip.length")
        assert "from 28.9 ±2 mm" in in_the_end_text(length, standing.sizes, Shown())


def _way(zone: str, at_mm: float) -> AmendmentMark:
    return AmendmentMark(2, Amendment(regained=(Regained(zone, "mark", at_mm, 0.5),)))


def test_a_moved_end_moves_the_beginning_of_the_next_piece_on_its_bar() -> None:
    """The first arm's last mark 3 mm further along: it is 3 mm longer, and the second so much shorter."""
    plan: Plan = look_back(read_recipe(TONGS.read_text(encoding="utf-8"), TONGS.name))
    first, second = plan.pieces["arm 1"], plan.pieces["arm 2"]
    last = first.marks[-1]
    moved = with_marks_moved(plan, plan.recipe.steps[0], [_way(last.ends, last.at.value + 3.0)])
    longer, shorter = moved.pieces["arm 1"], moved.pieces["arm 2"]
    assert longer.length.value == pytest.approx(first.length.value + 3.0)
    assert longer.mass.value == pytest.approx(first.mass.value * longer.length.value / first.length.value)
    assert shorter.begins.value == pytest.approx(second.begins.value + 3.0)
    assert shorter.length.value == pytest.approx(second.length.value - 3.0)
    assert shorter.marks == second.marks
    assert shorter.zones[0].length.value == pytest.approx(second.zones[0].length.value - 3.0)
    (row,), (was,) = moved.rows, plan.rows
    assert row.pieces[0].ends.value == pytest.approx(was.pieces[0].ends.value + 3.0)
    assert row.length.value == pytest.approx(was.length.value)
    assert with_marks_moved(plan, plan.recipe.steps[0], []) is plan


def test_a_number_is_not_called_good_of_another_size_that_would_be_unsure_of_it(tmp_path: Path) -> None:
    """30.8 ±0.3 mm, by rule, is too near the 30.9 mm that the mark may lie at."""
    shop, session = moved_hook(tmp_path)
    with shop:
        session.read("tip.length", "28.0")
        session.read("tip.length", "30.8")
        length = next(one for one in session.standing().checks if one.name == "tip.length")
        assert length.is_questioned
        assert length.fits == ""
        session.read("tip.mark", "30.8")
        mark = next(one for one in session.standing().checks if one.name == "tip.mark")
        assert mark.verdict is Verdict.UNSURE
