"""The way from screen to screen: by name through the app, with the keys that the screens' own files bring."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

import coach.screens
from coach.declared import classes_in, declared
from coach.screens.bench import BenchScreen
from coach.screens.places import keys_from, new_screen
from coach.screens.screen import EVERYWHERE, GROUPS, CoachScreen, group_of, key

FOLDER = Path(coach.screens.__file__).parent
SCREENS = sorted(path.stem for path in FOLDER.glob("*.py") if path.with_suffix(".tcss").is_file())


def imports_of(path: Path) -> set[str]:
    """Every module that a file imports, inside its functions too."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    found = {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module}
    return found | {
        alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names
    }


def test_no_screen_imports_another() -> None:
    named = {f"coach.screens.{name}" for name in SCREENS if name != "app"}
    assert named
    assert [
        (str(path.relative_to(FOLDER)), sorted(imports_of(path) & named))
        for path in FOLDER.rglob("*.py")
        if imports_of(path) & named
    ] == []


def test_a_key_leads_from_the_bench_to_every_screen_that_says_so() -> None:
    ways = {
        path.stem: declared(path, "WAY_IN")["WAY_IN"]
        for path in FOLDER.glob("*.py")
        if "WAY_IN" in declared(path, "WAY_IN")
    }
    assert {"history", "rest", "remedies", "rights", "picture", "haft", "plan", "sheet"} <= set(ways)
    told = {binding.action: binding for binding in BenchScreen.keys_told()}
    for binding in keys_from("bench"):
        assert told[binding.action].tooltip == binding.tooltip


def test_a_file_without_a_screen_is_no_place() -> None:
    with pytest.raises(LookupError, match="holds no screen"):
        new_screen("wording")


def test_every_key_is_told_by_what_the_hand_does_with_it() -> None:
    kinds = [kind for name in SCREENS for kind in classes_in(f"coach.screens.{name}")]
    told = [binding for kind in kinds if issubclass(kind, CoachScreen) for binding in kind.keys_told()]
    assert told
    assert {group_of(binding) for binding in told} <= set(GROUPS)


def test_a_key_keeps_the_group_that_its_screen_gives_it() -> None:
    assert group_of(key("f2", "heat", "Out", "Out of the fire", group="Fire")) == "Fire"
    assert group_of(key("escape", "leave", "Shop", "Go back to the shop")) == "Go"
    assert group_of(key("down", "choose(1)", "Down", "Choose the size after")) == "See"


#: What F10 does is one thing: the coach is left, from the bench by putting the job down.
_LEAVING = {"Rest", "Close"}
_MEANS_ONE_THING = re.compile(r"f\d+|ctrl\+.|insert|delete|slash|plus|minus|asterisk")


def test_a_key_means_one_thing_on_every_screen() -> None:
    kinds = [kind for path in FOLDER.glob("*.py") for kind in classes_in(f"coach.screens.{path.stem}")]
    means: dict[str, set[str]] = {}
    for kind in kinds:
        if not issubclass(kind, CoachScreen):
            continue
        for binding in (*kind.keys_told(), *EVERYWHERE):
            # What opens a screen closes it again; Enter, Esc, Tab, arrows and letters are of what is chosen.
            if binding.action != "close":
                for name in filter(_MEANS_ONE_THING.fullmatch, binding.key.split(",")):
                    means.setdefault(name, set()).add(binding.description)
    assert means.pop("f10") == _LEAVING
    assert {name: words for name, words in means.items() if len(words) > 1} == {}
