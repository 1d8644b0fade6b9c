"""A question to the reckoner as a command: its arguments, its help and its answer, by what it declares."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from types import ModuleType
from typing import TYPE_CHECKING, Final

from coach.cli.reply import Reply, reply

if TYPE_CHECKING:
    from coach.quantities.units import System
    from coach.reckoner.asking.takes import Take

RECKONER: Final = "one figure at a time, without a job"
"""The heading in `coach --help` that the questions stand under."""


class Question:
    """The command of one question."""

    GROUP = RECKONER

    def __init__(self, question: ModuleType) -> None:
        self._question = question
        self._takes: tuple[Take, ...] = question.TAKES
        self.SUMMARY: str = question.SUMMARY
        self.reckon: Callable[..., object] = question.reckon

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """What follows the verb."""
        for take in self._takes:
            _add(parser, take)
        parser.epilog = f"An estimate. {self._question.SOURCES}"

    def arrange(self, words: list[str]) -> list[str]:
        """Join `round 25` and the like into one word, so that a smith need not put it in quotes."""
        leading = {word for take in self._takes for word in take.joins}
        arranged: list[str] = []
        for word in words:
            if arranged and arranged[-1].lower() in leading and not word.startswith("-"):
                arranged[-1] = f"{arranged[-1]} {word}"
            else:
                arranged.append(word)
        return arranged

    def run(self, asked: argparse.Namespace) -> Reply[object]:
        """Read what was typed, reckon, and tell the answer."""
        from coach.cli.page import set_page
        from coach.telling.answer import answer_page
        from coach.telling.writing import Shown

        shown = Shown(asked.units or "mm")
        given = {take.key: _read(take, getattr(asked, take.key), shown.system) for take in self._takes}
        answer = self.reckon(**given)
        return reply(set_page(answer_page(self._question.told(answer), shown)), answer)


def _add(parser: argparse.ArgumentParser, take: Take) -> None:
    from coach.reckoner.asking.takes import Typed

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
        many = ("+" if take.needed else "*") if take.typed is not Typed.ONE else None if take.needed else "?"
        parser.add_argument(take.key, metavar=take.metavar, nargs=many, help=told)


def _read(take: Take, typed: str | list[str] | bool | None, system: System) -> object:
    """The value of what was typed; raises Refusal."""
    from coach.reckoner.asking.takes import Typed

    if isinstance(typed, bool):
        return typed
    if isinstance(typed, list):
        if take.typed is Typed.SEVERAL:
            return tuple(take.read(word, system) for word in typed)
        typed = " ".join(typed) or None
    text = typed if typed is not None else take.usual or None
    return None if text is None else take.read(text, system)
