"""A job whose first entry is damaged is joined to its beginning in a copy, and nothing that joins is lost."""

from __future__ import annotations

import random
from datetime import date
from pathlib import Path

import pytest

from coach.log.copies import backups_beside, copies_in, keep_backup
from coach.log.jobs import Log
from coach.log.restoring import ChangedJob, restore
from tests.log.bodies import BEGAN, note

PAGE = 4096
#: A recipe that runs over into further pages.
LONG = BEGAN.replaced(text="recipe: axe\nforge: Tarn End Forge\n" + "# by the fire\n" * 1200)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A log with 18 entries of a job and 13 of another; a copy has 7 of each."""
    path = tmp_path / "shop.sqlite"
    with Log(path) as log:
        for job in ("axe", "adze"):
            log.begin(job, "2026-11-25T08:00:00Z", LONG)
        for number in range(2, 19):
            for job, last in (("axe", 18), ("adze", 13)):
                if number <= last:
                    log.append(
                        job, number - 1, "2026-11-25T09:00:00Z", note(f"{job} struck {number} " + "x" * 90)
                    )
            if number == 7:
                keep_backup(log, backups_beside(path), date(2026, 11, 25))
    return path


def restored(path: Path) -> tuple[ChangedJob, ...]:
    copies = [copy.path for copy in copies_in(backups_beside(path), path.name)]
    return restore(path, copies, "now").changes


def held(path: Path) -> dict[str, int]:
    with Log(path) as log:
        assert log.verify() == []
        return {job: log.last_number(job) for job in log.jobs()}


def test_what_follows_damaged_first_entries_is_joined_to_those_in_the_copy(path: Path) -> None:
    content = path.read_bytes()
    assert content.count(b"Tarn End Forge") == 2
    path.write_bytes(content.replace(b"Tarn End Forge", b"Tarn Eod Forge"))
    assert restored(path) == (ChangedJob("adze", 13, won=13, lost=0), ChangedJob("axe", 18, won=18, lost=0))
    assert held(path) == {"axe": 18, "adze": 13}


@pytest.mark.parametrize("seed", range(24))
def test_no_damage_to_a_recipe_s_pages_costs_an_entry_that_a_copy_joins(path: Path, seed: int) -> None:
    pick = random.Random(seed)
    content = bytearray(path.read_bytes())
    over = [at for at in range(0, len(content), PAGE) if b"# by the fire" in content[at : at + PAGE]]
    over = [at for at in over if b" struck " not in content[at : at + PAGE]]
    at = pick.choice(over)
    match pick.randrange(4):
        case 0:
            content[at + pick.randrange(PAGE)] ^= 1 << pick.randrange(8)
        case 1:
            content[at : at + PAGE] = bytes(PAGE)
        case 2:
            content[at : at + PAGE] = pick.randbytes(PAGE)
        case _:
            other = pick.choice(over)
            content[at : at + PAGE], content[other : other + PAGE] = (
                content[other : other + PAGE],
                content[at : at + PAGE],
            )
    path.write_bytes(content)
    restored(path)
    assert held(path) == {"axe": 18, "adze": 13}


def test_every_copy_that_joined_a_job_is_told(path: Path) -> None:
    """The first entry is sound in the first copy alone, the eighth in the second alone."""
    first = next(copy.path for copy in copies_in(backups_beside(path), path.name))
    second = first.with_name("another.sqlite")
    second.write_bytes(path.read_bytes().replace(b"Tarn End Forge", b"Tarn Eod Forge"))
    content = path.read_bytes().replace(b"Tarn End Forge", b"Tarn Eod Forge")
    path.write_bytes(content.replace(b"axe struck 12", b"axe struck 21"))
    told = restore(path, [first, second], "now")
    assert held(path) == {"axe": 18, "adze": 13}
    assert told.taken_from == (str(first), str(second))
