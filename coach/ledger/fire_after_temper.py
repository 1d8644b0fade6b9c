"""A heat that undoes what was done to the steel: one that leads to a second quench, or draws a temper."""

from __future__ import annotations

from collections.abc import Iterable

from coach.ledger.course import Course
from coach.ledger.quenched_again import quenched_again
from coach.operations import Does
from coach.quantities import NOTHING, Words, say
from coach.recipe.model import Step


def undone_by(course: Course | None, step: Step, before: Iterable[Step], entry: int) -> Words:
    """What is to be known of a heat, by its entry, that undoes what was done to the steel before it."""
    found = quenched_again(course) if course is not None else None
    if found is not None and found.entry == entry:
        return found.words
    return drawn_by_fire(step, before)


def drawn_by_fire(step: Step, before: Iterable[Step]) -> Words:
    """What is to be known of a heat in a step that needs none, where steel is tempered; nothing of any other.

    A fire draws what it heats to its own temper (by definition); which zones lay in it nobody has said.
    """
    if step.heats or step.does(Does.TEMPERS) or step.does(Does.QUENCHES):
        return NOTHING
    tempered: dict[str, Step] = {}
    for one in before:
        if one.does(Does.TEMPERS):
            tempered |= dict.fromkeys(one.zones, one)
        elif one.does(Does.QUENCHES):
            tempered = {zone: was for zone, was in tempered.items() if zone not in one.zones}
    if not tempered:
        return NOTHING
    zone, was = next(iter(tempered.items()))
    return say(
        "Step {} tempered the {}, and a fire draws it further, where it lay in it: measure how hard it is, "
        "or harden and temper it again.",
        *(was.number, zone),
    )
