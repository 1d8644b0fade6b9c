"""The JSON Schema by which an editor checks a recipe file as it is typed, made of the table of keys."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, Final

from coach.forms import said
from coach.recipe.keys import RECIPE
from coach.recipe.says import Free, Inside, Listed, Named, Part, Says, Table, Text

SCHEMA_FILE: Final = Path(__file__).with_name("recipe.schema.json")
_DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"


def json_schema() -> dict[str, Any]:
    """The JSON Schema of a recipe file, for editors; every key with blanks and with underscores."""
    parts: dict[str, Any] = {}
    made = _of_part(RECIPE, parts)
    return {"$schema": _DIALECT, **made, "title": "Forging recipe", "$defs": parts}


def schema_text() -> str:
    """The text of `recipe.schema.json`."""
    return json.dumps(json_schema(), indent=1, ensure_ascii=False, sort_keys=True) + "\n"


def _of_part(part: Part, parts: dict[str, Any]) -> dict[str, Any]:
    """The schema of a part; those of the parts inside it are put with the others."""
    properties = {}
    for key in part.keys.values():
        properties[key.name] = properties[said(key.name)] = _of_key(key.says, key.told, parts)
    needed = [key.name for key in part.keys.values() if key.needed]
    return {
        "type": "object",
        "description": part.told,
        "properties": properties,
        "additionalProperties": False,
        **({"required": needed} if needed else {}),
    }


def _of_key(says: Says, told: str, parts: dict[str, Any]) -> dict[str, Any]:
    if isinstance(says, Text) and says.schema is None:
        longest = {"maxLength": says.longest} if says.longest else {}
        return {"type": "string", "minLength": 1, **longest, "description": told}
    if isinstance(says, Text | Free | Table):
        return {**(says.schema or {}), "description": told}
    parts[says.part.name] = _of_part(says.part, parts)
    inside = {"$ref": f"#/$defs/{says.part.name}"}
    match says:
        case Named():
            return {"type": "object", "additionalProperties": inside, "description": told}
        case Listed():
            return {"type": "array", "items": inside, "description": told}
        case Inside():
            described = {**inside, "description": told}
            return {"anyOf": [{"const": says.word}, described]} if says.word else described
