"""A heat that undoes what was done to the steel: one that leads to a second quench, or draws a temper."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from coach.ledger.course import Course, Outcome
from coach.ledger.quenched_again import quenched_again
from coach.ledger.verdict import Verdict
from coach.operations import Does
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import NOTHING, Words, say
from coach.recipe.model import Recipe, Step


class Undone(NamedTuple):
    """The readings of hard steel, by their entries, that lie before and after a fire which draws it."""

    before: frozenset[int] = frozenset()  # they say no more what it is
    since: frozenset[int] = frozenset()  # they say nothing of the treatment before the fire


NOT_UNDONE = Undone()
#: What is read of a quench, beside the tests of the shop.
_OF_QUENCH = ("temperature", "soak", "hardness")
#: What a fire undoes that a test of the shop tells of.
_UNDONE = frozenset({Does.QUENCHES, Does.TEMPERS, Does.FITS_A_HAFT})


def is_undone(dimension: str) -> bool:
    """Whether a fire makes something else of what was read: how hard it was, or how a haft sat."""
    test = SHOP_TESTS.get(dimension)
    if test is None:
        return dimension == "hardness"
    return not test.as_it_heats and bool(_UNDONE & {*test.mended_by})


def beside_fires(undone: Undone, outcomes: Iterable[Outcome]) -> list[Outcome]:
    """The readings, each with whether a fire has made it old, or drew the steel before it."""
    return [
        one._replace(old=one.mark.entry in undone.before, drawn=one.mark.entry in undone.since)
        for one in outcomes
    ]


def before_another_quench(course: Course) -> Course:
    """A step with what was read before its second quench made old, but for what was out: that stands."""
    again = quenched_again(course)
    if again is None:
        return course
    entries = [mark.entry for mark in course.marks]
    before = {*entries[: entries.index(again.entry)]}
    hard = [
        entries.index(one.mark.entry)
        for one in course.outcomes
        if one.mark.entry in before and is_undone(one.mark.reading.dimension)
    ]
    quenched_at = max(hard, default=-1)
    return course._replace(
        outcomes=tuple(
            one._replace(old=True)
            if one.mark.entry in before
            and one.verdict is not Verdict.OUT
            and (
                one.mark.reading.dimension in _OF_QUENCH
                or (one.mark.reading.dimension in SHOP_TESTS and entries.index(one.mark.entry) < quenched_at)
            )
            else one
            for one in course.outcomes
        )
    )


def undone_by(course: Course | None, recipe: Recipe, step: Step, entry: int) -> Words:
    """What is to be known of a heat, by its entry, that undoes what was done to the steel before it."""
    found = quenched_again(course) if course is not None else None
    if found is not None and found.entry == entry:
        return found.words
    drawn = drawn_in(recipe, step)
    if not drawn:
        return NOTHING
    zone, was = next(iter(drawn.items()))
    told = say(
        "Step {} {} the {}, and a fire draws it further, where it lay in it: measure how hard it is, "
        "or harden and temper it again.",
        *(was.number, "tempered" if was.does(Does.TEMPERS) else "hardened", zone),
    )
    return (
        say("{} {}", told, "What burns of a haft in it is fitted anew.") if hafted_in(recipe, step) else told
    )


def drawn_in(recipe: Recipe, step: Step) -> dict[str, Step]:
    """The zones that a heat in a step which needs none draws, each with what it was treated in last.

    A fire draws what it heats to its own temper (by definition); which zones of the piece lay in it nobody
    has said.
    """
    if step.heats or step.does(Does.TEMPERS) or step.does(Does.QUENCHES):
        return {}
    before = recipe.steps[: step.number - 1]
    piece, found = zones_of_piece(recipe, step, before), dict[str, Step]()
    for one in before:
        if one.does(Does.TEMPERS) or one.does(Does.QUENCHES):
            found |= {zone: one for zone in one.zones if zone in piece}
    return found


def hafted_in(recipe: Recipe, step: Step) -> bool:
    """Whether a haft is in the piece of a step, or goes in with it."""
    piece = zones_of_piece(recipe, step, recipe.steps[: step.number])
    return any(one.does(Does.FITS_A_HAFT) and piece & {*one.zones} for one in recipe.steps[: step.number])


def zones_of_piece(recipe: Recipe, step: Step, before: Iterable[Step]) -> set[str]:
    """All zones of the pieces that a step is at, and of those that are one with them by then."""
    names = {recipe.piece_of(zone).name for zone in step.metal}
    joined = [{recipe.piece_of(zone).name for zone in one.metal} for one in before]
    grown = True
    while grown:
        more = {name for one in joined if one & names for name in one}
        grown, names = not more <= names, names | more
    return {zone for zone in recipe.drawing if recipe.piece_of(zone).name in names}
