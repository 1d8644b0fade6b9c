"""Checks the structure of a recipe file, and makes the JSON Schema by which an editor does it as one types.

Only this module and `parts`, which makes its models, know pydantic.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path as FilePath
from typing import Any, Final

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from coach.forms import kinds, listed, said
from coach.operations import also_called, operations
from coach.quantities.words import as_words
from coach.recipe import words
from coach.recipe.findings import Path, Slip
from coach.recipe.keys import PIECE, RECIPE, SCALE, STEP, USUAL, ZONE, unit_of
from coach.recipe.parts import RecipeFile
from coach.recipe.says import LONGEST_LINE, Inside, Listed, Named, Part

SCHEMA_FILE: Final = FilePath(__file__).with_name("recipe.schema.json")
_DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"
_NAMES_BELONG: Final = "names with their values belong here, such as length: 30"

#: What pydantic finds wrong, as a shop would say it.
MESSAGES: Final[Mapping[str, str]] = {
    "missing": "{name} is missing: add {name}:",
    "extra_forbidden": "{key} is no name that belongs here: {hint}",
    "no_operation": "{key} is no operation: {hint}",
    "string_type": "one text belongs here, not a list or names with values",
    "model_type": _NAMES_BELONG,
    "dict_type": _NAMES_BELONG,
    "list_type": "a list belongs here, one entry to a dash",
    "string_too_short": "the name stands here without a value",
    "string_too_long": "this is too long: {max_length} letters at most",
    "too_long": "this list is too long: {max_length} entries at most",
    "size": "{why}",
    "word": "{why}",
}


def check(tree: Mapping[str, object]) -> list[Slip]:
    """What is wrong with the structure of a recipe's plain tree, each with its path."""
    try:
        RecipeFile.model_validate(tree, context={"unit": unit_of(tree)})
    except ValidationError as error:
        slips = [_slip(tree, one) for one in _once_a_step(tree, error.errors(include_url=False))]
        return [one for one in slips if not _is_operation_by_another_name(tree, one.path)]
    return []


def _is_operation_by_another_name(tree: Any, path: Path) -> bool:
    """Whether a step begins with a key of steps that was meant for its operation: of that it is told."""
    if path[:1] != _STEPS or len(path) <= len(_STEPS) + 1:
        return False
    row = tree["steps"][path[1]]
    first = next(iter(row), "")
    return row.keys() <= STEP.keys.keys() and first == path[2] and words.word(first) in also_called()


#: Where the steps stand.
_STEPS: Final[Path] = ("steps",)


def _once_a_step(tree: Mapping[str, object], errors: list[ErrorDetails]) -> list[ErrorDetails]:
    """The errors; of a step without an operation the likeliest alone, for its other names are no slips."""
    steps: dict[Path, list[ErrorDetails]] = {}
    for error in errors:
        path = _path_in(tree, error["loc"])
        if error["type"] == "extra_forbidden" and _wants_operation(tree, path):
            steps.setdefault(path[:-1], []).append(error)
    likeliest = [
        min(rows, key=lambda one: words.nearest(said(str(one["loc"][-1])), operations()) is None)
        for rows in steps.values()
    ]
    return [one for one in errors if one in likeliest or not any(one in rows for rows in steps.values())]


def _wants_operation(tree: Any, path: Path) -> bool:
    """Whether a name stands in a step that has no operation."""
    return _part_at(path[:-1]) is STEP and not _operation_in(tree, path)


def _slip(tree: Mapping[str, object], error: ErrorDetails) -> Slip:
    kind = error["type"]
    name = str(error["loc"][-1]) if error["loc"] else ""
    path = _path_in(tree, error["loc"])
    told = {"name": said(name), "key": words.echo(said(name)), **error.get("ctx", {})}
    if kind == "missing":
        path = (*path, name)
    if kind == "extra_forbidden":
        told["hint"] = _key_hint(name, path)
        kind = "no_operation" if _wants_operation(tree, path) else kind
    if kind in ("model_type", "dict_type") and path[:1] == ("steps",) and (write := _no_step(error["input"])):
        return Slip(path, as_words(write))
    if kind == "list_type" and (first := _dash_without_blank(error["input"])):
        write = f"- {said(first[1:])}: {error['input'][first]}"[:_ECHO]
        message = f"a blank belongs behind each dash: write {words.echo(write)}"
        return Slip((*path, first), as_words(message), at_key=True)
    message = MESSAGES.get(kind, "{said}").format_map({"said": error["msg"], **told})
    return Slip(path, as_words(message), at_key="hint" in told, missing=kind == "missing")


def _dash_without_blank(told: object) -> str:
    """The first of names that were meant for a list; empty where their dashes are none."""
    first = next(iter(told), "") if isinstance(told, dict) else ""
    return first if first[:1] in ("-", "_") else ""


def _no_step(told: object) -> str:
    """What to write in the place of a step that is one text; empty where no operation stands in it."""
    text = told if isinstance(told, str) else ""
    for name in sorted(operations(), key=len, reverse=True):
        if behind := re.match(rf"{name}(?P<colon>:?) ?(?P<rest>[^,]*)", text, re.IGNORECASE):
            what = (
                "a blank belongs behind the colon" if behind["colon"] else f"a colon is missing behind {name}"
            )
            return f"{what}: write {name}: {behind['rest'].strip()[:_ECHO]}"
    return ""


def _operation_in(tree: Any, path: Path) -> bool:
    """Whether the step that a key stands in names an operation that is known."""
    step = tree
    for one in path[:-1]:
        step = step[one]
    return any(words.word(key) in operations() for key in step)


def _path_in(tree: Any, loc: tuple[int | str, ...]) -> Path:
    """The part of pydantic's location that the tree has."""
    path: list[str | int] = []
    here = tree
    for one in loc:
        inside = one in here if isinstance(here, dict) else isinstance(here, list) and isinstance(one, int)
        if not inside:
            break
        here = here[one]
        path.append(one)
    return tuple(path)


def _part_at(path: Path) -> Part:
    """The part of a recipe that a path leads to."""
    part, names = RECIPE, [one for one in path if isinstance(one, str)]
    while names:
        says = part.keys[names.pop(0)].says
        if isinstance(says, Named) and names:
            names.pop(0)
        if not isinstance(says, Inside | Named | Listed):
            break
        part = says.part
    return part


_FEW: Final = 12
_ECHO: Final = 30
_NO_HINT: Final = "look at its spelling and its indent"
#: Names that a file seldom misspells but may well hold.
_OLD: Final[Mapping[str, Mapping[str, str]]] = {
    RECIPE.name: {
        "title": "the title stands under recipe",
        "drawing": "a zone's sizes stand in its piece",
    },
}

#: Where a name belongs that stands in the wrong place.
_ELSEWHERE: Final[Mapping[str, Part]] = {
    "at the head": RECIPE,
    "under usual": USUAL,
    "under scale": SCALE,
    "in a piece": PIECE,
    "in a zone": ZONE,
    "in a step": STEP,
}


def _key_hint(name: str, path: Path) -> str:
    part = _part_at(path[:-1])
    known = [said(field) for field in part.keys]
    if any(sign.isdigit() for sign in name):
        return "inside { } a comma ends the value: put the whole size in quotes, or on a line of its own"
    if told := _OLD.get(part.name, {}).get(said(name)):
        return told
    if part is STEP and (meant := also_called().get(said(name).casefold())):
        return f"write {listed(meant, 'or')} for it"
    begun = next((one for one in known if said(name).startswith(f"{one} ")), "")
    if begun:
        return f"a colon belongs behind {begun}, as in {begun}: {said(name).removeprefix(begun).strip()}"
    near = words.nearest(said(name), known)
    if near:
        return f"did you mean {near}?"
    if there := [where for where, other in _ELSEWHERE.items() if words.key(name) in other.keys]:
        return f"it stands {listed(there, 'or')}"
    return f"use {listed(known, 'or')}" if len(known) <= _FEW else _NO_HINT


def json_schema() -> dict[str, Any]:
    """The JSON Schema of a recipe file, for editors; every key with blanks and with underscores."""
    made = _spelt_both_ways(_without_null(RecipeFile.model_json_schema()))
    assert isinstance(made, dict)
    recipe, piece = made["properties"], made["$defs"]["Piece"]["properties"]
    recipe["scale"] = {"anyOf": [{"const": words.NONE}, recipe["scale"]]}
    line = {"type": "string", "minLength": 1, "maxLength": LONGEST_LINE, "examples": [*kinds()]}
    piece["size"] = {"anyOf": [line, piece["size"]]}
    zones = piece["zones"]
    zones["additionalProperties"] = {"anyOf": [line, zones["additionalProperties"]]}
    return {"$schema": _DIALECT, **made, "title": "Forging recipe"}


def schema_text() -> str:
    """The text of `recipe.schema.json`."""
    return json.dumps(json_schema(), indent=1, ensure_ascii=False, sort_keys=True) + "\n"


def _without_null(part: object) -> object:
    """A schema without what only Python knows of: missing values and names made from names."""
    if isinstance(part, list):
        return [_without_null(one) for one in part]
    if not isinstance(part, dict):
        return part
    kept = {
        name: _without_null(value)
        for name, value in part.items()
        if not (name == "default" and value is None) and not (name == "title" and isinstance(value, str))
    }
    choices = kept.get("anyOf")
    if isinstance(choices, list) and {"type": "null"} in choices:
        choices.remove({"type": "null"})
        if len(choices) == 1:
            del kept["anyOf"]
            kept = {**choices[0], **kept}
    return kept


def _spelt_both_ways(part: object) -> object:
    if isinstance(part, list):
        return [_spelt_both_ways(one) for one in part]
    if not isinstance(part, dict):
        return part
    spelt = {name: _spelt_both_ways(value) for name, value in part.items()}
    properties = spelt.get("properties")
    if isinstance(properties, dict):
        for name in list(properties):
            properties[said(name)] = properties[name]
    return spelt


if __name__ == "__main__":
    # Written anew after a change to the forms, the operations or the models: python -m coach.recipe.schema
    SCHEMA_FILE.write_text(schema_text(), encoding="utf-8")
