"""What a key is taken for: Enter, however a terminal says it, and what the smith has given keys to do."""

from __future__ import annotations

from textual import events
from textual.app import App
from textual.widget import Widget

from coach.screens.widgets.entry_box import EntryBox
from coach.settings import set_now


def meant(event: events.Event, app: App[None]) -> events.Event:
    """The event as it is meant: another key where the smith has set one to do what that does.

    One that types something does so still wherever texts are written: it is the smith's own where sizes are.
    """
    if not isinstance(event, events.Key):
        return event
    if event.key == "ctrl+j":  # Enter, before the terminal was ours
        return events.Key("enter", "\r")
    action = set_now().get(f"keys.{event.key}")
    if action is None or (event.is_printable and not _takes_sizes(app.focused)):
        return event
    from coach.settings.table import ACTIONS

    key = ACTIONS[action]
    return events.Key(key, "\r" if key == "enter" else None)


def _takes_sizes(focused: Widget | None) -> bool:
    """Whether what is typed into is the box of the bench, for a size."""
    return isinstance(focused, EntryBox) and focused.mode == "size"
