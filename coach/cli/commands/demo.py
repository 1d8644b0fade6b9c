"""`coach demo`: a job forged half-way, to look at and try, that leaves the shop's own log alone."""

from __future__ import annotations

import argparse
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from coach.cli.opening import open_shop, recipe_folders
from coach.cli.reply import Refused, Reply, reply
from coach.cli.screen import need_a_terminal, show
from coach.cli.telling import standing_lines

if TYPE_CHECKING:
    from coach.bench.standing import Standing

SUMMARY = "Open the bench on a half-forged job with made-up sizes, in a log of its own."
_RECIPE = "carpenters-adze.yaml"
_LOG = "demo.sqlite"
_NOTICE = "This job and its sizes are made up; try anything, your own log is not touched."


def arguments(parser: argparse.ArgumentParser) -> None:
    """What follows the verb."""
    parser.add_argument(
        "--where", metavar="FOLDER", help="keep the log in this folder, and go on from it next time"
    )
    parser.add_argument("--no-screen", action="store_true", help="print where the job stands instead")


def run(asked: argparse.Namespace) -> Reply[Standing | None]:
    """Forge the job and open its bench; with `--no-screen` or `--json`, tell where it stands."""
    if asked.shop is not None:
        raise Refused("`coach demo` keeps a log of its own: leave out --shop, or say --where FOLDER.")
    with_screen = not (asked.no_screen or asked.json)
    if with_screen:
        need_a_terminal(asked, "coach demo --no-screen")
    with _folder(asked) as folder:
        job = _made(folder / _LOG)
        with open_shop(asked, folder / _LOG) as shop:
            if with_screen:
                return show(shop, job, _NOTICE, straight=True)
            standing = shop.open(job).standing()
            return reply(standing_lines(standing), standing)


@contextmanager
def _folder(asked: argparse.Namespace) -> Iterator[Path]:
    """The folder of the demonstration's log: the one asked for, or one that is gone afterwards."""
    if asked.where is None:
        with tempfile.TemporaryDirectory(prefix="coach-demo-", ignore_cleanup_errors=True) as made:
            yield Path(made)
        return
    folder = Path(asked.where).expanduser()
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Refused(f"{folder} cannot be used as a folder ({error.strerror}): name another.") from error
    yield folder


def _made(path: Path) -> str:
    """The demonstration's job in this log, forged now unless it was before."""
    from coach.cli.part_forged import half_forged
    from coach.log.jobs import Log
    from coach.recipe.text import file_text

    with Log(path) as log:
        if found := log.jobs():
            return found[0]
        entries = half_forged(file_text(recipe_folders()[-1] / _RECIPE), _RECIPE)
        job = entries[0].job
        # All of it or nothing, so that a log that is kept never holds half a demonstration.
        log.begin_with(job, [(entry.at, entry.body) for entry in entries])
        return job
