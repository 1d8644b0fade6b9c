"""What to know when a job is put down or resumed: what was left open, what to measure, then the rest."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from coach.bench.in_turn import is_too_hot_to_quench
from coach.bench.resting import StartingSize
from coach.bench.standing import Standing
from coach.forms import label
from coach.quantities.words import counted
from coach.telling.clock import moment
from coach.telling.figures import write_figure
from coach.telling.page import Line, Section, Tone, section
from coach.telling.righting import newest_notes
from coach.telling.sizes import spare_text
from coach.telling.step import hand_lines
from coach.telling.why import stands_text
from coach.telling.words import write
from coach.telling.writing import Shown

#: What is done with steel that was read too hot to be quenched (`coach.operations.harden`).
_TOO_HOT = "Its heat was too high: in still air till it is black, normalise it, then heat it again."


def summary(
    standing: Standing, first: Iterable[StartingSize], shown: Shown, *, blocked: bool = True
) -> Section:
    """The summary, a line for each thing.

    `first` are the sizes to measure before the first heat; `blocked` is whether to say why the job may not be
    put down, where it may not.
    """
    begins = Line(_where(standing), "In hand", Tone.STRONG)
    # What may not lie comes before anything that is measured.
    now = write(standing.rest_reason, shown) if blocked else ""
    at_once = [Line(now, standing.do_now.capitalize(), Tone.BAD)]
    if is_too_hot_to_quench(standing):
        at_once = [Line(_TOO_HOT, "Do not quench", Tone.BAD), Line(now, "If quenched", Tone.BAD)]
    by_hand = hand_lines(standing.by_hand, shown)  # what a way back asks for, until it is done
    lines = (*at_once, *by_hand, *_left_open(standing), *_to_measure(standing, list(first), shown))
    return section("", [begins, *lines, *_rest(standing, shown)])


def _where(standing: Standing) -> str:
    step = standing.step
    if step is None:
        every = "its one step" if standing.steps == 1 else f"every one of its {standing.steps} steps"
        return f"{standing.title}: {every} is done"
    return f"{standing.title}: step {step.number} of {standing.steps}, {step.title}"


def _left_open(standing: Standing) -> Iterator[Line]:
    """What is to be put right, then what was noted, each with its step and the day it was put down."""
    for right in standing.to_right:
        zone = f"{right.zone}: " if right.zone else ""
        yield Line(f"{zone}{right.text} ({_when(right.step, right.at)})", "To put right", Tone.CARE)
    earlier, newest = newest_notes(standing.notes)
    yield Line(earlier, "Noted")
    for note in newest:
        yield Line(f"{note.text} ({_when(note.step, note.at)})", "Noted")


def _when(step: int, at: str) -> str:
    return f"{f'step {step}' if step else 'at the end'}, {moment(at, '%Y-%m-%d')}"


def _to_measure(standing: Standing, first: Sequence[StartingSize], shown: Shown) -> Iterator[Line]:
    yield from (Line(check.label, "Measure again") for check in standing.questioned)
    if first:
        sizes = [f"{label(size.zone, size.dimension)} {_believed(size, shown)}" for size in first]
        # One under the other: it is a list to go down with the gauge in hand.
        told = f" {sizes[0]}." if len(sizes) == 1 else "".join(f"\n{size}" for size in sizes)
        yield Line(f"Cold, for it may have been changed since:{told}", "Measure first")
    unread = ", ".join(check.label for check in standing.checks if check.is_open and not check.is_questioned)
    if unread:
        yield Line(unread, "At this step")


def _rest(standing: Standing, shown: Shown) -> Iterator[Line]:
    step = standing.step
    yield Line(stands_text(standing, shown), "Stands")
    for spare in standing.spares:
        yield Line(f"{spare.label} {spare_text(spare.spare, shown)}", "Spare")
    if step is not None:
        heats = f"{standing.heats} of {step.heats_planned}" if step.heats_planned else str(standing.heats)
        yield Line(f"{heats} in this step, {standing.heats_total} in the whole job", "Heats")
    if standing.done:
        last = standing.done[-1]
        heats = f", in {counted(last.heats, 'heat')}" if last.heats else ""
        yield Line(f"step {last.number}, {last.title}{heats}", "Last finished")
    if standing.coming:
        yield Line(standing.coming[0], "Then")


def _believed(size: StartingSize, shown: Shown) -> str:
    """Between what it was and what the step makes of it, unless what it was could not be told from that."""
    now = write_figure(size.now, shown)
    if size.before is None or abs(size.before.value - size.now.value) <= (size.before.doubt or 0.0):
        return f"about {now}"
    was = write_figure(size.before, shown)
    low, high = (was, now) if size.before.value < size.now.value else (now, was)
    return f"about {now}" if was == now else f"between {low} and {high}"
