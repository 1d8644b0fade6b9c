"""The help: what the screen in hand is for, in the trade's words, and its keys."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content

from coach.screens.screen import EVERYWHERE, GROUPS, CoachScreen, group_of, key
from coach.screens.widgets.panel import Lines
from coach.screens.wording import Ink, in_columns, joined, one_line, said

_CAUTION = (
    "The coach reckons sizes and metal; it does not see the work. It never says that a weld or a temper is "
    "sound, only how to test it. Local codes, the makers' instructions and your own practice come first."
)
_LEAVING = (("Ctrl+C", "Ask whether to close the coach; again, close it"),)
_KEY_WIDTH = 72
#: A window of so many rows shows a help whole.
_WHOLE_FROM = 48


class HelpScreen(CoachScreen):
    """Explains another screen."""

    CSS_PATH = "help.tcss"
    OVER = True
    NAME = "Help"
    BINDINGS = [
        key("escape,enter", "close", "Back", "Go back"),
    ]

    def __init__(self, name: str, text: str, keys: tuple[Binding, ...]) -> None:
        super().__init__()
        self._told = name
        self._text = text
        self._keys = keys

    def compose(self) -> ComposeResult:
        yield Lines(
            joined(
                [
                    one_line(self._told, Ink.STRONG),
                    *self._parts(),
                    *_key_lines(self._keys),
                    said(""),
                    said(_CAUTION, Ink.QUIET),
                ]
            )
        )
        yield from self.rim()

    def _parts(self) -> list[Content]:
        """The parts of the text, apart where what stands below them is scrolled to anyway."""
        parts = [one_line(part) for part in self._text.split("\n\n")]
        if self.app.size.height >= _WHOLE_FROM:
            return [*parts, said("")]
        return [line for part in parts for line in (part, said(""))]

    def action_help(self) -> None:
        self.action_close()


def _key_lines(keys: tuple[Binding, ...]) -> list[Content]:
    """The keys by what the hand does with them, each group at its first key."""
    rows: list[list[Content]] = []
    for group in GROUPS:
        told = [
            (one.key_display or one.key, one.tooltip)
            for one in (*keys, *EVERYWHERE)
            if group_of(one) == group
        ]
        told += _LEAVING if group == GROUPS[-1] else ()
        for at, (name, words) in enumerate(told):
            heading = one_line("" if at else group, Ink.LABEL)
            rows.append([heading, one_line(name, Ink.STRONG), one_line(words)])
    return in_columns(rows, _KEY_WIDTH, gives=2)
