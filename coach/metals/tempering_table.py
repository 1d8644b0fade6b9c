"""The published hardness of tempered steels, in a column for what was tempered.

A thin piece hardened right through, a bar quenched in water and a bar quenched in oil come out of one temper
up to twenty HRC apart. Which column a piece stands in follows from its thickness and its quench, and is said
with it. The figures are in tempering.toml.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import Any, Final, NamedTuple

from coach.quantities.checks import check_size
from coach.quantities.figure import Kind, Span, mm
from coach.quantities.refusal import OutOfRange
from coach.quantities.words import NOTHING, Words, as_words, run_on, say

#: The constant of Hollomon and Jaffe for alloy steels, and where the carbon is not known, for hours (from
#: memory: the excerpt of their paper that was read does not have it).
GENERAL_CONSTANT: Final = 20.0

#: The thickest of the bars that the columns of bars are of, 1 in (from memory).
SPECIMEN_MM: Final = 25.4

#: Where the quench does not reach through and no bar is published, it may be so much softer (judgement).
_UNREACHED_SOFTER_HRC: Final = 10.0
#: Thicker than the bars that are published it may be so much softer with each doubling: bars of 1095 from oil
#: are told 46, 43 and 40 HRC at 1, 2 and 4 in before their temper, of 1060 34, 30.5 and 29, bars of 1050 from
#: water 60, 50 and 33 (from memory).
_DOUBLED_SOFTER_HRC: Final = {"water": 10.0, "oil": 4.0}
#: Thin pieces' figures go over to bars' across so many °C: hotter than that the section counts little, and
#: between them thin W1 is told 46 HRC after 425 °C and 42 after 480 (judgement).
_JOINS_C: Final = 150.0
_WATERS: Final = ("water", "brine")
#: Ordinary oil hardens so much of the thickness that fast oil does. Still oil is told a severity of 0.25 to
#: 0.30, water 0.9 to 1.0 (Grossmann, from memory), and oils of today, still, 0.25 to 0.85 (confirmed
#: second-hand): the fast ones take the heat out about twice as fast (judgement).
_ORDINARY_SHARE: Final = 0.5
#: Of which carbon, per cent by mass, the constant is told (from memory).
_CARBON_PER_CENT: Final = (0.2, 1.2)


class Column(StrEnum):
    """What was tempered."""

    THROUGH = "through"
    WATER = "water"
    OIL = "oil"

    @property
    def specimen(self) -> Words:
        """What its figures were measured on."""
        if self is Column.THROUGH:
            return as_words("thin pieces hardened right through")
        if self is Column.WATER:
            return say("bars of {} quenched in water", mm(SPECIMEN_MM))
        return say("bars of {} quenched in oil", Span(SPECIMEN_MM / 2.0, SPECIMEN_MM, Kind.LENGTH))


class TemperingRow(NamedTuple):
    """The published hardness of one steel in one column by tempering temperature, coolest first."""

    name: str
    points: tuple[tuple[float, float], ...]  # °C and HRC
    softer_hrc: float  # how much softer it may be left
    harder_hrc: float  # and how much harder
    constant: float  # of Hollomon and Jaffe, for hours
    source: str  # with how far it is confirmed, in brackets at its end
    note: str
    column: Column
    stands: Words = NOTHING  # why the piece stands in this column
    #: The column of thin pieces, where the piece is thinner than the specimen and may be as hard as they are.
    up_to: tuple[tuple[float, float], ...] = ()
    #: The column of bars, where the quench may not reach through: it may be as soft as they are.
    down_to: tuple[tuple[float, float], ...] = ()
    #: How much softer again it may be for being thicker than any specimen, down to where the scale ends.
    beyond_hrc: float = 0.0


def tempering_row(name: str, thickness_mm: float | None = None, quench: str = "") -> TemperingRow | None:
    """The row of a grade, by its name, for a thickness of its own and a quench; None where none is published.

    Without a thickness it is taken to be hardened right through; without a quench that is oil, which reaches
    less deep. Case, blanks and hyphens of the name do not matter. Raises OutOfRange for a thickness that
    cannot be.

    >>> tempering_row("Mild steel") is None, str(tempering_row("1084", 20.0, "water").column)
    (True, 'water')
    """
    steel = _steels().get(_folded(name))
    if steel is None:
        return None
    if thickness_mm is not None:
        check_size(thickness_mm, "thickness of what is tempered")
    bath = Column.WATER if quench in _WATERS else Column.OIL
    reach_mm, fast_mm = (
        steel.reach_mm(quench),
        steel.reach_mm("water" if bath is Column.WATER else "fast oil"),
    )
    thin = thickness_mm is None or thickness_mm <= reach_mm
    doubtful = thickness_mm is not None and reach_mm < thickness_mm <= fast_mm
    through = steel.columns.get(Column.THROUGH)
    # A bar from water is the next best to a thin piece: it is hardened in full at its skin.
    bar = steel.columns.get(Column.WATER if thin else bath) or next(iter(steel.columns.values()))
    # Where nothing is told of thin pieces, a bar hard to its skin is the nearest.
    hard = through or steel.columns.get(Column.WATER)
    row = (
        hard if hard is not None and (doubtful or (through is not None and (thin or bar is through))) else bar
    )
    if thickness_mm is None:
        known = as_words("It is taken to be thin; thick, it is softer.")
    elif quench:
        known = say("It is {} thick, quenched in {}.", mm(thickness_mm), quench)
    else:
        known = say("It is {} thick.", mm(thickness_mm))
    figures = say("The figures are those of {}.", row.column.specimen)
    if thin:
        return row._replace(stands=run_on((known, figures)))
    assert thickness_mm is not None
    if doubtful and row is not bar:
        slow = (
            "Fast oil hardens so much through; ordinary oil may do so to about {} only, and leave it a bar's."
        )
        return row._replace(stands=run_on((known, figures, say(slow, mm(reach_mm)))), down_to=bar.points)
    ends_mm = max(SPECIMEN_MM, reach_mm)
    beyond_hrc, ends = 0.0, NOTHING
    if thickness_mm > ends_mm:
        beyond_hrc = _DOUBLED_SOFTER_HRC[bath.value] * math.log2(thickness_mm / ends_mm)
        ends = say("They end at {}: the thicker it is, the softer it may be, above all inside.", mm(ends_mm))
    if row is through:
        unreached = "It is thicker than that quench hardens through, and may be softer."
        softer = max(row.softer_hrc, steel.thicker_softer_hrc)
        stands = run_on((known, figures, unreached, ends))
        return row._replace(stands=stands, softer_hrc=softer, beyond_hrc=beyond_hrc)
    reach = through.points if through is not None and thickness_mm < SPECIMEN_MM else ()
    return row._replace(stands=run_on((known, figures, ends)), up_to=reach, beyond_hrc=beyond_hrc)


def hardened_through_mm(name: str, quench: str) -> float | None:
    """How thick a piece of a grade a quench hardens right through, in mm; None where nothing is told of it.

    >>> hardened_through_mm("1084", "fast oil"), hardened_through_mm("1084", "oil")
    (6.0, 3.0)
    """
    steel = _steels().get(_folded(name))
    return steel.reach_mm(quench) or None if steel is not None else None


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


class _Steel(NamedTuple):
    columns: Mapping[Column, TemperingRow]
    through_mm: Mapping[str, float]
    thicker_softer_hrc: float  # how much softer where the quench does not reach through

    def reach_mm(self, quench: str) -> float:
        """How thick a quench hardens right through; 0 where none does."""
        if quench in _WATERS:
            return self.through_mm.get("water", 0.0)
        fast_mm = self.through_mm.get("fast_oil", 0.0)
        return fast_mm if quench == "fast oil" else self.through_mm.get("oil", _ORDINARY_SHARE * fast_mm)


@cache
def _steels() -> dict[str, _Steel]:
    import tomllib

    told = tomllib.loads(Path(__file__).with_name("tempering.toml").read_text(encoding="utf-8"))
    found: dict[str, _Steel] = {}
    rows = told["rows"]
    for name, one in rows.items():
        like = one.get("like", name)
        steel = rows[like]
        columns = {
            column: _row(rows, like, column, told["sources"]) for column in Column if column.value in steel
        }
        if like != name:
            columns = {column: _named(name, row) for column, row in columns.items()}
        softer = steel.get("thicker_softer_hrc", _UNREACHED_SOFTER_HRC)
        found[_folded(name)] = _Steel(columns, one.get("through_mm", steel.get("through_mm", {})), softer)
    return found


def _folded(name: str) -> str:
    return name.casefold().replace(" ", "").replace("-", "")


def _row(rows: Mapping[str, Any], name: str, column: Column, sources: Mapping[str, str]) -> TemperingRow:
    steel = rows[name]
    one = steel[column.value]
    softer, harder = one["doubt_hrc"]
    constant = hollomon_jaffe_constant(steel.get("carbon_per_cent"))
    if "like" in one:
        row = _taken_for(name, _row(rows, one["like"], column, sources), one["reason"])
        until_c, lower = one.get("until_c", math.inf), one.get("lower", 0.0)
        points = tuple((at_c, hrc - lower) for at_c, hrc in row.points if at_c <= until_c)
        row = row._replace(points=points, softer_hrc=softer, harder_hrc=harder, constant=constant)
    else:
        points = tuple(zip(one["at_c"], one["hrc"], strict=True))
        said = sources[one["source"]], one.get("note", "")
        row = TemperingRow(name, points, softer, harder, constant, *said, column)
    if "then" in one:
        (last_c, _), bars = row.points[-1], _row(rows, name, Column(one["then"]), sources)
        row = row._replace(
            points=(*row.points, *(point for point in bars.points if point[0] > last_c + _JOINS_C))
        )
    return row


def _taken_for(name: str, row: TemperingRow, reason: str) -> TemperingRow:
    note = f"The row of {row.name}, taken for {name}{reason}: judgement. {row.note}".strip()
    return row._replace(name=name, note=note)


def _named(name: str, row: TemperingRow) -> TemperingRow:
    """A row for a steel that goes by another's; where that is taken from a third, the third is said."""
    taken = f"taken for {row.name}"
    if taken in row.note:
        return row._replace(name=name, note=row.note.replace(taken, f"taken for {name}"))
    return _taken_for(name, row, "")
