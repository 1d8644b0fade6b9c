"""What one key of a recipe file may say: a text, a list, names and values, or a part with keys of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Final, NamedTuple, TypeAlias

from coach.forms import listed, said
from coach.quantities import SizeError
from coach.quantities.words import as_words
from coach.recipe import words
from coach.recipe.findings import Path, Slip

#: Given a text, its key and the file's unit; raises SizeError for what it refuses.
Reader: TypeAlias = Callable[[str, str, str], object]
Schema: TypeAlias = Mapping[str, object]

#: The longest list of texts.
MOST_TEXTS: Final = 100
_NAMES_BELONG: Final = "names with their values belong here, such as length: 30"
#: So many names of a part are all told where none is near to the one written.
_FEW: Final = 12


class Text(NamedTuple):
    """One text of at least a letter."""

    longest: int | None = None
    several: bool = False  # whether it may be a list of such texts
    read: Reader | None = None
    word: str = ""  # what sort of word of the trade it must be, whatever its blanks, hyphens and capitals
    known: tuple[str, ...] = ()  # all of them
    schema: Schema | None = None  # what an editor is told, where that is not the text and its length


class Free(NamedTuple):
    """Anything at all, for what reads the step to judge; a text is read here already."""

    read: Reader
    schema: Schema


class Table(NamedTuple):
    """A list of rows, for what reads the form to judge."""

    longest: int
    schema: Schema


class Inside(NamedTuple):
    """A part; one word may stand in its place."""

    part: Part
    word: str = ""
    why: str = ""  # what to write, for another word


class Named(NamedTuple):
    """Parts by the smith's own names."""

    part: Part


class Listed(NamedTuple):
    """Parts in their order."""

    part: Part


Says: TypeAlias = Text | Free | Table | Inside | Named | Listed


class Key(NamedTuple):
    """A name that belongs in a part."""

    name: str
    says: Says
    told: str  # for people
    needed: bool = False


class Part:
    """A part of a recipe: only the keys listed belong in it."""

    def __init__(self, name: str, told: str, *keys: Key) -> None:
        self.name = name
        self.told = told
        self.keys = {key.name: key for key in keys}


def slips(says: Says, value: object, path: Path, unit: str) -> Iterator[Slip]:
    """What is wrong with a value of the tree; `unit` is that of bare numbers in the file."""
    match says:
        case Text(several=True) if isinstance(value, list) and len(value) <= MOST_TEXTS:
            for at, one in enumerate(value):
                yield from _slips_of_text(says, one, (*path, at), path, unit)
        case Text(several=True) if not isinstance(value, str):
            yield from _slips_of_list(value, path, MOST_TEXTS)
        case Text():
            yield from _slips_of_text(says, value, path, path, unit)
        case Free():
            if isinstance(value, str):
                yield from _slips_of_reading(says.read, value, path, path, unit)
        case Table():
            yield from _slips_of_list(value, path, says.longest)
        case Inside():
            if not says.word or not isinstance(value, str):
                yield from slips_of_part(says.part, value, path, unit)
            elif words.word(value) != says.word:
                yield from _slip(path, says.why)
        case Named():
            if not isinstance(value, dict):
                yield from _slip(path, _NAMES_BELONG)
                return
            for name, one in value.items():
                yield from slips_of_part(says.part, one, (*path, name), unit)
        case Listed():
            if not isinstance(value, list):
                yield from _slips_of_list(value, path)
                return
            for at, one in enumerate(value):
                yield from slips_of_part(says.part, one, (*path, at), unit)


def slips_of_part(part: Part, value: object, path: Path, unit: str) -> Iterator[Slip]:
    """What is wrong with a value of the tree that is to be this part."""
    if not isinstance(value, dict):
        yield from _slip(path, _NAMES_BELONG)
        return
    for name, key in part.keys.items():
        if key.needed and name not in value:
            message = f"{said(name)} is missing: add {said(name)}:"
            yield Slip((*path, name), as_words(message), missing=True)
    for name, told in value.items():
        if name in part.keys:
            yield from slips(part.keys[name].says, told, (*path, name), unit)
        else:
            message = f"{words.echo(said(name))} is no name that belongs here: {_hint(name, part)}"
            yield Slip((*path, name), as_words(message), at_key=True)


def _slip(path: Path, message: str) -> Iterator[Slip]:
    yield Slip(path, as_words(message))


def _slips_of_list(value: object, path: Path, most: int | None = None) -> Iterator[Slip]:
    if not isinstance(value, list):
        yield from _slip(path, "a list belongs here, one entry to a dash")
    elif most is not None and len(value) > most:
        yield from _slip(path, f"this list is too long: {most} entries at most")


def _slips_of_text(says: Text, text: object, path: Path, key: Path, unit: str) -> Iterator[Slip]:
    if not isinstance(text, str):
        yield from _slip(path, "one text belongs here, not a list or names with values")
    elif not text:
        yield from _slip(path, "the name stands here without a value")
    elif says.longest is not None and len(text) > says.longest:
        yield from _slip(path, f"this is too long: {says.longest} letters at most")
    elif says.read is not None:
        yield from _slips_of_reading(says.read, text, path, key, unit)
    elif says.known and words.word(text) not in {one.lower() for one in says.known}:
        hint = words.hint(words.word(text), says.known)
        yield from _slip(path, f"{words.echo(text)} is no {says.word}: {hint}")


def _slips_of_reading(read: Reader, text: str, path: Path, key: Path, unit: str) -> Iterator[Slip]:
    try:
        read(text.strip(), str(key[-1]), unit)
    except SizeError as error:
        yield from _slip(path, words.clause(error))


def _hint(name: str, part: Part) -> str:
    known = [said(one) for one in part.keys]
    if near := words.nearest(said(name), known):
        return f"did you mean {near}?"
    return f"use {listed(known, 'or')}" if len(known) <= _FEW else "look at its spelling and its indent"
