"""Whether an entry can be of its job: what was made by hand may name a step or a zone that there is not."""

from __future__ import annotations

import json
from collections.abc import Sequence

from coach.log.amends import Amends
from coach.log.body import Body
from coach.log.entries import Entry
from coach.log.errors import TAKE_BACK, LogDamaged
from coach.log.kinds.amended import Amended
from coach.log.kinds.reading import Reading
from coach.operations.measures import MASS
from coach.recipe.freezing import NotThawed, thawed
from coach.recipe.model import Recipe


def check_entries(job: str, recipe: Recipe, entries: Sequence[Entry]) -> None:
    """Raise LogDamaged for the first entry that names a step or a zone that its job has not.

    `recipe` is that which the job began with: ways back put steps in, and take none out.
    """
    most = len(recipe.steps)
    for entry in entries:
        if fault := _fault(recipe, most, entry.body):
            told = f"Job {job!r} is damaged, entry {entry.number} {fault}"
            raise LogDamaged(f"{told}: {TAKE_BACK}.", job, entry.number, fault=fault)
        if isinstance(entry.body, Amends):
            most += len(entry.body.amendment.again)
        elif isinstance(entry.body, Amended):
            most = max(most, len(entry.body.titles()))
            recipe = _with_zones_of(recipe, entry.body)


def _with_zones_of(recipe: Recipe, amended: Amended) -> Recipe:
    """The recipe with the zones and pieces that a changed file gave the job besides."""
    try:
        held = json.loads(amended.recipe)
        if recipe.drawing.keys() >= held["drawing"].keys() and recipe.pieces.keys() >= held["pieces"].keys():
            return recipe
        new = thawed(held, amended.text, amended.source)
    except (NotThawed, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return recipe  # what it holds is told where the job follows it
    return recipe._replace(drawing={**recipe.drawing, **new.drawing}, pieces={**recipe.pieces, **new.pieces})


def _fault(recipe: Recipe, most: int, body: Body) -> str:
    """What is wrong with an entry, to go on after its number; "" when nothing is."""
    zone = body.of_zone
    if body.of_step > most:
        return f"is of step {body.of_step}, and this job has {most}"
    weighed = isinstance(body, Reading) and body.dimension == MASS
    there = recipe.pieces if weighed else recipe.drawing
    if zone and zone not in there:
        return (
            f"is of {zone!r}, and the {'pieces' if weighed else 'zones'} of this job are {', '.join(there)}"
        )
    if isinstance(body, Amends):
        from coach.ledger.amendment import not_there

        if stranger := not_there(recipe, most, body.amendment):
            return f"changes {stranger}, which this job has not"
    return ""
