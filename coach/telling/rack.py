"""The rack: what lies there, what was entered for it, and how each bar suits a recipe."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from coach.bench.rack import LyingBar, Rack, RackEntry, Suits, length_words
from coach.quantities.figure import Figure
from coach.telling.clock import moment
from coach.telling.figures import write_figure
from coach.telling.page import Line, Page, Row, Section, Table, Tone, page, section, table
from coach.telling.words import write
from coach.telling.writing import Shown

#: What another bar took the place of as it was marked out is no cut any more (our choice).
_SEEN_MM = 0.05

EMPTY = (
    'The rack is empty. Lay a bar on it: `coach rack NAME BAR`, such as `coach rack long-one "hexagon 19, '
    'long 500, C80"`, or an odd offcut by its weight: "45 x 20, 350 g, C45".'
)


def rack_page(rack: Rack, shown: Shown) -> Page:
    """The bars, each with what was cut off it since it was measured."""
    if not rack.bars:
        return page(section("", [Line(EMPTY)]))
    rows = (bar_cells(bar, shown) for bar in rack.bars)
    cut = list(_cuts(rack.bars, shown))
    notes = [Line(note, mark="?") for note in not_followed(rack)]
    notes += [Line(note) for note in found_otherwise(rack)]
    return page(
        section("On the rack", [table(rows, ("bar", "grade", "section", "length", "weight"))]),
        section("Cut off since it was measured", [*([table(cut)] if cut else []), *notes]),
    )


def not_followed(rack: Rack) -> list[str]:
    """A sentence about each job whose metal is told as it was planned, for want of its entries."""
    return [
        f"What {job} took is told as it was planned: its entries cannot be followed. "
        "`coach check-log` looks through them."
        for job in rack.not_followed
    ]


def found_otherwise(rack: Rack) -> list[str]:
    """A sentence about each bar of which a job found that it is of another grade than it was laid as."""
    told = "{} was laid as {}: it proved to be {} in {}."
    return [told.format(bar.name, bar.laid_as, bar.metal, bar.found_by) for bar in rack.bars if bar.laid_as]


def bar_cells(bar: LyingBar, shown: Shown) -> tuple[str, ...]:
    """A bar as a row: its name, its grade, its section, its length and its weight."""
    return (
        bar.name,
        bar.metal,
        write(bar.section, shown),
        write(length_words(bar), shown),
        write_figure(bar.mass, shown) if bar.mass is not None else "",
    )


def _cuts(bars: Iterable[LyingBar], shown: Shown) -> Iterator[tuple[str, ...]]:
    for bar in bars:
        for cut in (one for one in bar.cuts if one.length.value >= _SEEN_MM):
            yield bar.name, write_figure(cut.length, shown, "="), f"for {cut.job}", f"entry {cut.entry}"


def rack_history(entries: Iterable[RackEntry], shown: Shown) -> Page:
    """Every entry of the rack, those struck out marked."""
    rows = tuple(
        Row(
            (
                str(one.number),
                moment(one.at),
                f"{'struck out: ' if one.struck else ''}{write(one.words, shown)}",
            ),
            Tone.QUIET if one.struck else Tone.PLAIN,
        )
        for one in entries
    )
    return page(section("", [Table(rows)] if rows else [Line("Nothing was ever laid on the rack.")]))


def suits_page(found: Iterable[Suits], shown: Shown) -> Page:
    """For each piece the bars that suit it, that which leaves least over first, and why the others do not."""
    by_piece: dict[str, list[Suits]] = {}
    for one in found:
        by_piece.setdefault(one.piece, []).append(one)
    return page(*(_piece(piece, rows, shown) for piece, rows in by_piece.items()))


def _piece(piece: str, rows: Iterable[Suits], shown: Shown) -> Section:
    fit = [one for one in rows if not one.cannot]
    told: list[Line | Table] = []
    if fit:
        cells = (
            (
                one.bar,
                write(one.section, shown),
                _length(one.needed, shown),
                _length(one.left, shown),
                str(one.heats),
            )
            for one in fit
        )
        told.append(table(cells, ("bar", "section", "takes", "left over", "heats")))
    else:
        told.append(Line("No bar on the rack suits it."))
    for one in rows:
        if one.cannot:
            told.append(Line(f"{one.bar}: {write(one.cannot, shown)}", mark="✗"))
    return section(f"For the {piece}", told)


def _length(figure: Figure | None, shown: Shown) -> str:
    return "" if figure is None else write_figure(figure, shown, "=")
