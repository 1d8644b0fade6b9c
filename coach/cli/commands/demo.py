"""`coach demo`: a job forged half-way, to look at and try, that leaves the shop's own log alone."""

from __future__ import annotations

import argparse
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from coach.cli.commands.where import where_it_stands
from coach.cli.opening import open_shop
from coach.cli.reply import Refused, Reply
from coach.cli.screen import need_a_terminal, show

if TYPE_CHECKING:
    from coach.bench.standing import Standing

JOB_FILE = Path(__file__).with_name("_demo.jsonl")
"""The job, forged beforehand by `python -m tests.write_pages`."""

SUMMARY = "Open the bench on a half-forged job with made-up sizes, in a log of its own."
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
            told = where_it_stands(shop.open(job))
            return Reply(told.lines, told.values)


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
    """The demonstration's job in this log, carried in now unless it was before."""
    from coach.log.carry import import_job
    from coach.log.jobs import Log

    with Log(path) as log:
        # All of it or nothing, so that a log that is kept never holds half a demonstration.
        return found[0] if (found := log.jobs()) else import_job(log, JOB_FILE.read_text(encoding="utf-8"))
