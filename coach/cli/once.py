"""Tells once what is found of each of several pieces that are made alike from one line of a recipe."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Protocol, TypeVar

from coach.bench.in_file import OF_A_HEAT
from coach.forms import listed
from coach.ledger.questions import Question
from coach.ledger.weigh import Cannot, Finding
from coach.quantities.words import Words, run_on, say
from coach.recipe.model import Recipe


class Placed(Protocol):
    """Something that is told of a zone, at a place in the recipe's file."""

    @property
    def line(self) -> int:
        """Of the file; 0 where that is not known."""

    @property
    def column(self) -> int:
        """The same."""

    @property
    def zone(self) -> str:
        """The zone; empty where it is the whole step."""

    @property
    def sentence(self) -> Words:
        """What is told."""


_Told = TypeVar("_Told", bound=Placed)


def once(told: Iterable[_Told]) -> tuple[_Told, ...]:
    """The first of those that stand in one place and say the same but for the piece and its steps."""
    found: dict[object, _Told] = {}
    for one in told:
        said = (one.line, one.column, *_but_for(one.sentence, one.zone))
        found.setdefault(said if one.line else id(one), one)
    return tuple(found.values())


def by_one_heat(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """The first of those that go wrong by one heat that is said once for many steps, with the others."""
    kept: list[Finding] = []
    others: dict[tuple[Cannot, int, int], list[int]] = {}
    for one in found:
        place = (one.what, one.line, one.column)
        if one.line and one.what in OF_A_HEAT and place in others:
            others[place].append(one.step)
        else:
            kept.append(one)
            others.setdefault(place, [])
    return tuple(
        one._replace(sentence=run_on((one.sentence, _same_of(steps))))
        if one.what in OF_A_HEAT and (steps := sorted({*others[one.what, one.line, one.column]} - {one.step}))
        else one
        for one in kept
    )


def but_for_what_follows(
    recipe: Recipe, found: Sequence[Finding], asked: Sequence[Question]
) -> tuple[tuple[Finding, ...], tuple[Question, ...]]:
    """What is found and asked, where a slip brings more of its zones along: that first.

    Of what is found of those zones the first stays, for it is wrong until the slip is put right.
    """
    causes, kept, others = [one for one in asked if one.brings], [*found], [*asked]
    for at, cause in enumerate(causes):
        steps = {step.number for step in recipe.steps if not {*step.zones}.isdisjoint(cause.brings)}
        wrong = [one for one in kept if _is_of(one, cause.brings, steps)][1:]
        odd = [one for one in others if not one.brings and _is_of(one, cause.brings, steps)]
        kept = [one for one in kept if one not in wrong]
        others = [one for one in others if one not in odd]
        if more := len(wrong) + len(odd):
            words = say("{} more may follow from it: coach plan tells all.", f"{more}")
            causes[at] = cause._replace(sentence=run_on((cause.sentence, words)))
    return tuple(kept), (*causes, *(one for one in others if not one.brings))


def _is_of(told: Finding | Question, zones: Iterable[str], steps: set[int]) -> bool:
    return told.zone in zones if told.zone else told.step in steps and not told.piece


def _same_of(steps: list[int]) -> Words:
    called = "step {}" if len(steps) == 1 else "steps {}"
    return say("The same heat is that of {}.", say(called, listed(_runs(steps))))


def _runs(steps: list[int]) -> list[str]:
    """Numbers in order, three and more in a row as the first to the last of them.

    >>> _runs([3, 4, 6, 8, 9, 10])
    ['3', '4', '6', '8 to 10']
    """
    rows: list[list[int]] = []
    for step in steps:
        if rows and rows[-1][-1] == step - 1:
            rows[-1].append(step)
        else:
            rows.append([step])
    told = ([f"{row[0]} to {row[-1]}"] if len(row) > 2 else [f"{one}" for one in row] for row in rows)
    return [one for row in told for one in row]


def _but_for(words: Words, zone: str) -> Iterator[object]:
    yield words.template.replace(zone, "") if zone else words.template
    for part in words.parts:
        if isinstance(part, Words):
            yield tuple(_but_for(part, zone))
        elif isinstance(part, str):
            yield part.replace(zone, "") if zone else part
        elif not isinstance(part, int):
            yield part
