"""The published hardness of tempered steels, in a column for what was tempered.

A thin piece hardened right through, a bar quenched in water and a bar quenched in oil come out of one temper
up to twenty HRC apart. Which column a piece stands in follows from its thickness and its quench, and is said
with it. The figures are in tempering.toml.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import Any, Final, NamedTuple

from coach.quantities.between import between
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
#: What is so many times as thick as its quench hardens right through comes out like a bar, in hardness and in
#: doubt: 6 mm is told of fast oil, and bars from oil are told from 1/2 in (judgement).
_LIKE_A_BAR_FROM: Final = 2.0
#: It may be as soft as a bar so many times sooner, by the logarithm of the thickness (judgement).
_SOONER: Final = 2.0
#: Ordinary oil most likely hardens right through what is a little thinner than fast oil does, 5 mm of 6, and
#: leaves like a bar what is a third thicker (judgement, from blades that are hardened in ordinary oil).
_ORDINARY_LIKELY: Final = (5.0 / 6.0, 4.0 / 3.0)
#: Up to here, in mm, a bar may yet be as hard as a thin piece; that fades out to the inch that its figures
#: go to (judgement).
_THIN_YET_MM: Final = 20.0
#: What is tempered by hand, edges and points, is seldom thinner; a quench that does not harden so much right
#: through needs the thickness said (judgement).
_THIN_MM: Final = 3.0
_WATERS: Final = ("water", "brine")
#: Ordinary oil surely hardens no more than so much of what fast oil does. Still oil is told a severity of
#: 0.25 to 0.30, water 0.9 to 1.0 (Grossmann, from memory), and oils of today, still, 0.25 to 0.85 (a trade
#: paper, year not seen, confirmed second-hand): the fast ones take it out about twice as fast (judgement).
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
    #: The column of thin pieces, where the piece is thinner than the specimen and may be as hard as they are;
    #: or of thin pieces that of bars, where it is told harder.
    up_to: tuple[tuple[float, float], ...] = ()
    #: The column of bars, where the quench may not reach through: it may be as soft as they are; or another
    #: published table that is softer.
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
    reach = steel.reach(quench)
    thin = thickness_mm is None or thickness_mm <= reach.sure_mm
    through = steel.columns.get(Column.THROUGH)
    # A bar from water is the next best to a thin piece: it is hardened in full at its skin.
    bar = steel.columns.get(Column.WATER if thin else bath) or next(iter(steel.columns.values()))
    # Where nothing is told of thin pieces, a bar hard to its skin is the nearest.
    hard = through or steel.columns.get(Column.WATER) or bar
    if thickness_mm is None and bath is Column.OIL and quench and 0.0 < reach.sure_mm < _THIN_MM:
        return _either(hard, steel.columns.get(Column.OIL, bar), reach, quench)
    skin = steel.skin_mm if bath is Column.WATER and quench else None
    if thickness_mm is None and skin is not None:
        known = as_words("It is taken to be thin; thick, it is so hard in its skin alone.")
    elif thickness_mm is None:
        known = as_words("It is taken to be thin; thick, it is softer.")
    elif quench:
        known = say("It is {} thick, quenched in {}.", mm(thickness_mm), quench)
    else:
        known = say("It is {} thick.", mm(thickness_mm))
    if thin:
        row, figures = through or bar, _figures_of(through or bar)
        if skin is not None and thickness_mm is not None and thickness_mm > skin.thicker_than_mm:
            words = "The figures are those of {}, as its skin is, {} deep; it is softer inside."
            figures = say(words, row.column.specimen, skin.deep)
        return row._replace(stands=run_on((known, figures)))
    assert thickness_mm is not None
    slow = NOTHING
    if reach.sure_mm < thickness_mm <= reach.fast_mm:
        words = (
            "Fast oil hardens so much through; ordinary oil may do so to about {} only, and leave it a bar's."
        )
        slow = say(words, mm(reach.sure_mm))
    if hard is bar or thickness_mm >= reach.like_bar_mm:
        row = _bar_of(steel, hard, bar, bath, thickness_mm)
    else:
        row = _partly(hard, bar, reach.towards_bar(thickness_mm), reach.soonest_like_a_bar(thickness_mm))
        told = _figures_of(hard)
        if thickness_mm > reach.likely_mm:
            told = say(
                "The figures lie between those of {}, as it is to {}, and of {}, as it is from {}: between "
                "them nothing is published, and it may be nearer to either.",
                *(hard.column.specimen, mm(reach.likely_mm), bar.column.specimen, mm(reach.like_bar_mm)),
            )
        row = row._replace(stands=told)
    return row._replace(stands=run_on((known, row.stands, slow)))


def _either(hard: TemperingRow, bar: TemperingRow, reach: _Reach, quench: str) -> TemperingRow:
    """The row of a piece whose thickness nobody said, in a quench that hardens hardly anything through."""
    words = (
        "How thick it is decides, and was not said: {} hardens it right through to about {}, with the "
        "figures of {}, and from {} on it is like {}. Give its thickness."
    )
    ends = mm(reach.sure_mm), hard.column.specimen, mm(reach.like_bar_mm), bar.column.specimen
    stands = say(words, quench, *ends)
    source = hard.source if hard.source == bar.source else f"{hard.source}; {bar.source}"
    return hard._replace(down_to=bar.points, softer_hrc=bar.softer_hrc, stands=stands, source=source)


def _bar_of(
    steel: _Steel, hard: TemperingRow, bar: TemperingRow, bath: Column, thickness_mm: float
) -> TemperingRow:
    """The row of a piece that stands as a bar, or for which no other is published."""
    reach = steel.reach("water" if bath is Column.WATER else "oil")
    ends_mm, ends = max(SPECIMEN_MM, reach.sure_mm), NOTHING
    if thickness_mm > ends_mm:
        more_hrc = _DOUBLED_SOFTER_HRC[bath.value] * math.log2(thickness_mm / ends_mm)
        bar = bar._replace(beyond_hrc=more_hrc)
        ends = say("They end at {}: the thicker it is, the softer it may be, above all inside.", mm(ends_mm))
    if bar.column is Column.THROUGH:
        unreached = say("They hold to {}: it is thicker, and may be softer.", mm(reach.sure_mm))
        more_hrc = max(steel.thicker_softer_hrc - bar.softer_hrc, 0.0)
        softer_hrc = bar.softer_hrc + reach.towards_bar(thickness_mm) * more_hrc
        return bar._replace(softer_hrc=softer_hrc, stands=run_on((_figures_of(bar), unreached, ends)))
    if hard is not bar and thickness_mm < SPECIMEN_MM:
        fades_mm = max(_THIN_YET_MM, reach.like_bar_mm)
        fades = max((thickness_mm - fades_mm) / (SPECIMEN_MM - fades_mm), 0.0)
        bar = bar._replace(up_to=_partly(hard, bar, fades, fades).points)
    return bar._replace(stands=run_on((_figures_of(bar), ends)))


def _figures_of(row: TemperingRow) -> Words:
    return say("The figures are those of {}.", row.column.specimen)


def _partly(hard: TemperingRow, bar: TemperingRow, share: float, soonest: float) -> TemperingRow:
    """A row a share of the way from that of a thin piece to a bar's; as hard as the first, or soft sooner."""
    heats = sorted({at_c for at_c, _ in (*hard.points, *bar.points) if at_c <= bar.points[-1][0]})

    def mixed(part: float) -> tuple[tuple[float, float], ...]:
        return tuple((at_c, _lies_at(hard, bar, at_c, part)) for at_c in heats)

    def softest(at_c: float, hrc: float) -> tuple[float, float]:
        """As soft as sooner like a bar, or as the thin piece is told elsewhere."""
        if not hard.down_to:
            return at_c, hrc
        told_c = min(max(at_c, hard.down_to[0][0]), hard.down_to[-1][0])
        less_hrc = max(between(hard.points, told_c) - between(hard.down_to, told_c), 0.0)
        return at_c, min(hrc, _lies_at(hard, bar, at_c, share) - (1.0 - share) * less_hrc)

    near = hard if share < 0.5 else bar
    return near._replace(
        points=mixed(share),
        softer_hrc=(1.0 - share) * hard.softer_hrc + share * bar.softer_hrc,
        harder_hrc=(1.0 - share) * hard.harder_hrc + share * bar.harder_hrc,
        source=hard.source if hard.source == bar.source else f"{hard.source}; {bar.source}",
        up_to=mixed(0.0),
        down_to=tuple(softest(*point) for point in mixed(soonest)),
    )


def _lies_at(hard: TemperingRow, bar: TemperingRow, at_c: float, share: float) -> float:
    """Between two rows at a heat; a bar is no harder below its first, hard steel falls on as the bar does."""
    last_c, last_hrc = hard.points[-1]
    soft_hrc = between(bar.points, max(at_c, bar.points[0][0]))
    if at_c <= last_c:
        hard_hrc = between(hard.points, max(at_c, hard.points[0][0]))
    else:
        hard_hrc = soft_hrc + last_hrc - between(bar.points, last_c)
    return (1.0 - share) * hard_hrc + share * soft_hrc


def hardened_through_mm(name: str, quench: str) -> float | None:
    """How thick a piece of a grade a quench hardens right through, in mm; None where nothing is told of it.

    >>> hardened_through_mm("1084", "fast oil"), hardened_through_mm("1084", "oil")
    (6.0, 3.0)
    """
    steel = _steels().get(_folded(name))
    return steel.reach(quench).sure_mm or None if steel is not None else None


def like_a_bar_from_mm(name: str, quench: str) -> float | None:
    """From which thickness on a piece of a grade is most likely left like a bar; None where nothing is told.

    >>> like_a_bar_from_mm("1084", "oil"), like_a_bar_from_mm("C45", "fast oil")
    (8.0, 6.0)
    """
    steel = _steels().get(_folded(name))
    return steel.reach(quench).like_bar_mm or None if steel is not None else None


def published_rows() -> Iterator[TemperingRow]:
    """Every column of every steel, as it is published for its own specimens."""
    for steel in _steels().values():
        yield from steel.columns.values()


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


class _Skin(NamedTuple):
    least_mm: float  # how deep it is
    most_mm: float
    thicker_than_mm: float  # thinner it is hard right through

    @property
    def deep(self) -> Span:
        return Span(self.least_mm, self.most_mm, Kind.LENGTH)


class _Steel(NamedTuple):
    columns: Mapping[Column, TemperingRow]
    through_mm: Mapping[str, float]
    thicker_softer_hrc: float  # how much softer where the quench does not reach through
    skin_mm: _Skin | None  # of what is hard in water in its skin alone; None where nothing is told of that

    def reach(self, quench: str) -> _Reach:
        """How thick a quench hardens."""
        if quench in _WATERS:
            water_mm = self.through_mm.get("water", 0.0)
            return _Reach(water_mm, water_mm, min(_LIKE_A_BAR_FROM * water_mm, max(SPECIMEN_MM, water_mm)))
        fast_mm = self.through_mm.get("fast_oil", 0.0)
        oil_mm = fast_mm if quench == "fast oil" else self.through_mm.get("oil")
        if oil_mm is not None:
            return _Reach(oil_mm, oil_mm, _LIKE_A_BAR_FROM * oil_mm)
        likely_mm, like_bar_mm = (share * fast_mm for share in _ORDINARY_LIKELY)
        return _Reach(_ORDINARY_SHARE * fast_mm, likely_mm, like_bar_mm, fast_mm)


class _Reach(NamedTuple):
    """How thick a quench hardens right through, surely and most likely, and what is like a bar; 0 of none."""

    sure_mm: float
    likely_mm: float
    like_bar_mm: float
    fast_mm: float = 0.0  # what fast oil hardens where this is ordinary

    def towards_bar(self, thickness_mm: float) -> float:
        """How far a thickness is, most likely, from hardened through, 0, to a bar, 1."""
        if thickness_mm >= self.like_bar_mm:
            return 1.0
        whole = math.log(self.like_bar_mm / self.likely_mm)
        return max(math.log(thickness_mm / self.likely_mm) / whole, 0.0)

    def soonest_like_a_bar(self, thickness_mm: float) -> float:
        """How far it may be."""
        return min(_SOONER * math.log2(thickness_mm / self.sure_mm), 1.0) if self.sure_mm else 1.0


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
        skin = steel.get("skin_mm")
        found[_folded(name)] = _Steel(
            columns,
            one.get("through_mm", steel.get("through_mm", {})),
            softer,
            _Skin(skin["least"], skin["most"], skin["thicker_than"]) if skin is not None else None,
        )
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
        if "hotter" in one:
            points += tuple(zip(one["hotter"]["at_c"], one["hotter"]["hrc"], strict=True))
        row = row._replace(points=points, softer_hrc=softer, harder_hrc=harder, constant=constant)
        row = row._replace(source=sources.get(one.get("source", ""), row.source))
    else:
        points = tuple(zip(one["at_c"], one["hrc"], strict=True))
        said = sources[one["source"]], one.get("note", "")
        row = TemperingRow(name, points, softer, harder, constant, *said, column)
    if "softest_hrc" in one:
        row = row._replace(down_to=tuple(zip(one["at_c"], one["softest_hrc"], strict=True)))
    if "hardest_like" in one:
        bars = _row(rows, name, Column(one["hardest_like"]), sources)
        hot = tuple(point for point in bars.points if point[0] >= one["hardest_from_c"])
        row = row._replace(up_to=hot)
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
