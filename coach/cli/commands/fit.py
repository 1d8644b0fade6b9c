"""`coach fit`: the eye is worked to a haft that is there."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, NamedTuple

from coach.cli.entering import Entered, answered, job_argument
from coach.cli.opening import a_job
from coach.cli.page import set_page
from coach.cli.reply import Reply, reply
from coach.telling.haft import eye_section
from coach.telling.page import page
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.bench.hafting import EyeForHaft

SUMMARY = "Work out the eye for a haft that is there; with --take the job works to it."


class HaftForJob(NamedTuple):
    """What a haft asks of the eye of a job."""

    job: str  # its name
    haft: EyeForHaft


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    job_argument(parser)
    parser.add_argument(
        "size",
        metavar="SIZE",
        help="the haft where it is to fill the eye: length along the head by width, such as 36x22",
    )
    parser.add_argument("--wood", metavar="WOOD", default="white ash", help="its wood; white ash unless said")
    parser.add_argument(
        "--moisture", metavar="PERCENT", default="10", help="its moisture now; 10 unless said"
    )
    parser.add_argument(
        "--in-use", metavar="PERCENT", default="10", help="its moisture where it will be used; 10 unless said"
    )
    parser.add_argument(
        "--natural", metavar="SIZE", default="", help="of a riven haft, its size at a second place"
    )
    parser.add_argument(
        "--rings", metavar="WAY", default="length", help="which way its rings run: length or width of the eye"
    )
    parser.add_argument("--spare", metavar="SIZE", default="", help="what is left for scale and the file")
    parser.add_argument("--take", action="store_true", help="let the job work to that eye from now on")


def run(asked: argparse.Namespace) -> Reply[HaftForJob | Entered]:
    """Reckon it, and enter it where that is asked."""
    from coach.bench.hafting import HaftAsked

    haft = HaftAsked(
        asked.size, asked.wood, asked.moisture, asked.in_use, asked.natural, asked.rings, asked.spare
    )
    with a_job(asked) as session:
        if asked.take:
            return answered(session, [session.fit_haft(haft)])
        eye = session.haft(haft)
        told = page(eye_section(eye, Shown(session.system)))
        return reply(set_page(told), HaftForJob(session.job, eye))
