"""The places that the smith can be, each found by the name of its file, and the keys that lead to them."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import cast

from textual.binding import Binding

from coach.declared import classes_in, declared
from coach.screens.screen import CoachScreen, key


def new_screen(place: str, *given: object) -> CoachScreen:
    """The screen of a place, made of what it is given; raises LookupError when its file holds none."""
    module = f"{__package__}.{place}"
    for kind in classes_in(module):
        if issubclass(kind, CoachScreen):
            return cast("Callable[..., CoachScreen]", kind)(*given)
    raise LookupError(f"{module} holds no screen")


def load(place: str) -> None:
    """Load what the screen of a place is made of, so that it is there sooner."""
    import_module(f"{__package__}.{place}")


@cache
def keys_from(place: str) -> tuple[Binding, ...]:
    """The keys that lead from a place to others, as their files declare them.

    A screen's file says so at its top: `WAY_IN = {"key": "f9", "words": "Log", "told": "Show every entry of
    this job"}`, with `"from": ("bench", "resume")` where that is not the bench alone, and with `"group"`
    where that is not to see something. A function key has a place in the line of keys, another has none.
    """
    found = []
    for path in sorted(Path(__file__).parent.glob("*.py")):
        way = cast("dict[str, object]", declared(path, "WAY_IN").get("WAY_IN", {}))
        if way and place in cast("tuple[str, ...]", way.get("from", ("bench",))):
            keys, words, told = (str(way[name]) for name in ("key", "words", "told"))
            group = str(way.get("group", "See"))
            opens = f"open('{path.stem}')"
            found.append(key(keys, opens, words, told, show=keys.startswith("f"), group=group))
    return tuple(found)


def in_order(keys: list[Binding]) -> list[Binding]:
    """Function keys by their number, then Esc, then the rest, those that move about last."""
    return sorted(keys, key=lambda one: _rank(one.key.partition(",")[0]))


def _rank(name: str) -> int:
    return _FIRST.index(name) if name in _FIRST else len(_FIRST) + (name in _LAST)


_FIRST = (*(f"f{number}" for number in range(1, 11)), "escape")
_LAST = ("up", "down", "pageup", "pagedown")
