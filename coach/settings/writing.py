"""The file of settings written: every setting explained, one of them changed, the rest as it was."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from textwrap import wrap

from coach.settings.reading import lines_of
from coach.settings.table import KEYS_TOLD, Setting, table

_HEAD = (
    "The settings of Between Heats. What begins with # sets nothing: take the # away, change the value, and "
    "look it over with `coach config check`. `coach config set NAME VALUE` does the same."
)
_WIDTH = 98
_NAME = re.compile(r"[A-Za-z0-9_-]+")


def explained() -> str:
    """The file as it is made first: every setting with what it is for, and nothing set."""
    lines = [*_told(_HEAD), ""]
    before = ""
    for one in table().values():
        if one.name.startswith("gauges.") and not before.startswith("gauges"):
            lines += _keys()
        place, _, name = one.name.rpartition(".")
        if place != before:
            lines += [f"[{_written(place)}]"]
            before = place
        lines += [*_told(one.told), f"#{_quoted(name)} = {one.example}", ""]
    return "\n".join(lines)


def _keys() -> list[str]:
    return ["[keys]", *_told(KEYS_TOLD), '#f13 = "out"', '#plus = "in"', ""]


def _told(text: str) -> Iterator[str]:
    return (f"# {line}" for line in wrap(text, _WIDTH, break_on_hyphens=False))


def changed(text: str, setting: Setting, value: object | None) -> str:
    """The text with one setting otherwise; None takes it out. What else stands in it stays as it is."""
    lines = text.splitlines()
    place, _, name = setting.name.rpartition(".")
    new = (
        f"{_quoted(name)} = {_value(value)}" if value is not None else f"#{_quoted(name)} = {setting.example}"
    )
    found = [(number, is_set) for number, one, is_set in lines_of(text) if one == setting.name]
    at = next((number for number, is_set in found if is_set), None)
    if at is None and value is not None:
        at = next((number for number, _ in found), None)
    if at is not None:
        lines[at - 1] = new
    elif value is not None:
        lines = _added(lines, place, new)
    return "\n".join(lines) + "\n"


def _added(lines: list[str], place: str, new: str) -> list[str]:
    """A line put under the heading of its table, which is made where there is none."""
    if not place:
        first = next((at for at, line in enumerate(lines) if line.lstrip().startswith("[")), len(lines))
        return [*lines[:first], new, "", *lines[first:]]
    heading = f"[{_written(place)}]"
    at = next((at for at, line in enumerate(lines) if line.strip() == heading), None)
    if at is None:
        return [*lines, "", heading, new]
    return [*lines[: at + 1], new, *lines[at + 1 :]]


def _written(place: str) -> str:
    return ".".join(map(_quoted, place.split(".")))


def _quoted(name: str) -> str:
    return name if _NAME.fullmatch(name) else json.dumps(name)


def _value(value: object) -> str:
    """A value as TOML has it: its texts, numbers and lists are written as JSON writes them."""
    return json.dumps(list(value) if isinstance(value, tuple) else value, ensure_ascii=False)
