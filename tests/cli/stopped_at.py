"""The coach, sent a signal at a moment: `python -m tests.cli.stopped_at MOMENT SIGNAL WORDS…`.

As signal 0 its terminal goes away at that moment: "it may go" is shown, and that is waited for.
"""

from __future__ import annotations

import os
import select
import sys
from argparse import ArgumentParser
from collections.abc import Callable
from functools import wraps
from typing import Any


def stopping(owner: Any, name: str, number: int) -> None:
    """Have the signal come just before a function does what it does, the first time."""
    usual: Callable[..., Any] = getattr(owner, name)
    come: list[int] = []

    @wraps(usual)  # Textual looks at what a handler takes
    def stopped(*given: Any, **named: Any) -> Any:
        if not come:
            come.append(number)
            if number:
                os.kill(os.getpid(), number)
            else:
                wait_until_it_is_gone()
        return usual(*given, **named)

    setattr(owner, name, stopped)


def wait_until_it_is_gone() -> None:
    """Wait for the end of the terminal."""
    os.write(2, b"it may go")
    gone = select.poll()
    gone.register(0, 0)
    gone.poll()


def letting_go(owner: Any, name: str) -> None:
    """Have something be let go of just before a function does what it does."""
    usual: Callable[..., Any] = getattr(owner, name)

    def after(*given: Any, **named: Any) -> Any:
        LetGo()
        return usual(*given, **named)

    setattr(owner, name, after)


def not_stopping() -> None:
    """Have the screens end without giving the terminal back, the first time."""
    from textual.drivers.linux_driver import LinuxDriver

    for name in ("disable_input", "stop_application_mode"):
        setattr(LinuxDriver, name, once_without(getattr(LinuxDriver, name)))


def once_without(usual: Callable[..., Any]) -> Callable[..., Any]:
    """What does nothing when it is first called."""
    come: list[bool] = []

    def called(*given: Any) -> Any:
        if come:
            return usual(*given)
        come.append(True)
        return None

    return called


class LetGo:
    """What does something when it is let go of."""

    def __del__(self) -> None:
        pass


class Part:
    """What sends a signal while a class that has it is made."""

    def __init__(self, number: int) -> None:
        self._number = number

    def __set_name__(self, owner: type, name: str) -> None:
        os.kill(os.getpid(), self._number)


class Finder:
    """Makes such a class when a module is first looked for."""

    def __init__(self, module: str, number: int) -> None:
        self._module, self._number = module, number

    def find_spec(self, name: str, *_: object) -> None:
        """Leave the finding to others."""
        if name == self._module:
            type("Made", (), {"part": Part(self._number)})


def main(moment: str, number: int, words: list[str]) -> int:
    """Run the coach's words, with the signal at the moment."""
    from coach.cli import main as coach

    if moment == "opened":
        from coach.bench import shop

        stopping(shop.Shop, "open" if "demo" in words else "named", number)
    elif moment == "format_usage":
        stopping(ArgumentParser, moment, number)
    elif moment.startswith("coach."):
        sys.meta_path.insert(0, Finder(moment, number))
    elif moment == "not stopped":
        not_stopping()
    elif moment == "let go of":
        from coach.bench import shop

        stopping(LetGo, "__del__", number)
        letting_go(shop.Shop, "named")
    elif moment.startswith("on_"):
        from coach.screens.app import CoachApp

        stopping(CoachApp, moment, number)
    else:
        from textual.drivers.linux_driver import LinuxDriver

        stopping(LinuxDriver, moment, number)
    return coach(words)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], int(sys.argv[2]), sys.argv[3:]))
