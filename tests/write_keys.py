"""`python -m tests.write_keys` writes docs/keys.md: every key of every answer in JSON.

Which classes hold the keys is found: the hint of a command's `run`, or of a question's `reckon`, says what it
answers with, and the hints of the fields say the rest. What a key means is the comment beside the field, or
the `#:` lines above it.
"""

from __future__ import annotations

import ast
import inspect
import re
import sys
import textwrap
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cache
from importlib import import_module
from pathlib import Path
from types import NoneType, UnionType
from typing import Literal, Union, get_args, get_origin, get_type_hints

from coach.cli.line import command_of, verbs
from coach.cli.reply import Reply
from coach.log.kinds import kinds
from coach.quantities import Figure, Kind, Limits, Span, Wanted, Words

PAGE = Path(__file__).parents[1] / "docs" / "keys.md"

_LEAVES: dict[object, str] = {
    str: "text",
    Words: "text",
    Kind: "text",
    bool: "true or false",
    int: "whole number",
    float: "number",
    NoneType: "`null`",
    object: "any value",
    Figure: "[figure](#figures)",
    Span: "[span](#figures)",
    Wanted: "[wanted](#figures)",
    Limits: "[limits](#figures)",
}
_HEAD = """\
# The keys of the answers in JSON

Written by `python -m tests.write_keys` from the classes that the answers are made of. How to ask is told by
[the commands](commands.md). Keys stay as they are from version to version: new ones may be added, none is
renamed.

Lengths are in millimetres, angles in degrees, volumes in mm³, masses in grams, temperatures in °C, chances
and shares from 0 to 1, whatever `--units` says; texts are in the units asked for, ready to show. A moment is
ISO 8601 in UTC. What is open or unknown is `null`; a text that does not apply is empty. A doubt is one
standard uncertainty.

## Figures

| what | its keys |
|---|---|
| figure | `value`; `unit`, its base unit, `1` for a plain number; `doubt` in that unit, where there is one |
| span | `low`, `high`, `unit` |
| wanted | `nominal`, `low`, `high` (`null` where open), `unit`, `text` as shown |
| limits | `nominal`, `low`, `high` (`null` where open) |

## What each command answers

An error is an object too, `{"error": "…"}`; of a recipe that is refused it has `faults` as well.
"""


def page() -> str:
    """The whole page."""
    rows = [(f"`{verb}`", " or ".join(map(_holds, held))) for verb, held in _all_answers().items() if held]
    by_heading = {_heading(kind): kind for kind in _objects()}
    lines = [_HEAD, *_table(("command", "answer"), rows)]
    for heading in sorted(by_heading):
        lines += ["", f"## {heading}", "", _said(by_heading[heading]), ""]
        lines += _table(("key", "holds", "meaning"), _keys(by_heading[heading]))
    lines += ["", "## Kinds of entries", "", "What a job's log holds; an exported job has the same.", ""]
    lines += _table(("kind", "entered when", "its body"), _kinds())
    return "\n".join(lines) + "\n"


@cache
def _all_answers() -> dict[str, list[object]]:
    return {verb: _answers(verb) for verb in verbs()}


@cache
def _objects() -> frozenset[type]:
    """The class of every object that an answer holds."""
    return frozenset(kind for held in _all_answers().values() for one in held for kind in _within(one))


def _kinds() -> list[tuple[str, str, str]]:
    """Every kind of entry, with what its file says of it and the names in its body."""
    found = []
    for kind, body in kinds().items():
        said = (sys.modules[body.__module__].__doc__ or "").split("\n", 1)[0].rstrip(".")
        found.append(
            (f"`{kind}`", f"{said[:1].lower()}{said[1:]}", ", ".join(f"`{name}`" for name in body.limits))
        )
    return found


def _answers(verb: str) -> list[object]:
    """What a command may answer with."""
    command = command_of(verb)
    run = command.run if hasattr(command, "run") else command.reckon
    held = get_type_hints(run, localns=_names(run.__module__))["return"]
    if get_origin(held) is Reply:
        [held] = get_args(held)
    either = get_args(held) if get_origin(held) in (Union, UnionType) else (held,)
    return [one for one in either if one is not NoneType]


@cache
def _names(module: str) -> dict[str, object]:
    """What a module imports for its hints alone."""
    tree = ast.parse(inspect.getsource(import_module(module)))
    blocks = (
        node for node in tree.body if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.dump(node.test)
    )
    found: dict[str, object] = {}
    for one in (line for block in blocks for line in block.body):
        if isinstance(one, ast.ImportFrom) and one.module:
            source = import_module(one.module)
            found |= {name.asname or name.name: getattr(source, name.name) for name in one.names}
    return found


def _hints(kind: type) -> dict[str, object]:
    hints = get_type_hints(kind, localns=_names(kind.__module__))
    names = getattr(kind, "_fields", None) or [field.name for field in fields(kind)]
    return {name: hints[name] for name in names}


def _is_object(hint: object) -> bool:
    return (
        isinstance(hint, type)
        and hint not in _LEAVES
        and (hasattr(hint, "_fields") or is_dataclass(hint))
        and not issubclass(hint, Enum)
    )


def _within(hint: object, seen: frozenset[object] = frozenset()) -> Iterator[type]:
    """The classes that a hint reaches, one that holds itself once."""
    if _is_object(hint) and hint not in seen:
        assert isinstance(hint, type)
        yield hint
        for inner in _hints(hint).values():
            yield from _within(inner, seen | {hint})
    elif not _is_object(hint):
        for inner in get_args(hint):
            yield from _within(inner, seen)


def _holds(hint: object) -> str:
    """What stands under a key, in words."""
    if isinstance(hint, type) and not get_args(hint):
        if hint in _LEAVES:
            return _LEAVES[hint]
        if issubclass(hint, Enum):
            return ", ".join(f"`{one.value}`" for one in hint)
        if _is_object(hint):
            heading = _heading(hint).lower()
            return f"[{heading}](#{heading.replace(' ', '-')})"
    if get_origin(hint) in (Union, UnionType):
        return " or ".join(_holds(one) for one in get_args(hint))
    if get_origin(hint) is Literal:
        return ", ".join(f"`{one}`" for one in get_args(hint))
    origin, inner = get_origin(hint), get_args(hint)
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return f"object of {_holds(inner[1])}, by name"
    if isinstance(origin, type) and inner:
        kept = [one for one in inner if one is not Ellipsis]
        return ("list of " if len(kept) == 1 else "list: ") + ", ".join(_holds(one) for one in kept)
    raise TypeError(f"docs/keys.md has no words for {hint!r}")


def _keys(kind: type) -> list[tuple[str, str, str]]:
    meanings: dict[str, str] = {}
    for base in reversed(kind.__mro__[:-1]):
        if base.__module__.startswith("coach."):
            meanings |= _meanings(base)
    return [
        (f"`{name}`", _holds(hint), re.sub(r"\bNone\b", "`null`", meanings.get(name, "")))
        for name, hint in _hints(kind).items()
    ]


def _meanings(kind: type) -> dict[str, str]:
    """The comment of each field: beside it, or above it after `#:`."""
    text = textwrap.dedent(inspect.getsource(kind))
    lines = text.splitlines()
    found: dict[str, str] = {}
    [body] = ast.parse(text).body
    assert isinstance(body, ast.ClassDef)
    for node in body.body:
        if not (isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name)):
            continue
        above: list[str] = []
        for line in reversed(lines[: node.lineno - 1]):
            if not line.strip().startswith("#:"):
                break
            above.insert(0, line.strip().removeprefix("#:").strip())
        # Offsets in the syntax tree count bytes.
        beside = lines[(node.end_lineno or 0) - 1].encode()[node.end_col_offset :].decode().strip()
        found[node.target.id] = " ".join(part for part in (*above, beside.lstrip("#").strip()) if part)
    return found


def _said(kind: type) -> str:
    """What a class says of itself."""
    first = (inspect.getdoc(kind) or "").split("\n\n")[0]
    return " ".join(first.split())


def _heading(kind: type) -> str:
    """A class's name in words; of two that have one name, with the module that each is in."""
    name = _spoken(kind)
    twins = _names_spoken().count(name)
    return name if twins < 2 else f"{name} of {kind.__module__.rpartition('.')[2].replace('_', ' ')}"


@cache
def _names_spoken() -> tuple[str, ...]:
    return tuple(map(_spoken, _objects()))


def _spoken(kind: type) -> str:
    words = re.findall(r"[A-Z][a-z0-9]*", kind.__name__.removesuffix("View"))
    return " ".join(words).capitalize()


def _table(heads: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> list[str]:
    cells = [heads, tuple("---" for _ in heads), *rows]
    return [f"| {' | '.join(cell.replace('|', r'&#124;') for cell in row)} |" for row in cells]


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    sys.stdout.write(f"{PAGE} is written.\n")
