"""Told to stop by a signal, the coach leaves the terminal as it was and the throw-away shop gone."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.benchmarks.processes import PATIENCE_S
from tests.cli.conftest import Coach
from tests.terminal import ROOT, Terminal, on_a_terminal

SIGNALS = [signal.SIGTERM, signal.SIGHUP, signal.SIGINT, signal.SIGQUIT]
CTRL_Q = b"\x11"
#: By xterm's control sequences: the other screen, the cursor hidden, the mouse, pasted text in brackets, the
#: focus, lines that do not wrap; and by the keyboard protocol of kitty, keys in full.
SWITCHED = {
    b"\x1b[?1049h": b"\x1b[?1049l",
    b"\x1b[?25l": b"\x1b[?25h",
    b"\x1b[?1000h": b"\x1b[?1000l",
    b"\x1b[?1003h": b"\x1b[?1003l",
    b"\x1b[?2004h": b"\x1b[?2004l",
    b"\x1b[?1004h": b"\x1b[?1004l",
    b"\x1b[?7l": b"\x1b[?7h",
    b"\x1b[>": b"\x1b[<u",
}


def is_as_it_was(painted: bytes) -> list[bytes]:
    """What was switched and not switched back."""
    return [on for on, off in SWITCHED.items() if on in painted and painted.rfind(off) < painted.rfind(on)]


@pytest.mark.parametrize("number", SIGNALS, ids=lambda number: number.name)
@pytest.mark.parametrize(("words", "shown"), [(("open", "first"), "Mark out the hook"), (("demo",), "adze")])
def test_a_signal_closes_the_screens_in_order(
    coach: Coach, tmp_path: Path, number: signal.Signals, words: tuple[str, ...], shown: str
) -> None:
    coach.job()
    with on_a_terminal(("coach", *words), TMPDIR=str(tmp_path)) as terminal:
        before = terminal.modes
        terminal.wait_for(shown)
        terminal.wait_for("F1")
        os.kill(terminal.process.pid, number)
        assert terminal.end() == 128 + number
        assert terminal.modes == before
    assert is_as_it_was(terminal.painted) == []
    assert "Traceback" not in terminal.shown
    assert list(tmp_path.glob("coach-demo-*")) == []


def stopped_at(moment: str, number: signal.Signals, *words: str) -> tuple[str, ...]:
    """A module and its arguments: the coach, told to stop at a moment."""
    return "tests.cli.stopped_at", moment, str(int(number)), *words


@pytest.mark.parametrize("number", SIGNALS, ids=lambda number: number.name)
@pytest.mark.parametrize("at", ["opened", "on_load", "on_ready", "stop_application_mode"])
def test_a_signal_at_an_awkward_moment_leaves_the_terminal_as_it_was(
    coach: Coach, tmp_path: Path, number: signal.Signals, at: str
) -> None:
    coach.job()
    with on_a_terminal(stopped_at(at, number, "demo"), TMPDIR=str(tmp_path)) as terminal:
        before = terminal.modes
        if at == "stop_application_mode":
            terminal.wait_for("F1")
            terminal.type(CTRL_Q)
        assert terminal.end() == 128 + number, terminal.shown[-2000:]
        assert terminal.modes == before
    assert is_as_it_was(terminal.painted) == []
    assert "Traceback" not in terminal.shown
    assert list(tmp_path.glob("coach-demo-*")) == []


def test_a_command_that_is_told_to_stop_says_nothing_and_leaves_no_shop(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", *stopped_at("opened", signal.SIGTERM, "demo", "--no-screen")],
        capture_output=True,
        check=False,
        cwd=ROOT,
        env=dict(os.environ) | {"TMPDIR": str(tmp_path), "BETWEEN_HEATS_HOME": str(tmp_path / "home")},
    )
    assert (done.returncode, done.stdout, done.stderr) == (143, b"", b"")
    assert list(tmp_path.glob("coach-demo-*")) == []


@pytest.mark.parametrize("number", SIGNALS, ids=lambda number: number.name)
@pytest.mark.parametrize("at", ["format_usage", "opened"])
def test_a_command_that_is_told_to_stop_at_an_awkward_moment_ends_as_told(
    coach: Coach, number: signal.Signals, at: str
) -> None:
    job = coach.job()
    noting = [sys.executable, "-m", *stopped_at(at, number, "note", job, "not any more")]
    done = subprocess.run(noting, capture_output=True, check=False, cwd=ROOT)
    assert (done.returncode, done.stdout, done.stderr) == (128 + number, b"", b"")
    assert "not any more" not in coach("history", job).out


@pytest.mark.parametrize(
    ("loading", "number"),
    [("coach.cli.boundary", signal.SIGINT), *(("coach.cli.line", number) for number in SIGNALS)],
)
def test_a_signal_while_a_class_is_made_is_no_other_error(
    coach: Coach, loading: str, number: signal.Signals
) -> None:
    noting = [sys.executable, "-m", *stopped_at(loading, number, "note", coach.job(), "not any more")]
    done = subprocess.run(noting, capture_output=True, check=False, cwd=ROOT)
    assert (done.returncode, done.stdout, done.stderr) == (128 + number, b"", b"")


def test_a_signal_that_comes_where_nothing_can_be_raised_makes_no_noise(coach: Coach) -> None:
    job = coach.job()
    noting = [sys.executable, "-m", *stopped_at("let go of", signal.SIGTERM, "note", job, "a note")]
    done = subprocess.run(noting, capture_output=True, check=False, cwd=ROOT)
    assert done.stderr == b""
    # It comes again, and may come after the answer.
    assert done.returncode in (0, 128 + signal.SIGTERM, -signal.SIGTERM)
    assert b"Noted" not in done.stdout or "a note" in coach("history", job).out


def test_who_has_hanging_up_ignored_goes_on(coach: Coach) -> None:
    job = coach.job()
    noting = [sys.executable, "-m", *stopped_at("opened", signal.SIGHUP, "note", job, "kept")]
    ignoring = ["/bin/sh", "-c", 'trap "" HUP; exec "$@"', "sh", *noting]
    done = subprocess.run(ignoring, capture_output=True, check=False, cwd=ROOT)
    assert done.returncode == 0, done.stderr
    assert "kept" in coach("history", job).out


@pytest.mark.parametrize("painted", ["", "Mark out", "F1"])
def test_a_terminal_that_goes_away_unsaid_takes_the_screens_with_it(coach: Coach, painted: str) -> None:
    coach.job()
    coach("where", "first")
    with on_a_terminal(("coach", "open", "first")) as terminal:
        terminal.wait_for(painted)
        terminal.go_away()
        # Before it is looked at, a terminal that is gone is none to open a screen on.
        assert terminal.process.wait(PATIENCE_S) in ((129,) if painted else (129, 2))
    assert coach("check-log").code == 0


@pytest.mark.parametrize("at", ["opened", "on_load", "start_application_mode", "write", "on_ready"])
def test_a_terminal_that_goes_away_at_an_awkward_moment_holds_nothing_up(coach: Coach, at: str) -> None:
    coach.job()
    with on_a_terminal(("tests.cli.stopped_at", at, "0", "demo")) as terminal:
        terminal.wait_for("it may go")
        terminal.go_away()
        assert terminal.process.wait(PATIENCE_S) == 129


def test_a_terminal_that_takes_nothing_more_does_not_hold_the_end_up(coach: Coach) -> None:
    coach.job()
    with on_a_terminal(("coach", "open", "first")) as terminal:
        terminal.wait_for("F1")
        terminal.fill()
        os.kill(terminal.process.pid, signal.SIGTERM)
        assert terminal.process.wait(PATIENCE_S) == 143


@pytest.mark.parametrize("number", SIGNALS, ids=lambda number: number.name)
@pytest.mark.parametrize("holding_up", [Terminal.fill, Terminal.hold], ids=["full", "held"])
def test_a_terminal_that_lags_is_given_back_as_it_was(
    coach: Coach, number: signal.Signals, holding_up: Callable[[Terminal], None]
) -> None:
    coach.job()
    with on_a_terminal(("coach", "open", "first")) as terminal:
        before = terminal.modes
        terminal.wait_for("F1")
        holding_up(terminal)
        os.kill(terminal.process.pid, number)
        assert terminal.process.wait(PATIENCE_S) == 128 + number
        assert terminal.modes == before
        while terminal.read(0.0):
            pass
    assert is_as_it_was(terminal.painted) == []


def test_a_signal_to_go_on_that_nobody_waited_for_changes_nothing(coach: Coach) -> None:
    # A terminal that hangs up sends it behind the signal that says so (POSIX.1-2017, General Terminal
    # Interface, 11.1.10, names SIGHUP; that SIGCONT follows, from memory).
    coach.job()
    with on_a_terminal(("coach", "open", "first")) as terminal:
        before = terminal.modes
        terminal.wait_for("F1")
        os.kill(terminal.process.pid, signal.SIGCONT)
        terminal.type(b"31")
        terminal.wait_for("31")
        terminal.type(CTRL_Q)
        terminal.wait_for("“31” is typed and not entered")
        terminal.type(CTRL_Q)
        assert terminal.end() == 0
        assert terminal.modes == before
    assert is_as_it_was(terminal.painted) == []
    assert len(re.findall(rb"\x1b\[>[0-9]+u", terminal.painted)) == terminal.painted.count(b"\x1b[<u") == 1


@pytest.mark.parametrize("at", ["on_load", "start_application_mode", "on_ready", "stop_application_mode"])
def test_a_signal_to_go_on_at_an_awkward_moment_holds_nothing_up(coach: Coach, at: str) -> None:
    coach.job()
    with on_a_terminal(stopped_at(at, signal.SIGCONT, "demo")) as terminal:
        before = terminal.modes
        terminal.wait_for("F1")
        terminal.type(CTRL_Q)
        assert terminal.end() == 0
        assert terminal.modes == before
    assert is_as_it_was(terminal.painted) == []


def test_the_end_waits_for_no_reader_of_the_terminal(coach: Coach) -> None:
    coach.job()
    with on_a_terminal(stopped_at("not stopped", signal.SIGCONT, "demo")) as terminal:
        before = terminal.modes
        terminal.wait_for("F1")
        terminal.type(CTRL_Q)
        assert terminal.end() == 0
        assert terminal.modes == before
    assert is_as_it_was(terminal.painted) == []
