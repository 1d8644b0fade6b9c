"""What each operation does to a zone: one operation, one file, found by looking in this package."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Mapping
from functools import cache

from coach.operations.base import Operation, Work, Worked
from coach.operations.shape import Shape

__all__ = ["Operation", "Shape", "Work", "Worked", "operation", "operations"]


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
