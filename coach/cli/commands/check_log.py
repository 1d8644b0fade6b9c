"""`coach check-log`: the whole log looked through for damage."""

from __future__ import annotations

import os
from typing import NamedTuple

from coach.cli.opening import look_for_log, shop_path
from coach.cli.page import paragraph
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.quantities.words import counted

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


def run(asked: Asked) -> Reply[CheckedLog]:
    """Look through it; bad news when it is damaged."""
    from coach.log.errors import TAKE_BACK
    from coach.log.looking_through import look_through

    path = shop_path(asked)
    look_for_log(path)
    if not os.path.lexists(path):
        raise Refused(f"There is no {path} to check: `coach begin RECIPE` begins a log.")
    seen = look_through(path)
    held = f"{counted(seen.jobs, 'job')}, {seen.entries} entr{'y' if seen.entries == 1 else 'ies'}"
    if seen.sound:
        lines = paragraph(f"{path} is sound: {held}, each as it was written.")
    else:
        lines = [line for fault in seen.faults[:_MOST] for line in paragraph(fault)]
        if (more := len(seen.faults) - _MOST) > 0:
            lines.append(f"{more} more faults are in the answer in JSON.")
        lines += paragraph(f"What can be trusted in it: {held}. {TAKE_BACK}.")
    checked = CheckedLog(str(path), seen.sound, seen.jobs, seen.entries, seen.faults)
    return reply(lines, checked, bad_news=not seen.sound)
