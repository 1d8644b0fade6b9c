"""A list to choose a line from with the arrows and Enter."""

from __future__ import annotations

from textual.widgets import OptionList


class PickList(OptionList):
    """Lines that keep a little width, as a list with none at all cannot be laid out."""

    DEFAULT_CSS = """
    PickList {
        min-width: 8;
        min-height: 1;
        border: none;
        padding: 0;
        background: $surface;
    }
    PickList:focus { border: none; }
    PickList > .option-list--option-highlighted {
        background: $surface;
        color: $foreground;
        text-style: none;
    }
    PickList:focus > .option-list--option-highlighted {
        background: $primary 18%;
        color: $foreground;
        text-style: bold underline;
    }
    """
