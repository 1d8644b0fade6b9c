"""`coach next-time`: what a job cost most, and the recipe changed for the next one."""

from __future__ import annotations

from typing import NamedTuple

from coach.bench.next_time import Cost
from coach.cli.entering import JOB
from coach.cli.masks import mode_for_others
from coach.cli.opening import shop_and_job
from coach.cli.page import paragraph, set_page
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.cli.writing_out import A_FILE, FORCE, write_out
from coach.quantities.takes import Take, plain

_COSTS = ("metal", "heats", "chance")
_ALL = "all"


def _which(typed: str) -> tuple[str, ...]:
    wanted = tuple(word for word in typed.replace(",", " ").split() if word)
    if not wanted or any(word not in (*_COSTS, _ALL) for word in wanted):
        raise Refused(
            f"{typed[:40]!r} is no change that is offered: type metal, heats, chance, or several such as"
            f" metal,heats, or {_ALL}."
        )
    return (_ALL,) if _ALL in wanted else tuple(dict.fromkeys(wanted))


def _taken(wanted: tuple[str, ...], costs: tuple[Cost, ...]) -> tuple[str, ...]:
    """Which changes are made; raises Refused where all are asked for and none is offered."""
    if wanted != (_ALL,):
        return wanted
    offered = tuple(cost.of for cost in costs if cost.edit is not None)
    if not offered:
        raise Refused("Nothing of the recipe would better it: there is nothing to change.")
    return offered


SUMMARY = "Tell what cost most metal, most heats and most chance, and change the recipe for next time."
TAKES = (
    JOB,
    Take(
        "--take",
        "make these of the changes that are shown: metal, heats, chance; several as metal,heats; or all",
        "WHICH",
        plain(_which),
    ),
    Take("--out", "where to write the recipe with the changes taken", "FILE", A_FILE),
    FORCE,
)

#: What a shell finishes after a word.
FINISHES = {"--take": " ".join((*_COSTS, _ALL))}


class NextTimeTold(NamedTuple):
    """What a job cost most, each with an edit of the recipe."""

    job: str  # its name
    finished: bool  # whether every step is done; else it is so far
    costs: tuple[Cost, ...]
    taken: tuple[str, ...]  # the changes that were made: `metal`, `heats`, `chance`
    file: str  # the recipe that is written with them; empty where none is


def run(asked: Asked) -> Reply[NextTimeTold]:
    """Tell it, and write the recipe with what is taken of it."""
    from coach.bench.next_time import with_edits
    from coach.telling.next_time import next_time_page
    from coach.telling.writing import Shown

    if (asked.take is None) != (asked.out is None):
        raise Refused("--take and --out go together: which changes, and where to write the recipe with them.")
    with shop_and_job(asked) as (shop, session):
        found = shop.next_time(session)
        lines, path = set_page(next_time_page(found, Shown(session.system))), ""
        taken = _taken(asked.take, found.costs) if asked.take is not None else ()
        if taken:
            text = with_edits(session.recipe_begun_by, found, taken)
            mode, log = mode_for_others(), shop.log.path
            path = str(write_out(asked.out, text, force=asked.force, log=log, mode=mode))
            lines += ["", *paragraph(f"The recipe with that is written to {path}.")]
        told = NextTimeTold(session.job, found.finished, found.costs, taken, path)
        return reply(lines, told)
