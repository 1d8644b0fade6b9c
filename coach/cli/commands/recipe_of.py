"""`coach recipe-of`: the recipe that a job was really forged by, as a file of its own."""

from __future__ import annotations

from typing import NamedTuple

from coach.cli.entering import JOB
from coach.cli.masks import mode_for_others
from coach.cli.opening import shop_and_job
from coach.cli.page import paragraph
from coach.cli.reply import Asked, Reply, reply
from coach.cli.writing_out import FORCE, write_out
from coach.quantities.takes import Take
from coach.telling.words import write
from coach.telling.writing import Shown

SUMMARY = "Write the recipe that a job was really forged by, with its ways back and the heats it took."
TAKES = (JOB, Take("file", "where to write it; printed when left out", "FILE"), FORCE)


class RecipeOfJob(NamedTuple):
    """The recipe of a job as it was forged."""

    job: str  # its name
    file: str  # where it is written; empty where it is only told
    text: str  # the recipe


def run(asked: Asked) -> Reply[RecipeOfJob]:
    """Print it, or write it to a file that is not there yet."""
    with shop_and_job(asked) as (shop, session):
        shown = Shown(session.system)
        text = session.forged(lambda words: write(words, shown))
        if asked.file is None:
            return reply(text.splitlines(), RecipeOfJob(session.job, "", text))
        mode = mode_for_others()
        path = write_out(asked.file, text, force=asked.force, log=shop.log.path, mode=mode)
    return reply(paragraph(f"Written to {path}."), RecipeOfJob(session.job, str(path), text))
