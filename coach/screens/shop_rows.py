"""The rows of the shop's two lists, in columns that stand under the heads in their rule."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from textual.content import Content

from coach.bench.glance import JobSummary
from coach.log.status import JobStatus
from coach.quantities.errors import marked
from coach.quantities.words import counted
from coach.recipe.short_name import short_name
from coach.screens.widgets.row_list import SIGN
from coach.screens.wording import GAP, Ink, in_signs, joined, one_line, said
from coach.telling.clock import ago
from coach.telling.glance import Glance, in_the_fire

if TYPE_CHECKING:
    from coach.recipe.library import RecipeEntry

#: Each verdict's sign and look, the same in a row and on the face.
VERDICTS = {"on plan": ("✓", Ink.GOOD), "tight": ("~", Ink.CARE), "off plan": ("✗", Ink.BAD)}
UNKNOWN = "?", Ink.CARE
_LEAST_NAME = 12
#: In a narrower list what may not wait stands in the place of when a job was worked last.
_NARROW = 70
_FULL, _HALF, _EMPTY = "█", "▌", "░"


class Column(NamedTuple):
    """A column behind that of the names, which takes what room is left."""

    head: str
    wide: int
    from_width: int = 0  # there is no room for it in a narrower list
    right: bool = False  # whether it ends under its head's end


_OF_JOBS = (
    Column("next step", 30, 110),
    Column("", 10, 70),
    Column("step", 5, right=True),
    Column("verdict", 17, 44),
    Column("in the fire", 11, 110),
    Column("last worked", 11, 34, right=True),
)
_OF_RECIPES = (
    Column("level", 13, 70),
    Column("steps", 5, right=True),
    Column("heats", 5, right=True),
    Column("time", 19, 50, right=True),
)


def rule(title: str, heads: Sequence[Column], width: int) -> Content:
    """A line that names the list and heads its columns."""
    line = [*f"─ {title} ".ljust(width, "─")]
    at = width
    for column in reversed(_kept(heads, width)):
        at -= column.wide
        head = f" {column.head} " if column.head else ""
        begins = at + column.wide - len(head) + 1 if column.right else at - 1
        if begins > len(title) + GAP:
            line[begins : begins + len(head)] = head
        at -= GAP
    return one_line("".join(line)[:width], Ink.LABEL)


def title_of(jobs: Sequence[JobSummary], unread: int = 0) -> str:
    """The shop with how many jobs there are of each kind, as soon as all are read."""
    if unread:
        return f"The shop: {counted(len(jobs) + unread, 'job')}, {unread} of them still to be read"
    aside = sum(job.state is JobStatus.SET_ASIDE for job in jobs)
    finished = sum(job.state is JobStatus.FINISHED for job in jobs)
    told = [counted(len(jobs) - aside - finished, "job") + " in hand"]
    told += [f"{finished} finished"] if finished else []
    told += [f"{aside} set aside"] if aside else []
    return f"The shop: {', '.join(told)}" if jobs else "The shop"


def rule_of_jobs(width: int, jobs: Sequence[JobSummary]) -> Content:
    """The rule over these jobs; where some are finished or set aside they are not all in hand."""
    in_hand = all(job.state not in (JobStatus.FINISHED, JobStatus.SET_ASIDE) for job in jobs)
    return rule("In hand" if in_hand else "Jobs", _OF_JOBS, width)


def rule_of_recipes(width: int) -> Content:
    """The rule over what can be begun."""
    return rule("To begin", _OF_RECIPES, width)


def job_row(job: JobSummary, told: Glance | None, width: int, now: str) -> Content:
    """One job; what is not known of it yet stands empty."""
    fire = in_the_fire(told, now) if told is not None and job.state is JobStatus.UNDER_WAY else ""
    worked = "in the fire" if fire and width < 110 else ago(job.worked_at, now)
    cells = {
        "next step": one_line(job.step_title, Ink.QUIET),
        "": bar(_done(job), job.steps, 10),
        "step": one_line(f"{job.step}/{job.steps}" if job.steps else ""),
        "verdict": _verdict(job, told),
        "in the fire": one_line(fire.removeprefix("in the fire "), Ink.CARE),
        "last worked": one_line(worked, Ink.QUIET),
    }
    name = one_line(job.title)
    at_once, last = one_line(told.do_now if told is not None else "", Ink.BAD), _OF_JOBS[-1]
    if at_once.cell_length and last.from_width <= width < _NARROW and at_once.cell_length <= last.wide:
        cells["last worked"] = at_once  # the title would be cut for it
    elif told is not None and told.do_now:
        name = joined([one_line(f"{told.do_now}:", Ink.BAD), name], " ")
    return _row(name, cells, _OF_JOBS, width, own_name(job))


def own_name(job: JobSummary) -> str:
    """What tells a job from others of its recipe: where its name is another than the recipe's title.

    >>> hook = JobSummary("first-hook", "First hook", JobStatus.UNDER_WAY, 1, 5, "Square the bar", "", "")
    >>> own_name(hook), own_name(hook._replace(job="first-hook-2")), own_name(hook._replace(job="h3"))
    ('', '2', 'h3')
    """
    usual = short_name(job.title, "")
    if marked(job.job) != job.job:
        return marked(job.job)  # its title may look like that of another recipe as well
    return "" if job.job == usual else job.job.removeprefix(f"{usual}-")


def recipe_row(recipe: RecipeEntry, width: int) -> Content:
    """One recipe, or that it has faults."""
    if recipe.faults:
        faults = f"✗ {counted(len(recipe.faults), 'fault')}: Enter shows where"
        return Content.assemble(one_line(recipe.name, indent=len(SIGN)), "  ", one_line(faults, Ink.BAD))
    cells = {
        "level": one_line(recipe.level, Ink.QUIET),
        "steps": one_line(str(recipe.steps)),
        "heats": one_line(str(recipe.heats)),
        "time": one_line(recipe.duration, Ink.QUIET),
    }
    return _row(one_line(recipe.title), cells, _OF_RECIPES, width)


def bar(done: int, steps: int, wide: int) -> Content:
    """How far a job has gone, by its steps."""
    if not steps:
        return said("")
    halves = round(2 * wide * done / steps)
    if done < steps:  # full is what is finished
        halves = min(halves, 2 * wide - 1)
    full = _FULL * (halves // 2) + _HALF * (halves % 2)
    return joined([said(full, Ink.LABEL), said(_EMPTY * (wide - len(full)), Ink.QUIET)], "")


def _done(job: JobSummary) -> int:
    return job.step - 1 if job.step_title else job.steps


def _verdict(job: JobSummary, told: Glance | None) -> Content:
    if job.state is JobStatus.DAMAGED:
        return one_line("✗ damaged", Ink.BAD)
    if job.state is JobStatus.SET_ASIDE:
        return one_line("· set aside", Ink.QUIET)
    if told is None:
        return one_line("done" if job.state is JobStatus.FINISHED else "")
    sign, ink = sign_of(told)
    chance = in_signs(told.chance)
    if job.state is JobStatus.FINISHED:
        return one_line(f"{sign} done", ink)
    return joined([one_line(f"{sign} {told.verdict}", ink), said(chance if chance[-1:] == "%" else "")], " ")


def sign_of(told: Glance) -> tuple[str, str]:
    """A verdict's sign and look: sound metal is no good news of a piece that may not lie."""
    sign, ink = VERDICTS.get(told.verdict, UNKNOWN)
    return sign, Ink.QUIET if told.do_now and ink == Ink.GOOD else ink


def _kept(heads: Sequence[Column], width: int) -> list[Column]:
    return [column for column in heads if width >= column.from_width]


def _row(
    name: Content, cells: dict[str, Content], heads: Sequence[Column], width: int, own: str = ""
) -> Content:
    kept = _kept(heads, width)
    room = max(width - sum(column.wide + GAP for column in kept) - len(SIGN), _LEAST_NAME)
    if own:  # a long title is cut before the name that tells the job from its like
        told = one_line(f"· {own}").truncate(room // 2, ellipsis=True)
        name = joined(
            [name.truncate(min(name.cell_length, room - told.cell_length - 1), ellipsis=True), told], " "
        )
    parts = [name.truncate(room, ellipsis=True, pad=True)]
    for column in kept:
        cell = cells[column.head].truncate(column.wide, ellipsis=True)
        blank = " " * (column.wide - cell.cell_length)
        parts.append(Content.assemble(blank, cell) if column.right else Content.assemble(cell, blank))
    return joined([said(" " * len(SIGN)), joined(parts, " " * GAP)], "")


def place_of(chosen: object, among: Sequence[object], by: str) -> int:
    """Where the same thing stands now; the first where it is gone."""
    name = getattr(chosen, by, None)
    return next((at for at, one in enumerate(among) if getattr(one, by) == name), 0)
