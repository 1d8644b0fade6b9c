"""`coach completion`: what a shell is given so that it finishes what is typed after coach."""

from __future__ import annotations

from typing import NamedTuple

from coach.cli.reply import Asked, Refused, Reply
from coach.quantities.takes import Take

SUMMARY = "Print what bash, zsh or fish needs to finish commands, options, jobs and recipes."
TAKES = (
    Take(
        "what",
        "bash, zsh or fish: its script; jobs, recipes or figures: the names there are",
        "SHELL",
        needed=True,
    ),
)


class Completion(NamedTuple):
    """What a shell asked for."""

    what: str  # the shell, `jobs`, `recipes` or `figures`
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
        from coach.bench.shop_figures import shop_figures
        from coach.log.kinds.hand_known import HAND_OF_SMITH

        names = (HAND_OF_SMITH, *(one.what for one in shop_figures()))
        text = "".join(f"{name}\n" for name in names if " " not in name)  # a shell takes that for two
    else:
        raise Refused(f"{asked.what[:20]!r} is no shell that is known here: type {', '.join(SHELLS)}.")
    return Reply(tuple(text.splitlines()), Completion(what, text))


def _jobs(asked: Asked) -> list[str]:
    """The names of the jobs; none where there is no log, which a shell that asks does not make."""
    import os

    from coach.cli.opening import shop_path
    from coach.log.jobs import Log

    path = shop_path(asked)
    if not os.path.isfile(path):
        return []
    with Log(path, read_only=True) as log:
        return log.jobs()
