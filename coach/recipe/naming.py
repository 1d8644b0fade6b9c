"""What sizes and amounts are called inside a line: `long`, `end thick`, `groove depth`, `slug`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cache
from typing import Final, NamedTuple

from coach.forms import kinds, said
from coach.operations import operations
from coach.quantities import Kind

#: How the shop says the last word of a size's name.
_SHORT: Final = {"length": "long", "width": "wide", "thickness": "thick"}
#: What a shop calls a size or an amount otherwise.
ALIASES: Final[Mapping[str, str]] = {
    "inside": "inner_diameter",
    "outside": "outer_diameter",
    "mouth": "mouth_diameter",
    "deep": "depth",
    "neck": "end_diameter",
    "over": "bevel",
}


class Named(NamedTuple):
    """What a word of a line stands for."""

    name: str  # as the code knows it, with underscores
    kind: Kind
    is_amount: bool = False  # of the operation's own; otherwise a size


@cache
def named() -> Mapping[str, Named]:
    """Every word that a size or an amount may follow, the longest first."""
    found: dict[str, Named] = {}
    for form in kinds().values():
        _add(found, form.DIMENSIONS, Kind.LENGTH)
    for todo in operations().values():
        for name, kind in todo.EXTRAS.items():
            _add(found, [name], kind)
        for name, kind in todo.AMOUNTS.items():
            _add(found, [name], kind, is_amount=True)
    for word, name in ALIASES.items():
        if (meant := found.get(said(name))) and word not in found:
            found[word] = meant
    return dict(sorted(found.items(), key=lambda one: -len(one[0])))


def _add(found: dict[str, Named], names: Iterable[str], kind: Kind, *, is_amount: bool = False) -> None:
    for name in names:
        for word in (said(name), short(name)):
            found.setdefault(word, Named(name, kind, is_amount))


def short(name: str) -> str:
    """A size's name as a line says it: `end thick` of `end_thickness`."""
    words = said(name).split()
    return " ".join([*words[:-1], _SHORT.get(words[-1], words[-1])])


@cache
def name_pattern() -> re.Pattern[str]:
    """A word that a size or an amount may follow."""
    return re.compile(rf"(?P<word>{'|'.join(map(re.escape, named()))})(?![\w-])\s*")


@cache
def dimension_pattern() -> re.Pattern[str]:
    """The name of a size of a form."""
    every = {word: None for form in kinds().values() for name in form.DIMENSIONS for word in both(name)}
    return re.compile(rf"(?P<word>{'|'.join(sorted(every, key=len, reverse=True))})(?![\w-])")


def may_taper(name: str) -> bool:
    """Whether a size may run from one to another along a zone: `27 to 29` is then a taper and no limits."""
    return bool(re.search("width|thickness|diameter|side|across|hole", name))


def own_size(name: str, dimensions: Iterable[str]) -> str:
    """The size of a form that a word means: `inside` is a size of some, and the inner diameter of others."""
    other = ALIASES.get(name)
    return other if other is not None and name not in dimensions and other in dimensions else name


def both(name: str) -> tuple[str, str]:
    """Both ways a size's name is said."""
    return said(name), short(name)


def dimension_of(word: str) -> str:
    """The size that a word stands for."""
    return named()[word].name if word in named() else word.replace(" ", "_")
