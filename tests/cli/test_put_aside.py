"""Ctrl+Z and Ctrl+C at a real terminal do what its user expects of them."""

from __future__ import annotations

import os
import signal
from pathlib import Path
from time import monotonic

from tests.benchmarks.processes import PATIENCE_S
from tests.cli.conftest import Coach
from tests.cli.test_told_to_stop import is_as_it_was
from tests.terminal import Terminal, on_a_terminal

CTRL_C, CTRL_Q, CTRL_Z = b"\x03", b"\x11", b"\x1a"


def until_it_stands_still(terminal: Terminal) -> None:
    """Read on until the program was stopped, as a shell sees it."""
    deadline = monotonic() + PATIENCE_S
    while True:
        pid, status = os.waitpid(terminal.process.pid, os.WUNTRACED | os.WNOHANG)
        if pid:
            assert os.WIFSTOPPED(status), "it has ended"
            break
        assert monotonic() < deadline, f"it goes on; the last it showed:\n{terminal.shown[-1000:]}"
        terminal.read(0.05)
    while terminal.read(0.0):
        pass


def test_ctrl_z_gives_the_shell_its_terminal_and_fg_draws_the_screen_anew(coach: Coach) -> None:
    coach.job()
    with on_a_terminal(("coach", "open", "first")) as terminal:
        before = terminal.modes
        terminal.wait_for("F1")
        terminal.type(b"31")
        terminal.wait_for("31")
        terminal.type(CTRL_Z)
        until_it_stands_still(terminal)
        assert terminal.modes == before
        assert is_as_it_was(terminal.painted) == []
        terminal.painted = b""
        os.kill(terminal.process.pid, signal.SIGCONT)
        terminal.wait_for("Mark out the hook")
        terminal.wait_for("F1")
        terminal.wait_for("31")
        assert terminal.modes != before
        terminal.type(CTRL_Q)
        terminal.wait_for("“31” is typed and not entered")
        terminal.type(CTRL_Q)
        assert terminal.end() == 0
        assert terminal.modes == before
    assert "Traceback" not in terminal.shown


def test_a_screen_that_nothing_moves_on_is_drawn_whole_again(coach: Coach) -> None:
    coach.job()
    with on_a_terminal(("coach",)) as terminal:
        whole = ("The shop: 1 job in hand", "To begin", "letters find", "ON PLAN")
        for words in (*whole, "First hook   "):
            terminal.wait_for(words)
        terminal.type(CTRL_Z)
        until_it_stands_still(terminal)
        terminal.painted = b""
        os.kill(terminal.process.pid, signal.SIGCONT)
        for words in whole:
            terminal.wait_for(words)
        terminal.type(CTRL_Q)
        assert terminal.end() == 0


def test_ctrl_c_twice_closes_the_coach_and_all_is_kept(coach: Coach) -> None:
    job = coach.job()
    with on_a_terminal(("coach", "open", "first")) as terminal:
        before = terminal.modes
        terminal.wait_for("F1")
        terminal.type(CTRL_C)
        terminal.wait_for("Ctrl+C again closes it")
        terminal.type(CTRL_C)
        assert terminal.end() == 0
        assert terminal.modes == before
    assert is_as_it_was(terminal.painted) == []
    assert "Traceback" not in terminal.shown
    assert coach("history", job).code == 0


def test_ctrl_z_in_the_throw_away_shop_keeps_it_until_the_coach_is_closed(tmp_path: Path) -> None:
    with on_a_terminal(("coach", "demo"), TMPDIR=str(tmp_path)) as terminal:
        terminal.wait_for("F1")
        terminal.type(CTRL_Z)
        until_it_stands_still(terminal)
        assert list(tmp_path.glob("coach-demo-*"))
        terminal.painted = b""
        os.kill(terminal.process.pid, signal.SIGCONT)
        terminal.wait_for("F1")
        terminal.type(CTRL_Q)
        assert terminal.end() == 0
    assert list(tmp_path.glob("coach-demo-*")) == []
