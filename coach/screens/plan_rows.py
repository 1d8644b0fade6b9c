"""The steps of a plan as rows to choose from, in columns that stand under the heads in their rule."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from textual.content import Content

from coach.bench.planned import Planned
from coach.screens.wording import GAP, Ink, joined, one_line, said, wrapped
from coach.telling.page import Row
from coach.telling.plan import STEP_HEADS, steps_table
from coach.telling.writing import Shown

CHOSEN, _NOT_CHOSEN = "▸ ", "  "
#: Below this room for the titles, a list does with shorter cells.
_ROOM_FOR_TITLES = 24
_LEAST_TITLE = 10
_NUMBER = 2


class StepRows(NamedTuple):
    """The steps of a plan, worded for a list so many cells wide."""

    rows: tuple[Row, ...]
    heads: tuple[str, ...]
    wide: tuple[int, ...]  # of each column but the number's
    width: int

    def rule(self) -> Content:
        """The line over the list, with the head of each column over it."""
        line = ["─"] * self.width
        line[:9] = "─ Steps ─"
        at = len(CHOSEN) + _NUMBER + 1 + self.wide[0] + GAP
        for head, wide in zip(self.heads[2:], self.wide[1:], strict=True):
            begins = at + min(wide - len(head), 0)  # one that is longer than its column ends over its end
            line[begins - 1 : begins + len(head) + 1] = f" {head} "
            at += wide + GAP
        return one_line("".join(line[: self.width]), Ink.LABEL)

    def row(self, at: int, *, chosen: bool) -> Content:
        """One step, its title going on below where it is longer than its column; with a sign where chosen."""
        cells, tone = self.rows[at].cells, self.rows[at].tone
        title, *more = wrapped(one_line(cells[1]), self.wide[0])
        parts = [title.pad_right(self.wide[0] - title.cell_length)]
        parts += [
            said(cell).pad_right(wide - len(cell))
            for cell, wide in zip(cells[2:], self.wide[1:], strict=True)
        ]
        ink = Ink[tone.name]
        sign = CHOSEN if chosen else _NOT_CHOSEN
        first = joined([said(f"{sign}{cells[0]:>{_NUMBER}} "), joined(parts, " " * GAP)], "")
        blank = " " * (len(CHOSEN) + _NUMBER + 1)
        told = Content("\n").join([first, *(Content.assemble(blank, part) for part in more)])
        return told.stylize(Ink.STRONG) if chosen else told.stylize(ink) if ink else told


def step_rows(plan: Planned, shown: Shown, width: int) -> StepRows:
    """The steps in a list so many cells wide, nothing of them cut off."""
    rows, heads = steps_table(plan, shown).rows, STEP_HEADS
    wide = _columns(rows, heads, width)
    if wide[0] < _ROOM_FOR_TITLES:
        rows = tuple(row._replace(cells=_short(row.cells)) for row in rows)
        heads = (*heads[:-1], "known")
        wide = _columns(rows, ("", "", "", *heads[3:]), width)
    return StepRows(rows, heads, wide, width)


def _short(cells: Sequence[str]) -> tuple[str, ...]:
    number, title, heats, time, *doubts = cells
    return (number, title, heats.strip(), time.replace(" to ", "–"), *doubts)


def _columns(rows: Sequence[Row], heads: Sequence[str], width: int) -> tuple[int, ...]:
    """The cells of each column; that of the titles takes what the others leave."""
    wide = [max(len(head), *(len(row.cells[at]) for row in rows)) for at, head in enumerate(heads) if at > 1]
    left = width - len(CHOSEN) - _NUMBER - 1 - sum(wide) - GAP * len(wide)
    return (max(left, _LEAST_TITLE), *wide)
