"""`coach history`: everything entered for a job."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from coach.cli.entering import job_argument
from coach.cli.opening import a_job
from coach.cli.page import moment, paragraph, table
from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.bench.standing import EntryView, SparePointView

SUMMARY = "List everything entered for a job, what was struck out included."


class Entries(NamedTuple):
    """Everything entered for a job."""

    job: str  # its name
    entries: tuple[EntryView, ...]


class SpareHistory(NamedTuple):
    """How the spare of a job has gone from heat to heat."""

    job: str  # its name
    spare: tuple[SparePointView, ...]


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)
    parser.add_argument(
        "--spare", action="store_true", help="how the spare of each zone has gone from heat to heat instead"
    )


def run(asked: argparse.Namespace) -> Reply[Entries | SpareHistory]:
    """List the entries in order."""
    with a_job(asked) as session:
        if asked.spare:
            points = session.spare_points()
            return reply(_spare_lines(points), SpareHistory(session.job, tuple(points)))
        entries = session.history()
    rows = [
        (
            str(entry.number),
            moment(entry.at),
            f"step {entry.step}",
            f"{'(struck out) ' if entry.struck else ''}{entry.text}",
        )
        for entry in entries
    ]
    return reply(table(rows, indent=""), Entries(session.job, tuple(entries)))


def _spare_lines(points: Sequence[SparePointView]) -> list[str]:
    """A row for each moment, a column for each zone."""
    names = list(dict.fromkeys(point.label for point in points))
    by_moment: dict[int, dict[str, SparePointView]] = {}
    for point in points:
        by_moment.setdefault(point.entry, {})[point.label] = point
    rows = []
    for entry, found in by_moment.items():
        first = next(iter(found.values()))
        told = (f"{found[name].spare:.1f}" if name in found else "" for name in names)
        rows.append((str(entry), str(first.heats), str(first.step), *told))
    heads = ("entry", "heats", "step", *names)
    return [
        *table(rows, heads, indent=""),
        "",
        *paragraph("Spare in mm above the least that the drawing allows."),
    ]
