"""What one key of a recipe file may say: a text, a list, names and values, or a part with keys of its own."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final, NamedTuple, TypeAlias

from coach.quantities import SizeError
from coach.recipe import words
from coach.recipe.findings import Findings, Path

#: Given a text, its key and the file's unit; raises SizeError for what it refuses.
Reader: TypeAlias = Callable[[str, str, str], object]
Schema: TypeAlias = Mapping[str, object]

#: What may be wrong with how a recipe is put together, as a shop would say it.
MESSAGES: Final[Mapping[str, str]] = {
    "missing": "{name} is missing: add {name}:",
    "stray": "{key} is no name that belongs here: {hint}",
    "text": "one text belongs here, not a list or names with values",
    "names": "names with their values belong here, such as length: 30",
    "list": "a list belongs here, one entry to a dash",
    "empty": "the name stands here without a value",
    "long text": "this is too long: {most} letters at most",
    "long list": "this list is too long: {most} entries at most",
}
#: The longest list of texts.
MOST_TEXTS: Final = 100
#: The most names that a stray one is answered with.
_FEW: Final = 12


class Place(NamedTuple):
    """A value of a recipe's plain tree that is to be checked; what is wrong with it goes to the findings."""

    value: object
    path: Path  # of keys and numbers
    unit: str  # of bare numbers
    findings: Findings

    def fault(self, message: str, **said: object) -> None:
        """Note that what stands here is wrong."""
        self.findings.add(self.path, message.format_map(said) if said else message)

    def at(self, name: str | int, value: object) -> Place:
        """A place inside it."""
        return self._replace(value=value, path=(*self.path, name))

    def rows(self, most: int | None = None) -> list[Place]:
        """The entries of the list that must stand here."""
        if not isinstance(self.value, list):
            self.fault(MESSAGES["list"])
        elif most is not None and len(self.value) > most:
            self.fault(MESSAGES["long list"], most=most)
        else:
            return [self.at(number, value) for number, value in enumerate(self.value)]
        return []

    def named(self) -> list[Place]:
        """The values of the names that must stand here."""
        if not isinstance(self.value, dict):
            self.fault(MESSAGES["names"])
            return []
        return [self.at(name, value) for name, value in self.value.items()]


class Text(NamedTuple):
    """One text of at least a letter."""

    longest: int | None = None
    several: bool = False  # whether it may be a list of such texts
    read: Reader | None = None
    word: str = ""  # what sort of word of the trade it must be, whatever its blanks, hyphens and capitals
    known: tuple[str, ...] = ()  # all of them
    told: Schema | None = None  # what an editor is told, where that is not the text and its length

    def schema(self) -> Schema:
        """What an editor is to take here."""
        length = {"minLength": 1} if self.longest is None else {"minLength": 1, "maxLength": self.longest}
        return self.told or {"type": "string", **length}

    def check(self, here: Place) -> None:
        """Note what is wrong with what stands here."""
        if self.several and not isinstance(here.value, str):
            for row in here.rows(MOST_TEXTS):
                self._check_one(row, str(here.path[-1]))
        else:
            self._check_one(here, str(here.path[-1]))

    def _check_one(self, here: Place, key: str) -> None:
        text = here.value
        if not isinstance(text, str):
            here.fault(MESSAGES["text"])
        elif not text:
            here.fault(MESSAGES["empty"])
        elif self.longest is not None and len(text) > self.longest:
            here.fault(MESSAGES["long text"], most=self.longest)
        else:
            self.read_text(text, here, key)

    def read_text(self, text: str, here: Place, key: str) -> None:
        """Note what the reader or the words refuse in a text."""
        if self.read is not None:
            try:
                self.read(text.strip(), key, here.unit)
            except SizeError as error:
                return here.fault(words.clause(error))
        if self.known and words.word(text) not in {one.lower() for one in self.known}:
            here.fault(f"{words.echo(text)} is no {self.word}: {words.hint(words.word(text), self.known)}")
        return None


class Free(NamedTuple):
    """Anything at all, for what reads the step to judge; a text is read here already."""

    read: Reader
    told: Schema

    def schema(self) -> Schema:
        """See Text."""
        return self.told

    def check(self, here: Place) -> None:
        """See Text."""
        if isinstance(here.value, str):
            Text(read=self.read).read_text(here.value, here, str(here.path[-1]))


class Table(NamedTuple):
    """A list of rows, for what reads the form to judge."""

    longest: int
    told: Schema

    def schema(self) -> Schema:
        """See Text."""
        return self.told

    def check(self, here: Place) -> None:
        """See Text."""
        here.rows(self.longest)


class Inside(NamedTuple):
    """A part; one word may stand in its place."""

    part: Part
    word: str = ""
    why: str = ""  # what to write, for another word

    def schema(self) -> Schema:
        """See Text."""
        return {"anyOf": [{"const": self.word}, self.part.ref]} if self.word else self.part.ref

    def check(self, here: Place) -> None:
        """See Text."""
        if not (self.word and isinstance(here.value, str)):
            self.part.check(here)
        elif words.word(here.value) != self.word:
            here.fault(self.why)


class Named(NamedTuple):
    """Parts by the smith's own names."""

    part: Part

    def schema(self) -> Schema:
        """See Text."""
        return {"type": "object", "additionalProperties": self.part.ref}

    def check(self, here: Place) -> None:
        """See Text."""
        for one in here.named():
            self.part.check(one)


class Listed(NamedTuple):
    """Parts in their order."""

    part: Part

    def schema(self) -> Schema:
        """See Text."""
        return {"type": "array", "items": self.part.ref}

    def check(self, here: Place) -> None:
        """See Text."""
        for one in here.rows():
            self.part.check(one)


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
        self.ref: Schema = {"$ref": f"#/$defs/{name}"}

    def schema(self) -> Schema:
        """What an editor is to take as this part: every key with blanks and with underscores."""
        keys = {key.name: {**key.says.schema(), "description": key.told} for key in self.keys.values()}
        return {
            "type": "object",
            "description": self.told,
            "additionalProperties": False,
            "properties": keys | {words.said(name): told for name, told in keys.items()},
            "required": [key.name for key in self.keys.values() if key.needed],
        }

    def check(self, here: Place) -> None:
        """Note what is wrong with what stands here."""
        said = here.named()
        for one in said:
            key = self.keys.get(str(one.path[-1]))
            if key is not None:
                key.says.check(one)
            else:
                self._stray(here, one)
        for name, key in self.keys.items():
            if key.needed and isinstance(here.value, dict) and name not in here.value:
                message = MESSAGES["missing"].format(name=words.said(name))
                here.findings.add((*here.path, name), message, missing=True)

    def _stray(self, here: Place, one: Place) -> None:
        name, known = words.said(str(one.path[-1])), [words.said(key) for key in self.keys]
        hint = "look at its spelling and its indent"
        if words.nearest(name, known) or len(known) <= _FEW:
            hint = words.hint(name, known)
        message = MESSAGES["stray"].format(key=words.echo(name), hint=hint)
        here.findings.add(one.path, message, at_key=True)
