"""A job on the disk: put down, opened again, worked on from two windows."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.bench.session import Session
from coach.log.errors import OutOfDate
from tests.bench.jobs import HAMMER, begun, shop
from tests.ledger.recipes import DRAW, LAID
from tests.spelt_out import file_text
from tests.told import summary_of


def a_busy_morning(session: Session) -> None:
    """Some of everything."""
    session.read("poll.length", "48.5", gauge="rule")
    session.read("eye.length", "44")
    session.done()
    session.heat()
    session.read("poll.side", "35.2", hot="light red")
    session.heat()
    session.read("poll.side", "34.1")
    session.note("The corner by the eye is a little cold.")
    session.read("poll.length", "140")
    session.done()
    session.strike()
    session.done(4)
    session.heat()
    session.read("eye.hole_length", "26.2", gauge="template")
    session.rest()


def test_a_job_opened_again_stands_where_it_was_left(tmp_path: Path) -> None:
    with shop(tmp_path / "shop.log") as first:
        session = begun(HAMMER, first)
        a_busy_morning(session)
        left = session.standing()
        history, summary = session.history(), summary_of(session)
    with shop(tmp_path / "shop.log") as second:
        again = second.open(session.job)
        assert again.standing() == left
        assert again.history() == history
        assert summary_of(again) == summary


def test_every_entry_is_on_the_disk_before_it_is_answered(tmp_path: Path) -> None:
    with shop(tmp_path / "shop.log") as one, shop(tmp_path / "shop.log") as other:
        session = begun(DRAW, one)
        for enter in (session.heat, lambda: session.note("x"), lambda: session.read("strap.width", "40")):
            enter()
            assert other.open(session.job).standing() == session.standing()


def test_a_standing_asked_for_in_between_changes_nothing(tmp_path: Path) -> None:
    with shop(tmp_path / "shop.log") as place:
        watched, blind = begun(HAMMER, place, "watched"), begun(HAMMER, place, "blind")
        for session, looks in ((watched, True), (blind, False)):
            session.done()
            session.read("poll.side", "3", insist=True)
            if looks:
                session.standing()
            session.read("poll.side", "34.5", insist=True)
        one, other = watched.standing(), blind.standing()
        assert (one.trouble, one.reason, one.chance, one.sizes) == (
            other.trouble,
            other.reason,
            other.chance,
            other.sizes,
        )


def test_the_recipe_s_file_may_change_without_changing_the_job(tmp_path: Path) -> None:
    file = tmp_path / "strap.yaml"
    file.write_text(file_text(DRAW), encoding="utf-8")
    with shop(tmp_path / "shop.log") as place:
        session = place.begin(file.read_text(encoding="utf-8"), str(file))
        before = session.standing()
        file.write_text("recipe: Something else altogether\n", encoding="utf-8")
        assert place.open(session.job).standing() == before
    file.unlink()
    with shop(tmp_path / "shop.log") as place:
        assert place.open(session.job).standing() == before


def test_two_windows_never_write_over_each_other(tmp_path: Path) -> None:
    with shop(tmp_path / "shop.log") as one, shop(tmp_path / "shop.log") as other:
        bench = begun(DRAW, one)
        tablet = other.open(bench.job)
        tablet.read("strap.width", "40.2")
        with pytest.raises(OutOfDate):
            bench.heat()
        # The bench has caught up and shows what the tablet entered; nothing of its own was written.
        assert bench.standing() == tablet.standing()
        bench.heat()
        assert tablet.refresh()
        assert not tablet.refresh()
        assert tablet.standing() == bench.standing()
        assert [view.kind for view in tablet.history()] == ["began", "reading", "heat"]


def test_a_window_sees_what_another_struck_out(tmp_path: Path) -> None:
    with shop(tmp_path / "shop.log") as one, shop(tmp_path / "shop.log") as other:
        bench = begun(DRAW, one)
        bench.heat()
        tablet = other.open(bench.job)
        bench.strike()
        assert tablet.refresh()
        assert tablet.standing().heats == 0


def test_two_jobs_in_one_log_do_not_disturb_each_other(tmp_path: Path) -> None:
    with shop(tmp_path / "shop.log") as place:
        strap, chisel = begun(DRAW, place), begun(LAID, place)
        strap.heat()
        chisel.done()
        strap.read("strap.width", "40")
        assert strap.standing().heats == 1
        assert chisel.standing().step is not None
        assert chisel.standing().last_entry == 2
        assert not chisel.refresh()
