"""Everything that can be done on the screen in hand, each with its key, found by its name."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.widgets import OptionList

from coach.screens.choices import LOOKS
from coach.screens.finding import FindingScreen
from coach.screens.screen import EVERYWHERE, GROUPS, CoachScreen, group_of, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.find_line import FindLine, found
from coach.screens.widgets.row_list import SIGN, RowList
from coach.screens.wording import Ink, in_columns, joined, one_line, said


class Deed(NamedTuple):
    """One thing that can be done."""

    name: str
    told: str  # what it does in full
    key: str  # "" where it has none
    group: str  # what the hand does with it
    do: Callable[[], object]


class PaletteScreen(FindingScreen):
    """A list to find a deed in, and to have it done by Enter."""

    CSS_PATH = "palette.tcss"
    OVER = True
    NAME = "Find"
    HELP_TEXT = """
        Everything that can be done on the screen that this one lies over, by what the hand does with it,
        each with its key. Letters that are typed find what is called so; Enter does what is chosen, and Esc
        goes back and does nothing.
    """
    BINDINGS = [
        key("enter", "choose", "Do it", "Do what is chosen"),
        key("escape,ctrl+p", "close", "Back", "Go back and do nothing"),
    ]

    def __init__(self, screen: CoachScreen) -> None:
        super().__init__()
        self._told = screen.NAME
        self._deeds = deeds_on(screen)
        self._found: RowList[Deed] = RowList(id="deeds")

    def compose(self) -> ComposeResult:
        yield from self.framed(
            f"{self._told}: what can be done", self._found, AnswerLine(), FindLine("letters find one")
        )

    def on_mount(self) -> None:
        self.on_resize()
        self._found.focus()

    def on_resize(self) -> None:
        self._fill(self._found.highlighted or 0)

    def show_found(self) -> None:
        self._fill()

    def _fill(self, chosen: int = 0) -> None:
        sought = self.sought
        deeds = found(sought, self._deeds, lambda deed: (deed.name, deed.told))
        rows = iter(deed_rows(deeds, self.app.size.width - 3))
        self._found.fill(deeds, lambda _: next(rows), min(chosen, max(len(deeds) - 1, 0)))
        told = self._found.chosen.told if self._found.chosen is not None else ""
        self.tell(told or f"Nothing is called {sought.strip()}. Backspace takes a letter back.", bad=not told)

    @on(OptionList.OptionHighlighted)
    def _tell_it(self) -> None:
        if self._found.chosen is not None:
            self.tell(self._found.chosen.told)

    @on(OptionList.OptionSelected)
    def action_choose(self) -> None:
        if (deed := self._found.chosen) is not None:
            self.dismiss()
            self.coach.call_later(deed.do)


def deeds_on(screen: CoachScreen) -> list[Deed]:
    """What can be done on a screen, in groups, and everywhere."""
    keys = [*screen.keys_told(), *EVERYWHERE]
    found = [_by_key(screen, one) for one in keys if one.action not in _NOT_FROM_HERE]
    for theme, words in LOOKS.values():
        do = partial(screen.coach.take_look, theme)
        found.append(Deed(f"Look: {theme.name}", words, "", "See", do))
    return sorted(found, key=lambda deed: GROUPS.index(deed.group))


#: What leads here.
_NOT_FROM_HERE = ("palette",)


def _by_key(screen: CoachScreen, one: Binding) -> Deed:
    act = partial(screen.run_action, one.action)
    return Deed(one.description, one.tooltip, one.key_display or one.key, group_of(one), act)


def deed_rows(deeds: Sequence[Deed], width: int) -> list[Content]:
    """A row for each: the group at its first, the key, the name and what it does."""
    rows, before = [], ""
    for deed in deeds:
        group = deed.group if deed.group != before else ""
        before = deed.group
        rows.append(
            [
                one_line(group, Ink.LABEL),
                one_line(deed.key, Ink.STRONG),
                one_line(deed.name),
                one_line(deed.told, Ink.QUIET),
            ]
        )
    return [joined([said(" " * len(SIGN)), row], "") for row in in_columns(rows, width - len(SIGN), gives=3)]
