"""What may follow the name of a command or of a question: how it is read and what the help says."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from keyword import iskeyword
from typing import NamedTuple, TypeAlias

from coach.quantities.units import System

Read: TypeAlias = Callable[[str, System], object]
"""Makes a value of what was typed; a bare number is in the units of the system."""


class Typed(Enum):
    """How many words are typed for it."""

    ONE = "one word"
    RUN_ON = "as many words as there are, read as one"
    SEVERAL = "each word is read alone, into a tuple"
    FLAG = "the option alone"


def plain(read: Callable[[str], object]) -> Read:
    """A reader that units make no difference to."""
    return lambda text, _: read(text)


class Take(NamedTuple):
    """One thing that may follow the name."""

    name: str  # `section`, or of an option `--from`
    help: str
    metavar: str = ""
    read: Read = plain(str)
    typed: Typed = Typed.ONE
    needed: bool = False
    usual: str = ""  # what is read where it is left out; without it, that is None
    alone: str | None = None  # of an option: what is read where nothing follows it
    joins: tuple[str, ...] = ()  # words that only make sense with the one after them

    @property
    def key(self) -> str:
        """What it is called once it is read."""
        name = self.name.lstrip("-").replace("-", "_")
        return f"{name}_" if iskeyword(name) else name


def flag(name: str, help_: str) -> Take:
    """An option that is given or not, into True or False."""
    return Take(name, help_, typed=Typed.FLAG)
