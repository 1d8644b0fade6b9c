"""The screens are opened where there is a terminal, and refused where it cannot show them."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Coach
from tests.terminal import on_a_terminal

CTRL_Q = b"\x11"


def at_a_terminal(*words: str, shown: str, typed: bytes, term: str = "xterm-256color") -> tuple[int, str]:
    """Type a command at a terminal, answer what it shows with these keys; its exit code and all it showed."""
    with on_a_terminal(("coach", *words), TERM=term) as terminal:
        terminal.wait_for(shown)
        terminal.type(typed)
        return terminal.end(), terminal.shown


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


@pytest.mark.parametrize("words", [("open", "first"), (), ("demo",)])
def test_no_screen_is_drawn_where_nobody_sees_it(
    coach: Coach, tmp_path: Path, words: tuple[str, ...]
) -> None:
    coach.job()
    with (
        (tmp_path / "errors.txt").open("w+b") as errors,
        on_a_terminal(("coach", *words), errors=errors) as terminal,
    ):
        assert terminal.end() == 2
        errors.seek(0)
        said = errors.read().decode()
    assert "No screen was opened, because a screen is drawn on standard error" in said
    assert len(said.splitlines()) == 1
