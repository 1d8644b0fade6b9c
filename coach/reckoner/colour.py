"""What a colour of glowing or of tempered steel says about its heat, and what a heat looks like."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, NamedTuple

from coach.fire.colours import (
    COLOUR_DOUBT_C,
    ColourTable,
    HeatColour,
    colour_table,
    colour_temperature_c,
    meanings,
    names_near,
)
from coach.fire.glow import glow_rgb
from coach.fire.naming import InTable, Meaning
from coach.fire.srgb import Rgb, readable_on
from coach.fire.temper_colours import (
    TEMPER_DOUBT_C,
    TemperColour,
    TemperTable,
    temper_meanings,
    temper_names_near,
    temper_rgb,
    temper_table,
    temper_temperature_c,
)
from coach.quantities import read_temperature_c
from coach.reckoner.asking import is_figure

Kind = Literal["heat", "temper"]


class ColourView(NamedTuple):
    """One colour of one published table; what stands for a table's silence has no temperature."""

    table: str
    name: str  # its word, or in words that the table has none there
    aliases: tuple[str, ...]  # its other words
    temperature_c: float | None  # the temperature it stands for; `null` where the table has no colour
    temperature_f: float | None  # the same in °F
    rgb: Rgb  # its swatch
    words: str  # black or white, whichever is read better on it
    uses: tuple[str, ...]  # tools that the table tempers to it
    source: str  # of the table


class ColoursView(NamedTuple):
    """A colour or a heat that was asked for, or a whole table."""

    kind: str  # heat or temper
    asked: str  # what was asked, empty for a whole table
    temperature_c: float | None  # of a word, in the first table that has it; None for a whole table
    temperature_f: float | None  # the same in °F
    doubt: float  # °C, of any colour told by its word
    rgb: Rgb | None  # the swatch, red, green and blue from 0 to 255; `null` for a whole table
    colours: tuple[ColourView, ...]  # colours


def colours(asked: str, kind: Kind = "heat", table: str | None = None) -> ColoursView:
    """What a word means and a heat is called, in every published table or in the one named; "" for a table.

    Raises UnknownColour, SizeError, and OutOfRange for a heat that has no colour here. Sources: each table's.

    >>> colours("light orange").temperature_c
    941.0
    >>> [(found.table, found.name) for found in colours("900", table="Dooley").colours]
    [('Dooley', 'cherry')]
    """
    told = asked.strip()
    if not told:
        rows, temperature_c = _whole(kind, table), None
    elif is_figure(told):
        temperature_c = read_temperature_c(told)
        rows = _named_near(kind, temperature_c)
    else:
        rows = _meant(kind, told, table)
    if table is not None:
        only = _table(kind, table).name
        rows = tuple(row for row in rows if row.table == only)
    if told and not is_figure(told):
        temperature_c = rows[0].temperature_c
    return ColoursView(
        kind=kind,
        asked=told,
        temperature_c=temperature_c,
        temperature_f=None if temperature_c is None else _fahrenheit(temperature_c),
        doubt=COLOUR_DOUBT_C if kind == "heat" else TEMPER_DOUBT_C,
        rgb=None if temperature_c is None else _rgb(kind, temperature_c),
        colours=rows,
    )


def _whole(kind: Kind, table: str | None) -> tuple[ColourView, ...]:
    whole = _table(kind, table)
    return tuple(_row(kind, whole, colour) for colour in whole.colours)


def _named_near(kind: Kind, temperature_c: float) -> tuple[ColourView, ...]:
    near: Iterable[InTable[HeatColour] | InTable[TemperColour]]
    near = names_near(temperature_c) if kind == "heat" else temper_names_near(temperature_c)
    rows = []
    for one in near:
        whole = _table(kind, one.table)
        if one.colour is not None:
            rows.append(_row(kind, whole, one.colour))
        else:
            rgb = _rgb(kind, temperature_c)
            rows.append(
                ColourView(one.table, one.name, (), None, None, rgb, readable_on(rgb), (), whole.source)
            )
    return tuple(rows)


def _meant(kind: Kind, word: str, table: str | None) -> tuple[ColourView, ...]:
    if table is not None:  # a word that the table does not have is refused with the nearest that it has
        _ = colour_temperature_c(word, table) if kind == "heat" else temper_temperature_c(word, table)
    found: Iterable[Meaning[HeatColour] | Meaning[TemperColour]]
    found = meanings(word) if kind == "heat" else temper_meanings(word)
    return tuple(_row(kind, _table(kind, one.table), one.colour) for one in found)


def _table(kind: Kind, name: str | None) -> ColourTable | TemperTable:
    if kind == "heat":
        return colour_table() if name is None else colour_table(name)
    return temper_table() if name is None else temper_table(name)


def _row(kind: Kind, table: ColourTable | TemperTable, colour: HeatColour | TemperColour) -> ColourView:
    rgb = _rgb(kind, colour.temperature_c)
    return ColourView(
        table=table.name,
        name=colour.name,
        aliases=colour.aliases,
        temperature_c=colour.temperature_c,
        temperature_f=colour.temperature_f,
        rgb=rgb,
        words=readable_on(rgb),
        uses=colour.uses if isinstance(colour, TemperColour) else (),
        source=table.source,
    )


def _rgb(kind: Kind, temperature_c: float) -> Rgb:
    return glow_rgb(temperature_c) if kind == "heat" else temper_rgb(temperature_c)


def _fahrenheit(temperature_c: float) -> float:
    return temperature_c * 1.8 + 32.0
