"""`coach config`: what is set, in one file with every setting explained."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, NamedTuple

from coach.cli.page import paragraph, table
from coach.cli.reply import Asked, Refused, Reply, reply
from coach.quantities.takes import Take, Typed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from coach.settings import Settings
    from coach.settings.table import Setting

SUMMARY = "Show what is set, or set it: units, look, gauges, keys, alarms, second folder."
TAKES = (
    Take(
        "what",
        "show, as where it is left out; path; make, the file with all explained; check; set; unset",
        "WHAT",
        usual="show",
    ),
    Take("name", "of set and unset: which setting, such as units or alarm.back", "NAME"),
    Take("value", "of set: its value; of an alarm the program and its words", "VALUE", typed=Typed.SEVERAL),
)

#: What a shell finishes after a word.
FINISHES = {"config": "show path make check set unset", "set": "settings", "unset": "settings"}


class SettingNow(NamedTuple):
    """One setting as it is."""

    name: str  # `units`, `alarm.back`, `keys.f13`
    value: object  # what is set; `null` where nothing is, and the usual counts
    told: str  # what it is for
    usual: str  # what counts where nothing is set, in words or with its unit


class FaultOfSetting(NamedTuple):
    """Something in the file that counts as not set."""

    line: int  # from 1; 0 where it is of the whole file
    told: str  # what was expected


class Config(NamedTuple):
    """What is set."""

    file: str  # where it is kept, whether it is there or not
    is_there: bool
    settings: tuple[SettingNow, ...]
    faults: tuple[FaultOfSetting, ...]


def run(asked: Asked) -> Reply[Config]:
    """Show, check or change it; bad news where something in the file is wrong."""
    from coach.places import settings_file

    what, file = asked.what.lower(), settings_file()
    doing: dict[str, Callable[[Asked, Path], list[str]]] = {
        "show": _shown,
        "path": lambda _, file: [str(file)],
        "make": _made,
        "check": _checked,
        "set": _set,
        "unset": _unset,
    }
    if what not in doing:
        raise Refused(f"`coach config {what[:20]}` is nothing: type show, path, make, check, set or unset.")
    if what not in ("set", "unset") and (asked.name is not None or asked.value):
        raise Refused(f"`coach config {what}` takes nothing more: leave out what follows it.")
    lines = doing[what](asked, file)
    found = _config(file)
    return reply(lines, found, bad_news=what in ("show", "check") and bool(found.faults))


def _config(file: Path) -> Config:
    from coach.settings import settings_in

    settings = settings_in(file)
    return Config(
        str(file),
        file.is_file(),
        tuple(_settings_now(settings)),
        tuple(FaultOfSetting(*one) for one in settings.faults),
    )


def _settings_now(settings: Settings) -> list[SettingNow]:
    from coach.settings.table import setting_of
    from coach.settings.table import table as all_settings

    named = {**all_settings(), **{name: one for name in settings.values if (one := setting_of(name))}}
    return [SettingNow(name, settings.get(name), one.told, one.usual) for name, one in named.items()]


def _shown(_: Asked, file: Path) -> list[str]:
    found = _config(file)
    rows = [(one.name, _now(one)) for one in found.settings]
    lines = table(rows, ("setting", "now"), indent="")
    lines += ["", *paragraph(f"Kept in {found.file}{'' if found.is_there else ', which is not made yet'}.")]
    return lines + (_faults(found) if found.faults else [])


def _now(one: SettingNow) -> str:
    return f"as usual: {one.usual}" if one.value is None else _written(one.name, one.value)


def _written(name: str, value: object) -> str:
    told = " ".join(map(str, value)) if isinstance(value, tuple) else str(value)
    return f"{told} mm" if name.endswith("_mm") else told


def _checked(_: Asked, file: Path) -> list[str]:
    found = _config(file)
    if not found.is_there:
        return paragraph(f"There is no {file}: everything is as usual. `coach config make` makes it.")
    if found.faults:
        return _faults(found)
    count = sum(one.value is not None for one in found.settings)
    lines = paragraph(f"{file} is sound: {count} setting{'' if count == 1 else 's'} in it.")
    return lines + [line for one in _not_found(found) for line in paragraph(one)]


def _not_found(found: Config) -> Iterator[str]:
    """A sentence about each alarm whose program is not there now."""
    from shutil import which

    for one in found.settings:
        if one.name.startswith("alarm.") and isinstance(one.value, tuple) and which(one.value[0]) is None:
            program = one.value[0][:40]
            yield f"{one.name}: no program called {program!r} is found here now, so nothing would be heard."


def _faults(found: Config) -> list[str]:
    return [
        line
        for one in found.faults
        for line in paragraph(f"{found.file}{f':{one.line}' if one.line else ''}: {one.told}")
    ]


def _made(_: Asked, file: Path) -> list[str]:
    from coach.settings.writing import explained

    if file.exists():
        raise Refused(f"{file} is there already: change it with an editor, or with `coach config set`.")
    _put(file, explained() + "\n")
    return paragraph(f"{file} is made: every setting is explained in it, and nothing is set yet.")


def _set(asked: Asked, file: Path) -> list[str]:
    setting = _named(asked)
    if not asked.value:
        raise Refused(f"`coach config set {setting.name}` lacks a value, such as {setting.example}.")
    value = _value(setting, asked.value)
    if setting.name == "second_folder":
        value = _second_folder(asked, str(value))
    _change(file, setting, value)
    told = f"{setting.name} is {_written(setting.name, value)} from now on."
    if setting.name.startswith("gauges."):
        told += " What was read before stays as it was."
    if setting.name.startswith("keys."):
        told += _left_without_a_key(file, setting.name.removeprefix("keys."))
    if setting.name == "second_folder" and not os.path.isdir(str(value)):
        told += " It is not there now: until it is, nothing is copied to it, and no first job is begun."
    return paragraph(told)


def _left_without_a_key(file: Path, key: str) -> str:
    """What a key did by itself that none does now; "" where another key does it, or the same one still."""
    from coach.settings import settings_in
    from coach.settings.table import ACTIONS

    does = settings_in(file).values
    alone = next((action for action, own in ACTIONS.items() if own == key), None)
    if alone is None or alone in (value for name, value in does.items() if name.startswith("keys.")):
        return ""
    return f" No key is left for {alone} then: `coach config set keys.KEY {alone}` gives it one."


def _second_folder(asked: Asked, named: str) -> str:
    """The whole path of the second folder; raises Refused where the log itself is."""
    from coach.cli.opening import refuse_where_the_log_is, shop_path
    from coach.files import expand

    folder = expand(named).absolute()
    refuse_where_the_log_is(folder, shop_path(asked))
    return str(folder)


def _unset(asked: Asked, file: Path) -> list[str]:
    setting = _named(asked)
    if asked.value:
        raise Refused(f"`coach config unset {setting.name}` takes no value: leave it out.")
    _change(file, setting, None)
    return paragraph(f"{setting.name} is as usual from now on: {setting.usual}.")


def _named(asked: Asked) -> Setting:
    from coach.quantities.errors import did_you_mean
    from coach.settings.table import KEYS_TOLD, setting_of
    from coach.settings.table import table as all_settings

    if asked.name is None:
        raise Refused("Which setting? Name it, as in `coach config set units in`; `coach config` lists them.")
    setting = setting_of(asked.name)
    if setting is None and asked.name.startswith("keys."):
        raise Refused(f"No key that may do something else is called {asked.name[5:25]!r}. {KEYS_TOLD}")
    if setting is None:
        hint = did_you_mean(asked.name, all_settings(), "`coach config` lists them.")
        raise Refused(f"There is no setting {asked.name[:40]!r}: {hint}")
    return setting


def _apart(words: tuple[str, ...]) -> list[str]:
    """The words of a command; one that was typed in quotes as a whole is taken apart at its spaces."""
    from shutil import which

    if len(words) > 1 or " " not in words[0] or which(words[0]) is not None:
        return list(words)
    from shlex import split

    try:
        return split(words[0], posix=os.name != "nt") or list(words)
    except ValueError:  # a quote that is not closed
        return list(words)


def _value(setting: Setting, words: tuple[str, ...]) -> object:
    """What was typed as the file would have it: an alarm in its words, a doubt as a number, else one text."""
    from coach.settings.table import Wrong

    typed: object = _apart(words) if setting.name.startswith("alarm.") else " ".join(words)
    if setting.name.startswith("gauges."):
        try:
            typed = float(str(typed).replace(",", ".").removesuffix("mm"))
        except ValueError:
            raise Refused(f"{str(typed)[:20]!r} is no number of millimetres, such as 0.05.") from None
    try:
        return setting.read(typed)
    except Wrong as wrong:
        raise Refused(f"{setting.name} cannot be so: {wrong}") from None


def _change(file: Path, setting: Setting, value: object | None) -> None:
    """Write the file with one setting otherwise; raises Refused, and then it is as it was."""
    from coach.settings import settings_in
    from coach.settings.reading import read_settings
    from coach.settings.writing import changed, explained

    before = settings_in(file)
    if file.exists() and any(fault.line == 0 for fault in before.faults):
        raise Refused(f"{file}: {before.faults[0].told} Mend it first, or move it away.")
    text = changed(before.text or explained(), setting, value)
    after = read_settings(text)
    if after.get(setting.name) != value:
        where = f" (line {after.faults[0].line})" if after.faults else ""
        raise Refused(f"{file} cannot be changed as it stands{where}: `coach config check` tells why.")
    _put(file, text)


def _put(file: Path, text: str) -> None:
    from coach.files import said_by_the_system
    from coach.written import put

    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        put(file, text.encode("utf-8"), over=True)
    except OSError as error:
        raise Refused(f"{file} cannot be written. {said_by_the_system(error)}") from error
