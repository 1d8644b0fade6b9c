"""`coach photo`: a photograph that belongs to the job, by its file."""

from __future__ import annotations

import os

from coach.cli.entering import JOB, Entered, answered
from coach.cli.opening import a_job
from coach.cli.reply import Asked, Refused, Reply
from coach.files import expand
from coach.quantities.takes import Take, Typed, plain


def _file(typed: str) -> str:
    if not typed.strip():
        raise Refused("A photograph is named by its file, such as hook-3.jpg; blanks name none.")
    return typed


SUMMARY = "Put down that a photograph was taken, by its file; the picture stays where it is."
TAKES = (
    JOB,
    Take("file", "the file of the photograph, which is there", "FILE", plain(_file), needed=True),
    Take("--at", "when it was taken: a time of today, or a day and a time (2026-11-25 14:30)", "TIME"),
    Take("text", "what is to be seen on it", "TEXT", typed=Typed.RUN_ON),
)


def run(asked: Asked) -> Reply[Entered]:
    """Put it down."""
    path = expand(asked.file).absolute()
    if not os.path.isfile(path):
        raise Refused(f"There is no file {path}: name the photograph by a file that is there.")
    with a_job(asked) as session:
        return answered(asked, session, [session.photograph(str(path), asked.text or "", asked.at or "")])
