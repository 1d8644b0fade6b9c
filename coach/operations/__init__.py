"""What each operation does to a zone: one operation, one file, found by looking in this package."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from coach.declared import classes_in, modules_in
from coach.operations.base import Operation, Work, Worked
from coach.operations.does import Does
from coach.operations.shape import Shape

__all__ = [
    "Does",
    "Operation",
    "Shape",
    "Work",
    "Worked",
    "also_called",
    "names_of",
    "operation",
    "operations",
]


@cache
def operations() -> Mapping[str, Operation]:
    """Every operation by its trade name."""
    found = {one.NAME: one for name in modules_in(__path__) for one in _in_file(name)}
    return dict(sorted(found.items()))


@cache
def operation(name: str) -> Operation:
    """The operation of that trade name; raises KeyError when there is none.

    The file of that name is looked into first: a job under way need not wait for those it does not use.
    """
    slug = name.replace(" ", "_")
    if slug in modules_in(__path__):
        for one in _in_file(slug):
            if name == one.NAME:
                return one
    return operations()[name]


@cache
def names_of(what: Does) -> tuple[str, ...]:
    """The names of the operations that do this."""
    return tuple(name for name, one in operations().items() if what in one.DOES)


@cache
def also_called() -> Mapping[str, tuple[str, ...]]:
    """What other shops call operations, with the one or the several that may be meant by each."""
    found: dict[str, tuple[str, ...]] = {}
    for name, todo in operations().items():
        for other in todo.ALSO_CALLED:
            found[other] = (*found.get(other, ()), name)
    return found


@cache
def _in_file(name: str) -> list[Operation]:
    """What a file makes; what operations share has no summary."""
    made = classes_in(f"{__name__}.{name}")
    return [one() for one in made if issubclass(one, Operation) and "SUMMARY" in vars(one)]
