"""A box to type into, which shows what is pasted into it but never lets the terminal carry it out."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from rich.highlighter import Highlighter
from rich.text import Text
from textual import events
from textual.widgets import Input

from coach.telling.harmless import harmless


class _Shown(Highlighter):
    """What stands in a box as it is drawn; what is sent off from it stays as it came, to be judged."""

    def highlight(self, text: Text) -> None:
        text.plain = harmless(text.plain)


class Box(Input):
    """One line to type into."""

    takes_lines: Callable[[Sequence[str]], None] | None = None
    """What is done with several lines that are pasted at once; None for nothing but the first."""

    def __init__(self, brought: str = "", placeholder: str = "") -> None:
        super().__init__(brought, placeholder, highlighter=_Shown(), id="typed", compact=True)
        # A cursor that blinks is half of what a bench costs that lies open all day; this one stands still.
        self.cursor_blink = False

    def _on_paste(self, event: events.Paste) -> None:
        lines = [line.strip() for line in event.text.splitlines() if line.strip()]
        if self.takes_lines is not None and len(lines) > 1:
            event.stop()
            event.prevent_default()
            self.takes_lines(lines)

    @property
    def not_entered(self) -> str:
        """What is typed into it, and nothing was made of yet."""
        return self.value.strip() if self.display else ""
