"""A step that is done once more, or in another bath: its title, and what of the recipe holds for it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TypeVar

from coach.ledger.amendment import Again
from coach.ledger.hotter_again import at_heats
from coach.metals.quenches import QUENCHES
from coach.operations import operation
from coach.operations.does import HeatKind
from coach.operations.inspect import Inspect
from coach.recipe.model import Loss, Step

_Thing = TypeVar("_Thing")

#: A word for what steel is quenched in, and such words behind a title (our choice).
_BATH = re.compile(rf"\b({'|'.join(sorted(QUENCHES, key=len, reverse=True))})\b", re.IGNORECASE)
_IN_BATH = re.compile(rf" in (warm |hot )?{_BATH.pattern}$", re.IGNORECASE)


def titles_again(titles: Sequence[str], added: Sequence[Again]) -> list[str]:
    """The titles of a job's steps with those that are done again in their places."""
    there = (one for one in added if 0 < one.like <= len(titles))
    return put_in(titles, [(one.after, _title_of(titles[one.like - 1], one)) for one in there])


def put_in(things: Sequence[_Thing], added: Sequence[tuple[int, _Thing]]) -> list[_Thing]:
    """The things with each added one after the one of its number, counted from 1."""
    found: list[_Thing] = []
    for number, thing in enumerate(things, start=1):
        found += [thing, *(new for after, new in added if after == number)]
    return found


def step_again(step: Step, again: Again) -> Step:
    """A step as it is done again: with its temperatures and tests, aimed at no size, for those are behind it.

    Steel that was welded on lies in its place: it is welded again, not laid on again.
    """
    laid = step.lays is not None
    title = _title_of(step.title, again)
    step = in_bath(step, again.quench) if again.quench else step
    done_by = operation(operation(step.operation).AGAIN_BY or step.operation)
    step = at_heats(step, again.heat_c) if again.heat_c is not None else step
    checks = [name for name in step.checks if done_by.kind_of(name.partition(".")[2])]
    return step._replace(
        operation=done_by.NAME,
        title=title,
        lays=None,
        shape=None,
        targets={name: limits for name, limits in step.targets.items() if done_by.kind_of(name)},
        free=None,
        amounts={},
        loses=Loss(),
        heats=again.heats,
        heats_said=True,
        heat_names=(),
        how="" if laid else _how_again(step, again),
        watch="" if laid else step.watch,
        checks=tuple(dict.fromkeys((*checks, *again.tests))),
        again=True,
    )


def _how_again(step: Step, again: Again) -> str:
    """How it is done, with how many heats it takes this time where the words are of another number."""
    if not step.how or again.heats == step.heats:
        return step.how
    heats = f"{again.heats} heat{'' if again.heats == 1 else 's'}"
    return f"{heats} this time, not {step.heats}; else as before: {step.how}"


def spoiled(step: Step) -> Step:
    """A step whose piece was spoiled and is cut anew: what was entered in it stays, and it shapes nothing."""
    return step._replace(
        operation=Inspect.NAME,
        lays=None,
        shape=None,
        targets={},
        free=None,
        amounts={},
        loses=Loss(),
        heats=0,
        heats_said=True,
        heat_kind=HeatKind.COLD,
        heated=(),
        heat_names=(),
        colour="",
        temperature_c=None,
        quench="",
        flux="",
        checks=(),
    )


def _title_of(title: str, again: Again) -> str:
    """What a step that is put in is called: what it is like may be ahead of it still."""
    if again.like > again.after:
        return f"First: {title[:1].lower()}{title[1:]}"
    return title_again(title, again.quench)


def title_again(title: str, quench: str = "") -> str:
    """The title of a step that is done again, and in what, where it is quenched in something else.

    >>> title_again("Weld the face on the poll")
    'Again: weld the face on the poll'
    >>> title_again("Harden the bit in oil", "water")
    'Again, in water: harden the bit'
    """
    title = _without_bath(title) if quench else title
    return f"Again{f', in {quench}' if quench else ''}: {title[:1].lower()}{title[1:]}"


def in_bath(step: Step, quench: str) -> Step:
    """A step that is quenched in something else, without what its recipe says of the bath that it was."""
    kept = {name: text for name in ("how", "watch") if not _BATH.search(text := getattr(step, name))}
    usual = QUENCHES[quench]
    cautions = (usual, *(text for text in step.cautions if text not in QUENCHES.values()))
    return step._replace(
        quench=quench,
        title=_without_bath(step.title),
        cautions=cautions,
        how=kept.get("how", ""),
        watch=kept.get("watch", ""),
    )


def _without_bath(title: str) -> str:
    return _IN_BATH.sub("", title)
