"""Finds every form in a package of forms."""

from __future__ import annotations

import importlib
import inspect
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType, ModuleType

from coach.declared import classes_in, modules_in
from coach.forms.base import Form


def scan(package: ModuleType) -> dict[str, type[Form]]:
    """The complete form classes defined in a package's modules, by trade name.

    ValueError when two classes claim one trade name: a slip of the programmer's, not the user's.
    """
    found: dict[str, type[Form]] = {}
    for name in modules_in(package.__path__):
        for form in _in_file(f"{package.__name__}.{name}"):
            if found.setdefault(form.KIND, form) is not form:
                raise ValueError(f"two forms are called {form.KIND!r}: {found[form.KIND]} and {form}")
    return found


@cache
def form_kind(kind: str) -> type[Form]:
    """The form of that trade name; raises KeyError when there is none.

    The file of that name is looked into first: a job under way need not wait for those it does not use.
    """
    package = importlib.import_module("coach.forms")
    slug = kind.replace(" ", "_")
    if slug in modules_in(package.__path__):
        for form in _in_file(f"{package.__name__}.{slug}"):
            if kind == form.KIND:
                return form
    return kinds()[kind]


def _in_file(module: str) -> list[type[Form]]:
    return [made for made in classes_in(module) if issubclass(made, Form) and not inspect.isabstract(made)]


@cache
def forms_called() -> Mapping[str, type[Form]]:
    """What others call a form, and the form that is meant."""
    return MappingProxyType({other: form for form in kinds().values() for other in form.ALSO_CALLED})


@cache
def kinds() -> Mapping[str, type[Form]]:
    """Every form there is, by trade name."""
    return MappingProxyType(scan(importlib.import_module("coach.forms")))
