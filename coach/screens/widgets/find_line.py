"""What is looked for in a list, typed without a box that takes the arrows and Enter away from it."""

from __future__ import annotations

from textual import events
from textual.content import Content
from textual.widgets import Static

from coach.screens.wording import Ink, one_line, said

_LONGEST = 40


class FindLine(Static):
    """Takes what is typed on the screen; a number begins no search, for gauges type by themselves."""

    ALLOW_SELECT = False

    def __init__(self) -> None:
        super().__init__(markup=False, id="find")
        self.sought = ""

    def on_mount(self) -> None:
        self.seek("")

    def seek(self, text: str) -> None:
        """Look for something else; nothing shows all."""
        self.sought = " ".join(text.split())[:_LONGEST] + (" " if text[-1:] == " " and text.strip() else "")
        rest = "" if self.sought else "letters find a job or a recipe"
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


def is_found(sought: str, *names: str) -> bool:
    """Whether every word that is looked for is in one of the names."""
    told = " ".join(names).casefold()
    return all(word in told for word in sought.casefold().split())
