"""What to know when a job is resumed: where it stands, what was noted, what comes next, what to measure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from coach.bench.resting import StartingSize
from coach.bench.standing import Standing
from coach.forms import label
from coach.quantities.words import counted
from coach.telling.figures import write_figure
from coach.telling.page import Line, Section, Tone, section
from coach.telling.sizes import spare_text
from coach.telling.why import stands_text
from coach.telling.words import write
from coach.telling.writing import Shown


def summary(
    standing: Standing, first: Iterable[StartingSize], shown: Shown, *, blocked: bool = True
) -> Section:
    """The summary, a line for each thing.

    `first` are the sizes to measure before the first heat; `blocked` is whether to say why the job may not be
    put down, where it may not.
    """
    lines = [Line(text, mark="•") for text in _lines(standing, list(first), shown, blocked=blocked)]
    return section("", [lines[0]._replace(tone=Tone.STRONG), *lines[1:]])


def _lines(standing: Standing, first: list[StartingSize], shown: Shown, *, blocked: bool) -> Iterator[str]:
    step = standing.step
    if step is None:
        every = "its one step" if standing.steps == 1 else f"every one of its {standing.steps} steps"
        yield f"{standing.title}: {every} is done."
    else:
        yield f"{standing.title}: step {step.number} of {standing.steps}, {step.title}."
        heats = f"{standing.heats} of {step.heats_planned}" if step.heats_planned else str(standing.heats)
        yield f"Heats in this step: {heats}; in the whole job: {standing.heats_total}."
    yield stands_text(standing, shown)
    for spare in standing.spares:
        told = spare_text(spare.spare, shown)
        short = spare.spare.value < 0.0
        yield f"The {spare.label} is {told}." if short else f"Spare in the {spare.label}: {told}."
    yield from (f"To put right: {write(right.words, shown)}." for right in standing.to_right)
    yield from (
        f"Noted {f'at step {note.step}' if note.step else 'at the end'}: {note.text}"
        for note in standing.notes
    )
    if standing.done:
        last = standing.done[-1]
        heats = f", in {counted(last.heats, 'heat')}" if last.heats else ""
        yield f"Last finished: step {last.number}, {last.title}{heats}."
    yield from (f"Measure again: {check.label}." for check in standing.questioned)
    if first:
        sizes = ", ".join(f"{label(size.zone, size.dimension)} {_believed(size, shown)}" for size in first)
        yield f"Measure first, cold, for it may have been changed since: {sizes}."
    unread = ", ".join(check.label for check in standing.checks if check.is_open and not check.is_questioned)
    if unread:
        yield f"To be measured at this step: {unread}."
    if blocked and standing.rest_reason:
        yield write(standing.rest_reason, shown)
    if standing.coming:
        yield f"After it: {standing.coming[0]}."


def _believed(size: StartingSize, shown: Shown) -> str:
    now = write_figure(size.now, shown)
    was = now if size.before is None else write_figure(size.before, shown)
    return f"about {now}" if was == now else f"between {was} and {now}"
