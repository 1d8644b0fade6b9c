"""`coach completion`: what a shell is given so that it finishes what is typed after coach."""

from __future__ import annotations

import os
from typing import NamedTuple

from coach.cli.opening import shop_path
from coach.cli.reply import Asked, Refused, Reply
from coach.quantities.takes import Take

SUMMARY = "Print what bash, zsh or fish needs to finish commands, options, jobs and recipes."
TAKES = (
    Take(
        "what",
        "bash, zsh or fish: its script; jobs, recipes, figures, bars or settings: the names there are",
        "SHELL",
        needed=True,
    ),
)


class Completion(NamedTuple):
    """What a shell asked for."""

    what: str  # the shell, or whose names: `jobs`, `recipes`, `figures`, `bars` or `settings`
    text: str  # the script, or the names, one a line


def run(asked: Asked) -> Reply[Completion]:
    """Print it."""
    from coach.cli.completing import SHELLS, script

    what = asked.what.lower()
    if what in SHELLS:
        text = script(what, asked.all_commands())
    elif what == "jobs":
        text = "".join(f"{name}\n" for name in _jobs(asked))
    elif what == "recipes":
        from coach.cli.opening import recipe_folders
        from coach.recipe.library import recipe_files

        text = "".join(f"{name}\n" for name in recipe_files(recipe_folders()))
    elif what == "figures":
        from coach.bench.shop_figures import every_shop_figure
        from coach.log.kinds.hand_known import HAND_OF_SMITH

        names = (HAND_OF_SMITH, *(one.what for one in every_shop_figure()))
        text = "".join(f"{name}\n" for name in names if " " not in name)  # a shell takes that for two
    elif what == "bars":
        text = "".join(f"{name}\n" for name in _bars(asked) if " " not in name)
    elif what == "settings":
        from coach.settings.table import table

        text = "".join(f"{name}\n" for name in table())
    else:
        raise Refused(f"{asked.what[:20]!r} is no shell that is known here: type {', '.join(SHELLS)}.")
    return Reply(tuple(text.splitlines()), Completion(what, text))


def _jobs(asked: Asked) -> list[str]:
    """The names of the jobs; none where there is no log, which a shell that asks does not make."""
    from coach.log.jobs import Log

    if not _is_there(asked):
        return []
    with Log(shop_path(asked), read_only=True) as log:
        return log.jobs()


def _bars(asked: Asked) -> list[str]:
    """The names of the bars on the rack; none where there is no log."""
    from coach.cli.opening import open_shop

    if not _is_there(asked):
        return []
    with open_shop(asked) as shop:
        return [bar.name for bar in shop.rack.now().bars]


def _is_there(asked: Asked) -> bool:
    return os.path.isfile(shop_path(asked))
