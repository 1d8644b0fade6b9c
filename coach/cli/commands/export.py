"""`coach export`: a job as one file, to be carried to another log."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from coach.cli.entering import JOB
from coach.cli.opening import log_with_jobs, open_shop
from coach.cli.page import paragraph
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.files import expand
from coach.quantities.takes import Take, flag
from coach.telling.harmless import harmless_json

SUMMARY = "Write a job to one readable file, everything entered for it included."
SUFFIX = ".job.jsonl"
OUT = "-"
TAKES = (
    JOB,
    Take(
        "file",
        f"the file to write, or {OUT} for standard output; without it, JOB{SUFFIX} in this folder",
        "FILE",
    ),
    flag("--force", "write over the file when it is there already"),
)


class Exported(NamedTuple):
    """A job written to a file."""

    job: str  # its name
    file: str  # where it is written
    entries: int  # how many there are


def run(asked: Asked) -> Reply[Exported | None]:
    """Write the job out; it need not be one that can still be reckoned."""
    from coach.log.carry import export_job

    if asked.file == OUT and asked.json:
        raise Refused(f"`{OUT}` writes the job itself, which is JSON already: leave out --json.")
    with open_shop(asked, log_with_jobs(asked)) as shop:
        job = shop.named(asked.job)
        text = export_job(shop.log, job)
    if asked.file == OUT:
        return Reply(tuple(harmless_json(text).removesuffix("\n").split("\n")), None)
    path = _to_write(asked.file or f"{job}{SUFFIX}", force=asked.force)
    _write(path, text)
    entries = text.count("\n") - 1
    told = f"Job {job} is written to {path}, {entries} entr{'y' if entries == 1 else 'ies'}."
    return reply(paragraph(told), Exported(job, str(path), entries))


def _to_write(named: str, *, force: bool) -> Path:
    """The file that may be written; raises Refused."""
    path = expand(named)
    if path.is_dir():
        raise Refused(f"{path} is a folder: name a file in it.")
    if path.exists() and not path.is_file():
        raise Refused(f"{path} is no ordinary file: name another, or {OUT} for standard output.")
    if path.exists() and not force:
        raise Refused(f"{path} is there already: name another file, or say --force to write over it.")
    return path


def _write(path: Path, text: str) -> None:
    """Write the whole file or leave what there was; raises Refused."""
    part = path.with_name(f"{path.name}.part")
    try:
        part.write_text(text, encoding="utf-8", newline="\n")
        os.replace(part, path)
    except (OSError, ValueError) as error:
        with suppress(OSError, ValueError):
            part.unlink()
        why = getattr(error, "strerror", None) or "a file cannot have this name"
        raise Refused(f"{path} cannot be written ({why}): name another file.") from error
