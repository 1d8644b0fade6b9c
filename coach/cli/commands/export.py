"""`coach export`: a job as one file, to be carried to another log."""

from __future__ import annotations

from typing import NamedTuple

from coach.cli.entering import JOB
from coach.cli.opening import log_with_jobs, open_shop
from coach.cli.page import paragraph
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.cli.writing_out import FORCE, write_out
from coach.quantities.takes import Take
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
    FORCE,
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
        # A file is looked at in a terminal too.
        text = harmless_json(export_job(shop.log, job))
    if asked.file == OUT:
        return Reply(tuple(text.removesuffix("\n").split("\n")), None)
    named = f"{job}{SUFFIX}" if asked.file is None else asked.file
    path = write_out(named, text, force=asked.force, log=shop.log.path)
    entries = text.count("\n") - 1
    told = f"Job {job} is written to {path}, {entries} entr{'y' if entries == 1 else 'ies'}."
    return reply(paragraph(told), Exported(job, str(path), entries))
