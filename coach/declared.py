"""What a package has in it, and what a module declares: literals, read without importing it, or classes."""

from __future__ import annotations

import ast
import os
from collections.abc import Iterable
from functools import cache
from importlib import import_module
from pathlib import Path


def modules_in(package_path: Iterable[str]) -> tuple[str, ...]:
    """The names of the modules in a package's folders, in their order; not the packages below it."""
    return tuple(name for folder in package_path for name in _listed(folder))


@cache
def _listed(folder: str) -> tuple[str, ...]:
    return tuple(name[:-3] for name in sorted(os.listdir(folder)) if name[-3:] == ".py" and name[0] != "_")


def classes_in(module: str) -> list[type]:
    """The classes that a module, imported for it, makes itself."""
    made = vars(import_module(module)).values()
    return [thing for thing in made if isinstance(thing, type) and thing.__module__ == module]


def declared(path: Path, *names: str) -> dict[str, object]:
    """The values of these top-level names of a module, of those that are plain literals.

    Raises OSError when the file cannot be read.
    """
    lines = path.read_text(encoding="utf-8").splitlines()
    found: dict[str, object] = {}
    for at, line in enumerate(lines):
        name, assigned, _ = line.partition(" = ")
        name = name.partition(":")[0]
        if assigned and name in names:
            value = _literal_from(lines, at, line.index(" = ") + 3)
            if value is not _NONE:
                found[name] = value
    return found


_NONE = object()
_LONGEST = 40  # lines that one value may take


def _literal_from(lines: list[str], at: int, start: int) -> object:
    text = lines[at][start:]
    for further in range(at + 1, min(at + 1 + _LONGEST, len(lines) + 1)):
        try:
            return ast.literal_eval(text)
        except SyntaxError:
            text += "\n" + (lines[further] if further < len(lines) else "")
        except ValueError:
            return _NONE  # an expression, not a literal
    return _NONE
