"""Where no file may be as large as the log: what is told, and that nothing is lost or left lying about."""

from __future__ import annotations

import errno
import resource
import shutil
import sqlite3
import subprocess
import sys
from functools import partial
from pathlib import Path

import pytest

from coach.log import errors
from coach.log.errors import LogError, LogFull, from_sqlite, from_system
from coach.log.file import forget_if_empty
from coach.log.jobs import Log
from tests.log.bodies import BEGAN, note

ROOT = Path(__file__).parents[2]
AT = "2026-11-25T08:00:00Z"
NOTE = "x" * 1900


def coach(home: Path, *words: str, most: int = resource.RLIM_INFINITY) -> subprocess.CompletedProcess[str]:
    """A command whose files may be so large at most."""
    return subprocess.run(
        [sys.executable, "-m", "coach", *words],
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
        cwd=home.parent,
        env={"BETWEEN_HEATS_HOME": str(home), "PYTHONPATH": str(ROOT)},
        preexec_fn=partial(resource.setrlimit, resource.RLIMIT_FSIZE, (most, most)),
    )


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A shop with one job, in a log of a few pages."""
    home = tmp_path_factory.mktemp("large") / "home"
    assert coach(home, "begin", "first-hook").returncode == 0
    for _ in range(4):
        coach(home, "note", "first-hook", NOTE)
    return home


@pytest.mark.parametrize(
    "words", [("note", "first-hook", NOTE), ("begin", "first-hook"), ("rest", "first-hook")]
)
@pytest.mark.parametrize("pages", [0, 1, 4, 8, "as many as it has"])
def test_a_log_that_may_not_grow_says_so_and_stays_as_it_was(
    begun: Path, tmp_path: Path, words: tuple[str, ...], pages: int | str
) -> None:
    home = Path(shutil.copytree(begun, tmp_path / "home"))
    log = home / "data" / "shop.sqlite"
    before = log.read_bytes()
    done = coach(home, *words, most=len(before) if isinstance(pages, str) else pages * 4096)
    if done.returncode == 0:  # a page had room left
        assert coach(home, "check-log").returncode == 0
        return
    assert done.returncode == 2
    assert "shop.sqlite cannot grow, for no file may be as large as that here: nothing more" in done.stderr
    assert len(done.stderr.splitlines()) <= 2  # a copy that could not be made is one more
    assert log.read_bytes() == before
    assert sorted(path.name for path in log.parent.iterdir()) == ["backups", "shop.sqlite"]
    assert coach(home, *words).returncode == 0


def test_a_file_that_may_not_be_so_large_is_told_as_that(begun: Path, tmp_path: Path) -> None:
    home = Path(shutil.copytree(begun, tmp_path / "home"))
    for words in (("export", "first-hook", "e.jsonl"), ("picture", "first-hook", "--svg", "p.svg")):
        done = coach(home, *words, most=64)
        assert done.returncode == 2
        assert "ulimit -f" in done.stderr
        assert len(done.stderr.splitlines()) == 1
        assert [path.name for path in tmp_path.iterdir()] == ["home"]


@pytest.mark.parametrize(
    ("number", "told"),
    [
        (errno.EDQUOT, "your share of the disk is used up"),
        (errno.EFBIG, "no file may be as large as that here"),
        (errno.ENOSPC, "There is no room left on the disk for shop.sqlite"),
    ],
)
def test_what_keeps_a_file_from_growing_is_told(
    monkeypatch: pytest.MonkeyPatch, number: int, told: str
) -> None:
    failed = sqlite3.OperationalError("disk I/O error")
    failed.sqlite_errorname = "SQLITE_IOERR_WRITE"
    monkeypatch.setattr(errors, "why_not_written", lambda _: number)
    for found in (
        from_sqlite(failed, Path("shop.sqlite")),
        from_system(OSError(number, ""), Path("shop.sqlite")),
    ):
        assert isinstance(found, LogFull)
        assert told in str(found)
        assert "nothing saved before is lost" in str(found)


def test_a_log_in_memory_is_no_file(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("coach.log.file.largest_file", lambda: 0)
    with Log(":memory:") as log:
        log.begin("axe", AT, BEGAN)
        assert log.append("axe", 1, AT, note("x")).number == 2


def test_no_half_of_what_python_compiles_is_kept_to_fail_the_next_start(tmp_path: Path) -> None:
    """As https://github.com/python/cpython/issues/126606 tells it."""
    shutil.copytree(ROOT / "coach", tmp_path / "coach", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(ROOT / "recipes", tmp_path / "recipes")
    command = [sys.executable, "-m", "coach", "plan", "first-hook"]
    for most in (8192, resource.RLIM_INFINITY):
        done = subprocess.run(
            command,
            capture_output=True,
            text=True,
            check=False,
            timeout=120,
            cwd=tmp_path,
            env={"BETWEEN_HEATS_HOME": str(tmp_path / "home"), "PYTHONPATH": str(tmp_path)},
            preexec_fn=partial(resource.setrlimit, resource.RLIMIT_FSIZE, (most, most)),
        )
        assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize("pages", [0, 1, 2, 4, 5, 6])
@pytest.mark.parametrize("words", [("import", "out.jsonl"), ("begin", "first-hook")])
def test_a_job_that_finds_no_room_leaves_no_empty_log(
    begun: Path, tmp_path: Path, words: tuple[str, ...], pages: int
) -> None:
    coach(begun, "export", "first-hook", str(tmp_path / "out.jsonl"))
    home = tmp_path / "home"
    done = coach(home, *words, most=pages * 4096)
    assert done.returncode == 2
    assert not [one for one in home.rglob("*") if one.is_file()]


def test_a_job_that_is_refused_leaves_no_empty_log(tmp_path: Path) -> None:
    (tmp_path / "odd.jsonl").write_text("no job", encoding="utf-8")
    assert coach(tmp_path / "home", "import", "odd.jsonl").returncode == 2
    assert coach(tmp_path / "home", "begin", "first-hook", "--name", "a b/c").returncode == 2
    assert not (tmp_path / "home" / "data" / "shop.sqlite").exists()


def test_a_log_in_which_another_window_has_begun_a_job_stays(tmp_path: Path) -> None:
    path = tmp_path / "shop.sqlite"
    with Log(path) as here, Log(path) as there:
        there.begin("axe", AT, BEGAN)
        forget_if_empty(path)
        assert here.jobs() == ["axe"]
    with Log(tmp_path / "empty.sqlite") as here:
        forget_if_empty(tmp_path / "empty.sqlite")
        with pytest.raises(LogError, match="was moved or replaced while it was open, so nothing was saved"):
            here.begin("axe", AT, BEGAN)
