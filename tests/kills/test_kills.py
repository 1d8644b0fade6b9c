"""Killed at any moment, in bad times too, the coach loses nothing that it acknowledged."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

from coach.log.jobs import Log
from tests.kills.judging import ends_of, faults
from tests.log.bodies import BEGAN, note

ROOT = Path(__file__).parents[2]
AT = "2026-11-25T09:30:00Z"


def test_fifty_kills_cost_no_entry_and_leave_the_log_and_its_copies_sound() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.kills", "50"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert "50 kills" in done.stdout
    assert done.stdout.rstrip().endswith(": 0 faults")


def test_an_entry_that_is_lost_would_be_noticed(tmp_path: Path) -> None:
    path = tmp_path / "shop.sqlite"
    with Log(path) as log:
        log.begin("first-hook", AT, BEGAN)
        shutil.copy(path, tmp_path / "older")
        log.append("first-hook", 1, AT, note("kept"))
    before = ends_of(path)
    assert list(faults(path, before, 0, most=0)) == []
    assert list(faults(path, before, 1, most=1)) == ["1 entries were acknowledged and 0 are there"]
    shutil.copy(tmp_path / "older", path)
    assert "an entry that was there before is lost" in list(faults(path, before, 0, most=0))


def test_a_log_or_a_copy_that_is_spoilt_would_be_noticed(tmp_path: Path) -> None:
    path = tmp_path / "shop.sqlite"
    with Log(path) as log:
        log.begin("first-hook", AT, BEGAN)
    spoilt = path.read_bytes().replace(b"broad axe", b"broad adz")
    (tmp_path / "backups").mkdir()
    copy = tmp_path / "backups" / "shop.sqlite-2026-11-25-0123456789ab.sqlite"
    copy.write_bytes(spoilt)
    assert list(faults(path, ends_of(path), 0, most=0)) == [f"the copy {copy.name} is not sound"]
    copy.unlink()
    path.write_bytes(spoilt)
    found = list(faults(path, ends_of(path), 0, most=None))
    assert any("is not as it was written" in fault for fault in found)
