"""The keys of the screen in hand, grouped by what the hand does with them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby

from textual import events
from textual.binding import Binding
from textual.content import Content
from textual.style import Style
from textual.widgets import Static

#: From this width on the groups are named.
_NAMED_FROM = 100
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
        self._leads: Sequence[str] = ()

    def show(self, keys: Sequence[Binding], all_day: Sequence[str] = (), leads: Sequence[str] = ()) -> None:
        """Take other keys.

        Args:
            keys: all that do something now.
            all_day: of a screen that is open all day the keys that are told first, the others where there is
                room left; where there are none, all that have a place in the line.
            leads: the keys that what just happened asks for, which come first.
        """
        self._keys, self._all_day, self._leads = keys, all_day, leads
        self.on_resize()

    def on_resize(self) -> None:
        self.update(self._words(self.app.size.width))

    def _words(self, width: int) -> Content:
        leading = [one for name in self._leads for one in self._keys if name in one.key.split(",")]
        others = [one for one in self._keys if one not in leading]
        if not self._all_day:
            told = [one for one in others if one.show]
            return self._in_one_line(leading, told, width) or self._line(leading, told, named=False)
        named = width >= _NAMED_FROM
        told = [one for one in others if set(one.key.split(",")) & set(self._all_day)]
        if (narrow := self._in_one_line(leading, told, width)) is not None:
            return narrow
        for one in sorted(others, key=lambda one: not one.show):
            if not (one.show or named):
                continue
            more = [other for other in others if other in told or other is one]
            if one not in told and self._line(leading, more, named=named).cell_length <= width - 2:
                told = more
        return self._line(leading, told, named=named)

    def _in_one_line(self, leading: Sequence[Binding], keys: Sequence[Binding], width: int) -> Content | None:
        """The keys in one line where they do not fit as they are; None where they do.

        What gives way is the space between the groups, then the word of Tab, then keys from the last, but for
        those that nobody finds elsewhere.
        """
        room, told = max(width - 2, 1), list(keys)
        if self._line(leading, told, named=False).cell_length <= room:
            return None
        line = self._line(leading, told, named=False, close=True)
        bare = line.cell_length > room
        while (line := self._line(leading, told, named=False, close=True, bare=bare)).cell_length > room:
            going = [one for one in told if not set(one.key.split(",")) & set(_STAY)]
            if not going:
                break
            told.remove(going[-1])
        return line

    def _line(
        self,
        leading: Sequence[Binding],
        keys: Sequence[Binding],
        *,
        named: bool,
        close: bool = False,
        bare: bool = False,
    ) -> Content:
        ordered = sorted(keys, key=lambda one: self._groups.index(self._group_of(one)))
        parts = [Content(" ").join(map(_key_words, leading))] if leading else []
        for name, members in groupby(ordered, key=self._group_of):
            words = Content(" ").join([_key_words(one, bare=bare) for one in members])
            parts.append(Content.assemble((f"{name} ", "$text-muted"), words) if named else words)
        return Content.assemble(" ", (Content(" ") if close else _BETWEEN).join(parts))

    async def on_click(self, event: events.Click) -> None:
        action = event.style.meta.get(_ACTION)
        if action:
            await self.screen.run_action(action)


def _key_words(binding: Binding, *, bare: bool = False) -> Content:
    """A key and its word, unbroken; `bare`, Tab goes without it."""
    if bare and binding.key == "tab":
        return Content.styled("Tab", "bold $accent").stylize(Style.from_meta({_ACTION: binding.action}))
    word = binding.description[:1].lower() + binding.description[1:]
    words = f"\N{NO-BREAK SPACE}{word}".replace(" ", "\N{NO-BREAK SPACE}")
    shown = Content.assemble((binding.key_display or binding.key, "bold $accent"), words)
    return shown.stylize(Style.from_meta({_ACTION: binding.action}))
