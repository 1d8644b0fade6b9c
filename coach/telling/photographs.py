"""The photographs of a job, as they are told by their files."""

from __future__ import annotations

from coach.bench.sheet import PhotographTaken, Sheet
from coach.telling.page import Line, Section, section

PHOTOGRAPHS = "Photographs"


def photographs_section(sheet: Sheet, *, to_show: bool = False) -> Section:
    """The photographs that were taken, by their files."""
    told = (photograph_text(one, to_show=to_show) for one in sheet.photographs)
    return section(PHOTOGRAPHS, map(Line, told))


def photograph_text(one: PhotographTaken, *, to_show: bool = False) -> str:
    """When it was taken, its file and what is to be seen on it; to be shown, without the file's folder."""
    when = f"Step {one.step}" if one.step else "At the end"
    told = f"{when}: {photograph_named(one.file) if to_show else one.file}"
    return f"{told}, {one.text}" if one.text else told


def without_folders(sheet: Sheet) -> Sheet:
    """A sheet to be shown: it names the files of its photographs, and not where they lie."""
    named = (one._replace(file=photograph_named(one.file)) for one in sheet.photographs)
    return sheet._replace(photographs=tuple(named))


def photograph_named(file: str) -> str:
    """The name of a file without its folder, of whatever system the folder was.

    >>> photograph_named("/pictures/hook 1.jpg"), photograph_named(r"D:\\pictures\\hook 1.jpg")
    ('hook 1.jpg', 'hook 1.jpg')
    """
    return file.replace("\\", "/").rstrip("/").rpartition("/")[2]
