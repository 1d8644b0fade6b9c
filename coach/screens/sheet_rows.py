"""The sizes on the sheet of a job: one under another, or in two columns where a window has room for these."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from textual.content import Content

from coach.bench.sheet import Sheet
from coach.bench.sizes_came import SizeCame, SizeVerdict
from coach.quantities import counted
from coach.screens.page_content import section_lines
from coach.screens.widgets.pane import rule, side_by_side
from coach.screens.wording import GAP, Ink, in_columns, one_line, wrapped
from coach.telling.page import Section, Table
from coach.telling.sheet import apart_section
from coach.telling.size_came import RECKONED_ON, TONES, sign_of, size_row
from coach.telling.writing import Shown

#: From so many cells on, two columns of sizes stand beside each other.
TWO_FROM = 78

#: From so many cells on a table has room for what a size that was not measured is reckoned at.
_RECKONED_FROM = 84
#: Sizes are told with their signs alone where the rest goes without saying.
_WITHOUT_WORDS = (SizeVerdict.WITHIN, SizeVerdict.AS_READ, SizeVerdict.TO_COME)


def headed(part: Section, width: int) -> list[Content]:
    """A section under a rule; none where it has nothing to tell."""
    if not part.body:
        return []
    lines = section_lines(part._replace(heading=""), width - 1, hangs=True)
    return [rule(part.heading, width), *(Content.assemble(" ", line) for line in lines)]


def in_one(sheet: Sheet, shown: Shown, width: int) -> list[Content]:
    """The sizes one under another, each with what became of it in words."""
    sizes = [*sheet.sizes, *sheet.apart]
    rows = [size_row(one, shown, sizes) for one in sizes]
    if width < _RECKONED_FROM:
        rows = [
            row._replace(cells=(*row.cells[:-1], re.split("; reckoned|; read ", row.cells[-1])[0]))
            for row in rows
        ]
    told = Table(tuple(rows), ("  size", "wanted", "came", ""), gives=3)
    return [Content.assemble(" ", line) for line in section_lines(Section("", (told,)), width - 1)]


def in_two(sheet: Sheet, shown: Shown, width: int) -> list[Content] | None:
    """The sizes in two columns, with words below for those that need them; None where that has no room.

    What the steps ask for besides stands among them, or has a part of its own where a name would be cut.
    """
    every = [*sheet.sizes, *sheet.apart]
    for sizes, may_cut in ((every, False), (sheet.sizes, False), (every, True)):
        told = _columns(sizes, every, shown, width, may_cut=may_cut)
        if told is not None:
            apart = [] if len(sizes) == len(every) else headed(apart_section(sheet, shown), width)
            return [*told, *_words_of(sizes, every, shown, width), *apart]
    return None


def _columns(
    sizes: Sequence[SizeCame], among: Sequence[SizeCame], shown: Shown, width: int, *, may_cut: bool
) -> list[Content] | None:
    half = (width - 3) // 2
    rows = [_short_row(one, among, shown) for one in sizes]
    across = sum(max(row[at].cell_length for row in rows) for at in (1, 2)) if rows else 0
    if not rows or half - across < 6 + max(row[0].cell_length for row in rows) * 2 // 3:
        return None
    first = (len(rows) + 1) // 2
    parts = rows[:first], rows[first:]
    left, right = (_wide(part) for part in parts)
    if left + right > 2 * half and not may_cut:
        return None
    if left + right > 2 * half or max(left, right) <= half:  # both are cut alike
        left = right = half
    else:  # the one that needs more takes it from the other
        left, right = (left, 2 * half - left) if left > half else (2 * half - right, right)
    halves = [in_columns(part, wide, gives=0) for part, wide in zip(parts, (left, right), strict=True)]
    told = side_by_side([(halves[0], left + 1), (halves[1], right)])
    return [Content.assemble(" ", line) for line in told]


def _short_row(size: SizeCame, among: Sequence[SizeCame], shown: Shown) -> list[Content]:
    name, wanted, came, _ = size_row(size, shown, among).cells
    sign, _, name = name.partition(" ")
    ink = Ink[TONES[size.verdict].name]
    unit = f" {shown.system}"
    cells = [one_line(name), one_line(wanted.removesuffix(unit), Ink.QUIET)]
    came_ink = Ink.STRONG if size.came is not None else Ink.QUIET
    sign_ink = Ink.GOOD if size.verdict is SizeVerdict.WITHIN else ink
    named = Content.assemble(one_line(sign, sign_ink), " ", cells[0])
    return [named, cells[1], one_line(came.removesuffix(unit), came_ink)]


def _wide(rows: list[list[Content]]) -> int:
    """How many cells rows take with nothing cut."""
    return sum(max((row[at].cell_length for row in rows), default=0) + GAP for at in range(3)) - GAP


def _words_of(
    sizes: Sequence[SizeCame], among: Sequence[SizeCame], shown: Shown, width: int
) -> Iterator[Content]:
    """What is to be said of those that are not simply within, and how many were not measured."""
    for one in sizes:
        if one.verdict not in (*_WITHOUT_WORDS, SizeVerdict.NOT_MEASURED):
            told = f"{sign_of(one, shown)} {one.label_among(among)}: {size_row(one, shown).cells[-1]}"
            yield from _hanging(one_line(told, Ink[TONES[one.verdict].name]), width)
    unmeasured = [one for one in sizes if one.verdict is SizeVerdict.NOT_MEASURED]
    drawn = [one for one in unmeasured if not one.step]  # the others some step asks for
    if drawn:
        told = f"· {counted(len(drawn), 'size')} not measured since last worked: "
        told += f"at the bench type {drawn[0].label}= and what it measures"
        if besides := len(unmeasured) - len(drawn):
            told += f"; {besides} of what the steps ask for besides not read"
        yield from _hanging(one_line(told, Ink.QUIET), width)
    reckoned = sum(sign_of(one, shown) == RECKONED_ON for one in sizes)
    if reckoned:
        told = (
            f"{RECKONED_ON} {counted(reckoned, 'size')} reckoned on from what was read, less the scale since"
        )
        yield one_line(told, Ink.QUIET, indent=1)


def _hanging(told: Content, width: int) -> Iterator[Content]:
    for at, line in enumerate(wrapped(told, width - 3)):
        yield Content.assemble("   " if at else " ", line)
