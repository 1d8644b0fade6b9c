"""Several jobs at one fire: what to take on next, and where each stands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coach.bench.across import JobAhead, Turn
from coach.quantities.words import counted
from coach.telling.clock import since_when
from coach.telling.figures import write_figure, write_span
from coach.telling.page import Line, Page, Row, Table, Tone, page, section
from coach.telling.words import write
from coach.telling.writing import Shown

NONE = "No other job is in hand."


def across_page(found: Sequence[JobAhead], shown: Shown) -> Page:
    """What to take on, a row for each job, and how far each comes by an hour that was asked for."""
    if not found:
        return page(section("", [Line("No job is in hand: `coach begin RECIPE` begins one.")]))
    first = found[0]
    rows = tuple(Row(job_cells(one, shown)) for one in found)
    by = first.ahead.by
    why = Line(write(first.why, shown), "", Tone.BAD) if first.turn is Turn.MUST else None
    return page(
        section(
            "", [Line(f"{first.job}, step {first.step}, {first.step_title}: it {first.turn}.", "Next"), why]
        ),
        section("In hand", [Table(rows, ("job", "step", "now", "heats to", "rest of it"))]),
        section(
            "",
            [Line(_together(found, shown))] if len(found) > 1 else [],
        ),
        section(
            f"By {by}",
            [Table(tuple(map(Row, _by(found))), ("job", "surely done, by itself", "rest after"))]
            if by
            else [],
        ),
    )


def _together(found: Sequence[JobAhead], shown: Shown) -> str:
    """What they take at one fire, one heat after another."""
    spans = [one.ahead.in_all for one in found]
    low, high = sum(one.low for one in spans), sum(one.high for one in spans)
    heats = counted(sum(one.ahead.heats for one in found), "heat")
    told = "Each as if it had the fire to itself"
    if not high:
        return f"{told}: {heats} together."
    return f"{told}; one after another {heats}, {write_span(spans[0]._replace(low=low, high=high), shown)}."


def job_cells(one: JobAhead, shown: Shown) -> tuple[str, ...]:
    """A job as a row: where it stands, whether it is in the fire, its heat, and how long the rest takes."""
    heat = write_figure(one.heat, shown) if one.heat is not None else ""
    span = one.ahead.in_all
    return (
        one.job,
        f"{one.step}/{one.steps}",
        now_text(one),
        heat,
        write_span(span, shown) if span.high else "",
    )


def now_text(one: JobAhead) -> str:
    """Whether it is in the fire and since when, or what it waits for."""
    since = f" since {since_when(one.since, one.now)}" if one.since else ""
    return f"{one.turn}{since}"


def _by(found: Sequence[JobAhead]) -> Iterator[tuple[str, ...]]:
    for one in found:
        surely = f"step {one.ahead.surely} of {one.steps}" if one.ahead.surely else "no step"
        rest = f"step {one.ahead.rest_after}" if one.ahead.rest_after else "none ahead"
        yield one.job, surely, rest
