"""The record of a job as one table: what the bench tells in words, and its figures as plain numbers."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from math import isfinite
from typing import Final

from coach.bench.sheet import Sheet
from coach.bench.sizes_came import SizeCame
from coach.bench.taken import StepTaken
from coach.quantities import Figure, Wanted
from coach.quantities.figure import Kind
from coach.sheets.csv import TableRow, table_csv
from coach.telling.bounds import told_beside
from coach.telling.figures import write_figure
from coach.telling.page import Line, Page, Section, Table
from coach.telling.sheet import apart_section, sizes_section, steps_section, taken_section
from coach.telling.size_came import came_text
from coach.telling.writing import Shown

#: The columns of text: the heading it stands under, what it is of, and what is told of it.
_TEXTS: Final = ("kind", "name", "wanted or planned", "came or taken", "told")
#: Which of them a table's column is: by its head. What is none of these is told last.
_PLACES: Final = {
    **dict.fromkeys(("wanted", "planned"), 2),
    **dict.fromkeys(("came", "taken", "came of it", "read", "heats"), 3),
}
#: A sign that stands before a size or a test: what it says is told beside it.
_SIGN: Final = re.compile(r"^[^\w(]\s+")
_TIMES: Final = {"h": Fraction(60), "min": Fraction(1), "s": Fraction(1, 60)}
_GRAMS: Final = {"kg": Fraction(1000), "g": Fraction(1)}
_OUNCES: Final = {"lb": Fraction(16), "oz": Fraction(1)}
#: Kinds that stand in one unit whatever their size, in inches or not; and what the bench tells them in.
_ALWAYS: Final[Mapping[tuple[Kind, bool], tuple[str, Mapping[str, Fraction]]]] = {
    (Kind.TIME, False): ("min", _TIMES),
    (Kind.TIME, True): ("min", _TIMES),
    (Kind.MASS, False): ("g", _GRAMS),
    (Kind.MASS, True): ("oz", _OUNCES),
}

#: The order of the columns of numbers: their units, then what each tells.
_UNITS: Final = ("mm", "in", "°", "°C", "°F", "HRC", "heats", "blows", "min", "g", "oz")
_TOLD: Final = (
    *("wanted from", "wanted to", "came", "reckoned"),
    *("planned from", "planned to", "planned", "taken"),
)

Numbers = dict[str, str]


def record_csv(sheet: Sheet, told: Page, shown: Shown) -> str:
    """The whole record: each line and each row of a table as a row, its numbers in columns with their units.

    A number is as the bench shows it, to the last digit; a fraction of an inch stands as a decimal.
    """
    of_rows = [
        (sizes_section(sheet, shown), [_of_size(one, shown) for one in sheet.sizes]),
        (apart_section(sheet, shown), [_of_size(one, shown) for one in sheet.apart]),
        (steps_section(sheet), [_of_step(one, shown) for one in sheet.heats.steps]),
    ]
    took_section, took = taken_section(sheet, shown), _taken(sheet, shown)
    rows = (
        row
        for part in told.sections
        for row in _rows(
            part,
            part.heading or sheet.title,
            next((numbers for one, numbers in of_rows if one == part), []),
            took if part == took_section else {},
        )
    )
    return table_csv(_TEXTS, rows, _rank)


def _rank(column: str) -> tuple[int, ...]:
    """Where a column of numbers stands, in every record alike: by its unit, then by what it tells.

    >>> sorted(("came (mm)", "taken (g)", "reckoned (°C)", "wanted from (mm)"), key=_rank)
    ['wanted from (mm)', 'came (mm)', 'reckoned (°C)', 'taken (g)']
    """
    told, _, unit = column.removesuffix(")").partition(" (")
    units, what = ((*_UNITS, unit).index(unit), (*_TOLD, told).index(told))
    return units, what


def _rows(
    part: Section, kind: str, numbers: Sequence[Numbers], took: Mapping[str, Numbers]
) -> Iterator[TableRow]:
    """The rows of a section: its numbers in the order of its table's rows, or by what they are of."""
    for one in part.body:
        if isinstance(one, Line):
            lines = () if one.as_it_stands else one.words.splitlines()
            yield from (TableRow((kind, "", "", "", line)) for line in lines)
            continue
        for at, row in enumerate(one.rows):
            of_it = numbers[at] if at < len(numbers) else took.get(row.cells[0].strip(), {})
            yield TableRow(_placed(kind, one, row.cells), of_it)


def _placed(kind: str, table: Table, cells: Sequence[str]) -> tuple[str, ...]:
    name, *others = (one.strip() for one in cells)
    texts = [kind, _SIGN.sub("", name), "", "", ""]
    for head, text in zip(table.heads[1:] or [""] * len(others), others, strict=False):
        place = _PLACES.get(head.strip(), 4)
        place = 4 if texts[place] else place
        told = f"{head.strip()} {text}" if place == 4 and text.isdecimal() else text
        texts[place] = ", ".join(part for part in (texts[place], told) if part)
    return tuple(texts)


def _of_step(step: StepTaken, shown: Shown) -> Numbers:
    struck = {"taken (blows)": str(step.blows), "blows in (heats)": str(step.blows_of)}
    return {
        "planned (heats)": str(step.heats_planned),
        "taken (heats)": str(step.heats),
        **(_number("taken", step.worked, shown) if step.hours_known else {}),
        **(struck if step.blows_of else {}),
    }


def _taken(sheet: Sheet, shown: Shown) -> dict[str, Numbers]:
    """The numbers of what it took, by what they are of as it is told."""
    heats, time, metal = sheet.heats, sheet.time, sheet.metal
    at_the_fire, in_all = (
        {} if time.not_known else _number("taken", one, shown) for one in (time.at_the_fire, time.in_all)
    )
    ends = time.planned_at_the_fire
    planned = {
        **_number("planned from", Figure(ends.low, Kind.TIME), shown),
        **_number("planned to", Figure(ends.high, Kind.TIME), shown),
    }
    found = {
        "heats": {"planned (heats)": str(heats.planned), "taken (heats)": str(heats.taken)},
        "at the fire": {**(planned if heats.planned else {}), **at_the_fire},
        "in all": in_all,
    }
    if metal is not None:
        for name, was, came in (
            ("bar", metal.planned, metal.used),
            ("lost", metal.planned_lost, metal.lost),
            ("tool", metal.planned_tool, metal.left),
        ):
            found[name] = {**_number("planned", was, shown), **_number("taken", came, shown, "±")}
        found["set aside"] = _number("taken", metal.aside, shown)
    return found


def _of_size(size: SizeCame, shown: Shown) -> Numbers:
    found: Numbers = {}
    if size.wanted is not None and size.wanted.kind is not Kind.TEST:
        found |= _limits(size.wanted, size.came, shown)
    if size.came is not None:
        found |= _told_number("came", came_text(size, shown), size.came, shown)
    return found | (_number("reckoned", size.reckoned, shown, "±") if size.reckoned is not None else {})


def _limits(wanted: Wanted, came: Figure | None, shown: Shown) -> Numbers:
    """The limits by what is told of them: of a length they are told inward.

    >>> from coach.quantities import Limits
    >>> _limits(Wanted(Limits(5.0, 4.2, 5.8, stated=True)), None, Shown("in"))
    {'wanted from (in)': '0.166', 'wanted to (in)': '0.228'}
    >>> _limits(Wanted(Limits(28.0, 27.0, 28.0, stated=True)), None, Shown())
    {'wanted from (mm)': '27', 'wanted to (mm)': '28'}
    """
    if wanted.kind is not Kind.LENGTH:
        low, high = (Figure(one, wanted.kind) for one in (wanted.limits.low, wanted.limits.high))
        return {**_number("wanted from", low, shown), **_number("wanted to", high, shown)}
    told = told_beside(wanted, came, shown)
    ends = (("from", told.low), ("to", told.high))
    return {f"wanted {end} ({shown.system})": f"{float(at):.9g}" for end, at in ends if at is not None}


def _number(name: str, figure: Figure, shown: Shown, how: str = "") -> Numbers:
    """A figure as a number in a column with its unit; none of what is not finite, or no one number.

    `how` is as it is told beside it: its doubt is left out, and its number is the same.

    >>> from coach.quantities import grams, mm
    >>> _number("came", mm(9.525), Shown("in")), _number("taken", grams(1240.0), Shown())
    ({'came (in)': '0.375'}, {'taken (g)': '1240'})
    >>> _number("taken", grams(109.1, 1.2), Shown("in"), "±")
    {'taken (oz)': '3.85'}
    """
    if not isfinite(figure.value):
        return {}
    number, _, doubt = write_figure(figure, shown, how).partition(" ±")
    text = number if re.search("[a-z°%]", number) else number + re.sub(r"^[\d./ ]*\d", "", doubt)
    return _told_number(name, text, figure, shown)


def _told_number(name: str, text: str, figure: Figure, shown: Shown) -> Numbers:
    """The number that a figure is told as."""
    if figure.kind in (Kind.TIME, Kind.MASS):
        unit, parts = _ALWAYS[figure.kind, shown.system == "in"]
        told = re.findall(rf"([\d.]+) ({'|'.join(parts)})\b", text)
        total = sum((Fraction(number) * parts[of] for number, of in told), Fraction(0))
        return {f"{name} ({unit})": f"{round(float(total), 2):g}"}
    signed = text.replace("\N{MINUS SIGN}", "-")
    found = re.fullmatch(r"(?P<sign>-?)(?P<number>[\d./ ]*\d) ?(?P<unit>[^\d\s].*)?", signed)
    if found is None:
        return {}
    number = _decimal(found["number"])
    return {f"{name} ({found['unit'] or '1'})": f"{found['sign']}{number}"} if number else {}


def _decimal(text: str) -> str:
    """A number as it is shown, a fraction as a decimal: `1 3/8` as `1.375`."""
    return f"{float(_sum(text)):.9g}" if "/" in text else text


def _sum(text: str) -> Fraction:
    """What a number comes to that may be a whole and a fraction."""
    return sum(map(Fraction, text.split()), Fraction(0))
