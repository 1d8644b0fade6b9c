"""A shop's own figures, as they are told: beside what is published, and by the jobs that they rest on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from coach.bench.own_figures import OfOneJob, OwnFigure, OwnFigures
from coach.bench.told_and_came import ToldAndCame
from coach.log.kinds.shop_known import figure_of_shop
from coach.quantities.words import counted
from coach.telling.chance import chance_text
from coach.telling.figures import write_figure
from coach.telling.page import Line, Page, Row, Section, Table, Tone, page, section, table
from coach.telling.writing import Shown

NOTHING_TAUGHT = (
    "No job has taught anything of this shop yet: in one of them five sizes must be read. Until then every "
    "job begins with the published figures."
)
#: What stands for what a new job begins with where the fire or the hammer that is set is another.
_NONE = "—"
_NOT_BEGUN = "begins without it: another fire or hammer is set, or none"
FIGURE_HEADS = ("figure", "published", "the shop's own", "a new job", "from")
_METHOD = (
    "Each job says what its own readings say; together they are drawn towards the published figure while "
    "they are few. A new job begins with what stands under it, wider by how far one job is from another; "
    "`coach shop FIGURE` tells which jobs, and --leave-out leaves one out."
)


def own_figures_page(own: OwnFigures, shown: Shown) -> Page:
    """Every figure in one table, and what came of what was told."""
    if not own.figures:
        return page(section("", [Line(NOTHING_TAUGHT)]), _told(own))
    figures = Table(tuple(Row(figure_cells(one, shown)) for one in own.figures), FIGURE_HEADS, gives=0)
    out = [line for one in own.figures for line in _left_out(one)]
    return page(
        section("The shop's own figures", [figures, Line(_METHOD), *_not_begun(own)]),
        section("Left out", out),
        _told(own),
    )


def beside_figures_page(own: OwnFigures, shown: Shown) -> Page:
    """What stands beside the figures where they are listed with their jobs: what came of what was told."""
    if not own.figures:
        return own_figures_page(own, shown)
    return page(section("", _not_begun(own)), _told(own))


def lesson_cells(one: OfOneJob, shown: Shown) -> tuple[str, ...]:
    """What one job says of a figure, in the columns of the figure itself."""
    return one.job, "", _with_doubt(one.said, shown), "", "left out" if one.left_out else "1 job"


def own_figure_page(figures: Iterable[OwnFigure], shown: Shown) -> Page:
    """One figure with what each job says of it."""
    return page(*(_one(figure, shown) for figure in figures))


def _one(figure: OwnFigure, shown: Shown) -> Section:
    rows = (
        Row(
            (one.job, _with_doubt(one.said, shown), "left out" if one.left_out else ""),
            Tone.QUIET if one.left_out else Tone.PLAIN,
        )
        for one in figure.jobs
    )
    share = f"{chance_text(figure.own_share)} of the way from published to what the jobs say"
    if figure.sizes:  # a hand, which the job worked last tells of all before it
        share = f"by {counted(figure.sizes, 'size')}, each counted as surely as the hand brought it there"
    return section(
        _named(figure, shown),
        [
            Line(_with_doubt(figure.published, shown), "published"),
            Line(f"{_with_doubt(figure.shop, shown)}, {share}", "own"),
            Line(_with_doubt(figure.next_job, shown) if figure.begins else _NOT_BEGUN, "new job"),
            Table(tuple(rows), ("job", "says", "")),
        ],
    )


def figure_cells(one: OwnFigure, shown: Shown) -> tuple[str, ...]:
    """A figure in its columns."""
    counts = [lesson for lesson in one.jobs if not lesson.left_out]
    cells = [_with_doubt(figure, shown) for figure in (one.published, one.shop)]
    cells.append(_with_doubt(one.next_job, shown) if one.begins else _NONE)
    rests_on = counted(one.sizes, "size") if one.sizes else counted(len(counts), "job") if counts else "none"
    return _named(one, shown), *cells, rests_on


def _named(one: OwnFigure, shown: Shown) -> str:
    told = figure_of_shop(one.what)
    told += f", at {write_figure(one.forging_mm, shown)} a heat" if one.forging_mm is not None else ""
    told += f", no {one.unnamed} named" if one.unnamed else ""
    told += f", fire {one.fire}" if one.fire else ""
    return told + (f", hammer {one.hammer}" if one.hammer else "")


def _with_doubt(figure: object, shown: Shown) -> str:
    from coach.quantities.figure import Figure

    assert isinstance(figure, Figure)
    return write_figure(figure, shown, "±")


def _left_out(one: OwnFigure) -> Iterator[Line]:
    names = [lesson.job for lesson in one.jobs if lesson.left_out]
    if names:
        told = f"{one.what}: what {', '.join(names)} told; `coach shop {one.what} --bring-back` counts it."
        yield Line(told, mark="-")


def _not_begun(own: OwnFigures) -> Iterator[Line]:
    if any(not one.begins for one in own.figures):
        yield Line(f"{_NONE}: a new job {_NOT_BEGUN} (`coach config`).")


def _told(own: OwnFigures) -> Section:
    rows: Iterable[ToldAndCame] = own.told
    cells = (
        (
            f"{one.low:.0%} to {one.high:.0%}".replace("%", " %"),
            chance_text(one.told),
            f"{one.came} of {one.jobs}",
            f"{one.came / one.jobs:.0%}".replace("%", " %"),
        )
        for one in rows
    )
    heads = ("will pass, as told", "on average", "came inside the drawing", "")
    finished = counted(own.not_sure, "finished job")
    not_sure = f"Not counted: {finished}, where a size that decides was not surely measured."
    lines = [Line(not_sure)] if own.not_sure else []
    return section("What you were told, and what came true", [table(cells, heads), *lines])
