"""Where a job stands in plain lines is painted while the screens are made ready, and only while it is so."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from coach.bench.shop import Shop
from coach.cli.glimpse import glimpse
from coach.cli.page import set_page
from coach.log.newest import Newest, newest_of
from coach.places import cache_folder, shop_file
from coach.remembered import Memory
from coach.telling.page import page
from coach.telling.summary import summary
from coach.telling.writing import Shown
from tests.benchmarks.processes import ESCAPE
from tests.cli.conftest import Coach
from tests.cli.test_remembering import DEEDS

LARGE = (160, 60)


def painted(
    newest: Newest,
    size: tuple[int, int] = LARGE,
    *,
    units: str | None = None,
    notice: str = "",
    straight: bool = False,
) -> str | None:
    return glimpse(Memory(cache_folder()), newest, size, units=units, notice=notice, straight=straight)


def newest_entry(job: str) -> Newest:
    found = newest_of(shop_file(), job)
    assert found is not None
    return found


def rows(frame: str | None) -> list[str]:
    assert frame is not None
    return ESCAPE.sub(b"\n", frame.encode()).decode().split("\n")[1:]


def the_shop() -> Shop:
    return Shop(shop_file(), lambda: datetime.now(UTC))


def test_after_every_kind_of_entry_it_is_what_a_replay_gives(coach: Coach) -> None:
    job = coach.job()
    for deed in DEEDS:
        coach(deed[0], job, *deed[1:])
        with the_shop() as shop:
            session = shop.open(job)
            told = summary(session.standing(), session.first_to_measure(), Shown(session.system))
        assert rows(painted(newest_entry(job))) == [*set_page(page(told)), ""]


def test_it_is_in_the_units_that_were_asked_for(coach: Coach) -> None:
    job = coach.job()
    coach("heat", job, "--units", "in")
    assert painted(newest_entry(job)) is None
    assert " in " in "\n".join(rows(painted(newest_entry(job), units="in")))


def test_before_the_bench_it_says_what_is_measured_next_below_what_is_to_be_known_first(coach: Coach) -> None:
    job = coach.job()
    coach("heat", job)
    at_the_bench = rows(painted(newest_entry(job), straight=True, notice="All is made up."))
    assert at_the_bench[0] == "All is made up."
    assert any(row.startswith("To measure next: ") for row in at_the_bench)
    assert not any(row.startswith("To measure next: ") for row in rows(painted(newest_entry(job))))


def test_nothing_is_painted_of_a_job_that_has_gone_on(coach: Coach) -> None:
    job = coach.job()
    coach("heat", job)
    before = newest_entry(job)
    with the_shop() as shop:
        shop.open(job).note("entered at the bench of another window")
    assert painted(newest_entry(job)) is None
    assert painted(before._replace(digest="another")) is None


def test_a_window_too_narrow_for_its_lines_shows_nothing_of_it(coach: Coach) -> None:
    job = coach.job()
    assert painted(newest_entry(job), (79, 24)) is None
    assert painted(newest_entry(job), (80, 24)) is not None


@pytest.mark.parametrize("height", [1, 2, 8, 24])
def test_it_never_reaches_the_last_row(coach: Coach, height: int) -> None:
    job = coach.job()
    frame = painted(newest_entry(job), (80, height), straight=True, notice="All is made up.")
    assert frame is not None
    assert f"\x1b[{height};1H" not in frame


def test_what_a_note_says_gives_the_terminal_no_orders(coach: Coach) -> None:
    job = coach.job()
    for order in ("\x1b[2J", "\x9b2J"):
        coach("note", job, f"a lap{order} here")
        with the_shop() as shop:
            shop.open(job).note(f"a lap{order} here")
        coach("heat", job)
        frame = painted(newest_entry(job))
        assert frame is not None
        assert order not in frame
