"""Recipes that tests take apart, spelt out: every size under its own name, written as the file says it by the
coach's own writer. What changes one size in a test changes one name, wherever the line puts it."""

from __future__ import annotations

import yaml

from coach.recipe.words import key, own_name
from coach.recipe.writing import write_recipe

_OWN_NAMES = (("pieces",), ("drawing",))


def file_text(spelt_out: str) -> str:
    """The text of the recipe's file; one that is no tree is left as it is."""
    try:
        tree = yaml.load(spelt_out, yaml.BaseLoader)
    except yaml.YAMLError:
        return spelt_out
    return write_recipe(_keyed(tree, ())) if isinstance(tree, dict) and "drawing" in tree else spelt_out


def _keyed(part: object, path: tuple[str, ...]) -> dict[str, object]:
    assert isinstance(part, dict)
    spelling = own_name if path in _OWN_NAMES else key
    return {
        name: _inside(value, (*path, name)) for name, value in ((spelling(k), v) for k, v in part.items())
    }


def _inside(value: object, path: tuple[str, ...]) -> object:
    if isinstance(value, dict):
        return _keyed(value, path)
    return [_inside(one, (*path, "")) for one in value] if isinstance(value, list) else value
