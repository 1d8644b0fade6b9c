"""What is looked for in a list, typed without a box that takes the arrows and Enter away from it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

from textual import events
from textual.content import Content
from textual.widgets import Static

from coach.screens.wording import Ink, one_line, said

Thing = TypeVar("Thing")
_LONGEST = 40


class FindLine(Static):
    """Takes what is typed on the screen; a number begins no search, for gauges type by themselves."""

    ALLOW_SELECT = False

    def __init__(self, hint: str) -> None:
        """Make it, with what to say while nothing is looked for."""
        super().__init__(markup=False, id="find")
        self._hint = hint
        self.sought = ""

    def on_mount(self) -> None:
        self.seek("")

    def seek(self, text: str) -> None:
        """Look for something else; nothing shows all."""
        self.sought = " ".join(text.split())[:_LONGEST] + (" " if text[-1:] == " " and text.strip() else "")
        rest = "" if self.sought else self._hint
        self.update(
            Content.assemble(
                said("find  › ", Ink.LABEL),
                said(self.sought),
                one_line("█"),
                one_line(rest, Ink.QUIET, indent=1 if rest else 0),
            )
        )

    def takes(self, event: events.Key) -> bool:
        """Whether a key goes on with what is looked for, which it then does."""
        if event.key == "backspace" and self.sought:
            self.seek(self.sought[:-1])
            return True
        typed = event.character
        if typed is None or not event.is_printable or not (self.sought or typed.isalpha()):
            return False
        self.seek(self.sought + typed)
        return True

    def takes_pasted(self, text: str) -> bool:
        """Whether a pasted text is looked for, which it then is; a number is not."""
        if not text.strip() or text.strip()[0].isdigit():
            return False
        self.seek(text)
        return True


def found(sought: str, things: Iterable[Thing], names: Callable[[Thing], Sequence[str]]) -> list[Thing]:
    """The things in whose names every word is that is looked for, that of the nearest first name first."""
    wanted = sought.casefold().split()

    def is_found(thing: Thing) -> bool:
        told = " ".join(names(thing)).casefold()
        return all(word in told for word in wanted)

    def distance(thing: Thing) -> int:
        name, typed = names(thing)[0].casefold(), " ".join(wanted)
        near = (name == typed, name.startswith(typed), typed in name)
        return near.index(True) if True in near else len(near)

    among = [thing for thing in things if is_found(thing)]
    return sorted(among, key=distance) if wanted else among
