"""`coach remedies`: what can be done to come back onto plan."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, NamedTuple

from coach.cli.entering import job_argument
from coach.cli.opening import a_job
from coach.cli.page import named, paragraph
from coach.cli.reply import Reply, reply
from coach.quantities import write_count

if TYPE_CHECKING:
    from coach.bench.standing import RemedyView, Standing

SUMMARY = "List the ways back onto plan, the best first, each with its price."


class WaysBack(NamedTuple):
    """The ways back onto plan, the best first."""

    job: str  # its name
    remedies: tuple[RemedyView, ...]


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)


def run(asked: argparse.Namespace) -> Reply[WaysBack]:
    """List them; bad news when the job is not on plan."""
    with a_job(asked) as session:
        standing, remedies = session.standing(), session.remedies()
    bad = standing.verdict != "on plan" or bool(standing.trouble)
    lines = paragraph(f"{standing.verdict.capitalize()}: {standing.reason}")
    if not remedies:
        lines += paragraph(_none(standing))
    for remedy in remedies:
        lines += ["", *_lines(remedy)]
    return reply(lines, WaysBack(session.job, tuple(remedies)), bad_news=bad)


def _none(standing: Standing) -> str:
    if standing.verdict == "on plan":
        return "Nothing is wrong that needs a way out."
    return "No way out is known as the job stands."


def _lines(remedy: RemedyView) -> list[str]:
    heats = write_count(remedy.heats, "more heat") if remedy.heats else "no more heats"
    return [
        *paragraph(f"{remedy.title} ({remedy.name})"),
        *named("  Changes", remedy.changes),
        *named("  Then", f"{remedy.verdict}, {_percent(remedy.chance)}; {heats}; {remedy.sound}"),
        *named("  Mind", remedy.caution),
    ]


def _percent(chance: float) -> str:
    """A chance in whole per cent; never told as certain, for nothing at the anvil is."""
    whole = round(100.0 * chance)
    return "over 99 %" if whole >= 100 else "under 1 %" if whole <= 0 else f"{whole} %"
