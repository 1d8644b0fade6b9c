"""The keys of the screen in hand, grouped by what the hand does with them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby

from textual import events
from textual.binding import Binding
from textual.content import Content
from textual.style import Style
from textual.widgets import Static

from coach.screens.wording import said

#: From this width on the groups are named.
_NAMED_FROM = 100
#: The cells of the longest key that leads and of the blank before it, kept from so many columns on.
_FOR_A_LEAD, _ROOM_KEPT_FROM = 13, 80
_ACTION = "action"  # what each key's words carry unseen
#: The keys that stay however little room there is.
_STAY = ("f1", "enter", "escape", "tab")
_BETWEEN = Content.styled(" │ ", "$text-muted")


class KeyBar(Static):
    """Each key with its word; a touch or a click on one does the same as the key."""

    ALLOW_SELECT = False

    def __init__(self, group_of: Callable[[Binding], str], groups: Sequence[str]) -> None:
        super().__init__()
        self._group_of, self._groups = group_of, groups
        self._keys: Sequence[Binding] = ()
        self._all_day: Sequence[str] = ()
        self._leads: Sequence[Binding] = ()

    def show(
        self, keys: Sequence[Binding], all_day: Sequence[str] = (), leads: Sequence[Binding] = ()
    ) -> None:
        """Take other keys.

        Args:
            keys: all that do something now.
            all_day: of a screen that is open all day the keys that are told first, the others where there is
                room left; where there are none, all that have a place in the line.
            leads: the keys that what just happened asks for: marked where they stand, else behind all, where
                room is kept for them, so that no key ever moves.
        """
        self._keys, self._all_day, self._leads = keys, all_day, leads
        self.on_resize()

    def on_resize(self) -> None:
        self.update(self._words(self.app.size.width))

    def _words(self, width: int) -> Content:
        if not self._all_day:
            told = [one for one in self._keys if one.show]
            return self._in_one_line(told, width) or self._line(told)
        kept = width - _FOR_A_LEAD if width >= _ROOM_KEPT_FROM else width
        told = [one for one in self._keys if set(one.key.split(",")) & set(self._all_day)]
        line = self._in_one_line(told, kept)
        if line is None:
            named = width >= _NAMED_FROM and self._line(told, named=True).cell_length <= kept - 2
            for one in sorted(self._keys, key=lambda one: not one.show):
                more = [other for other in self._keys if other in told or other is one]
                fits = self._line(more, named=named).cell_length <= kept - 2
                if (one.show or named) and one not in told and fits:
                    told = more
            line = self._line(told, named=named)
        for one in self._leads:
            lead = Content.assemble(" ", _key_words(one, leads=True))
            narrow = width < _ROOM_KEPT_FROM and "asterisk" in one.key.split(",")
            while narrow and line.cell_length + lead.cell_length > width:
                shown = sorted(told, key=lambda other: self._groups.index(self._group_of(other)))
                going = [other for other in shown if not set(other.key.split(",")) & set(_STAY)]
                if not going:
                    break
                told.remove(going[-1])  # in a narrow window the last of the others gives way to the ways back
                line = self._line(told, close=True, bare=("tab", "f1"))
            if one not in told and line.cell_length + lead.cell_length <= width:
                line = Content.assemble(line, lead)
        if not self._leads:  # the room that is kept for them tells the way out meanwhile
            for one in (one for one in self._keys if "escape" in one.key.split(",") and one not in told):
                out = Content.assemble(line, " ", _key_words(one))
                line = out if out.cell_length <= width else line
        return line

    def _in_one_line(self, keys: Sequence[Binding], width: int) -> Content | None:
        """The keys in one line where they do not fit as they are; None where they do.

        What gives way is the space between the groups, then the word of Tab, then that of F1 with the margin,
        then keys from the last, but for those that nobody finds elsewhere.
        """
        room, told = max(width - 2, 1), list(keys)
        if self._line(told).cell_length <= room:
            return None
        for bare in ((), ("tab",), ("tab", "f1")):
            line = self._line(told, close=True, bare=bare)
            if line.cell_length <= (width if len(bare) > 1 else room):
                return line
        while line.cell_length > room:
            going = [one for one in told if not set(one.key.split(",")) & set(_STAY)]
            if not going:
                break
            told.remove(going[-1])
            line = self._line(told, close=True, bare=("tab",))
        return line

    def _line(
        self,
        keys: Sequence[Binding],
        *,
        named: bool = False,
        close: bool = False,
        bare: Sequence[str] = (),
    ) -> Content:
        ordered = sorted(keys, key=lambda one: self._groups.index(self._group_of(one)))
        parts = []
        for name, members in groupby(ordered, key=self._group_of):
            words = Content(" ").join(
                [_key_words(one, bare=one.key in bare, leads=one in self._leads) for one in members]
            )
            parts.append(Content.assemble((f"{name} ", "$text-muted"), words) if named else words)
        return Content.assemble(" ", (Content(" ") if close else _BETWEEN).join(parts))

    async def on_click(self, event: events.Click) -> None:
        action = event.style.meta.get(_ACTION)
        if action:
            await self.screen.run_action(action)


def _key_words(binding: Binding, *, bare: bool = False, leads: bool = False) -> Content:
    """A key and its word, unbroken; `bare` without it, one that `leads` marked."""
    shown = said(binding.key_display or binding.key, "bold $accent")
    if not bare:
        word = binding.description[:1].lower() + binding.description[1:]
        words = f"\N{NO-BREAK SPACE}{word}".replace(" ", "\N{NO-BREAK SPACE}")
        shown = Content.assemble(shown, words)
    if leads:
        shown = shown.stylize("reverse")
    return shown.stylize(Style.from_meta({_ACTION: binding.action}))
