"""`coach import`: a job that was exported elsewhere, added to this log."""

from __future__ import annotations

import sys
from functools import partial

from coach.cli.entering import Entered, answered
from coach.cli.opening import shop_to_begin_in
from coach.cli.reply import Asked, Refused, Reply
from coach.cli.streams import say_aside
from coach.files import contents, expand
from coach.quantities.errors import odd_in
from coach.quantities.takes import Take

SUMMARY = "Add a job that was exported from another log, entry for entry."
IN = "-"
TAKES = (
    Take("file", f"the file that `coach export` wrote, or {IN} for standard input", "FILE", needed=True),
)
#: A year's job is some tens of kilobytes: what is larger than this is another file.
LARGEST_BYTES = 32_000_000


def run(asked: Asked) -> Reply[Entered]:
    """Add the job, and say where it stands; nothing is added that cannot be opened."""
    from coach.bench.answer import Answer
    from coach.log.errors import JobExists
    from coach.quantities.words import say

    text = _text(asked.file)
    with shop_to_begin_in(asked) as shop:
        try:
            session = shop.bring_in(text, partial(_tell, text.count("\n")))
        except JobExists as error:
            raise Refused(
                f"There is a job {error.job!r} here already, so nothing was added; `--shop FILE` takes it "
                f"into another log."
            ) from error
        told = say("Job {} is imported: {}", f"{session.job}{odd_in(session.job)}", session.recipe.title)
        return answered(asked, session, [Answer(told, session.standing().last_entry)])


def _tell(lines: int, entry: int) -> None:
    """Say how far it has come, beside the answer."""
    say_aside(f"Reading entry {entry} of about {lines - 1}: those of one step are weighed together.")


def _text(named: str) -> str:
    """What the file holds; raises Refused."""
    path = expand(named)
    try:
        most = LARGEST_BYTES + 1
        held = sys.stdin.buffer.read(most) if named == IN else contents(path, most)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "a file cannot have this name"
        raise Refused(f"{path} cannot be read ({why}): name the file that was exported.") from error
    if len(held) > LARGEST_BYTES:
        raise Refused(f"{path} is too large to be a job: name the file that `coach export` wrote.")
    try:
        return held.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Refused(f"{path} is not text in UTF-8: name the file that `coach export` wrote.") from error
