"""No disk, folder, file or stream makes the coach fail: it does without, or says in a sentence why not."""

from __future__ import annotations

import ctypes
import errno
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from coach.cli import main

ROOT = Path(__file__).parents[2]
PATIENCE_S = 60.0
LONG = "x" * 300  # a name has 255 bytes at most on the usual file systems (POSIX NAME_MAX)
DEEP = "/".join(["d" * 200] * 25)  # and a path 4096 (Linux PATH_MAX)

#: Linux's numbers of what lets root past the rights of files: prctl(2), capabilities(7).
_DROP, _PAST_THE_RIGHTS = 24, (1, 2)
_libc = ctypes.CDLL(None) if sys.platform == "linux" else None


def _bound_by_rights() -> None:
    """Let root be refused what its own files refuse, as anybody else is."""
    if _libc is not None:
        for right in _PAST_THE_RIGHTS:
            _libc.prctl(_DROP, right, 0, 0, 0)


def run(home: Path, *words: str, streams: str = "", **environ: str) -> subprocess.CompletedProcess[str]:
    """One command in a process of its own; `streams` is what a shell is told of them."""
    command = [sys.executable, "-m", "coach", *words]
    if streams:
        command = ["/bin/sh", "-c", f'exec "$@" {streams}', "sh", *command]
    return subprocess.run(
        command,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
        timeout=PATIENCE_S,
        preexec_fn=_bound_by_rights,
        cwd=home.parent,
        env=dict(os.environ) | {"BETWEEN_HEATS_HOME": str(home), "PYTHONPATH": str(ROOT)} | environ,
    )


def is_told_well(done: subprocess.CompletedProcess[str], *codes: int, lines: int = 1) -> None:
    assert done.returncode in codes, done.stderr
    for failing in ("The coach failed", "Traceback", "Exception", "Error"):
        assert failing not in done.stderr
    assert len(done.stderr.splitlines()) <= lines


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A shop with one job."""
    home = tmp_path_factory.mktemp("begun") / "home"
    before = os.environ.get("BETWEEN_HEATS_HOME")
    os.environ["BETWEEN_HEATS_HOME"] = str(home)
    try:
        assert main(["begin", "first-hook"]) == 0
    finally:
        del os.environ["BETWEEN_HEATS_HOME"]
        if before is not None:
            os.environ["BETWEEN_HEATS_HOME"] = before
    return home


@pytest.fixture
def home(begun: Path, tmp_path: Path) -> Path:
    """A shop of the same kind, to be harmed."""
    (tmp_path / "trial").mkdir()
    return Path(shutil.copytree(begun, tmp_path / "trial" / "home"))


Harm = Callable[[Path], None]


def _clear(path: Path) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    if path.is_dir():
        shutil.rmtree(path)
    path.unlink(missing_ok=True)


def without_rights(path: Path) -> None:
    if not path.exists():
        path.mkdir(parents=True)
    path.chmod(0)


def names_only(path: Path) -> None:
    path.mkdir(exist_ok=True)
    path.chmod(0o444)


def leads_nowhere(path: Path) -> None:
    _clear(path)
    path.symlink_to("nowhere")


def leads_to_itself(path: Path) -> None:
    _clear(path)
    path.symlink_to(path.name)


def a_pipe(path: Path) -> None:
    _clear(path)
    os.mkfifo(path)


def a_device(path: Path) -> None:
    _clear(path)
    path.symlink_to("/dev/zero")


def a_file(path: Path) -> None:
    _clear(path)
    path.write_bytes(b"x")


def a_folder(path: Path) -> None:
    _clear(path)
    path.mkdir()


LOG, COPIES = "data/shop.sqlite", "data/backups"
RECIPES, GRADES = "config/recipes", "config/grades"
HARMS: list[tuple[Harm, str]] = [
    *((without_rights, where) for where in (".", "data", COPIES, "config", RECIPES, GRADES, "cache", "log")),
    *((names_only, where) for where in (".", "data", COPIES)),
    *((leads_nowhere, where) for where in (COPIES, RECIPES, GRADES, f"{RECIPES}/a.yaml", f"{GRADES}/a.toml")),
    *((leads_to_itself, where) for where in (LOG, COPIES, RECIPES, GRADES, "cache")),
    *((a_pipe, where) for where in (LOG, f"{LOG}-journal", COPIES, f"{RECIPES}/a.yaml", f"{GRADES}/a.toml")),
    *((a_device, where) for where in (LOG, f"{RECIPES}/a.yaml", f"{GRADES}/a.toml")),
    *((a_file, where) for where in (COPIES, "config", RECIPES, GRADES, "cache")),
    *((a_folder, where) for where in (LOG, f"{LOG}-journal", f"{RECIPES}/a.yaml", f"{GRADES}/a.toml")),
]


@pytest.mark.parametrize(("harm", "where"), HARMS, ids=[f"{harm.__name__} {where}" for harm, where in HARMS])
def test_what_stands_in_the_way_is_done_without_or_told(home: Path, harm: Harm, where: str) -> None:
    harm(home / where)
    try:
        for words in (("jobs",), ("note", "first-hook", "x"), ("begin", "first-hook"), ("recipes",)):
            is_told_well(run(home, *words), 0, 1, 2)
    finally:
        for path in (home, home / where):  # so that it can be removed
            if path.is_dir():
                path.chmod(0o700)


@pytest.mark.parametrize("where", [COPIES, "config", "cache", "log"])
def test_an_entry_is_made_though_another_folder_is_closed(home: Path, where: str) -> None:
    without_rights(home / where)
    done = run(home, "note", "first-hook", "kept all the same")
    (home / where).chmod(0o700)
    assert done.returncode == 0, done.stderr
    assert "kept all the same" in run(home, "history", "first-hook").stdout


NAMED = [
    ("jobs", "--shop", LONG),
    ("begin", "first-hook", "--shop", LONG),
    ("begin", "first-hook", "--shop", DEEP),
    ("begin", "first-hook", "--name", LONG),
    ("begin", LONG),
    ("plan", DEEP),
    ("where", LONG),
    ("import", LONG),
    ("import", "~nosuch"),
    ("import", "/dev/zero"),
    ("import", "PIPE"),
    ("plan", "PIPE"),
    ("export", "first-hook", LONG),
    ("demo", "--no-screen", "--where", DEEP),
    ("jobs", "--shop", "/"),
    ("jobs", "--shop", "/dev/null"),
    ("jobs", "--shop", "PIPE"),
    ("begin", "~nosuch/recipe"),
]


@pytest.mark.parametrize("words", NAMED, ids=lambda words: " ".join(word[:12] for word in words))
def test_a_name_that_no_file_can_have_is_refused_in_one_sentence(home: Path, words: tuple[str, ...]) -> None:
    pipe = home.parent / "pipe"
    os.mkfifo(pipe)
    is_told_well(run(home, *(str(pipe) if word == "PIPE" else word for word in words)), 2)


@pytest.mark.parametrize("named", [LONG, DEEP, "~nosuch", "/dev/null", "/proc"], ids=lambda named: named[:8])
@pytest.mark.parametrize("words", [("jobs",), ("begin", "first-hook")], ids=" ".join)
def test_a_home_that_cannot_be_is_told(home: Path, words: tuple[str, ...], named: str) -> None:
    is_told_well(run(home, *words, BETWEEN_HEATS_HOME=named), 0, 2)


def test_a_temporary_folder_that_is_not_there_is_done_without(home: Path) -> None:
    is_told_well(run(home, "demo", "--no-screen", TMPDIR="/nowhere"), 0)


CLOSED = [">&-", "<&-", "2>&-", ">&- 2>&-", ">&- 2>&- <&-"]
FULL = [">/dev/full", "2>/dev/full", ">/dev/full 2>&1", ">/dev/full 2>&-"]


@pytest.mark.parametrize(
    "words",
    [
        ("note", "first-hook", "written down"),
        ("note", "first-hook", "written down", "--json"),
        ("export", "first-hook", "-"),
        ("nonsense", "--json"),
        ("--version",),
        ("jobs", "--help"),
        (),
    ],
    ids=lambda words: " ".join(words) or "alone",
)
@pytest.mark.parametrize("streams", [*CLOSED, *FULL])
def test_streams_that_are_closed_or_full_break_nothing(
    home: Path, words: tuple[str, ...], streams: str
) -> None:
    done = run(home, *words, streams=streams)
    is_told_well(done, 0, 2, 4, lines=2)  # an error in JSON that finds no room is one more
    unheard = streams.startswith(">")
    if words and words[0] in ("note", "export", "--version"):
        assert done.returncode == (4 if unheard else 0)
    if words and words[0] == "note":
        assert "written down" in run(home, "history", "first-hook").stdout


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("note", "first-hook", "x"), "entered, see `coach history first-hook`, but the answer could not be"),
        (("where", "first-hook"), "The answer could not be written"),
    ],
    ids=["note", "where"],
)
def test_an_answer_that_finds_no_room_says_whether_something_was_entered(
    home: Path, words: tuple[str, ...], told: str
) -> None:
    done = run(home, *words, streams=">/dev/full")
    assert done.returncode == 4
    assert told in done.stderr
    assert os.strerror(errno.ENOSPC) in done.stderr


def test_what_is_made_is_the_users_own(home: Path) -> None:
    run(home, "begin", "first-hook", "--name", "another")
    run(home, "where", "another")
    run(home, "export", "another", str(home / "another.jsonl"))
    made = [path for path in home.rglob("*") if not path.is_symlink()]
    assert len(made) > 5
    assert {path: oct(path.stat().st_mode & 0o077) for path in made if path.stat().st_mode & 0o077} == {}


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--shop", "FILE/x/shop.sqlite", "jobs"], "Not a directory"),
        (["--shop", "/", "jobs"], "/ is a folder, not a log"),
        (["--shop", "~nobody-of-this-name/shop.sqlite", "jobs"], "there is no such user"),
        (["begin", "first-hook", "--name", ""], "--name names no job"),
        (["import", " "], "blanks name no file"),
        (["demo", "--no-screen", "--where", ""], "blanks name no file"),
        (["backups", "--second", ""], "blanks name no file"),
        (["backups", "--second", "/proc"], "No copy can be kept in /proc"),
        (["export", "first-hook", "FOLDER/e.jsonl"], "FOLDER/e.jsonl cannot be written (Permission denied)"),
    ],
)
def test_a_name_that_can_be_none_is_refused_with_what_is_wrong_with_it(
    home: Path, words: list[str], told: str
) -> None:
    there = home.parent / "there"
    there.write_text("a file", encoding="utf-8")
    (home.parent / "closed").mkdir(mode=0o500)
    named = {"FILE": str(there), "FOLDER": str(home.parent / "closed")}
    for word, path in named.items():
        words, told = [one.replace(word, path) for one in words], told.replace(word, path)
    before = sorted(home.parent.iterdir())
    done = run(home, *words)
    is_told_well(done, 2)
    assert told in done.stderr
    assert ".part" not in done.stderr
    assert sorted(home.parent.iterdir()) == before


def test_a_log_that_may_not_be_read_is_told_as_that(home: Path) -> None:
    (home / "data" / "shop.sqlite").chmod(0)
    done = run(home, "note", "first-hook", "x")
    is_told_well(done, 2)
    assert "shop.sqlite may not be read: look at its permissions." in done.stderr


def test_a_copy_for_which_there_is_no_room_is_not_told_by_the_name_it_has_meanwhile(home: Path) -> None:
    (home / "data" / "backups").mkdir(exist_ok=True)
    (home / "data" / "backups").chmod(0o500)
    done = run(home, "backups", "--now")
    assert ".part" not in done.stdout + done.stderr
    assert "A new file in" in done.stdout or "cannot be" in done.stdout


def test_a_zone_that_there_is_none_of_keeps_nothing_from_being_entered(home: Path) -> None:
    for words in (
        ("note", "first-hook", "x"),
        ("history", "first-hook"),
        ("sheet", "first-hook"),
        ("begin", "first-hook"),
    ):
        is_told_well(run(home, *words, TZ="QQQ25"), 0)


@pytest.fixture
def copied(home: Path) -> Path:
    """Such a shop with a copy of its log; the folder of it."""
    assert run(home, "backups", "--now").returncode == 0
    return home / "data" / "backups"


@pytest.mark.parametrize("mode", [0o000, 0o400, 0o100])
def test_copies_that_cannot_be_seen_are_not_said_to_be_none(home: Path, copied: Path, mode: int) -> None:
    copied.chmod(mode)
    listed, looked = run(home, "backups"), run(home, "restore", "--look")
    (home / "data" / "shop.sqlite").unlink()
    begun, restored = run(home, "begin", "first-hook"), run(home, "restore")
    copied.chmod(0o700)
    is_told_well(listed, 1)
    assert "no copy" not in listed.stdout
    assert "cannot be read (Permission denied)" in listed.stdout
    is_told_well(looked, 1)
    assert "cannot be read (Permission denied)" in " ".join(looked.stdout.split())
    is_told_well(begun, 2)
    assert "cannot be told (Permission denied)" in begun.stderr
    is_told_well(restored, 2)
    assert "cannot be read (Permission denied)" in restored.stderr
    assert run(home, "restore").returncode == 0


def test_a_copy_that_cannot_be_read_hides_no_other(home: Path, copied: Path) -> None:
    (copy,) = copied.iterdir()
    copy.chmod(0o000)
    assert run(home, "note", "first-hook", "thin").returncode == 0
    assert run(home, "backups", "--now").returncode == 1
    listed = run(home, "backups")
    is_told_well(listed, 1)
    assert "1 job, 2 entries" in listed.stdout
    assert "Permission denied" in listed.stdout
    (home / "data" / "shop.sqlite").unlink()
    restored = run(home, "restore")
    is_told_well(restored, 1)
    assert "1 job, 2 entries" in restored.stdout
    assert "so nothing was taken from it" in " ".join(restored.stdout.split())
    named = run(home, "restore", copy.name)
    is_told_well(named, 2)
    assert "cannot be read (Permission denied)" in named.stderr
