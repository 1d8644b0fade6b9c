"""A terminal that took nothing is given back whole before the screens count as gone."""

from __future__ import annotations

import os
import pty
import termios
from collections.abc import Iterator

import pytest

from coach.screens.line_out import _Outlet

LEAVES = b"\x1b[?1049l"


@pytest.fixture(name="far")
def _far() -> Iterator[tuple[int, int]]:
    near, far = pty.openpty()
    yield near, far
    os.close(near)
    os.close(far)


def test_who_waits_for_the_end_waits_until_the_terminal_is_given_back(
    far: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    near, to = far
    closed_meanwhile: list[bool] = []
    with os.fdopen(os.dup(to), "w") as file:
        outlet = _Outlet(file)
        go_on = termios.tcflow

        def slowly(fileno: int, action: int) -> None:
            closed_meanwhile.append(outlet.is_closed)
            go_on(fileno, action)

        termios.tcflow(to, termios.TCOOFF)
        monkeypatch.setattr(termios, "tcflow", slowly)
        outlet.give_back()
    assert closed_meanwhile == [False]
    assert outlet.is_closed

    assert LEAVES in os.read(near, 4096)


def test_a_terminal_that_cannot_be_given_back_holds_nothing_up(
    far: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object) -> None:
        raise termios.error(5, "Input/output error")

    with os.fdopen(os.dup(far[1]), "w") as file:
        outlet = _Outlet(file)
        monkeypatch.setattr(termios, "tcflush", fails)
        outlet.give_back()
    assert outlet.is_closed
