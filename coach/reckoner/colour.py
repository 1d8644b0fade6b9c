"""What a colour of glowing or of tempered steel says about its heat, and what a heat looks like."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import Enum
from typing import Final, NamedTuple

from coach.fire.colours import COLOUR_DOUBT_C, HEAT_COLOURS, ColourTables, NamedInTable
from coach.fire.glow import glow_rgb
from coach.fire.srgb import Rgb, readable_on
from coach.fire.temper_colours import TEMPER_COLOURS, TEMPER_DOUBT_C, temper_rgb
from coach.quantities import NOTHING, Figure, Kind, Words, celsius, read_temperature_c, say
from coach.quantities.refusal import NotKnown
from coach.quantities.takes import Take, Typed, flag, plain
from coach.reckoner.asking.reading import is_figure
from coach.reckoner.asking.told import Caution, Rows, Swatched, Told, Under

SUMMARY = "Tell what a heat looks like, and how hot a colour is."
SOURCES = (
    "Sources: the published tables that are named beside the colours, which differ by up to 150 °C on one "
    "word; the swatches of heat by Planck's law and the CIE 1931 observer (confirmed second-hand), those of "
    "tempering by eye (judgement). The light of the shop changes what is seen."
)
TAKES = (
    Take(
        "asked",
        "a colour (light orange) or a temperature (950, 1750F); without it, the whole table",
        "COLOUR_OR_TEMPERATURE",
        plain(str.strip),
        Typed.RUN_ON,
    ),
    flag("--temper", "the colours of tempering instead of those of heat"),
    Take("--table", "only this published table", "NAME"),
)

# What no longer hurts to touch for a moment, °C (common practice, no source).
_HURTS_FROM_C: Final = 45.0


class Glow(Enum):
    """Where a colour of steel comes from."""

    HEAT = "heat"
    TEMPER = "temper"


class Colour(NamedTuple):
    """One colour of one published table; what stands for a table's silence has no temperature."""

    table: str
    name: str  # its word, or in words that the table has none there
    aliases: tuple[str, ...]  # its other words
    temperature: Figure | None  # what it stands for
    rgb: Rgb  # its swatch, red, green and blue from 0 to 255
    words: str  # black or white, whichever is read better on it
    uses: tuple[str, ...]  # tools that the table tempers to it
    source: str  # where the table was published, and how far that is confirmed


class Colours(NamedTuple):
    """A colour or a heat that was asked for, or a whole table."""

    kind: Glow
    asked: str  # what was asked, empty for a whole table
    temperature: Figure | None  # of a word, in the first table that has it; None for a whole table
    trust: Figure  # how far a colour's word may be off
    rgb: Rgb | None  # the swatch; None for a whole table
    colours: tuple[Colour, ...]


def reckon(asked: str | None = None, table: str | None = None, *, temper: bool = False) -> Colours:
    """What a word means and a heat is called, in every published table or in the one named.

    Without a word, the whole table. Raises NotKnown, SizeError, and OutOfRange for a heat that has no
    colour here. Sources: each table's own, `coach.fire.colours`.

    >>> reckon("light orange").temperature.value
    941.0
    >>> [(found.table, found.name) for found in reckon("900", table="Dooley").colours]
    [('Dooley', 'cherry')]
    """
    kind, tables = (Glow.TEMPER, TEMPER_COLOURS) if temper else (Glow.HEAT, HEAT_COLOURS)
    word, whole = asked or "", tables.table(table)
    temperature_c = read_temperature_c(word) if word and is_figure(word) else None
    if not word:
        found = tuple(NamedInTable(whole, one.name, one) for one in whole.colours)
    elif temperature_c is not None:
        found = tables.near(temperature_c)
    else:
        if table is not None:  # a word that the table does not have is refused with the nearest that it has
            tables.temperature_c(word, table)
        found = _meanings(tables, word)
    if table is not None:
        found = tuple(one for one in found if one.table == whole)
    temperature = None if temperature_c is None else celsius(temperature_c)
    if word and temperature is None and found[0].colour is not None:
        temperature = celsius(found[0].colour.temperature_c)
    return Colours(
        kind,
        word,
        temperature,
        Figure(_trust_c(kind, word, found), Kind.TEMPERATURE_CHANGE),
        None if temperature is None else _rgb(kind, temperature.value),
        tuple(_row(kind, one, temperature) for one in found),
    )


def _meanings(tables: ColourTables, word: str) -> tuple[NamedInTable, ...]:
    """What a word means; one that is a colour of the other kind alone is refused with that said."""
    try:
        return tables.meanings(word)
    except NotKnown:
        other, whose = (HEAT_COLOURS, "heat") if tables is TEMPER_COLOURS else (TEMPER_COLOURS, "tempering")
        try:
            other.temperature_c(word)
        except NotKnown:
            pass
        else:
            how = "ask for it with --temper" if tables is HEAT_COLOURS else "ask for it without --temper"
            raise NotKnown(f"“{word}” is a colour of {whose}, and here stand the others: {how}.") from None
        raise


def _trust_c(kind: Glow, word: str, found: Sequence[NamedInTable]) -> float:
    """How far a word may be off: by the eye at best, or as far as the tables that have it are apart, °C."""
    best_c = COLOUR_DOUBT_C if kind is Glow.HEAT else TEMPER_DOUBT_C
    told_c = [one.colour.temperature_c for one in found if one.colour is not None]
    if not told_c or not word or is_figure(word):
        return best_c
    return max(best_c, *(abs(one_c - told_c[0]) for one_c in told_c))


def told(answer: Colours) -> Iterator[Told]:
    """The colour, in every table that has it."""
    if answer.rgb is None:
        yield f"{answer.colours[0].table}: {answer.colours[0].source}"
    else:
        both = _both(answer.temperature)
        yield Swatched(say("{}: {}", answer.asked, both) if answer.asked[0].isalpha() else both, answer.rgb)
    cells = tuple(_cells(answer, one) for one in answer.colours)
    yield Under("", (Rows(cells, tuple(one.rgb for one in answer.colours)),))
    yield say("A word is good to ±{:mm} ({:in}) at best.", answer.trust, answer.trust)
    if _looks_cold(answer):
        yield Caution("hot metal that no longer glows looks cold, and it burns the hand: use the tongs.")


def _cells(answer: Colours, row: Colour) -> tuple[Words | str, ...]:
    both, uses = _both(row.temperature), [f"for {use}" for use in row.uses]
    if answer.rgb is None:
        return both, row.name, ", ".join((*row.aliases, *uses))
    return row.table, row.name, both, ", ".join(uses)


def _both(temperature: Figure | None) -> Words:
    """A temperature on both scales, as the published tables are on one and the smith's gauge on the other."""
    return NOTHING if temperature is None else say("{:mm}, {:in}", temperature, temperature)


def _looks_cold(answer: Colours) -> bool:
    hot = answer.temperature is not None and answer.temperature.value >= _HURTS_FROM_C
    return hot and answer.kind is Glow.HEAT and any(one.temperature is None for one in answer.colours)


def _row(kind: Glow, found: NamedInTable, asked: Figure | None) -> Colour:
    """A colour of a table; where a table is silent, the swatch is that of the heat that was asked for."""
    colour = found.colour
    at = asked if colour is None else celsius(colour.temperature_c)
    assert at is not None  # a table is silent only about a heat
    rgb = _rgb(kind, at.value)
    return Colour(
        found.table.name,
        found.name,
        () if colour is None else colour.aliases,
        None if colour is None else at,
        rgb,
        readable_on(rgb),
        () if colour is None else colour.uses,
        found.table.source,
    )


def _rgb(kind: Glow, temperature_c: float) -> Rgb:
    return glow_rgb(temperature_c) if kind is Glow.HEAT else temper_rgb(temperature_c)
