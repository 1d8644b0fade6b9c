"""`coach check-log`: the whole log looked through for damage."""

from __future__ import annotations

import os
from typing import NamedTuple

from coach.cli.opening import look_for_log, shop_path
from coach.cli.page import paragraph
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.quantities.words import counted
from coach.telling.words import write

SUMMARY = "Look through the whole log for damage, and tell what can be trusted; nothing is changed."
TAKES = ()

_MOST = 20


class CheckedLog(NamedTuple):
    """A log that was looked through."""

    file: str  # the log
    sound: bool  # whether all of it is as it was written
    jobs: int  # how many jobs can be read, wholly or to their first fault
    entries: int  # how many entries can be read and trusted
    faults: tuple[str, ...]  # what is wrong
    set_aside: tuple[str, ...]  # the files that were in its place before `coach restore` made it whole


def run(asked: Asked) -> Reply[CheckedLog]:
    """Look through it; bad news when it is damaged."""
    from coach.log.errors import COPIES_LISTED, LogUnusable
    from coach.log.file import refuse_what_sqlite_would_take
    from coach.log.looking_through import look_through
    from coach.log.restoring import set_aside

    path = shop_path(asked)
    look_for_log(path)
    if not os.path.lexists(path):
        raise Refused(f"There is no {path} to check: `coach begin RECIPE` begins a log.")
    seen = look_through(path)
    held = f"{counted(seen.jobs, 'job')}, {seen.entries} entr{'y' if seen.entries == 1 else 'ies'}"
    faults = seen.faults
    try:
        refuse_what_sqlite_would_take(path)
    except LogUnusable as stranger:
        faults = (*faults, write(stranger.words))
    if not faults:
        lines = paragraph(f"{path} is sound: {held}, each as it was written.")
    elif seen.sound:
        lines = paragraph(faults[0])
        lines += paragraph(f"What is in {path} itself is sound: {held}, each as it was written.")
    else:
        lines = [line for fault in faults[:_MOST] for line in paragraph(fault)]
        if (more := len(faults) - _MOST) > 0:
            lines.append(f"{more} more faults are in the answer in JSON.")
        lines += paragraph(f"What can be trusted in it: {held}. {COPIES_LISTED}.")
    aside = tuple(map(str, set_aside(path)))
    if aside:
        lines += ["Set aside by `coach restore`, each as it was found then:", *(f"  {one}" for one in aside)]
    checked = CheckedLog(str(path), not faults, seen.jobs, seen.entries, faults, aside)
    return reply(lines, checked, bad_news=bool(faults))
