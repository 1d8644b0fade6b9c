"""A job's entries and its summary, told in the shop's words."""

from __future__ import annotations

from collections.abc import Sequence

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
from coach.bench.righting import right_text
from coach.bench.sentences import by_gauge, kind_of, label, read_text
from coach.bench.standing import EntryView, Standing
from coach.log.entries import Entry
from coach.quantities import Shown, write_count, write_temperature
from coach.recipe.model import Recipe

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


def summary_lines(standing: Standing, first: Sequence[tuple[str, str]] = ()) -> tuple[str, ...]:
    """Where the job stands, what was noted, what comes next and what to measure first.

    Args:
        standing: the job.
        first: sizes to measure before the first heat, each with what it is believed to be.
    """
    lines = []
    if standing.step is None:
        lines.append(f"{standing.title}: every one of its {standing.steps} steps is done.")
    else:
        step = standing.step
        lines.append(f"{standing.title}: step {step.number} of {standing.steps}, {step.title}.")
        heats = f"{standing.heats} of {step.heats_planned}" if step.heats_planned else str(standing.heats)
        lines.append(f"Heats in this step: {heats}; in the whole job: {standing.heats_total}.")
    lines.append(f"{standing.verdict.capitalize()}: {standing.reason}")
    lines += [
        f"Spare in the {spare.label}: {spare.text}."
        if spare.spare >= 0.0
        else f"The {spare.label} is {spare.text}."
        for spare in standing.spares
    ]
    lines += [f"To put right: {right_text(right)}." for right in standing.to_right]
    lines += [f"Noted at step {note.step}: {note.text}" for note in standing.notes]
    if standing.done:
        last = standing.done[-1]
        heats = f", in {write_count(last.heats, 'heat')}" if last.heats else ""
        lines.append(f"Last finished: step {last.number}, {last.title}{heats}.")
    if standing.questioned:
        lines += [f"Measure again: {check.label}." for check in standing.questioned]
    if first:
        sizes = ", ".join(f"{name} {size}" for name, size in first)
        lines.append(f"Measure first, cold, for it may have been changed since: {sizes}.")
    unread = [check.label for check in standing.checks if check.reading is None]
    if unread:
        lines.append(f"To be measured at this step: {', '.join(unread)}.")
    if not standing.may_rest:
        lines.append(standing.rest_reason)
    if standing.coming:
        lines.append(f"After it: {standing.coming[0]}.")
    return tuple(lines)
