"""A job's entries and its summary, told in the shop's words."""

from __future__ import annotations

from coach.bench.replay import (
    BEGAN,
    CORRECTED,
    DONE,
    FIRE,
    HEAT,
    NOTE,
    READING,
    REMEDY,
    RESTED,
    RESUMED,
    RIGHTED,
    SET_ASIDE,
    STRUCK,
    TAKEN_UP,
    TO_RIGHT,
)
from coach.bench.sentences import kind_of, read_text
from coach.bench.standing import EntryView
from coach.forms import label
from coach.log.entries import Entry
from coach.quantities import Shown, write_count, write_temperature
from coach.recipe.model import Recipe
from coach.telling.reading import by_gauge

_PLAIN = {
    HEAT: "heat",
    FIRE: "back in the fire",
    RESTED: "put down to rest",
    RESUMED: "taken up after a rest",
    SET_ASIDE: "set aside",
    TAKEN_UP: "taken up again",
}


def entry_view(entry: Entry, out: frozenset[int], step: int, recipe: Recipe, shown: Shown) -> EntryView:
    """One entry.

    Args:
        entry: the entry.
        out: the numbers that are struck out.
        step: the step that was in hand.
        recipe: the job's recipe.
        shown: the units to tell sizes in.
    """
    struck = entry.body.get("entry") if entry.kind == STRUCK else None
    return EntryView(
        entry.number,
        entry.at,
        entry.kind,
        _text(entry, recipe, shown),
        entry.number in out,
        step,
        struck if isinstance(struck, int) else None,
    )


def _text(entry: Entry, recipe: Recipe, shown: Shown) -> str:
    body = entry.body
    if entry.kind == READING:
        dimension = str(body["dimension"])
        number = body.get("step")
        at = recipe.steps[number - 1] if isinstance(number, int) and 0 < number <= len(recipe.steps) else None
        size = body["size"]
        assert isinstance(size, int | float)
        told = read_text(float(size), kind_of(at, dimension), shown)
        text = f"{label(str(body['zone']), dimension)} {told} {by_gauge(str(body['gauge']))}"
        hot = body.get("hot_c")
        if isinstance(hot, int | float):
            text += f", hot at {write_temperature(float(hot), shown)}"
        return text + (", insisted on" if body.get("insisted") else "")
    if entry.kind == DONE:
        heats = body["heats"]
        told = f"step {body['step']} done"
        return f"{told} in {write_count(int(str(heats)), 'heat')}" if heats else told
    if entry.kind == NOTE:
        return f"note: {body['text']}"
    if entry.kind == TO_RIGHT:
        zone = f"{body['zone']}: " if body.get("zone") else ""
        return f"to put right: {zone}{body['text']}"
    if entry.kind == RIGHTED:
        return f"entry {body['entry']} put right"
    if entry.kind == CORRECTED:
        return f"entry {body['entry']} corrected to {body['typed']}"
    if entry.kind == REMEDY:
        return f"remedy: {body['title']}"
    if entry.kind == STRUCK:
        return f"entry {body['entry']} struck out"
    if entry.kind == BEGAN:
        return f"began {recipe.title}"
    if entry.kind == RESTED and body.get("forced"):
        return f"put down to rest against advice: {body.get('reason', '')}"
    return _PLAIN.get(entry.kind, entry.kind)
