"""The frame that a job last opened with, painted at once while the screens and the job itself are made ready.

It is painted only where the job's last entry, the window and all that was chosen are what they were then;
where a command has entered something since, the glimpse that it kept is painted instead. The screens draw
over it as soon as they stand; keys typed before wait for them.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from types import TracebackType
from typing import TYPE_CHECKING, Any, Self, TypeAlias

from coach.cli.glimpse import glimpse
from coach.files import text_of
from coach.places import cache_folder, choices_file
from coach.remembered import Memory

if TYPE_CHECKING:
    from pathlib import Path

    from coach.log.newest import Newest

_RAISE, _LOWER = "\x1b[?1049h\x1b[?25l\x1b[2J", "\x1b[?25h\x1b[?1049l"
#: Of a window that nobody has made larger or smaller.
USUAL_SIZE = (80, 24)
_COLOURS = ("TERM", "COLORTERM", "NO_COLOR", "FORCE_COLOR")


#: What a frame follows from: the newest entry, the window, what was chosen, the colours there are.
_Key: TypeAlias = tuple[tuple[object, ...], tuple[int, ...], str, list[str | None]]


class Curtain:
    """Hangs from the first moment until the screens take the terminal over."""

    def __init__(
        self,
        newest: Newest | None,
        units: str | None = None,
        notice: str = "",
        straight: bool = False,
        *,
        ready_made: Path | None = None,
    ) -> None:
        """Of a job by its newest entry, None where that is not known.

        Args:
            newest: its newest entry.
            units: those asked for; None is the job's own.
            notice: one sentence to show first.
            straight: whether a job under way opens at its bench.
            ready_made: the file of what it opens with so in a window of the usual size and colours.
        """
        self._newest = newest
        self._how = units, notice, straight
        self._ready_made = ready_made
        self.memory = Memory(cache_folder())
        self._modes: list[Any] | None = None  # of the terminal, as they were
        self._hangs = False

    def __enter__(self) -> Self:
        try:
            self._hang()
        except BaseException:  # told to stop
            self.__exit__(None, None, None)
            raise
        return self

    def _hang(self) -> None:
        with suppress(OSError, ValueError, AttributeError):
            size = os.get_terminal_size(_terminal())
            frame = None if self._newest is None else self._frame(self._newest, size)
            if frame is not None:
                self._hold_keys()
                self._hangs = True
                _paint(f"{_RAISE}{frame}")

    def _frame(self, newest: Newest, size: Sequence[int]) -> str | None:
        """What the job is known to open with at this size, or else where it stands in plain lines."""
        key = self._key(newest, size)
        frame = self.memory.recall(self._name(newest), key)
        if frame is None and self._ready_made is not None and _is_usual(key):
            return text_of(self._ready_made)
        return frame or self._glimpse(newest, size)

    def _glimpse(self, newest: Newest, size: Sequence[int]) -> str | None:
        units, notice, straight = self._how
        return glimpse(self.memory, newest, size, units=units, notice=notice, straight=straight)

    def keep(self, newest: Newest, frame: str, size: Sequence[int]) -> None:
        """Remember what a job opens with after its newest entry, at this size of columns and rows."""
        self.memory.keep(self._name(newest), self._key(newest, size), frame)

    def hand_over(self) -> list[Any] | None:
        """Let the screens have the terminal; they begin with the keys that wait for them.

        Returns the modes that it had before keys were held, for a shell that has it meanwhile; None where
        they are as they were.
        """
        self._hangs = False
        return self._modes

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, traceback: TracebackType | None
    ) -> None:
        self._let_keys_go()
        if self._hangs:
            with suppress(OSError):
                _paint(_LOWER)

    def _name(self, newest: Newest) -> str:
        return f"frame of {newest.job} {self._how!r}"

    def _key(self, newest: Newest, size: Sequence[int]) -> _Key:
        try:
            chosen = text_of(choices_file())
        except (OSError, ValueError):
            chosen = ""
        colours = [os.environ.get(name) for name in (*_COLOURS, *_of_textual())]
        return tuple(newest), tuple(size), chosen, colours

    def _hold_keys(self) -> None:
        """Keys wait where they are, unseen, for whoever reads the terminal next."""
        with suppress(ImportError):
            import termios

            # What is no terminal has no modes to change.
            with suppress(termios.error):
                self._modes = termios.tcgetattr(_keyboard())
                held = termios.tcgetattr(_keyboard())
                # Enter stays the key that the screens know, and so do those that hold the output back or on.
                held[0] &= ~(termios.ICRNL | termios.IXON)
                held[3] &= ~(termios.ECHO | termios.ICANON | termios.IEXTEN)
                termios.tcsetattr(_keyboard(), termios.TCSANOW, held)

    def _let_keys_go(self) -> None:
        if self._modes is not None:
            import termios

            with suppress(termios.error):
                termios.tcsetattr(_keyboard(), termios.TCSANOW, self._modes)
            self._modes = None


def _is_usual(key: _Key) -> bool:
    """Whether a window has the usual size, every colour, and nothing that was chosen."""
    _, size, chosen, (_, depth, *others) = key
    return size == USUAL_SIZE and not chosen and depth in ("truecolor", "24bit") and not any(others)


def _of_textual() -> list[str]:
    return sorted(name for name in os.environ if name.startswith("TEXTUAL"))


def _terminal() -> int:
    """Where the screens are drawn."""
    assert sys.__stderr__ is not None
    return sys.__stderr__.fileno()


def _keyboard() -> int:
    assert sys.__stdin__ is not None
    return sys.__stdin__.fileno()


def _paint(text: str) -> None:
    left = text.encode("utf-8", "replace")
    while left:
        left = left[os.write(_terminal(), left) :]
