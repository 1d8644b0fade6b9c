"""The quick readers of a sound recipe agree with those that word its faults, which are the ones of record."""

from __future__ import annotations

from collections.abc import Iterator, MutableMapping, MutableSequence
from copy import deepcopy
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from coach.places import bundled_recipes
from coach.recipe.keys import is_sound
from coach.recipe.reader import read_recipe, read_wording_faults
from coach.recipe.schema import check
from coach.recipe.tree import read_laid_out, read_plain, tree_of_sound_text
from tests.recipes.slips import SLIPS
from tests.recipes.texts import HAMMER, PIN, WEDGE

BUNDLED = {path.name: path.read_text(encoding="utf-8") for path in sorted(bundled_recipes().glob("*.yaml"))}
TREES: list[dict[str, Any]] = [read_plain(text, "x").tree for text in (PIN, HAMMER, WEDGE, *BUNDLED.values())]
Path = tuple[str | int, ...]


@pytest.mark.parametrize("name", BUNDLED)
def test_a_bundled_recipe_comes_out_the_same_by_both(name: str) -> None:
    text = BUNDLED[name]
    plain, laid_out = read_plain(text, name), read_laid_out(text, name)
    assert tree_of_sound_text(text) == plain.tree == laid_out.tree
    assert (laid_out.places.values, laid_out.places.keys) == (plain.places.values, plain.places.keys)
    assert is_sound(read_plain(text, name).tree)
    assert read_recipe(text, name) == read_wording_faults(text, name)


@pytest.mark.parametrize(("recipe", "written", "instead"), [slip[:3] for slip in SLIPS])
def test_a_slip_of_the_hand_is_judged_alike_by_both(recipe: str, written: str, instead: str) -> None:
    plain = read_plain(recipe.replace(written, instead, 1), "slip")
    assert is_sound(plain.tree) == (check(plain.tree) == [])


def paths(value: object, path: Path = ()) -> Iterator[Path]:
    """Every place in a tree."""
    yield path
    rows = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for name, inside in rows:
        yield from paths(inside, (*path, name))


def at(tree: Any, path: Path) -> Any:
    """What stands there."""
    for name in path:
        tree = tree[name]
    return tree


KEYS = sorted({str(path[-1]) for tree in TREES for path in paths(tree) if path})
PARTS = [at(tree, path) for tree in TREES for path in paths(tree)]
ODD = [
    "",
    " ",
    "x" * 201,
    "x" * 4001,
    [],
    {},
    ["x"] * 101,
    ["x", ["y"]],
    [["1", "2", "3"]] * 401,
    "none",
    "3",
]


@st.composite
def changed_trees(draw: st.DrawFn) -> dict[str, Any]:
    """A recipe's tree with a few of its values exchanged, left out or put under other names."""
    tree: dict[str, Any] = deepcopy(draw(st.sampled_from(TREES)))
    for _ in range(draw(st.integers(1, 3))):
        place = draw(st.sampled_from([path for path in paths(tree) if path] or [("title",)]))
        holder: MutableMapping[Any, Any] | MutableSequence[Any] = at(tree, place[:-1])
        deed = draw(st.sampled_from(["exchange", "leave out", "put"]))
        value = deepcopy(draw(st.sampled_from(PARTS) | st.sampled_from(ODD)))
        if deed == "put" and isinstance(holder, dict):
            holder[draw(st.sampled_from(KEYS))] = value
        elif deed == "leave out":
            del holder[place[-1]]  # type: ignore[arg-type]
        else:
            holder[place[-1]] = value  # type: ignore[index]
    return tree


@given(changed_trees())
@settings(max_examples=400, deadline=None)
def test_the_table_of_keys_and_the_models_judge_every_tree_alike(tree: dict[str, Any]) -> None:
    assert is_sound(tree) == (check(tree) == [])


SCRAPS = ["", "\n", "  ", "- ", ": ", "'", '"', "{", "}", "[", "]", ",", " #", "?", "|", ">", "&a", "*a"]
SCRAPS += ["!t", "%", "@", "`", "\\", "---", "...", "\t", "\r", "é", "½", "×", "→", "\u200b", "<<", ": |"]
SCRAPS += [">-\n", "~", "= ", "|#"]


@st.composite
def changed_texts(draw: st.DrawFn) -> str:
    """The beginning of a recipe with a few scraps written over it."""
    text = draw(st.sampled_from([PIN, HAMMER, *(text[:900] for text in BUNDLED.values())]))
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(text)))
        text = text[:start] + draw(st.sampled_from(SCRAPS)) + text[start + draw(st.integers(0, 4)) :]
    return text


@given(changed_texts())
@example("tools:\n  - hot cut\n  - #")
@example("tools:\n  - hot cut #")
@example("tools:\n  - hot cut #3")
@settings(max_examples=400, deadline=None)
def test_the_parser_in_c_takes_a_text_as_the_one_in_python_does_or_leaves_it_to_it(text: str) -> None:
    tree = tree_of_sound_text(text)
    if tree is not None:
        plain = read_plain(text, "x")
        assert (tree, plain.findings.found) == (plain.tree, [])
