"""How hard a hardened steel is left by tempering at a heat for a time.

Published tables give the hardness by temperature, for a soak of one to two hours; other times are reckoned
with the parameter of Hollomon and Jaffe. All of it is for steel that was hardened right through.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any, Final, NamedTuple

from coach.quantities.between import between
from coach.quantities.checks import check_temperature
from coach.quantities.figure import Figure, Kind, Span, celsius, seconds
from coach.quantities.refusal import OutOfRange
from coach.quantities.words import NOTHING, Words, as_words, run_on, say

LOWEST_C: Final = 100.0  # J. H. Hollomon and L. D. Jaffe measured from 100 to 700 °C,
HIGHEST_C: Final = 700.0
SHORTEST_HOURS: Final = 10.0 / 3600.0  # and from 10 seconds to 24 hours (confirmed).
LONGEST_HOURS: Final = 24.0

#: The soak that the tables are taken for; they are quoted for one to two hours (judgement).
TABLE_HOURS: Final = 1.5

#: The constant of alloy steels, and where the carbon is not known, for hours (confirmed).
GENERAL_CONSTANT: Final = 20.0

#: Struck tools are kept out of these temperatures, in °C (from memory).
EMBRITTLING_FROM_C: Final = 260.0
EMBRITTLING_TO_C: Final = 340.0

_KELVIN: Final = 273.15
_CONSTANTS: Final = (5.0, 30.0)
_CARBON_PER_CENT: Final = (0.2, 1.2)
# The whole table is open to soaks of 1 to 2 h, which shift its ends by no more than this (computed).
_HELD_C: Final = 8.0
_ROUNDING_C: Final = 1e-6


class TemperingRow(NamedTuple):
    """The published hardness of one steel by tempering temperature, coolest first."""

    name: str
    points: tuple[tuple[float, float], ...]  # °C and HRC
    doubt_hrc: float
    constant: float  # of Hollomon and Jaffe, for hours
    source: str  # with how far it is confirmed, in brackets at its end
    note: str


class Tempered(NamedTuple):
    """The hardness after a temper, give or take its doubt."""

    hrc: float
    doubt_hrc: float
    note: Words


class TemperFor(NamedTuple):
    """The temper for a wanted hardness."""

    softest: Figure  # that is wanted
    hardest: Figure  # that is wanted
    low: Figure  # the heat that leaves the hard end
    nominal: Figure  # that leaves the middle of what can be reached
    high: Figure  # that leaves the soft end
    left: Figure  # what the middle of them leaves, with its doubt
    note: Words  # what the table is worth, and where it ends


def equal_temper_c(
    temperature_c: float, hours: float, other_hours: float, constant: float = GENERAL_CONSTANT
) -> float:
    """The temperature, in °C, that does in `other_hours` what `temperature_c` does in `hours`.

    Two tempers with the same P = T·(C + log10 t), with T in kelvin and t in hours, leave the same hardness.
    For 100 to 700 °C and 10 s to 24 h; raises OutOfRange elsewhere. The constant belongs to hours: for
    seconds it is 3.556 less.
    Source: J. H. Hollomon and L. D. Jaffe, Time-temperature relations in tempering steel, Trans. AIME 162
    (1945), 223-249 (confirmed).

    >>> round(equal_temper_c(205, 2, 0.1), 1)
    237.7
    """
    _check(temperature_c)
    other_c = _equal_c(temperature_c, hours, other_hours, constant)
    _check(other_c)
    return other_c


def hollomon_jaffe_constant(carbon_per_cent: float | None = None) -> float:
    """The constant for hours, C = 21.3 - 5.8·%C, of plain carbon steel; 20 where the carbon is not known.

    Alloy steels take 20 too: give them None. Measured for 0.3 to 0.98 % of carbon and taken for 0.2 to 1.2 %
    (judgement); raises OutOfRange elsewhere. Source: L. C. F. Canale and others, A historical overview of
    steel tempering parameters, Int. J. Microstructure and Materials Properties 3 (2008), 474 (from memory).

    >>> round(hollomon_jaffe_constant(0.84), 3)
    16.428
    """
    if carbon_per_cent is None:
        return GENERAL_CONSTANT
    least, most = _CARBON_PER_CENT
    if not least <= carbon_per_cent <= most:
        raise OutOfRange(
            f"The tempering constant is known for {least:g} to {most:g} % of carbon, not for "
            f"{carbon_per_cent:g} %; leave the carbon out to reckon with {GENERAL_CONSTANT:g}."
        )
    return 21.3 - 5.8 * carbon_per_cent


def as_quenched_hrc(carbon_per_cent: float) -> float:
    """The hardness of full martensite, before tempering, in HRC: 20 + 60·√C, and 65 at most.

    For 0.1 to 1.2 % of carbon; raises OutOfRange elsewhere. The formula is given up to 0.6 %, where it
    would be 66.5, and 64 to 66 HRC beyond; 65 is held from where the formula reaches it, 0.56 %, so that more
    carbon never reads softer (from memory).

    >>> round(as_quenched_hrc(0.4), 1)
    57.9
    """
    if not 0.1 <= carbon_per_cent <= 1.2:
        raise OutOfRange(
            "The hardness of quenched steel is known for 0.1 to 1.2 % of carbon, "
            f"not for {carbon_per_cent:g} %; give a share within it."
        )
    return min(20.0 + 60.0 * math.sqrt(carbon_per_cent), 65.0)


def tempering_row(name: str) -> TemperingRow | None:
    """The row of a grade by its name, whatever its case, blanks and hyphens; None where none is published.

    >>> tempering_row("Mild steel") is None
    True
    """
    return _rows().get(name.casefold().replace(" ", "").replace("-", ""))


def tempered_hrc(row: TemperingRow, temperature_c: float, hours: float) -> Tempered:
    """The hardness that a soak at a temperature leaves; hours of several soaks are added up.

    The table, straight between its rows, at the temperature that would do the same in TABLE_HOURS. Raises
    OutOfRange outside the table, which for most steels begins at 205 °C.

    >>> round(tempered_hrc(tempering_row("1084"), 230, 1.5).hrc, 1)
    56.1
    """
    _check(temperature_c)
    table_c = _equal_c(temperature_c, hours, TABLE_HOURS, row.constant)
    (first_c, _), (last_c, _) = row.points[0], row.points[-1]
    if table_c < first_c - (_HELD_C if temperature_c >= first_c else _ROUNDING_C):
        raise _outside(row, "begins", first_c, temperature_c, hours, "less; temper hotter or longer")
    if table_c > last_c + (_HELD_C if temperature_c <= last_c else _ROUNDING_C):
        raise _outside(row, "ends", last_c, temperature_c, hours, "more; temper cooler or shorter")
    table_c = min(max(table_c, first_c), last_c)
    return Tempered(between(row.points, table_c), row.doubt_hrc, _notes(row, hours))


def _outside(
    row: TemperingRow, ends: str, end_c: float, temperature_c: float, hours: float, instead: str
) -> OutOfRange:
    return OutOfRange(
        "The table of {} {} at {} for {}, and {} for {} is {}.",
        *(row.name, ends, celsius(end_c), soak(TABLE_HOURS), celsius(temperature_c), soak(hours), instead),
    )


def temper_for(row: TemperingRow, wanted: tuple[float, float], hours: float = TABLE_HOURS) -> TemperFor:
    """The temperatures, in °C, that leave a range of hardness, lowest and highest in HRC, after a soak.

    A range of which the table reaches a part is answered for that part, with a note; raises OutOfRange
    when it reaches none.

    >>> round(temper_for(tempering_row("1080"), (53, 57), 1.5).high.value)
    282
    """
    softest, hardest = wanted
    # Written so that a figure which is not a number is refused too.
    asked = Figure(softest, Kind.HARDNESS), Figure(hardest, Kind.HARDNESS)
    if not 0.0 < softest <= hardest <= 100.0:
        raise OutOfRange(
            "A range of hardness from low to high was expected, not {}; give the softer figure first.",
            Span(softest, hardest, Kind.HARDNESS),
        )
    (first_c, top_hrc), (last_c, end_hrc) = row.points[0], row.points[-1]
    if softest > top_hrc or hardest < end_hrc:
        raise OutOfRange(
            "The table of {} reaches from {} at {} to {} at {}, and {} is outside; wish for a hardness in it "
            "or take another steel.",
            row.name,
            *(Figure(top_hrc, Kind.HARDNESS), celsius(first_c)),
            *(Figure(end_hrc, Kind.HARDNESS), celsius(last_c)),
            asked[1] if softest == hardest else Span(softest, hardest, Kind.HARDNESS),
        )
    note = _notes(row, hours)
    if hardest > top_hrc:
        note = run_on((_nothing("harder", top_hrc, first_c), note))
    if softest < end_hrc:
        note = run_on((_nothing("softer", end_hrc, last_c), note))
    softest, hardest = max(softest, end_hrc), min(hardest, top_hrc)
    low, nominal, high = (
        celsius(equal_temper_c(_table_c(row, hrc), TABLE_HOURS, hours, row.constant))
        for hrc in (hardest, (softest + hardest) / 2.0, softest)
    )
    left = Figure(tempered_hrc(row, nominal.value, hours).hrc, Kind.HARDNESS, row.doubt_hrc)
    return TemperFor(*asked, low, nominal, high, left, note)


def embrittlement(low_c: float, high_c: float) -> Words:
    """One sentence for struck tools when any of a range of tempers is embrittling; nothing otherwise.

    Tempered-martensite embrittlement is told of from 230 to 370 °C; 260 to 340 °C is its worst part (from
    memory).

    >>> bool(embrittlement(200, 240))
    False
    """
    if high_c < EMBRITTLING_FROM_C or low_c > EMBRITTLING_TO_C:
        return NOTHING
    return say(
        "A soak between {} and {} can leave a struck tool brittle (tempered-martensite embrittlement, told "
        "of from {} to {}): some keep axes and hammers out of it unless the hardness is needed, others "
        "temper chisels in it as a matter of course.",
        *map(celsius, (EMBRITTLING_FROM_C, EMBRITTLING_TO_C, 230.0, 370.0)),
    )


def _check(temperature_c: float) -> None:
    check_temperature(
        temperature_c,
        LOWEST_C,
        HIGHEST_C,
        "Tempering is reckoned from {}, not at {}, which may come of a very short or a long soak; give a "
        "temperature within that.",
    )


def _weight(hours: float, constant: float) -> float:
    if not SHORTEST_HOURS <= hours <= LONGEST_HOURS:
        raise OutOfRange(
            "A soak from {} to {} was expected, not {}; give the time at heat within that.",
            *map(soak, (SHORTEST_HOURS, LONGEST_HOURS, hours)),
        )
    low, high = _CONSTANTS
    if not low <= constant <= high:
        raise OutOfRange(
            f"A tempering constant for hours, from {low:g} to {high:g}, was expected, not {constant:g}; "
            f"{GENERAL_CONSTANT:g} is the usual one."
        )
    return constant + math.log10(hours)


def _equal_c(temperature_c: float, hours: float, other_hours: float, constant: float) -> float:
    if hours == other_hours:
        _weight(hours, constant)
        return temperature_c
    kelvin = (temperature_c + _KELVIN) * _weight(hours, constant) / _weight(other_hours, constant)
    return kelvin - _KELVIN


def _table_c(row: TemperingRow, wanted_hrc: float) -> float:
    """The temperature that leaves a hardness, read from the soft end of the table to the hard one."""
    return between([(hrc, at_c) for at_c, hrc in reversed(row.points)], wanted_hrc)


def _notes(row: TemperingRow, hours: float) -> Words:
    if hours == TABLE_HOURS:
        return as_words(row.note)
    basis = say("The table is taken for {}; other times are reckoned.", soak(TABLE_HOURS))
    return run_on((basis, row.note))


def _nothing(harder: str, hrc: float, at_c: float) -> Words:
    hardness = Figure(hrc, Kind.HARDNESS)
    return say("The table has nothing {} than {}, at {}.", harder, hardness, celsius(at_c))


def soak(hours: float) -> Figure:
    """A time at heat."""
    return seconds(3600.0 * hours)


@cache
def _rows() -> dict[str, TemperingRow]:
    import tomllib

    told = tomllib.loads(Path(__file__).with_suffix(".toml").read_text(encoding="utf-8"))
    rows = {name: _row(name, one, told) for name, one in told["rows"].items() if "like" not in one}
    return {
        name.casefold(): rows[name] if name in rows else _taken_for(name, rows[one["like"]], one)
        for name, one in told["rows"].items()
    }


def _row(name: str, one: Mapping[str, Any], told: Mapping[str, Any]) -> TemperingRow:
    constant = hollomon_jaffe_constant(one.get("carbon_per_cent"))
    points = tuple(zip(one.get("at_c", told["table_c"]), one["hrc"], strict=True))
    return TemperingRow(
        name, points, one["doubt_hrc"], constant, told["sources"][one["source"]], one.get("note", "")
    )


def _taken_for(name: str, row: TemperingRow, one: Mapping[str, Any]) -> TemperingRow:
    note = f"The row of {row.name}, taken for {name}{one.get('reason', '')}: judgement. {row.note}".strip()
    return row._replace(name=name, note=note, doubt_hrc=one.get("doubt_hrc", row.doubt_hrc))
