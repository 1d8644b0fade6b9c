"""A list to choose one thing from with the arrows and Enter."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from typing import Generic, TypeVar

from textual.content import Content
from textual.widgets import OptionList

Thing = TypeVar("Thing")


class PickList(OptionList, Generic[Thing]):
    """Things, each told in a line or several."""

    _things: tuple[Thing, ...] = ()

    def fill(self, things: Iterable[Thing], words: Callable[[Thing], Content], chosen: int = 0) -> None:
        """Take other things; the chosen one is told by its place, and is the last where there are fewer."""
        self._things = tuple(things)
        self.clear_options()
        self.add_options(map(words, self._things))
        self.highlighted = chosen

    @property
    def things(self) -> tuple[Thing, ...]:
        """All that there is to choose from."""
        return self._things

    def choose(self, fits: Callable[[Thing], bool]) -> None:
        """Choose the first thing that fits, if any does."""
        for at in (at for at, thing in enumerate(self._things) if fits(thing)):
            self.highlighted = at
            return

    @property
    def chosen(self) -> Thing | None:
        """The thing that is chosen; None in a list of none."""
        at = self.highlighted
        return self._things[at] if at is not None and at < len(self._things) else None

    # In a window so small that nothing of the list is seen, it has no lines to go by.

    def action_page_up(self) -> None:
        with suppress(KeyError):
            super().action_page_up()  # type: ignore[no-untyped-call]

    def action_page_down(self) -> None:
        with suppress(KeyError):
            super().action_page_down()  # type: ignore[no-untyped-call]
