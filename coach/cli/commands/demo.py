"""`coach demo`: a job forged half-way, to look at and try, that leaves the shop's own log alone."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from coach.cli.commands.where import where_it_stands
from coach.cli.opening import open_shop
from coach.cli.reply import Asked, Refused, Reply
from coach.cli.screen import need_a_terminal, show_job
from coach.files import expand, naming_a_path
from coach.log.errors import LogError
from coach.log.newest import Newest, newest_of_all
from coach.quantities.takes import Take, flag, plain

if TYPE_CHECKING:
    from coach.bench.session import Session
    from coach.bench.shop import Shop
    from coach.bench.standing import Standing

JOB_FILE = Path(__file__).with_name("_demo.jsonl")
"""The job, forged beforehand by `python -m tests.write_pages`."""
FRAME_FILE = Path(__file__).with_name("_demo.frame")
"""What it opens with in a window of the usual size and colours, drawn beforehand by the same."""

SUMMARY = "Open the bench on a half-forged job with made-up sizes, in a log of its own."
TAKES = (
    Take(
        "--where",
        "keep the log in this folder, and go on from it next time",
        "FOLDER",
        plain(naming_a_path),
    ),
    flag("--no-screen", "print where the job stands instead"),
)
_LOG = "demo.sqlite"
NOTICE = "This job and its sizes are made up; try anything, your own log is not touched."


def run(asked: Asked) -> Reply[Standing | None]:
    """Forge the job and open its bench; with `--no-screen` or `--json`, tell where it stands."""
    if asked.shop is not None:
        raise Refused("`coach demo` keeps a log of its own: leave out --shop, or say --where FOLDER.")
    with_screen = not (asked.no_screen or asked.json)
    if with_screen:
        need_a_terminal(asked, "coach demo --no-screen")
    with _folder(asked) as folder:
        opened = partial(_opened, asked, folder / _LOG)
        if with_screen:
            forged = _forged()
            newest = _newest(folder / _LOG) or forged
            ready_made = FRAME_FILE if newest == forged and asked.units is None else None
            return show_job(asked, newest, opened, NOTICE, straight=True, ready_made=ready_made)
        with opened() as (_, session):
            told = where_it_stands(session)
        return Reply(told.lines, told.values)


@contextmanager
def _opened(asked: Asked, path: Path) -> Iterator[tuple[Shop, Session]]:
    """The demonstration's shop and its job, which is carried in now unless it was before."""
    from coach.log.carry import import_job

    with open_shop(asked, path, made_up=True) as shop:
        # All of it or nothing, so that a log that is kept never holds half a demonstration.
        shop.outlasts = asked.where is not None
        jobs = shop.log.jobs() or [import_job(shop.log, JOB_FILE.read_text(encoding="utf-8"))]
        yield shop, shop.open(jobs[0])


def _newest(path: Path) -> Newest | None:
    """The newest entry of the job in this log; None where there is none yet."""
    if path.exists():
        with suppress(LogError, IndexError):  # opening the log says what is wrong with it
            return newest_of_all(path)[0]
    return None


def _forged() -> Newest:
    """The newest entry of the job as it is carried into a log."""
    import json

    head = json.loads(JOB_FILE.read_text(encoding="utf-8").partition("\n")[0])
    return Newest(head["job"], head["entries"], head["ends"])


@contextmanager
def _folder(asked: Asked) -> Iterator[Path]:
    """The folder of the demonstration's log: the one asked for, or one that is gone afterwards."""
    if asked.where is None:
        with tempfile.TemporaryDirectory(prefix="coach-demo-", ignore_cleanup_errors=True) as made:
            yield Path(made)
        return
    folder = expand(asked.where)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Refused(f"{folder} cannot be used as a folder ({error.strerror}): name another.") from error
    yield folder
