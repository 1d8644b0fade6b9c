"""The kinds of entries: one kind, one file, found by looking in this package."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from coach.declared import classes_in, modules_in
from coach.log.body import Body
from coach.log.limits import OutOfLimits, kept_text
from coach.quantities.words import say


@cache
def kinds() -> Mapping[str, type[Body]]:
    """Every kind there is, by its KIND.

    ValueError when two classes claim one: a slip of the programmer's, not the user's.
    """
    found: dict[str, type[Body]] = {}
    for name in modules_in(__path__):
        for thing in classes_in(f"{__name__}.{name}"):
            if issubclass(thing, Body) and found.setdefault(thing.KIND, thing) is not thing:
                raise ValueError(f"two kinds of entries are called {thing.KIND!r}")
    return MappingProxyType(found)


def body_of(kind: str, held: Mapping[str, object]) -> Body:
    """The body of that kind which a JSON object holds: the gate for all that was not made here.

    Raises OutOfLimits.
    """
    made = kinds().get(kind)
    if made is None:
        raise OutOfLimits(
            say("the kind of an entry must be one of {}, not {}", ", ".join(kinds()), kept_text(kind))
        )
    return made.from_json(held)
