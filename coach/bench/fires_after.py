"""Fires in steps that need none, after steel was hardened or tempered, and the readings that they undo."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from coach.ledger.course import HeatMark, Mark, ReadingMark
from coach.ledger.fire_after_temper import NOT_UNDONE, Undone, drawn_in, is_undone
from coach.operations import Does
from coach.recipe.model import Recipe, Step


class EnteredIn(NamedTuple):
    """What was entered in one step."""

    step: Step
    marks: Sequence[Mark]
    ended_by: int = 0  # the entry that ended it with heats that nobody had marked; 0 where there is none

    @property
    def heats(self) -> list[int]:
        """The entries of its heats."""
        marked = [mark.entry for mark in self.marks if isinstance(mark, HeatMark)]
        return [*marked, self.ended_by] if self.ended_by else marked


class Fire(NamedTuple):
    """A heat in a step that needs none."""

    entry: int
    place: int  # in the order of events
    step: Step
    zones: Mapping[str, Step]  # each with what it was treated in


def fires_after(recipe: Recipe, entered: Sequence[EnteredIn], counted: Iterable[int]) -> list[Fire]:
    """Those that count still, in the order of events: a zone that was hardened since lay in none.

    `counted` are the entries in the order of events.
    """
    found: list[Fire] = []
    heats = [(entry, one.step) for one in entered for entry in one.heats]
    drawing = [(entry, step, zones) for entry, step in heats if (zones := drawn_in(recipe, step))]
    if not drawing:
        return found
    places = {number: place for place, number in enumerate(counted)}
    latest = len(places)
    for entry, step, zones in drawing:
        place = places.get(entry, latest)
        since = [one for other, one in heats if one.does(Does.QUENCHES) and places.get(other, latest) > place]
        left = {zone: was for zone, was in zones.items() if not any(zone in one.zones for one in since)}
        if left:
            found.append(Fire(entry, place, step, left))
    return sorted(found, key=lambda one: one.place)


def undone_by_fires(recipe: Recipe, entered: Sequence[EnteredIn], counted: Sequence[int]) -> Undone:
    """The readings that such fires have made old, and those that were made after one."""
    fires = fires_after(recipe, entered, counted)
    if not fires:
        return NOT_UNDONE
    places = {number: place for place, number in enumerate(counted)}
    before, since = set[int](), set[int]()
    for step, marks, _ in entered:
        for mark in marks:
            if not isinstance(mark, ReadingMark) or not is_undone(mark.reading.dimension):
                continue
            zone, place = mark.reading.zone, places.get(mark.entry, len(places))
            of_it = [one for one in fires if zone in one.zones and step.number >= one.zones[zone].number]
            if any(one.place > place for one in of_it):
                before.add(mark.entry)
            if any(one.place < place for one in of_it):
                since.add(mark.entry)
    return Undone(frozenset(before), frozenset(since))
