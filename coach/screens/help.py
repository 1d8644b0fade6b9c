"""The help: what the screen in hand is for, in the trade's words, and its keys."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.binding import Binding

from coach.screens.screen import CoachScreen, key
from coach.screens.widgets.panel import Lines
from coach.screens.wording import Ink, in_columns, joined, one_line, said

_CAUTION = (
    "The coach reckons sizes and metal; it does not see the work. It never says that a weld or a temper is "
    "sound, only how to test it. Local codes, the makers' instructions and your own practice come first."
)
_EVERYWHERE = (
    ("^p", "Find any of these by its name"),
    ("^q", "Close the coach; everything entered is kept"),
)
_KEY_WIDTH = 72


class HelpScreen(CoachScreen):
    """Explains another screen."""

    CSS_PATH = "help.tcss"
    OVER = True
    NAME = "Help"
    BINDINGS = [
        key("escape,enter", "close", "Back", "Go back"),
        Binding("up", "scroll_by(-1)", "Up", show=False),
        Binding("down", "scroll_by(1)", "Down", show=False),
    ]

    def __init__(self, name: str, text: str, keys: tuple[Binding, ...]) -> None:
        super().__init__()
        self._told = name
        self._text = text
        self._keys = keys

    def compose(self) -> ComposeResult:
        keys = [(binding.key_display or binding.key, binding.tooltip) for binding in self._keys]
        rows = [[one_line(name, Ink.STRONG), one_line(told)] for name, told in (*keys, *_EVERYWHERE)]
        yield Lines(
            joined(
                [
                    one_line(self._told, Ink.STRONG),
                    *(one_line(part) for part in self._text.split("\n\n")),
                    said(""),
                    one_line("Keys", Ink.LABEL),
                    *in_columns(rows, _KEY_WIDTH, gives=1),
                    said(""),
                    said(_CAUTION, Ink.QUIET),
                ]
            )
        )
        yield from self.rim()

    def action_help(self) -> None:
        self.action_close()
