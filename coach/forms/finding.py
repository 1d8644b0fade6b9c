"""Finds every form in a package of forms."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType, ModuleType

from coach.forms.base import Form


def scan(package: ModuleType) -> dict[str, type[Form]]:
    """The complete form classes defined in a package's modules, by trade name.

    ValueError when two classes claim one trade name: a slip of the programmer's, not the user's.
    """
    found: dict[str, type[Form]] = {}
    for listed in pkgutil.iter_modules(package.__path__):
        module = importlib.import_module(f"{package.__name__}.{listed.name}")
        for form in vars(module).values():
            if not (isinstance(form, type) and issubclass(form, Form) and form.__module__ == module.__name__):
                continue
            if inspect.isabstract(form):
                continue
            if found.setdefault(form.KIND, form) is not form:
                raise ValueError(f"two forms are called {form.KIND!r}: {found[form.KIND]} and {form}")
    return found


@cache
def kinds() -> Mapping[str, type[Form]]:
    """Every form there is, by trade name."""
    return MappingProxyType(scan(importlib.import_module("coach.forms")))
