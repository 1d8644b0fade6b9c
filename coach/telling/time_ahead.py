"""How long the rest of a job takes, how far it comes by an hour, and where it may rest."""

from __future__ import annotations

from collections.abc import Iterator

from coach.bench.time_ahead import TimeAhead
from coach.quantities.figure import Span
from coach.quantities.words import counted
from coach.telling.figures import write_figure, write_span
from coach.telling.page import Line, Page, Row, Table, Tone, page, section
from coach.telling.step import blows_words, rough
from coach.telling.words import write
from coach.telling.writing import Shown

#: What must be ready is told of so many steps (our choice).
_SOON = 3

_ON_TOP = "That comes first, and is not counted below: what it takes is told by the ways back."

_MINUTE_S = 60.0


def time_ahead_page(ahead: TimeAhead, shown: Shown) -> Page:
    """The pace, the hour that was asked for, what must be ready, and every step to come."""
    rows = tuple(Row(cells) for cells in _rows(ahead, shown))
    needs = [one for one in ahead.steps if one.needs.parts][:_SOON]
    return page(
        section(
            "",
            [
                *(Line(write(one.words, shown), "To right") for one in ahead.to_right),
                Line(_ON_TOP, "", Tone.STRONG) if ahead.to_right else None,
                Line(_rest(ahead, shown), "Ahead"),
                Line(_pace(ahead, shown), "Pace"),
                *(Line(write(blows_words(one.a_heat, one.operation), shown), "Blows") for one in ahead.blows),
                Line(_by(ahead, shown), f"By {ahead.by}", Tone.STRONG) if ahead.by else None,
                *(Line(f"step {one.number}: {write(one.needs, shown)}", "Ready") for one in needs),
            ],
        ),
        section("Steps", [Table(rows, _heads(ahead), gives=0)]),
    )


def _heads(ahead: TimeAhead) -> tuple[str, ...]:
    return "step", "heats", *(("blows",) if ahead.blows else ()), "to its end", "rest after it"


def _rest(ahead: TimeAhead, shown: Shown) -> str:
    others = f"{counted(ahead.uncounted, 'step')} whose time is not known" if ahead.uncounted else ""
    if not ahead.in_all.high:
        return f"{others}."
    told = f"{counted(ahead.heats, 'heat')}, {write_span(ahead.in_all, shown)} with the soaks"
    return f"{told}; besides {others}." if others else f"{told}."


def _pace(ahead: TimeAhead, shown: Shown) -> str:
    own = ahead.pace.rests_on
    of_shop = f"{counted(ahead.pace.of_shop, 'job')} of this shop" if ahead.pace.of_shop else ""
    by = f"{of_shop or 'the usual'} and {counted(own, 'heat')} of this job"
    by = by if own else f"{of_shop or 'the usual'}: none is timed yet"
    more = ahead.pace.heats_for_one
    so_many = f"{more:.1f} heats where one is planned, by {counted(ahead.pace.heats_of_shop, 'job')}"
    as_many = f" This shop takes {so_many}." if abs(more - 1.0) >= 0.05 else ""
    return f"{write_figure(ahead.pace.a_heat, shown)} a heat, by {by}.{as_many}"


def _by(ahead: TimeAhead, shown: Shown) -> str:
    assert ahead.left is not None
    told, surely = f"{write_figure(ahead.left, shown)} left", ahead.surely
    if ahead.to_right:
        told, surely = f"{told}, less what it takes to put that right", ahead.surely_besides
    told += ". Without that, by heats and soaks alone " if ahead.to_right else ". By heats and soaks alone "
    told += f"step {surely} is surely done by then" if surely else "no step is surely done by then"
    told += f", step {ahead.perhaps} perhaps. " if ahead.perhaps > surely else ". "
    if ahead.to_right:
        return f"{told}No safe rest is sure before it is right."
    safe = f"Rest after step {ahead.rest_after}." if ahead.rest_after else "No safe rest is surely reached."
    return told + safe


def _rows(ahead: TimeAhead, shown: Shown) -> Iterator[tuple[str, ...]]:
    for one in ahead.steps:
        heats, safe = str(one.heats) if one.heats else "-", "yes" if one.may_rest else "no"
        to_end = write_span(_to_the_minute(one.in_all), shown) if one.in_all.high else ""
        told = (write_span(rough(one.blows), shown) if one.blows is not None else "",) if ahead.blows else ()
        yield f"{one.number} {one.title}", heats, *told, to_end, safe


def _to_the_minute(span: Span) -> Span:
    """A time as it can be known beforehand: nobody reckons a heat to its seconds."""
    low, high = (
        one if one < _MINUTE_S else round(one / _MINUTE_S) * _MINUTE_S for one in (span.low, span.high)
    )
    return span._replace(low=low, high=high)
