"""How a question to the reckoner declares itself, and how it is found.

A question is one module of `coach/reckoner/`, whose name is what it is asked by. At its top stand

- `SUMMARY`, one line for the help, and `SOURCES`, where its figures are from and how far that is confirmed;
- `TAKES`, what may follow its name: `coach.reckoner.asking.takes` has one for each way of typing;
- a NamedTuple, the answer: Figures, enums and names; the comment beside each field tells its key in JSON;
- `reckon(...) -> Answer`, which takes what was read, by the names in TAKES (`--from` is `from_`);
- `told(answer)`, which yields what is told of it: Words, and the parts of `coach.reckoner.asking.told`.

The command, its help and its page follow from these.
"""

from __future__ import annotations

from importlib import import_module
from pathlib import Path
from types import ModuleType

import coach.reckoner
from coach.declared import modules_in


def questions() -> dict[str, Path]:
    """The file of every question, by its name."""
    [folder] = coach.reckoner.__path__
    return {name: Path(folder) / f"{name}.py" for name in modules_in(coach.reckoner.__path__)}


def question(name: str) -> ModuleType:
    """The module that asks and answers it."""
    return import_module(f"{coach.reckoner.__name__}.{name}")
