"""The rack is kept in the log beside the jobs: sealed, copied and restored, and never one of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.log.errors import EntryRefused, OutOfDate
from coach.log.jobs import Log
from coach.log.kinds.rack_bar import RackBar
from coach.log.kinds.rack_cut import RackCut
from coach.log.looking_through import look_through
from coach.log.names import RACK
from coach.log.newest import latest_names, newest_of, newest_of_all, touched_since
from coach.log.restoring import restore
from tests.log.bodies import BEGAN, HEAT, NOTE, ONE_OF_EACH_OF_RACK

AT = "2026-11-25T09:30:00Z"
BAR = RackBar(
    name="long-one",
    typed="square 12, long 500, C45",
    form="square",
    width_mm=12.0,
    thickness_mm=12.0,
    metal="C45",
    length_mm=500.0,
    mass_g=None,
)
CUT = RackCut(name="long-one", length_mm=120.0, job="axe")


def a_log(path: Path) -> Log:
    log = Log(path)
    log.add_to_rack(0, AT, [BAR])
    log.begin("axe", AT, BEGAN, (1, [CUT]))
    log.append("axe", 1, AT, HEAT)
    return log


def test_what_is_on_the_rack_is_no_job(tmp_path: Path) -> None:
    path = tmp_path / "shop.sqlite"
    with a_log(path) as log:
        assert log.jobs() == ["axe"]
        assert [last.job for last in log.latest_first()] == ["axe"]
        assert [entry.body for entry in log.rack()] == [BAR, CUT]
        assert log.verify() == []
    mark, names = latest_names(path, 10)
    assert (names, mark.jobs) == (["axe"], 1)
    with Log(path) as log:
        log.add_to_rack(2, AT, [BAR])
    assert touched_since(path, mark) == ((mark.file, 5, newest_of_all(path)[-1].digest, 1), [])
    assert newest_of(path, RACK) is None
    assert look_through(path)[:3] == (True, 1, 5)


def test_a_job_and_what_is_cut_off_for_it_are_begun_together_or_not_at_all(tmp_path: Path) -> None:
    with a_log(tmp_path / "shop.sqlite") as log:
        with pytest.raises(OutOfDate, match="The rack was changed elsewhere"):
            log.begin("adze", AT, BEGAN, (1, [CUT]))
        assert log.jobs() == ["axe"]
        assert len(log.rack()) == 2


def test_neither_holds_entries_of_the_other(tmp_path: Path) -> None:
    with a_log(tmp_path / "shop.sqlite") as log:
        with pytest.raises(EntryRefused, match="it is of the rack, and not of a job"):
            log.append("axe", 2, AT, BAR)
        with pytest.raises(EntryRefused, match="it is of a job, and not of the rack"):
            log.add_to_rack(2, AT, [NOTE])
        for body in ONE_OF_EACH_OF_RACK:
            log.add_to_rack(len(log.rack()), AT, [body])


@pytest.mark.parametrize("flipped", [b"square 12, long 500", b'"length_mm":120'])
def test_a_damaged_rack_is_restored_from_a_copy(tmp_path: Path, flipped: bytes) -> None:
    path, copy = tmp_path / "shop.sqlite", tmp_path / "copy.sqlite"
    with a_log(path) as log:
        log.save_copy(copy)
    held = path.read_bytes()
    assert flipped in held
    path.write_bytes(held.replace(flipped, flipped[:-1] + b"7"))
    restored = restore(path, [copy], "now")
    assert restored.jobs == ("axe",)
    with Log(path) as log:
        assert [entry.body for entry in log.rack()] == [BAR, CUT]
        assert log.jobs() == ["axe"]


def test_what_was_laid_there_since_the_copy_is_kept(tmp_path: Path) -> None:
    path, copy = tmp_path / "shop.sqlite", tmp_path / "copy.sqlite"
    with a_log(path) as log:
        log.save_copy(copy)
        log.add_to_rack(2, AT, [BAR.replaced(length_mm=77.0)])
    held = path.read_bytes()
    path.write_bytes(held.replace(b"Broad axe", b"Broad axf"))  # the job's beginning, and not the rack
    restore(path, [copy], "now")
    with Log(path) as log:
        assert [entry.body for entry in log.rack()][-1] == BAR.replaced(length_mm=77.0)
        assert log.jobs() == ["axe"]
