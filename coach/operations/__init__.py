"""What each operation does to a zone: one operation, one file, found by looking in this package."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Mapping
from functools import cache

from coach.operations.base import Operation, Work, Worked
from coach.operations.does import Does
from coach.operations.shape import Shape

__all__ = ["Does", "Operation", "Shape", "Work", "Worked", "names_of", "operation", "operations"]


@cache
def operations() -> Mapping[str, Operation]:
    """Every operation by its trade name."""
    found = {one.NAME: one for listed in pkgutil.iter_modules(__path__) for one in _in_module(listed.name)}
    return dict(sorted(found.items()))


@cache
def operation(name: str) -> Operation:
    """The operation of that trade name; raises KeyError when there is none.

    The file of that name is looked into first: a job under way need not wait for those it does not use.
    """
    slug = name.replace(" ", "_")
    if any(listed.name == slug for listed in pkgutil.iter_modules(__path__)):
        for one in _in_module(slug):
            if name == one.NAME:
                return one
    return operations()[name]


def names_of(what: Does) -> tuple[str, ...]:
    """The names of the operations that do this."""
    return tuple(name for name, one in operations().items() if what in one.DOES)


@cache
def _in_module(module_name: str) -> tuple[Operation, ...]:
    module = importlib.import_module(f"{__name__}.{module_name}")
    return tuple(
        thing()
        for thing in vars(module).values()
        if isinstance(thing, type)
        and issubclass(thing, Operation)
        and thing.__module__ == module.__name__
        and "NAME" in vars(thing)
    )
