"""What the shop's face says of the job or the recipe that is chosen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.content import Content

from coach.bench.glance import JobSummary
from coach.drawing.large import SMALL
from coach.ledger.verdict import PlanState
from coach.log.status import JobStatus
from coach.quantities.words import counted
from coach.screens.shop_rows import sign_of
from coach.screens.widgets.face import Block, places_at, shortened
from coach.screens.wording import Ink, in_signs, one_line, said, wrapped
from coach.telling.glance import Glance, last_worked
from coach.telling.words import write
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.recipe.library import RecipeEntry

_AT_THE_END = 16  # cells that the last block takes with its gap
_OF_THE_VERDICT = 12  # the same of a job's verdict alone
_LABEL = 7


def face_of_job(
    job: JobSummary, told: Glance | None, shown: Shown, now: str, width: int, rows: int
) -> list[Block]:
    """Its step, what to read first and to put right, how long it has lain, and how it stands."""
    if job.state is JobStatus.DAMAGED:
        trouble = _wrapped(write(job.trouble, shown), width, rows)
        ends = Block("DAMAGED", "✗", Ink.BAD, caption="coach check-log")
        return [Block(), Block(job.title, lines=trouble), Block(), ends]
    finished = job.state is JobStatus.FINISHED
    done = job.steps if finished else job.step
    step = Block(
        "steps" if finished else "step", str(done), caption="all done" if finished else f"of {job.steps}"
    )
    lines = list(_told_lines(job, told, now, _room_amid(width, _OF_THE_VERDICT) - _LABEL))
    if finished:
        caption = "Enter shows what came of it"
    elif rows == SMALL:
        caption = f"Enter: {job.step_title}"
    else:
        lines.insert(_at_once(told), one_line(job.step_title, Ink.STRONG))
        caption = "Enter opens it where it was left"
    middle = Block(job.title, lines=tuple(lines[:rows]), caption=caption)
    return [step, middle, Block(), _verdict(job, told)]


def _at_once(told: Glance | None) -> int:
    """How many lines stand above the step, for what may not wait."""
    return 1 if told is not None and told.do_now else 0


def _told_lines(job: JobSummary, told: Glance | None, now: str, room: int) -> list[Content]:
    lines = []
    if told is not None:
        if told.do_now:
            at_once = f"{told.do_now}. {told.still_open}"
            lines.append(_labelled("Now", shortened(at_once, room), Ink.BAD))
        if told.trouble:
            lines.append(_labelled("Open", shortened(told.trouble, room), Ink.BAD))
        if job.state is not JobStatus.FINISHED:
            lines.append(_labelled("First", shortened(told.first or "nothing to read", room)))
        fix = shortened(told.fix or "nothing", room)
        lines.append(_labelled("Fix", fix, Ink.CARE if told.fix else ""))
    lines.append(_labelled(*_last_worked(job, told, now, room)))
    return lines


def _last_worked(job: JobSummary, told: Glance | None, now: str, room: int) -> tuple[str, str]:
    """When it was last worked or, of one that is finished, done, behind what that is called."""
    when = last_worked(job.state, job.worked_at, told, now).removeprefix(f"{job.state} ")
    label = {JobStatus.RESTING: "Rest", JobStatus.FINISHED: "Last", JobStatus.SET_ASIDE: "Aside"}
    return label.get(job.state, "Worked"), shortened(when, room)


def _labelled(label: str, text: str, style: str = "") -> Content:
    return Content.assemble(said(f"{label:<{_LABEL}}", Ink.LABEL), one_line(text, style))


def _verdict(job: JobSummary, told: Glance | None) -> Block:
    if job.state is JobStatus.SET_ASIDE:
        return Block("SET ASIDE", "○", Ink.QUIET, caption="Ctrl+A: back")
    if told is None:
        return Block("", "", lines=("",), caption="reckoning…")
    sign, ink = sign_of(told)
    finished = job.state is JobStatus.FINISHED
    word = "DONE" if finished and told.verdict == PlanState.ON_PLAN else told.verdict.upper()
    caption = in_signs(told.chance) or ("to fix" if told.fix and not finished else "")
    return Block(word, sign, ink, caption=caption)


def face_of_recipe(recipe: RecipeEntry, width: int, rows: int) -> list[Block]:
    """What it makes, and how much work it is."""
    if recipe.faults:
        lines = _wrapped(f"{counted(len(recipe.faults), 'fault')} in {recipe.path}", width, rows)
        ends = Block("FAULTS", "✗", Ink.BAD)
        return [Block(), Block(recipe.name, lines=lines, caption="Enter shows where"), Block(), ends]
    facts = ", ".join(part for part in (recipe.level, recipe.duration) if part)
    lines = _wrapped(recipe.summary, width, rows - 1)
    made = Block(
        recipe.title,
        ink=Ink.PLAIN,
        lines=(*lines, _labelled("Asks", facts)),
        caption="Enter begins a job from it",
    )
    return [
        Block("steps", str(recipe.steps), caption="to do"),
        made,
        Block(),
        Block("heats", str(recipe.heats)),
    ]


def _room_amid(width: int, at_the_end: int) -> int:
    """Cells that the middle of a face has for words, beside so many at its end."""
    return max(width - places_at(width).at[1] - at_the_end, _LABEL)


def _whole_words(line: Content, room: int) -> Content:
    """As much of a line as has room, no word of it cut."""
    if line.cell_length <= room:
        return line
    return line.truncate(max(line.plain.rfind(" ", 0, room + 1), 1))


def _wrapped(text: str, width: int, rows: int) -> tuple[Content, ...]:
    """Text as the middle of a face has room for, cut short in its last row."""
    room = _room_amid(width, _AT_THE_END)
    lines: Sequence[Content] = wrapped(one_line(text), room)
    kept = list(lines[: max(rows, 1)])
    if len(lines) > len(kept):
        kept[-1] = Content.assemble(_whole_words(kept[-1], room - 2), " …")
    return tuple(kept)
