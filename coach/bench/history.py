"""A job's entries and its summary, told in the shop's words."""

from __future__ import annotations

from coach.bench.sentences import kind_of
from coach.bench.standing import EntryView
from coach.forms import label
from coach.log.entries import Entry
from coach.log.kinds.reading import Reading
from coach.log.kinds.struck import Struck
from coach.quantities import Figure, Shown, write_temperature
from coach.recipe.model import Recipe
from coach.telling.reading import as_read, by_gauge


def entry_view(entry: Entry, out: frozenset[int], step: int, recipe: Recipe, shown: Shown) -> EntryView:
    """One entry.

    Args:
        entry: the entry.
        out: the numbers that are struck out.
        step: the step that was in hand.
        recipe: the job's recipe.
        shown: the units to tell sizes in.
    """
    return EntryView(
        entry.number,
        entry.at,
        entry.kind,
        _text(entry, recipe, shown),
        entry.number in out,
        step,
        entry.body.entry if isinstance(entry.body, Struck) else None,
    )


def _text(entry: Entry, recipe: Recipe, shown: Shown) -> str:
    read = entry.body
    if not isinstance(read, Reading):
        return str(read.words())
    at = recipe.steps[read.step - 1] if read.step <= len(recipe.steps) else None
    told = as_read(Figure(read.size, kind_of(at, read.dimension)), shown)
    text = f"{label(read.zone, read.dimension)} {told} {by_gauge(read.gauge)}"
    if read.hot_c is not None:
        text += f", hot at {write_temperature(read.hot_c, shown)}"
    return text + (", insisted on" if read.insisted else "")
