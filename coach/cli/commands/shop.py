"""`coach shop`: what the jobs of a shop have taught of it."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, NamedTuple

from coach.cli.opening import look_for_log, open_shop, shop_path
from coach.cli.page import set_page
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.quantities.takes import Take

if TYPE_CHECKING:
    from coach.bench.own_figures import OwnFigure
    from coach.bench.told_and_came import ToldAndCame

SUMMARY = "Tell what your jobs have taught of your shop, and how true it came what you were told."
TAKES = (
    Take(
        "figure", "one figure alone, with what each job says of it: scale, spread, pace or another", "FIGURE"
    ),
    Take(
        "--leave-out",
        "leave what this job taught of the figure out of what new jobs begin with; alone what every job did",
        "JOB",
        alone="",
    ),
    Take("--bring-back", "let what was left out count again", "JOB", alone=""),
)

#: What a shell finishes after a word.
FINISHES = {"--leave-out": "jobs", "--bring-back": "jobs"}


class OfShopTold(NamedTuple):
    """What the jobs have taught."""

    sentence: str  # what was changed; "" where nothing was
    figures: tuple[OwnFigure, ...]
    told: tuple[ToldAndCame, ...]  # chances that finished jobs were told, and what came of them
    most_jobs: int  # so many jobs teach at most, those that were last worked


def run(asked: Asked) -> Reply[OfShopTold]:
    """Tell every figure, or one; leave a lesson out, or let it count again."""
    changes = {"--leave-out": asked.leave_out, "--bring-back": asked.bring_back}
    wanted = [name for name, job in changes.items() if job is not None]
    if len(wanted) > 1:
        raise Refused("--leave-out and --bring-back were both given: one thing at a time.")
    if wanted and asked.figure is None:
        raise Refused(f"Say which figure: `coach shop scale {wanted[0]}`.")
    path = shop_path(asked)
    look_for_log(path)
    if not os.path.lexists(path):
        return _nothing_yet(asked)
    with open_shop(asked, path) as shop:
        from coach.bench.own_figures import bring_back, leave_out, own_figures
        from coach.telling.of_shop import own_figure_page, own_figures_page
        from coach.telling.words import sentence
        from coach.telling.writing import Shown

        shown, said = Shown(asked.units or "mm"), ""
        if asked.leave_out is not None:
            said = sentence(leave_out(shop, asked.figure, asked.leave_out), shown)
        elif asked.bring_back is not None:
            said = sentence(bring_back(shop, asked.figure, asked.bring_back), shown)
        own = own_figures(shop)
        figures = own.figures
        if asked.figure is not None:
            figures = tuple(one for one in figures if one.what == asked.figure)
            if not figures:
                known = ", ".join(dict.fromkeys(one.what for one in own.figures)) or "nothing yet"
                raise Refused(f"No job has taught anything of {asked.figure[:40]!r}: there is {known}.")
            page = own_figure_page(figures, shown)
        else:
            page = own_figures_page(own, shown)
        lines = [*([said, ""] if said else []), *set_page(page)]
        return reply(lines, OfShopTold(said, figures, own.told, own.most_jobs))


def _nothing_yet(asked: Asked) -> Reply[OfShopTold]:
    from coach.bench.known_shop import MOST_JOBS
    from coach.cli.page import paragraph
    from coach.telling.of_shop import NOTHING_TAUGHT

    if asked.figure is not None:
        raise Refused(f"No job has taught anything of {asked.figure[:40]!r}: there is no job yet.")
    return reply(paragraph(NOTHING_TAUGHT), OfShopTold("", (), (), MOST_JOBS))
