"""The command line taken apart: which verb, and what was asked of it."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from functools import partial
from importlib import import_module
from itertools import pairwise, takewhile
from keyword import iskeyword
from pathlib import Path
from types import ModuleType
from typing import Literal, NoReturn, TypeAlias

from coach import __version__
from coach.cli import commands
from coach.cli.reply import Asked, Refused, Reply
from coach.cli.taking import (
    COMMON_VALUES,
    RECKONER,
    add_arguments,
    arranged,
    read_all,
    reckoned,
    refuse_without_value,
)
from coach.declared import declared
from coach.quantities.errors import nearest, odd_in
from coach.reckoner.asking import question, questions

_JOBS = "commands"
#: Commands are short, and a slip leaves more of one than words share that are nothing like (our choice).
_ALIKE = 0.7
_EPILOGUE = "`coach COMMAND --help` tells more of one; docs/commands.md shows them at work."


class _HelpAsWide(argparse.HelpFormatter):
    """Help as wide as the terminal; argparse would load all that unpacks archives to ask how wide that is."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, width=_columns() - _MARGIN)


#: What argparse leaves free itself.
_MARGIN = 2


def _columns() -> int:
    told = os.environ.get("COLUMNS", "")
    if told.isdecimal() and int(told) > 0:
        return int(told)
    try:
        return os.get_terminal_size(1).columns or _UNKNOWN_COLUMNS
    except OSError:
        return _UNKNOWN_COLUMNS


#: Where nothing says how wide a terminal is.
_UNKNOWN_COLUMNS = 80


class _Parser(argparse.ArgumentParser):
    """A parser that raises Refused, with one sentence, where argparse would end the program."""

    def error(self, message: str) -> NoReturn:
        """Refuse the line, saying what is wrong and where to read what was expected."""
        said = _PLAINER.get(message.partition(":")[0])
        text = f"{said}{message.partition(':')[2]}" if said else message
        raise Refused(f"{self.prog}: {text}; `{self.prog} --help` shows what it takes.")


_PLAINER = {
    "the following arguments are required": "still to be given:",
    "unrecognized arguments": "it does not take",
}


def verbs() -> list[str]:
    """Every command's verb: the files of the commands and of the reckoner's questions are named for them."""
    return sorted({**questions(), **_commands()})


def _commands() -> dict[str, Path]:
    """The commands with a file of their own, by their verbs; `import_` for Python's own word `import`."""
    files = (path for folder in commands.__path__ for path in Path(folder).glob("[!_]*.py"))
    return {path.stem.removesuffix("_").replace("_", "-"): path for path in files}


def split(words: Sequence[str]) -> tuple[str | None, list[str]]:
    """The verb of a line, None when it has none, and the words around it in their order."""
    place = 0
    while place < len(words):
        word = words[place]
        if word == "--":
            place += 1
            break
        if not word.startswith("-") or word == "-":
            break
        place += 2 if word in COMMON_VALUES else 1
    if place >= len(words):
        return None, [*takewhile("--".__ne__, words)]
    before = [word for word in words[:place] if word != "--"]
    return words[place], before + list(words[place + 1 :])


def wants_json(words: Sequence[str]) -> bool:
    """Whether an answer is wanted as JSON, also when the line is wrong otherwise."""
    return "--json" in takewhile("--".__ne__, words)


def wants_units(words: Sequence[str]) -> Literal["mm", "in"] | None:
    """The units asked for, also when the line is wrong otherwise; None where none are asked for."""
    told = list(takewhile("--".__ne__, words))
    if "--units=in" in told or ("--units", "in") in pairwise(told):
        return "in"
    if "--units=mm" in told or ("--units", "mm") in pairwise(told):
        return "mm"
    return "in" if _units_set() == "in" else None


def _units_set() -> Literal["mm", "in"] | None:
    """The units that the smith has set; none where no settings were there to be loaded."""
    settings = sys.modules.get("coach.settings")
    units: Literal["mm", "in"] | None = settings.set_now().get("units") if settings is not None else None
    return units


Run: TypeAlias = Callable[[Asked], Reply[object]]


def understood(words: Sequence[str]) -> tuple[Run, Asked]:
    """What a command line asks: the command's `run`, and what to give it.

    Raises Refused when the line cannot be understood, and SystemExit once help or the version is shown.
    """
    verb, rest = split(words)
    if verb is None:
        return _alone(rest)
    command = command_of(verb)
    parser = _Parser(
        prog=f"coach {verb}",
        description=command.SUMMARY,
        epilog=epilogue(command),
        formatter_class=_HelpAsWide,
        allow_abbrev=False,
        parents=[_common_options()],
    )
    add_arguments(parser, command.TAKES)
    arrange: Callable[[list[str]], list[str]] = getattr(command, "arrange", partial(arranged, command.TAKES))
    refuse_without_value(command.TAKES, rest)
    asked = parser.parse_intermixed_args(arrange(rest))
    asked.units = asked.units or _units_set()
    read_all(command.TAKES, asked)
    asked.all_commands = all_commands  # of a command that tells of the others
    run: Run = getattr(command, "run", partial(reckoned, command))
    return run, asked


def all_commands() -> dict[str, ModuleType]:
    """Every command and every question, by its verb."""
    return {verb: command_of(verb) for verb in verbs()}


def epilogue(command: ModuleType) -> str:
    """What is told below what a command takes: of a question, where its figures are from."""
    return f"An estimate. {command.SOURCES}" if hasattr(command, "SOURCES") else ""


def command_of(verb: str) -> ModuleType:
    """The command of a verb, ready to be asked; raises Refused, which names the nearest."""
    known = verbs()
    if verb not in known:
        near = nearest(verb, known, _ALIKE)
        hint = f"did you mean `coach {near}`?" if near else "`coach --help` lists them all."
        raise Refused(f"There is no command {verb!r}{odd_in(verb)}: {hint}")
    if verb in _commands():
        name = verb.replace("-", "_")
        return import_module(f"{commands.__name__}.{name}{'_' if iskeyword(name) else ''}")
    return question(verb)


def _alone(words: Sequence[str]) -> tuple[Run, Asked]:
    """A line without a verb: help, or the screen of the shop."""
    from coach.cli.page import WIDTH

    listing = ""
    if {"-h", "--help"} & set(words):
        listing = "\n\n".join(_listed())
    parser = _Parser(
        prog="coach",
        usage="coach [COMMAND ...] [--shop FILE] [--units mm|in] [--json] [--version]",
        description=f"A forging coach. Alone, `coach` opens the shop.\n\n{listing}",
        epilog=_EPILOGUE,
        formatter_class=partial(argparse.RawDescriptionHelpFormatter, width=WIDTH),
        allow_abbrev=False,
        parents=[_common_options()],
    )
    refuse_without_value((), words)
    asked = parser.parse_args(list(words))
    asked.units = asked.units or _units_set()
    from coach.cli.screen import open_the_shop

    return open_the_shop, asked


def _listed() -> list[str]:
    """The commands under the headings of their groups, those of the jobs first; none of them is loaded."""
    from coach.cli.page import table

    asked, width = questions(), max(map(len, verbs()))
    groups: dict[object, list[tuple[str, str]]] = {_JOBS: []}
    for verb, path in sorted({**asked, **_commands()}.items()):
        told = declared(path, "SUMMARY", "GROUP")
        heading = RECKONER if verb in asked else told.get("GROUP", _JOBS)
        groups.setdefault(heading, []).append((f"{verb:<{width}}", str(told["SUMMARY"])))
    return ["\n".join([f"{heading}:", *table(rows)]) for heading, rows in groups.items()]


def _common_options() -> argparse.ArgumentParser:
    """The options that every command takes, before its verb or after it."""
    parser = argparse.ArgumentParser(add_help=False, allow_abbrev=False, formatter_class=_HelpAsWide)
    group = parser.add_argument_group("options of every command")
    group.add_argument("--shop", metavar="FILE", help="the log to use instead of your own")
    group.add_argument("--units", choices=("mm", "in"), help="the units that sizes are shown in")
    group.add_argument("--json", action="store_true", help="answer in JSON")
    group.add_argument(
        "--version", action="version", version=f"coach {__version__}", help="say which coach this is"
    )
    return parser
