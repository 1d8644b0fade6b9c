"""What a key is taken for: Enter, however a terminal says it, and what the smith has given keys to do."""

from __future__ import annotations

import re

from textual import events
from textual.app import App
from textual.widget import Widget

from coach.screens.widgets.entry_box import EntryBox
from coach.settings import set_now

#: What terminals send for F13 to F17 as the number of a key (xterm's control sequences, "PC-style function
#: keys": CSI 25 ~ and on), and Textual reads as the character of that number.
_BY_NUMBER = {chr(25): "f13", chr(26): "f14", chr(28): "f15", chr(29): "f16", chr(31): "f17"}
_SHIFTED = re.compile(r"shift\+f(\d{1,2})")
#: The keys above that row: others send them as those of the row with Shift, as terminfo numbers them.
_A_ROW = 12


def as_named(key: str) -> str:
    """A key of a foot switch as it is set, however the terminal says it.

    >>> [as_named(one) for one in ("f13", "shift+f1", chr(25), "f2", "shift+up")]
    ['f13', 'f13', 'f13', 'f2', 'shift+up']
    """
    shifted = _SHIFTED.fullmatch(key)
    return f"f{_A_ROW + int(shifted[1])}" if shifted else _BY_NUMBER.get(key, key)


def meant(event: events.Event, app: App[None]) -> events.Event:
    """The event as it is meant: another key where the smith has set one to do what that does.

    One that types something does so still wherever texts are written: it is the smith's own where sizes are.
    """
    if not isinstance(event, events.Key):
        return event
    if event.key == "ctrl+j":  # Enter, before the terminal was ours
        return events.Key("enter", "\r")
    action = set_now().get(f"keys.{event.key}") or set_now().get(f"keys.{as_named(event.key)}")
    if action is None or (event.is_printable and not _takes_sizes(app.focused)):
        return event
    from coach.settings.table import ACTIONS

    key = ACTIONS[action]
    return events.Key(key, "\r" if key == "enter" else None)


def _takes_sizes(focused: Widget | None) -> bool:
    """Whether what is typed into is the box of the bench, for a size."""
    return isinstance(focused, EntryBox) and focused.mode == "size"
