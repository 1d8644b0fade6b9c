"""The lines that were typed and are not entered: they wait in the order in which they were begun."""

from __future__ import annotations

from bisect import insort
from itertools import count
from typing import NamedTuple

from coach.bench.checks import Check
from coach.screens.widgets.entry_box import Mode


class Sent(NamedTuple):
    """A line as it was sent off."""

    order: int  # lines are begun in this order
    text: str
    mode: Mode
    step: int  # the step that was shown when it was begun; 0 where every step was done
    rows: tuple[Check, ...]  # the sizes that the step asked for then
    check: Check | None  # the one of them that was asked for
    hot: bool
    gauge: str | None
    insist: bool = False
    names: str = ""  # the size that it says itself to be of
    meant: bool = True  # its Enter came long enough behind the one before to be meant for itself

    @property
    def of(self) -> str:
        """The size that it is of, as far as that is known as it is typed."""
        return self.names or (self.check.name if self.check is not None else "")


class Waits(NamedTuple):
    """A line that waits, and why; the first that was begun is the least."""

    line: Sent
    said: str
    as_it_stands: bool  # nothing is wrong with it: it only wants its size, or its turn


class Waiting:
    """The lines that wait for the box, and which of them stands in it."""

    def __init__(self) -> None:
        self._lines: list[Waits] = []
        self._orders = count()
        self._in_box: Waits | None = None  # as it was given back
        self._order_in_box: int | None = None  # of what stands there, though it was mended since

    def __len__(self) -> int:
        return len(self._lines)

    @property
    def holds_box(self) -> bool:
        """Whether what stands in the box is as it was given back, with nothing wrong with it."""
        return self._in_box is not None and self._in_box.as_it_stands

    @property
    def was_refused(self) -> bool:
        """Whether what stands in the box was given back because something is wrong with it, mended or not."""
        return self._order_in_box is not None and not self.holds_box

    def behind_all(self) -> int:
        """The place of a line that begins now."""
        return next(self._orders)

    def next_order(self) -> int:
        """The place of a line that leaves the box: its own where it was given back, else behind all."""
        order = self._order_in_box
        self.empty()
        return self.behind_all() if order is None else order

    def put(self, line: Sent, said: str, *, as_it_stands: bool = False) -> None:
        """Let a line wait in its place."""
        insort(self._lines, Waits(line, said, as_it_stands), key=lambda one: one.line.order)

    def first(self) -> Waits | None:
        """The line whose turn it is."""
        return self._lines[0] if self._lines else None

    def take(self) -> None:
        """The first of them stands in the box from now on."""
        waits = self._lines.pop(0)
        if waits.line.mode == "size":
            self._in_box, self._order_in_box = waits, waits.line.order

    def mend(self) -> None:
        """What stands in the box is no more as it was given back, but keeps its place."""
        self._in_box = None

    def let_go(self) -> Waits | None:
        """What stood in the box as it was given back; another number is begun there."""
        held = self._in_box
        self.empty()
        return held

    def empty(self) -> bool:
        """Nothing that was given back stands in the box any more; whether something did, mended or not."""
        did = self._order_in_box is not None
        self._in_box = self._order_in_box = None
        return did

    def behind(self) -> str:
        """How many wait behind the one in the box; "" for none."""
        more = len(self._lines)
        if not more:
            return ""
        return " 1 more waits behind it." if more == 1 else f" {more} more wait behind it."
