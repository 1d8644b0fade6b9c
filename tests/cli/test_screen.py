"""The screens are opened where there is a terminal, and refused where it cannot show them."""

from __future__ import annotations

import os
import select
import subprocess
import sys
from pathlib import Path

import pytest

from tests.benchmarks.processes import COLUMNS, ESCAPE, ROWS
from tests.cli.conftest import Coach

CTRL_Q = b"\x11"
PATIENCE_S = 60.0


def at_a_terminal(*words: str, shown: str, typed: bytes, term: str = "xterm-256color") -> tuple[int, str]:
    """Type a command at a terminal, answer what it shows with these keys; its exit code and all it showed."""
    import fcntl
    import pty
    import struct
    import termios

    near, far = pty.openpty()
    try:
        fcntl.ioctl(far, termios.TIOCSWINSZ, struct.pack("HHHH", ROWS, COLUMNS, 0, 0))
        process = subprocess.Popen(
            [sys.executable, "-m", "coach", *words],
            stdin=far,
            stdout=far,
            stderr=far,
            start_new_session=True,
            cwd=Path(__file__).parents[2],
            env=dict(os.environ) | {"TERM": term},
        )
        os.close(far)
    except BaseException:
        os.close(near)
        raise
    try:
        painted, answered = b"", False
        while select.select([near], [], [], PATIENCE_S)[0]:
            try:
                came = os.read(near, 65536)
            except OSError:  # the far end is closed: Linux says so with EIO
                break
            if not came:
                break
            painted += came
            if not answered and shown.encode() in ESCAPE.sub(b"", painted):
                os.write(near, typed)
                answered = True
        return process.wait(PATIENCE_S), ESCAPE.sub(b"", painted).decode(errors="replace")
    finally:
        os.close(near)
        process.kill()  # does nothing once it has ended by itself


@pytest.mark.parametrize(
    ("words", "shown"), [(("open", "first"), "Mark out the hook"), ((), "First hook"), (("demo",), "adze")]
)
def test_the_screen_opens_at_a_terminal_and_is_left_well(
    coach: Coach, words: tuple[str, ...], shown: str
) -> None:
    coach.job()
    code, said = at_a_terminal(*words, shown=shown, typed=CTRL_Q)
    assert code == 0
    assert shown in said
    assert "Traceback" not in said


def test_the_bench_of_a_job_that_is_not_there_is_refused_before_the_screen_opens(coach: Coach) -> None:
    coach.job()
    code, said = at_a_terminal("open", "nosuch", shown="nosuch", typed=b"")
    assert code == 2
    assert "There is no job called 'nosuch'" in said


def test_a_dumb_terminal_is_told_which_command_to_use(coach: Coach) -> None:
    job = coach.job()
    code, said = at_a_terminal("open", job, shown="No screen", typed=b"", term="dumb")
    assert code == 2
    assert f"`coach where {job}`" in said
