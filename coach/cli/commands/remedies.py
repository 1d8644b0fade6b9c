"""`coach remedies`: what can be done to come back onto plan."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from coach.cli.entering import job_argument
from coach.cli.opening import a_job
from coach.cli.page import named, paragraph
from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.bench.standing import RemedyView

SUMMARY = "List the ways back onto plan, the best first, each with its price."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)


def run(asked: argparse.Namespace) -> Reply:
    """List them."""
    with a_job(asked) as session:
        remedies = session.remedies()
        standing = session.standing()
    lines = paragraph(f"{standing.verdict.capitalize()}: {standing.reason}")
    if not remedies:
        lines += paragraph("There is nothing that needs a way out.")
    for remedy in remedies:
        lines += ["", *_lines(remedy)]
    values = {"job": session.job, "remedies": remedies}
    return reply(lines, values, bad_news=standing.verdict != "on plan")


def _lines(remedy: RemedyView) -> list[str]:
    heats = f", {remedy.heats} more heat{'' if remedy.heats == 1 else 's'}" if remedy.heats else ""
    lines = paragraph(f"{remedy.title} ({remedy.name})")
    lines += named("  Changes", remedy.changes)
    lines += named("  Then", f"{remedy.verdict}, {remedy.chance:.0%} sure{heats}; {remedy.sound}")
    return lines + (named("  Mind", remedy.caution) if remedy.caution else [])
