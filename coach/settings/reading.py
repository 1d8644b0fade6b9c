"""The file of settings read: each value judged, each fault with its line."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from typing import Any

from coach.quantities.errors import did_you_mean
from coach.settings import SettingFault, Settings
from coach.settings.table import KEYS_TOLD, Wrong, setting_of, table

_LINE = re.compile(r"at line (\d+)")


def read_settings(text: str) -> Settings:
    """What a text sets; what is wrong in it sets nothing, and the rest counts all the same."""
    try:
        held = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        found = _LINE.search(f"{error}")
        line = int(found[1]) if found else max(len(text.splitlines()), 1)
        told = "This line cannot be read: a setting is its name, = and its value, a text in double quotes."
        return Settings(faults=(SettingFault(line, told),), text=text)
    values: dict[str, Any] = {}
    faults: list[SettingFault] = []
    for name, value in _flat(held):
        setting = setting_of(name)
        if setting is None:
            faults.append(SettingFault(line_of(text, name), _no_setting(name)))
            continue
        try:
            values[name] = setting.read(value)
        except Wrong as wrong:
            faults.append(SettingFault(line_of(text, name), f"{name}: {wrong}"))
    return Settings(values, tuple(sorted(faults)), text)


def _no_setting(name: str) -> str:
    if name.startswith("keys."):
        return f"{name}: no key that may do something else is called so. {KEYS_TOLD}"
    return f"There is no setting {name[:40]!r}: {did_you_mean(name, table(), '`coach config` lists them.')}"


def _flat(held: Mapping[str, Any], before: str = "") -> Iterator[tuple[str, Any]]:
    for name, value in held.items():
        if isinstance(value, dict):
            yield from _flat(value, f"{before}{name}.")
        else:
            yield f"{before}{name}", value


def line_of(text: str, name: str) -> int:
    """The line that a setting stands in; 0 where it is not found."""
    return next((number for number, found, is_set in lines_of(text) if found == name and is_set), 0)


def lines_of(text: str) -> Iterator[tuple[int, str, bool]]:
    """Each line that sets something or would without its #: its number, the setting, whether it is set."""
    table_now = ""
    for number, line in enumerate(text.splitlines(), start=1):
        bare = line.strip()
        if heading := re.fullmatch(r"\[([^\[\]]+)\]\s*(#.*)?", bare):
            table_now = f"{_unquoted(heading[1])}."
        elif found := re.match(r"(#?)\s*((?:\"[^\"]*\"|[\w+-]+)(?:\.(?:\"[^\"]*\"|[\w+-]+))*)\s*=", bare):
            yield number, f"{table_now}{_unquoted(found[2])}", not found[1]


def _unquoted(name: str) -> str:
    return ".".join(part.strip().strip('"') for part in name.split("."))
