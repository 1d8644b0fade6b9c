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
    found: dict[str, Operation] = {}
    for module_info in pkgutil.iter_modules(__path__):
        module = importlib.import_module(f"{__name__}.{module_info.name}")
        for thing in vars(module).values():
            if (
                isinstance(thing, type)
                and issubclass(thing, Operation)
                and thing.__module__ == module.__name__
                and "NAME" in vars(thing)
            ):
                found[thing.NAME] = thing()
    return dict(sorted(found.items()))


def operation(name: str) -> Operation:
    """The operation of that trade name; raises KeyError when there is none."""
    return operations()[name]
