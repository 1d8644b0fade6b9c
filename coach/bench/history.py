"""A job's entries, each with what it says."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from coach.bench.happened import said_at
from coach.bench.job_state import JobState
from coach.bench.progress import progress
from coach.fire.colours import FIGURE_DOUBT_C
from coach.forms import label
from coach.ledger.weighing import kind_of
from coach.log.body import Body
from coach.log.entries import Entry
from coach.log.kinds.done import Done
from coach.log.kinds.reading import Reading
from coach.log.kinds.struck import Struck
from coach.operations.gauges import by_gauge
from coach.quantities import Figure, Words, celsius, say
from coach.recipe.model import Recipe


class LoggedReading(NamedTuple):
    """A reading as the log keeps it."""

    zone: str  # or the piece that was weighed
    dimension: str
    size: Figure  # as it was read
    hot: Figure | None  # how hot the metal was; `null` when cold
    gauge: str  # what it was read with
    insisted: bool  # whether the smith stood by it
    taken_at: str  # when it was taken, if it was entered later
    late_for: int  # the step it is of, if it was entered later; else 0

    @property
    def words(self) -> Words:
        """What was read and how."""
        by_figure = self.hot is not None and (self.hot.doubt or 0.0) <= FIGURE_DOUBT_C
        at = ", hot at {:=}" if by_figure else ", about {:=} hot"
        hot = say(at, self.hot) if self.hot is not None else ""
        insisted = ", insisted on" if self.insisted else ""
        insisted += f", taken at step {self.late_for}" if self.late_for else ""
        named = label(self.zone, self.dimension)
        return say("{} {:=} {}{}{}", named, self.size, by_gauge(self.gauge), hot, insisted)


class Logged(NamedTuple):
    """One entry of a job's log."""

    number: int  # from 1 in each job
    at: str  # when
    kind: str  # one of the [kinds of entries](#kinds-of-entries)
    words: Words  # what it says
    reading: LoggedReading | None  # the reading that it holds; `null` for any other kind
    questioned: bool  # whether it is a reading that counts for nothing until it is taken again
    struck: bool  # whether it was struck out
    step: int  # the step then in hand; 0 once every step was done
    strikes: int | None  # the entry that this one strikes out; `null` for any other kind
    taken_at: str = ""  # when it happened, where that was said of what was entered later; else empty


def history(state: JobState, entries: Iterable[Entry]) -> Iterator[Logged]:
    """Every entry of a job, in order, whether it counts or not."""
    so_far: list[Entry] = []
    doubted = {one.mark.entry for course in state.courses() for one in course.outcomes if one.questioned}
    step = 1
    for entry in entries:
        body, why_out = entry.body, state.left_out.get(entry.number)
        words = entry_words(body, state.plan.recipe)
        yield Logged(
            number=entry.number,
            at=entry.at,
            kind=entry.kind,
            words=_with_why(words, why_out, questioned=entry.number in doubted),
            reading=_reading(body, state.plan.recipe) if isinstance(body, Reading) else None,
            questioned=entry.number in doubted,
            struck=entry.number not in state.counted,
            step=step if step <= len(state.plan.recipe.steps) else 0,
            strikes=body.entry if isinstance(body, Struck) else None,
            taken_at=said_at(body),
        )
        so_far.append(entry)
        if isinstance(body, Struck):  # of the end of a step, it goes back to that one
            step = 1 + progress(so_far, ())[0]
        elif isinstance(body, Done) and body.step == step:
            step += 1


def _with_why(words: Words, why_out: Words | None, *, questioned: bool) -> Words:
    """What an entry says, with why it does not count."""
    if why_out:
        return say("{}, which cannot be reckoned with: {}", words, why_out)
    return say("{}, questioned: it does not count", words) if questioned else words


def entry_words(body: Body, recipe: Recipe) -> Words:
    """What an entry says."""
    return _reading(body, recipe).words if isinstance(body, Reading) else body.words()


def _reading(read: Reading, recipe: Recipe) -> LoggedReading:
    at = recipe.steps[read.step - 1] if read.step <= len(recipe.steps) else None
    return LoggedReading(
        zone=read.zone,
        dimension=read.dimension,
        size=Figure(read.size, kind_of(at, read.dimension)),
        hot=None if read.hot_c is None else celsius(read.hot_c, read.hot_doubt_c),
        gauge=read.gauge,
        insisted=read.insisted,
        taken_at=read.taken_at,
        late_for=read.step if read.taken_at else 0,
    )
