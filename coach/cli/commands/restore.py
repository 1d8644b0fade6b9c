"""`coach restore`: a log that is damaged or gone, made whole from its copies and from what is sound in it."""

from __future__ import annotations

from os.path import isfile, lexists
from pathlib import Path
from typing import TYPE_CHECKING

from coach.cli.opening import now, second_folder, shop_path
from coach.cli.page import paragraph, table
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.files import expand
from coach.quantities.takes import Take, flag
from coach.quantities.words import counted
from coach.telling.words import write

if TYPE_CHECKING:
    from coach.log.restoring import ChangedJob, Restored

SUMMARY = (
    "Make a damaged or lost log whole from its copies and from what is sound in it; the old file is kept."
)
TAKES = (
    Take(
        "copy",
        "the copy to restore from, by its path or its name in `coach backups`; without it, all of them",
        "COPY",
    ),
    flag("--look", "tell what it would bring, and change nothing"),
)


def run(asked: Asked) -> Reply[Restored]:
    """Restore it; bad news when entries are lost."""
    from coach.log.errors import LogMissing
    from coach.log.restoring import restore

    path = shop_path(asked)
    copies, unseen = _copies(asked, path)
    try:
        restored = restore(path, copies, f"{now():%Y-%m-%dT%H%M%SZ}", only_look=asked.look)
    except LogMissing as missing:
        raise Refused(" ".join([write(missing.words), *unseen])) from missing
    bad_news = restored.unread or restored.unreadable or any(one.lost for one in restored.changes)
    told = [line for one in unseen for line in paragraph(one)]
    return reply(_lines(restored, asked) + told, restored, bad_news=bool(bad_news or unseen))


def _copies(asked: Asked, path: Path) -> tuple[list[Path], list[str]]:
    """The copies to restore from, and what is said of those that cannot be read.

    Raises Refused for one that is named and holds nothing, or cannot be read.
    """
    from coach.log.copies import copies_in, folders_of, not_readable, to_have_it_read
    from coach.log.looking_through import look_through

    folders = folders_of(path, second_folder())
    listed = [copy.path for folder in folders for copy in copies_in(folder, path.name)]
    if asked.copy is None:
        unseen = {one: why for one in (*folders, *listed) if (why := not_readable(one))}
        told = [
            f"{one} cannot be read ({why}), so nothing was taken from it: {to_have_it_read(why)}, and do it"
            " again."
            for one, why in unseen.items()
        ]
        return [one for one in listed if one not in unseen], told
    # By its name alone a copy is meant wherever it is kept; what lies in this folder comes first.
    by_name = [one for one in listed if one.name == asked.copy and not isfile(asked.copy)]
    copy = by_name[0] if by_name else expand(asked.copy)
    if not isfile(copy):
        why = "is no ordinary file" if lexists(copy) else "is no file that is there"
        raise Refused(f"{copy} {why}: `coach backups` lists the copies.")
    if reason := not_readable(copy):
        raise Refused(f"{copy} cannot be read ({reason}): allow reading it, and do it again.")
    seen = look_through(copy)
    if not seen.entries:
        raise Refused(f"{copy} holds no sound entry: `coach backups` lists the copies.")
    return [copy], []


def _lines(restored: Restored, asked: Asked) -> list[str]:
    held = f"{counted(len(restored.jobs), 'job')}, {_entries(restored.entries)}"
    if not restored.changes and not restored.aside and not restored.taken_from:
        return paragraph(
            f"{restored.file} is sound and no copy adds anything to it ({held}): nothing was changed."
        )
    if not restored.entries:
        lines = paragraph(
            f"Nothing was changed in {restored.file}: of no job is the beginning sound, here or in a copy."
        )
        return lines + [line for one in restored.changes for line in _cut_off(one)]
    would = "would be restored" if asked.look else "is restored"
    lines = paragraph(f"{restored.file} {would}: {held}, each as it was written.")
    for copy in restored.taken_from:
        lines += paragraph(f"From {copy}.", "  ", "  ")
    rows = [(one.job, f"{_entries(one.entries)}", _told(one)) for one in restored.changes]
    lines += table(rows)
    for one in restored.changes:
        lines += _cut_off(one)
    if restored.unreadable:
        told = (
            "beyond this and the copies" if any(one.lost for one in restored.changes) else "beyond the copies"
        )
        lines += paragraph(f"The old file could not be read: what it held {told} is not known.")
    elif restored.unread:
        parts = counted(restored.unread, "part")
        lines += paragraph(
            f"{parts} of the old file cannot be read at all: what was there and in no copy is not known."
        )
    elif not rows:
        lines.append("  All that could be read before is there, and nothing is lost.")
    if restored.aside:
        lines += paragraph(f"The file as it was is kept as {restored.aside}.")
    return lines


def _told(job: ChangedJob) -> str:
    nowhere = "" if job.cut_off else ", which it names and which are sound nowhere"
    told = [f"{job.won} won" if job.won else "", f"{job.lost} LOST{nowhere}" if job.lost else ""]
    return ", ".join(part for part in told if part)


def _cut_off(job: ChangedJob) -> list[str]:
    """The entries to be entered again by hand: they are sound, but nothing that leads up to them is."""
    if not job.cut_off:
        return []
    lines = paragraph(
        f"Of what is lost of {job.job}, {_entries(len(job.cut_off))} can still be read, but not joined to the"
        " others, for one before is lost; what is needed of them can be entered again:"
    )
    lines += table([(str(one.number), one.at, one.kind, one.body) for one in job.cut_off[:_MOST]])
    if (more := len(job.cut_off) - _MOST) > 0:
        lines.append(f"  and {more} more, in the answer in JSON.")
    return lines


_MOST = 20


def _entries(count: int) -> str:
    return f"{count} entr{'y' if count == 1 else 'ies'}"
