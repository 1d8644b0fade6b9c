"""`coach right`: the list of things to put right."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coach.cli.entering import ENTRY, JOB, Entered, answered
from coach.cli.opening import a_job
from coach.cli.page import set_page
from coach.cli.reply import Asked, Reply, reply
from coach.telling.page import Line, page, section
from coach.telling.righting import rights_table

if TYPE_CHECKING:
    from coach.bench.righting import Right

SUMMARY = "List what is still to be put right; with a number, say that it is right now."
TAKES = (JOB, ENTRY._replace(help="the number, as the list has it, of what is right now"))


class ToPutRight(NamedTuple):
    """What is still to be put right."""

    job: str  # its name
    to_right: tuple[Right, ...]


def run(asked: Asked) -> Reply[ToPutRight | Entered]:
    """List them, or take one off."""
    with a_job(asked) as session:
        if asked.entry is not None:
            return answered(asked, session, [session.righted(asked.entry)])
        found = session.standing().to_right
        told = rights_table(found) if found else Line("Nothing is to be put right.")
        return reply(set_page(page(section("", [told]))), ToPutRight(session.job, found))
