"""How hard a hardened steel is left by tempering at a heat for a time.

Published tables give the hardness by temperature, for a soak of one to two hours; other times are reckoned
with the parameter of Hollomon and Jaffe.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final, NamedTuple

from coach.metals.tempering_table import GENERAL_CONSTANT, TemperingRow
from coach.quantities.between import between
from coach.quantities.checks import check_temperature
from coach.quantities.figure import COVERAGE, Figure, Kind, Span, celsius, seconds
from coach.quantities.refusal import OutOfRange
from coach.quantities.words import NOTHING, Words, as_words, run_on, say

#: J. H. Hollomon and L. D. Jaffe 1945 measured from 100 to 700 °C and from 10 seconds to 24 hours
#: (confirmed).
LOWEST_C: Final = 100.0
HIGHEST_C: Final = 700.0
SHORTEST_HOURS: Final = 10.0 / 3600.0
LONGEST_HOURS: Final = 24.0

#: The soak that the tables are taken for; they are quoted for one to two hours (judgement).
TABLE_HOURS: Final = 1.5

#: A run of temper colours lasts so long, against an hour or two in an oven (judgement).
RUN_HOURS: Final = 3.0 / 60.0

#: Struck tools are kept out of these temperatures, 500 to 700 °F, in °C: a laboratory's almanac, title and
#: year not seen (confirmed second-hand).
EMBRITTLING_FROM_C: Final = 260.0
EMBRITTLING_TO_C: Final = 370.0
#: And told of from here on, 400 °F, in °C: Precision Machined Products Association, its journal on the net,
#: title and year not seen (confirmed).
_TOLD_OF_FROM_C: Final = 200.0

#: Where the scale of Rockwell C ends, by ASTM E140 (confirmed second-hand).
LOWEST_HRC: Final = 20.0

#: From so much carbon on steel comes out as hard as any, and below it as much softer than full martensite
#: (judgement, between what is told of steels of 0.45 to 0.6 % and of 0.95 % and more).
_FULL_CARBON_PER_CENT: Final = 0.7
_FALLS_SHORT_HRC: Final = 7.0

#: So much of these, per cent by mass, and a steel colours later (judgement).
_SLOW_OXIDE: Final = (("Cr", 0.4, "chromium"), ("Si", 0.8, "silicon"))

#: Doubts as near as this count as even (our choice).
_EVEN_HRC: Final = 0.5
#: 0 °C in K (by definition).
_KELVIN: Final = 273.15
#: Between which a constant of Hollomon and Jaffe can be one: told are 15 to 21.3 for hours (from memory).
_CONSTANTS: Final = (5.0, 30.0)
# The whole table is open to soaks of 1 to 2 h, which shift its ends by no more than this (computed).
_HELD_C: Final = 8.0
# Handbooks give 400 °F, 204.4 °C, as 205: so near its end a table holds (judgement).
_ROUNDING_C: Final = 0.7


class Tempered(NamedTuple):
    """The hardness after a temper, give or take its doubt."""

    hrc: float
    softer_hrc: float  # how much softer it may be
    harder_hrc: float  # and how much harder
    note: Words

    @property
    def doubt_hrc(self) -> float:
        """The greater of the two doubts."""
        return max(self.softer_hrc, self.harder_hrc)

    def may_be(self, low_hrc: float, high_hrc: float) -> bool:
        """Whether a hardness within these limits may be what is left."""
        return self.hrc + self.harder_hrc >= low_hrc and self.hrc - self.softer_hrc <= high_hrc

    @property
    def words(self) -> Words:
        """What is left: the figure with its doubt, or with both its ends where they lie unevenly."""
        return left_words(self.hrc, self.softer_hrc, self.harder_hrc)


def left_words(hrc: float, softer_hrc: float, harder_hrc: float) -> Words:
    """A hardness that is left, and how far it may be off to either side."""
    if abs(softer_hrc - harder_hrc) < _EVEN_HRC:
        return say("{:±}", Figure(hrc, Kind.HARDNESS, softer_hrc / COVERAGE))
    ends = Span(hrc - softer_hrc, hrc + harder_hrc, Kind.HARDNESS)
    return say("{}, or from {}", Figure(hrc, Kind.HARDNESS), ends)


class TemperFor(NamedTuple):
    """The temper for a wanted hardness."""

    softest: Figure  # that is wanted
    hardest: Figure  # that is wanted
    low: Figure  # the heat that leaves the hard end
    nominal: Figure  # that leaves the middle of what can be reached
    high: Figure  # that leaves the soft end
    left: Figure  # what the middle of them leaves, with the greater of its doubts
    softest_left: Figure  # the softest that the middle of them may leave
    hardest_left: Figure  # and the hardest
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


def quenched_band_hrc(carbon_per_cent: float) -> tuple[float, float]:
    """Between which hardnesses a steel that was quenched right comes out, before tempering, in HRC.

    Full martensite is the most that a steel of less than 0.7 % of carbon comes to; told are 54 and 58 of C45
    by two sheets, undated, 58 to 63 of 5160 by a smith's page of 2004 (confirmed second-hand), that is up to
    7 less. Of more carbon 1095 is told 66, W2 of 1.0 % 67, O1 65 (confirmed second-hand). Raises OutOfRange
    as `as_quenched_hrc`.

    >>> [round(one) for one in quenched_band_hrc(0.45)], quenched_band_hrc(0.95)
    ([53, 60], (63.0, 67.0))
    """
    most = as_quenched_hrc(carbon_per_cent)
    return (63.0, 67.0) if carbon_per_cent >= _FULL_CARBON_PER_CENT else (most - _FALLS_SHORT_HRC, most)


def tempered_hrc(row: TemperingRow, temperature_c: float, hours: float) -> Tempered:
    """The hardness that a soak at a temperature leaves; hours of several soaks are added up.

    The table, straight between its rows, at the temperature that would do the same in TABLE_HOURS. Raises
    OutOfRange outside the table, which begins at 149 to 205 °C.

    >>> from coach.metals.tempering_table import tempering_row
    >>> round(tempered_hrc(tempering_row("1084"), 204, 1.5).hrc, 1)
    60.5
    """
    _check(temperature_c)
    table_c = _equal_c(temperature_c, hours, TABLE_HOURS, row.constant)
    (first_c, _), (last_c, _) = row.points[0], row.points[-1]
    if table_c < first_c - (_HELD_C if temperature_c >= first_c else _ROUNDING_C):
        raise _outside(row, "begins", first_c, temperature_c, hours, "less; temper hotter or longer")
    if table_c > last_c + (_HELD_C if temperature_c <= last_c else _ROUNDING_C):
        raise _outside(row, "ends", last_c, temperature_c, hours, "more; temper cooler or shorter")
    table_c = min(max(table_c, first_c), last_c)
    hrc = between(row.points, table_c)
    harder = row.harder_hrc
    if row.up_to and row.up_to[0][0] <= table_c <= row.up_to[-1][0]:
        harder = max(harder, between(row.up_to, table_c) - hrc)
    softer = row.softer_hrc
    if row.down_to:
        (least_c, _), (most_c, _) = row.down_to[0], row.down_to[-1]
        softer += max(hrc - between(row.down_to, min(max(table_c, least_c), most_c)), 0.0)
    softer = max(softer, min(row.softer_hrc + row.beyond_hrc, hrc - LOWEST_HRC))
    return Tempered(hrc, softer, harder, _notes(row, hours))


def past_the_table(row: TemperingRow, temperature_c: float, hours: float) -> bool:
    """Whether a soak is hotter or longer than the last row of a table, which is then the most it leaves.

    No temper makes steel harder; what is not published of so hot, so short or so long a soak is held to be
    what the nearest soak is that is.

    >>> from coach.metals.tempering_table import tempering_row
    >>> [past_the_table(tempering_row("1084"), heat_c, 1.0) for heat_c in (600.0, 760.0)]
    [False, True]
    """
    if temperature_c > HIGHEST_C:
        return True
    last_c = row.points[-1][0] + (_HELD_C if temperature_c <= row.points[-1][0] else _ROUNDING_C)
    held_hours = min(max(hours, SHORTEST_HOURS), LONGEST_HOURS)
    return _equal_c(temperature_c, held_hours, TABLE_HOURS, row.constant) > last_c


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

    >>> from coach.metals.tempering_table import tempering_row
    >>> round(temper_for(tempering_row("1080"), (53, 57), 1.5).high.value)
    323
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
        instead = "wish for a hardness in it or take another steel"
        if row.up_to and softest <= row.up_to[0][1] and hardest >= end_hrc:
            instead = (
                "so thick it may come to it, as thin pieces do, and may not: temper a coupon as thick and "
                "try it, or take it thinner, into a faster quench that the steel bears, or of another steel"
            )
        raise OutOfRange(
            "The table of {} reaches from {} at {} to {} at {}, and {} is outside; {}.",
            row.name,
            *(Figure(top_hrc, Kind.HARDNESS), celsius(first_c)),
            *(Figure(end_hrc, Kind.HARDNESS), celsius(last_c)),
            asked[1] if softest == hardest else Span(softest, hardest, Kind.HARDNESS),
            instead,
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
    found = tempered_hrc(row, nominal.value, hours)
    left = Figure(found.hrc, Kind.HARDNESS, found.doubt_hrc / COVERAGE)
    softest_left = Figure(found.hrc - found.softer_hrc, Kind.HARDNESS)
    hardest_left = Figure(found.hrc + found.harder_hrc, Kind.HARDNESS)
    return TemperFor(*asked, low, nominal, high, left, softest_left, hardest_left, note)


def embrittlement(low_c: float, high_c: float) -> Words:
    """One sentence for struck tools when any of a range of tempers is embrittling; nothing otherwise.

    Tempered-martensite embrittlement is told of from 200 to 370 °C (confirmed), and 260 to 370 °C are kept
    out of (confirmed second-hand); titles and years not seen.

    >>> bool(embrittlement(200, 240))
    False
    """
    if high_c < EMBRITTLING_FROM_C or low_c > EMBRITTLING_TO_C:
        return NOTHING
    return say(
        "A soak between {} and {} can leave a struck tool brittle (tempered-martensite embrittlement, told "
        "of from {} to {}): some keep axes and hammers out of it unless the hardness is needed, others "
        "temper chisels in it as a matter of course.",
        *map(celsius, (EMBRITTLING_FROM_C, EMBRITTLING_TO_C, _TOLD_OF_FROM_C, EMBRITTLING_TO_C)),
    )


def colours_later(composition: Mapping[str, float], name: str) -> Words:
    """What to say of a steel that chromium or silicon keeps bright longer than plain carbon steel.

    The published colours are those of plain carbon steel; chromium and silicon slow its oxide (from memory).

    >>> bool(colours_later({"C": 0.6, "Cr": 0.8}, "5160"))
    True
    """
    late = [word for element, least, word in _SLOW_OXIDE if composition.get(element, 0.0) >= least]
    if not late:
        return NOTHING
    why = "The colours are those of plain carbon steel: with {} in it {} shows them hotter than told."
    return say(why, " and ".join(late), name)


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
