"""The sizes of a step as a table whose heads stand in its rule: wanted, read, to go, and what that means."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from textual.content import Content

from coach.bench.checks import Check, SizeRead
from coach.ledger.verdict import Verdict
from coach.quantities.figure import Kind
from coach.quantities.words import counted
from coach.screens.wording import Ink, said
from coach.telling.page import Tone
from coach.telling.to_go import Aim, aim_of, cold_number, to_go
from coach.telling.writing import Shown

_HEADS = ("wanted", "read", "to go", "verdict")
_GAP = 2
#: A name is cut short to so many cells before the words of a verdict are.
_LEAST_NAME, _LEAST_WORDS = 8, 8


def size_glance(check: Check, shown: Shown, *, named: bool = True) -> str:
    """A size on one line: what it is worked to and how far there is to go: `point side 8 ±0.8 mm ▼ 1.1`.

    Not `named` it begins with the figure.
    """
    aim = aim_of(check.wanted, shown) if check.wanted is not None else None
    ahead = to_go(check, shown)
    wanted = " ".join(part for part in aim if part) if aim is not None else ""
    return " ".join(part for part in (check.label * named, wanted, ahead.sign, ahead.amount) if part)


def is_good(check: Check) -> bool:
    """Whether a size was read and is as it should be; what only a later step mends is not."""
    return check.reading is not None and check.is_settled and check.verdict is not Verdict.PAST_STEP


class _Row(NamedTuple):
    number: str  # as it is typed in a size's place: `2=31.5`
    name: str
    wanted: tuple[str, str]  # the size, and what may be off it
    read: tuple[str, str]  # what was read, and how
    sign: str
    amount: str
    words: str
    brief: str  # the same where there is little room
    tone: Tone
    chosen: bool
    good: bool


def size_rows(
    checks: Sequence[Check], chosen: Check | None, shown: Shown, width: int, rows: int = 0
) -> list[Content]:
    """The rule with its heads, and a row for each size.

    Args:
        checks: the step's sizes; none give no lines.
        chosen: the one that is read next.
        shown: the units.
        width: how many cells wide a line may be; what gives is the name, then the words.
        rows: how many there is room for with the rule; where there are more sizes, those that are good are
            told as one, and what remains runs on to the chosen one. 0 for all of them.
    """
    if not checks:
        return []
    told = _rows(checks, chosen, shown)
    kept = _folded(told, rows - 1) if rows else told
    hidden = sum(row not in kept and not row.good for row in told)
    return _set(kept, width, f"Sizes, {hidden} more" if hidden else "Sizes")


def _rows(checks: Sequence[Check], chosen: Check | None, shown: Shown) -> list[_Row]:
    zones = {check.zone for check in checks}
    zone = f"{zones.pop()} " if len(zones) == 1 else ""
    told = []
    for at, check in enumerate(checks, 1):
        aim = aim_of(check.wanted, shown) if check.wanted is not None else None
        reading, ahead = check.reading, to_go(check, shown)
        how = _how(reading) if reading is not None else ""
        read = cold_number(reading, shown) if reading is not None else ""
        told.append(
            _Row(
                str(at),
                check.label.removeprefix(zone) if check.label != zone.strip() else check.label,
                _wanted(aim, check.kind),
                ("" if check.kind is Kind.TEST else read, how),
                ahead.sign,
                ahead.amount if ahead.sign in "▼▲✗" else "",
                ahead.words,
                "not tried" if reading is None and check.kind is Kind.TEST else ahead.words,
                ahead.tone,
                check is chosen,
                is_good(check),
            )
        )
    return told


def _how(reading: SizeRead) -> str:
    """What is to be said of a reading beside its number."""
    if reading.questioned or reading.refused:
        return "?"
    return "before" if reading.old else "hot" if reading.hot else ""


def _wanted(aim: Aim | None, kind: Kind) -> tuple[str, str]:
    if aim is None:
        return "–", ""
    if kind is Kind.TEST:
        return "pass", ""
    # Every length of a job is in one unit; another kind is told with its own.
    return (aim.number, aim.limits) if kind is Kind.LENGTH else (f"{aim.number} {aim.unit}", aim.limits)


def _folded(rows: list[_Row], room: int) -> list[_Row]:
    """Rows that there is room for: those that are good become one, and the chosen one is never left out."""
    if len(rows) <= room or room < 1:
        return rows if room >= 1 else [row for row in rows if row.chosen][:1]
    good = [row for row in rows if row.good and not row.chosen]
    kept = [row for row in rows if not row.good or row.chosen]
    if len(good) > 1:
        folded = _Row(
            "",
            f"{counted(len(good), 'size')} good: {', '.join(row.number for row in good)}",
            ("", ""),
            ("", ""),
            "✓",
            "",
            "",
            "",
            Tone.GOOD,
            False,
            True,
        )
        kept = [folded, *kept]
    else:
        kept = rows
    if len(kept) <= room:
        return kept
    # The chosen one first, then what is bad or in doubt, then the rest in its order.
    ranked = sorted(
        kept, key=lambda row: (not row.chosen, row.tone is not Tone.BAD, row.sign != "?", row.good)
    )
    return [row for row in kept if row in ranked[:room]]


def _heads_in_place(title: str, name: int, wide: Sequence[int], gaps: Sequence[int]) -> str:
    """The heads above their columns, with a rule between them wherever there is a cell for one."""
    heads, at = f"─ {title} ", 4 + name
    for head, across, before in zip(_HEADS, wide, gaps, strict=True):
        at += before
        heads = f"{heads.ljust(at - 1, '─')} {head} " if across and len(heads) < at else heads
        at += across
    return heads.rstrip()


def _set(rows: Sequence[_Row], width: int, title: str) -> list[Content]:
    wanted = _aligned([row.wanted for row in rows])
    read = _aligned([row.read for row in rows])
    amounts = [text for text, _ in _points([row.amount for row in rows])]
    go = [f"{row.sign} {amount}".rstrip() for row, amount in zip(rows, amounts, strict=True)]
    most = max(said(row.name).cell_length for row in rows)
    # What gives way before a name is cut: the answers of a test, the gaps, the words of the verdicts.
    for gap, briefly in ((_GAP, False), (_GAP, True), (1, True)):
        words = [row.brief if briefly else row.words for row in rows]
        columns = [[head, *cells] for head, cells in zip(_HEADS, (wanted, read, go, words), strict=True)]
        wide = [max(map(len, column)) for column in columns]
        room = width - 4 - sum(wide) - gap * len(wide)
        if room >= most:
            break
    name = max(min(max(room, _LEAST_NAME), most), len(title) - 1)
    over = name + 4 + sum(wide) + gap * len(wide) - width
    if over > 0:
        wide[3] = wide[3] - over if wide[3] - over >= _LEAST_WORDS else 0
    spread = max(width - 4 - name - sum(wide) - gap * len(wide), 0) // 4
    gaps = [gap + min(spread, 4)] * 4
    heads = f"─ {title} ".ljust(4 + name, "─")
    for head, across, before in zip(_HEADS, wide, gaps, strict=True):
        heads += f"{'─' * (before - 1)} {head} ".ljust(before + across, "─") if across else " "
    heads = heads.rstrip(" ─")
    if len(heads) > width:  # each a cell nearer to its column, which leaves the last one its place
        heads = _heads_in_place(title, name, wide, gaps)
    whole = heads if len(heads) <= width else heads[:width].rpartition(" ")[0].rstrip()
    apart = "" if whole.endswith("─") else " "
    lines = [said(f"{whole}{apart}".ljust(width, "─")[:width], Ink.LABEL)]
    for at, row in enumerate(rows):
        ink = "bold" if row.chosen else ""
        tone = Ink[row.tone.name]
        typed = f"{row.number}=" if row.number else ""  # as it is typed before another size than the chosen
        mark = said(" ▸  ", "bold $accent") if row.chosen else said(f"{typed:>3} ", Ink.QUIET)
        named = said(row.name, ink).truncate(name, ellipsis=True, pad=True)
        cells = [mark, named]
        told = [
            (f"{wanted[at]:<{wide[0]}}", ink),
            (f"{read[at]:<{wide[1]}}", ink),
            (f"{go[at]:<{wide[2]}}", tone or ink),
            (_cut(words[at], wide[3]) if wide[3] else "", tone or ink),
        ]
        parts = [
            Content.assemble(" " * gap, said(text, style))
            for gap, (text, style) in zip(gaps, told, strict=True)
        ]
        line = Content.assemble(*cells, *parts)
        lines.append(line.truncate(width))
    return lines


def _aligned(pairs: Sequence[tuple[str, str]]) -> list[str]:
    """Numbers under each other by their decimal points, each with what stands behind it."""
    numbers = [text for text, _ in _points([number for number, _ in pairs])]
    wide = max((len(number) for number, (_, behind) in zip(numbers, pairs, strict=True) if behind), default=0)
    return [f"{number:<{wide}} {behind}".rstrip() for number, (_, behind) in zip(numbers, pairs, strict=True)]


def _points(numbers: Sequence[str]) -> list[tuple[str, int]]:
    before = [number.partition(".")[0] for number in numbers]
    # What is told as from one to another is no number whose point others stand under.
    one = [number[:1].isdigit() and " to " not in number for number in numbers]
    wide = max((len(whole) for whole, is_one in zip(before, one, strict=True) if is_one), default=0)
    return [
        ((" " * (wide - len(whole)) if is_one else "") + number, wide)
        for whole, number, is_one in zip(before, numbers, one, strict=True)
    ]


def _cut(text: str, width: int) -> str:
    return text if len(text) <= width else f"{text[: max(width - 1, 0)]}…"
