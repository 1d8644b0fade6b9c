"""What goes wrong ends in an exit code and a sentence, and what is written reaches whoever reads it."""

from __future__ import annotations

import json
import os
import sqlite3
import subprocess
import sys
import tempfile
from contextlib import closing
from itertools import count
from pathlib import Path

import pytest

from coach import __version__
from coach.cli import commands
from coach.log.jobs import Log
from tests.cli.conftest import Coach
from tests.ledger.recipes import EYE
from tests.log.bodies import BEGAN
from tests.log.hand_made import Made, rows
from tests.spelt_out import file_text

COMMAND = '''\
"""A command of a test."""

from __future__ import annotations

SUMMARY = "Fails."
TAKES = ()


def run(asked):
    """Fail."""
    {failing}
'''


_numbers = count(1)


@pytest.fixture
def failing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest) -> str:
    """The verb of one command more, found as every command is, that ends in the way the test says."""
    folder = tmp_path / "more"
    folder.mkdir()
    verb = f"fail{next(_numbers)}"
    (folder / f"{verb}.py").write_text(COMMAND.format(failing=request.param), encoding="utf-8")
    monkeypatch.setattr(commands, "__path__", [*commands.__path__, str(folder)])
    return verb


@pytest.mark.parametrize("failing", ["raise ZeroDivisionError('heat by nought')"], indirect=True)
def test_a_fault_of_the_program_is_written_down_and_told_in_one_line(coach: Coach, failing: str) -> None:
    said = coach(failing, "--units", "in")
    assert said.code == 3
    assert said.out == ""
    assert len(said.err.splitlines()) == 1
    assert "Traceback" not in said.err
    assert "everything entered before this is kept" in said.err
    (report,) = (coach.home / "log").iterdir()
    assert str(report) in said.err
    written = report.read_text(encoding="utf-8")
    for telling in (
        "ZeroDivisionError: heat by nought",
        "Traceback",
        f"coach {__version__}",
        "Python ",
        "textual ",
        f"'{failing}' '--units' 'in'",
    ):
        assert telling in written


@pytest.mark.parametrize("failing", ["return asked.nothing"], indirect=True)
def test_a_fault_of_the_program_is_told_in_json_too(coach: Coach, failing: str) -> None:
    said = coach(failing, "--json")
    assert said.code == 3
    assert str(coach.home / "log") in str(said.values["error"])


@pytest.mark.parametrize("failing", ["raise ZeroDivisionError"], indirect=True)
def test_a_report_goes_elsewhere_when_its_folder_is_closed(
    coach: Coach, failing: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(elsewhere))
    coach.home.mkdir()
    (coach.home / "log").write_text("a file where the folder should be", encoding="utf-8")
    said = coach(failing)
    assert said.code == 3
    (report,) = elsewhere.iterdir()
    assert str(report) in said.err
    assert "ZeroDivisionError" in report.read_text(encoding="utf-8")


@pytest.mark.parametrize("failing", ["raise KeyboardInterrupt"], indirect=True)
def test_stopping_from_the_keyboard_is_no_fault(coach: Coach, failing: str) -> None:
    said = coach(failing)
    assert (said.code, said.out, said.err) == (130, "", "")
    assert not coach.home.exists()


def test_a_damaged_job_is_told_and_the_others_stay_in_reach(coach: Coach) -> None:
    sound = coach.job()
    path = coach.home / "data" / "shop.sqlite"
    with Log(path) as log:
        log.begin("odd", "2026-11-25T09:00:00Z", BEGAN.replaced(recipe='{"format": "7"}', text=""))
    listed = coach("jobs", "--json")
    assert listed.code == 1
    jobs = listed.values["jobs"]
    assert isinstance(jobs, list)
    assert {job["job"]: bool(job["trouble"]) for job in jobs} == {sound: False, "odd": True}
    assert coach("where", sound).code == 0


def test_why_a_job_cannot_be_read_is_told_in_the_units_asked_for(coach: Coach) -> None:
    coach.job()
    wide = file_text(EYE.replace("hole width: 20", "hole width: 63.5"))
    with Log(coach.home / "data" / "shop.sqlite") as log:
        log.begin("odd", "2026-11-25T09:00:00Z", BEGAN.replaced(recipe="{}", text=wide))
    # 25.4 mm to the inch: 63.5 mm is 2 1/2 in.
    for units, told in (("mm", "hole width of 63.5 mm"), ("in", "hole width of 2 1/2 in")):
        assert told in " ".join(coach("jobs", "--units", units).out.split())
        assert told in coach("jobs", "--units", units, "--json").out


@pytest.mark.parametrize("command", ["where", "history", "done", "heat", "export", "resume"])
@pytest.mark.parametrize(
    "made",
    [
        ("done", {"step": 1, "heats": -5, "marked": False, "told": False}),
        ("corrected", {"entry": 1, "typed": "3", "size": 3, "hot_doubt_c": 0, "insisted": False}),
        ("a kind unheard of", {}),
    ],
    ids=["heats", "correction", "kind"],
)
def test_an_entry_that_cannot_be_is_told_in_one_line_by_every_command(
    coach: Coach, command: str, made: Made
) -> None:
    sound = coach.job()
    path = coach.home / "data" / "shop.sqlite"
    with closing(sqlite3.connect(path, isolation_level=None)) as log:
        for row in rows([made], "odd"):
            log.execute(
                "INSERT INTO entries (job, number, at, kind, body, previous, digest)"
                " VALUES (?, ?, ?, ?, ?, ?, ?)",
                row,
            )
    said = coach(command, "odd")
    assert said.code in (1, 2)
    assert said.out == ""
    assert "Job 'odd' in shop.sqlite is damaged, entry 2 " in " ".join(said.err.split())
    assert not (coach.home / "log").exists()
    listed = coach("jobs", "--json").values["jobs"]
    assert isinstance(listed, list)
    assert {job["job"]: job["state"] for job in listed} == {sound: "under way", "odd": "damaged"}


def run(*words: str, home: Path, **environ: str) -> subprocess.CompletedProcess[bytes]:
    """One command in a process of its own, away from any terminal."""
    kept = {
        name: value for name, value in os.environ.items() if not name.startswith(("LC_", "LANG", "PYTHON"))
    }
    return subprocess.run(
        [sys.executable, "-m", "coach", *words],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        check=False,
        cwd=Path(__file__).parents[2],
        env=kept | {"BETWEEN_HEATS_HOME": str(home)} | environ,
    )


@pytest.mark.parametrize(
    "environ",
    [
        {"PYTHONIOENCODING": "cp1252"},
        {"PYTHONIOENCODING": "ascii"},
        {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
        {"LC_ALL": "C.UTF-8"},
    ],
    ids=["cp1252", "ascii", "C", "UTF-8"],
)
def test_a_pipe_gets_utf_8_whatever_the_locale_says(tmp_path: Path, environ: dict[str, str]) -> None:
    done = run("plan", "first-hook", home=tmp_path, **environ)
    assert (done.returncode, done.stderr) == (0, b"")
    assert "±" in done.stdout.decode("utf-8")


def test_words_that_are_no_text_are_answered_all_the_same(tmp_path: Path) -> None:
    kept = dict(os.environ) | {"BETWEEN_HEATS_HOME": str(tmp_path)}
    argv = [os.fsencode(sys.executable), b"-m", b"coach", b"where", b"h\xffk", b"--json"]
    done = subprocess.run(argv, capture_output=True, check=False, cwd=Path(__file__).parents[2], env=kept)
    assert done.returncode == 2
    assert set(json.loads(done.stdout)) == {"error"}


@pytest.mark.parametrize("words", [("plan", "first-hook"), ("where", "hook", "--json")])
def test_a_reader_that_has_seen_enough_leaves_no_traceback(tmp_path: Path, words: tuple[str, ...]) -> None:
    near, far = os.pipe()
    os.close(near)
    try:
        done = subprocess.run(
            [sys.executable, "-m", "coach", *words],
            stdin=subprocess.DEVNULL,
            stdout=far,
            stderr=subprocess.PIPE,
            check=False,
            cwd=Path(__file__).parents[2],
            env=dict(os.environ) | {"BETWEEN_HEATS_HOME": str(tmp_path)},
        )
    finally:
        os.close(far)
    assert done.returncode == 141
    assert b"Traceback" not in done.stderr
    assert b"BrokenPipe" not in done.stderr
