"""`coach fit`: the eye is worked to a haft that is there."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coach.cli.entering import JOB, Entered, answered
from coach.cli.opening import a_job
from coach.cli.page import set_page
from coach.cli.reply import Asked, Reply, reply
from coach.quantities.takes import Take, flag
from coach.telling.haft import eye_section
from coach.telling.page import page
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.bench.hafting import EyeForHaft

SUMMARY = "Work out the eye for a haft that is there; with --take the job works to it."
TAKES = (
    JOB,
    Take(
        "size",
        "the haft where it is to fill the eye: length along the head by width, such as 36x22",
        "SIZE",
        needed=True,
    ),
    Take("--wood", "its wood; white ash unless said", "WOOD", usual="white ash"),
    Take("--moisture", "its moisture now; 10 unless said", "PERCENT", usual="10"),
    Take("--in-use", "its moisture where it will be used; 10 unless said", "PERCENT", usual="10"),
    Take("--natural", "of a riven haft, its size at a second place", "SIZE"),
    Take("--rings", "which way its rings run: length or width of the eye", "WAY", usual="length"),
    Take("--spare", "what is left for scale and the file", "SIZE"),
    flag("--take", "let the job work to that eye from now on"),
)


class HaftForJob(NamedTuple):
    """What a haft asks of the eye of a job."""

    job: str  # its name
    haft: EyeForHaft


def run(asked: Asked) -> Reply[HaftForJob | Entered]:
    """Reckon it, and enter it where that is asked."""
    from coach.bench.hafting import HaftAsked

    haft = HaftAsked(
        asked.size,
        asked.wood,
        asked.moisture,
        asked.in_use,
        asked.natural or "",
        asked.rings,
        asked.spare or "",
    )
    with a_job(asked) as session:
        if asked.take:
            return answered(asked, session, [session.fit_haft(haft)])
        eye = session.haft(haft)
        told = page(eye_section(eye, Shown(session.system)))
        return reply(set_page(told), HaftForJob(session.job, eye))
