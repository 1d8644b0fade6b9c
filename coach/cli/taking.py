"""What a command or a question says it takes, made into arguments and read; and a question answered."""

from __future__ import annotations

import argparse
from collections.abc import Iterable
from itertools import takewhile
from math import isfinite
from types import ModuleType
from typing import Final

from coach.cli.reply import Asked, Reply, reply
from coach.quantities.errors import briefly
from coach.quantities.refusal import Refusal
from coach.quantities.takes import Take, Typed
from coach.quantities.units import System

RECKONER: Final = "one figure at a time, without a job"
"""The heading in `coach --help` that the questions stand under."""


def add_arguments(parser: argparse.ArgumentParser, takes: Iterable[Take]) -> None:
    """What follows the verb."""
    for take in takes:
        told = take.help.replace("%", "%%")
        if take.typed is Typed.FLAG:
            parser.add_argument(take.name, dest=take.key, action="store_true", help=told)
        elif take.name.startswith("-"):
            parser.add_argument(
                take.name,
                dest=take.key,
                metavar=take.metavar,
                required=take.needed,
                nargs=None if take.alone is None else "?",
                const=take.alone,
                help=told,
            )
        else:
            one, many = (None, "+") if take.needed else ("?", "*")
            nargs = one if take.typed is Typed.ONE else many
            parser.add_argument(take.key, metavar=take.metavar, nargs=nargs, help=told)


def arranged(takes: Iterable[Take], words: list[str]) -> list[str]:
    """Join `round 25` and the like into one word, so that a smith need not put it in quotes."""
    leading = {word for take in takes for word in take.joins}
    found: list[str] = []
    for word in words:
        if found and found[-1].lower() in leading and not word.startswith("-"):
            found[-1] = f"{found[-1]} {word}"
        else:
            found.append(word)
    return found


def refuse_without_value(takes: Iterable[Take], words: Iterable[str]) -> None:
    """Raise Refusal for `--heats=--`: argparse takes that `--` for the end of the options, and no value."""
    by_name = {take.name: take for take in takes if take.typed is not Typed.FLAG}
    for word in takewhile("--".__ne__, words):
        name, equals, value = word.partition("=")
        if not (name.startswith("--") and equals and value == "--"):
            continue
        if name in COMMON_VALUES:
            raise Refusal(f"Nothing is named for {name}: leave it out, or type {COMMON_VALUES[name]}.")
        if (take := by_name.get(name)) is not None:
            instead = "type" if take.needed else "leave it out, or type"
            raise Refusal(f"Nothing is named for {name}: {instead} {take.metavar} ({take.help}).")


COMMON_VALUES: Final = {"--shop": "the file of a log, such as --shop shop.sqlite", "--units": "mm or in"}
"""The options with a value that every command takes, and what to type."""


def read_all(takes: Iterable[Take], asked: Asked) -> None:
    """Make values of what was typed, in its place; raises Refusal."""
    for take in takes:
        value = _read(take, getattr(asked, take.key), asked.units or "mm")
        if take.needed and value in (None, ()):  # blanks alone, or what only ends the options
            raise Refusal(f"Nothing was typed for {take.metavar or take.name}: {take.help}.")
        setattr(asked, take.key, value)


def _read(take: Take, typed: str | list[str] | bool | None, system: System) -> object:
    if isinstance(typed, bool):
        return typed
    if isinstance(typed, list):
        if take.typed is Typed.SEVERAL:
            return tuple(_value(take, word, system) for word in typed)
        typed = " ".join(typed) if typed else None
    text = typed if typed is not None else take.usual or None
    return None if text is None else _value(take, text, system)


def _value(take: Take, text: str, system: System) -> object:
    """What one text is read as; raises Refusal, also where the reader knows no better than a ValueError."""
    try:
        value = take.read(text, system)
    except Refusal:
        raise
    except ValueError:
        value = None
    if value is None or (isinstance(value, float) and not isfinite(value)):
        raise Refusal(f"{briefly(text)} cannot be read as {take.metavar or take.name}: {take.help}.")
    is_option = take.name.startswith("-")
    if not (text.strip() or take.needed or text == take.alone) and (is_option or take.typed is Typed.RUN_ON):
        named = take.name if is_option else take.metavar
        raise Refusal(f"Nothing is named for {named}: leave it out, or type {take.metavar} ({take.help}).")
    return value


def reckoned(question: ModuleType, asked: Asked) -> Reply[object]:
    """The answer of one of the reckoner's questions to what was read."""
    from coach.cli.page import set_page
    from coach.telling.answer import answer_page
    from coach.telling.writing import Shown

    answer = question.reckon(**{take.key: getattr(asked, take.key) for take in question.TAKES})
    return reply(set_page(answer_page(question.told(answer), Shown(asked.units or "mm"))), answer)
