"""Grades of iron and steel, found in the files of a folder, one grade to a file."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import cache
from pathlib import Path
from typing import Final

#: How far a source is confirmed; every source ends in one of these, in brackets.
MARKS: Final = ("confirmed", "confirmed second-hand", "from memory", "judgement")

#: Every number a grade file may give, and the limits between which it can be true.
PROPERTIES: Final[Mapping[str, tuple[float, float]]] = {
    "density_kg_m3": (1000.0, 25000.0),
    # 2.14 % is the most carbon that austenite holds, 1538 °C the melting point of iron (iron-carbon diagram).
    "carbon_share": (0.0, 2.14),
    "forging_low_c": (20.0, 1538.0),
    "forging_high_c": (20.0, 1538.0),
    "welding_low_c": (20.0, 1538.0),
    "welding_high_c": (20.0, 1538.0),
}

#: Numbers a grade cannot do without.
_REQUIRED: Final = ("density_kg_m3",)

#: Pairs of numbers that stand in order; those of the second kind may be equal.
_BELOW: Final = (("forging_low_c", "forging_high_c"), ("welding_low_c", "welding_high_c"))
_NOT_ABOVE: Final = (("forging_high_c", "welding_high_c"),)

_WORDS: Final = ("name", "standard", "notes")
_BUNDLED: Final = Path(__file__).parent / "grades"
_LONGEST_ECHO: Final = 30


class UnknownGrade(ValueError):
    """A grade name that no file gives; its text is one plain sentence."""


class GradeFaults(ValueError):
    """What is wrong with grade files: one sentence to a line, each with the file's name."""

    def __init__(self, faults: Iterable[str]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(self.faults))


@dataclass(frozen=True, slots=True)
class Grade:
    """One iron or steel; None stands where no figure can be given, and `unknown` says why."""

    name: str
    aliases: tuple[str, ...]
    standard: str
    density_kg_m3: float
    carbon_share: float | None  # nominal, per cent by mass: 0.45 for C45
    forging_low_c: float | None
    forging_high_c: float | None
    welding_low_c: float | None
    welding_high_c: float | None
    notes: str
    sources: Mapping[str, str] = field(hash=False)  # of each number, with one of MARKS at its end
    unknown: Mapping[str, str] = field(default_factory=dict, hash=False)  # the reason for each None


def grade(name: str, extra: Sequence[Path] = ()) -> Grade:
    """The grade of this name or alias, whatever its case, blanks and hyphens.

    Raises UnknownGrade, which names the nearest, and GradeFaults as `grades` does.

    >>> grade("aisi 1045").name
    'C45'
    """
    asked = _fold(name)
    own = _BUNDLED / f"{'-'.join(name.casefold().split())[:_LONGEST_ECHO]}.toml"
    if not extra and _is_name(own.stem) and own.is_file() and _fold((one := read_grade(own)).name) == asked:
        return one  # without waiting for all the others to be read
    known = {_fold(word): found for found in grades(extra) for word in (found.name, *found.aliases)}
    if asked in known:
        return known[asked]
    near = get_close_matches(asked[:_LONGEST_ECHO], known, n=1)
    shown = repr(name if len(name) <= _LONGEST_ECHO else name[:_LONGEST_ECHO] + "…")
    if near:
        raise UnknownGrade(f"There is no grade {shown}; the nearest is {known[near[0]].name}.")
    names = ", ".join(dict.fromkeys(found.name for found in known.values()))
    raise UnknownGrade(f"There is no grade {shown}; the grades are {names}.")


def grades(extra: Sequence[Path] = ()) -> tuple[Grade, ...]:
    """Every grade, softest first: those that come with the coach, then those of the folders in `extra`.

    A grade of a later folder takes the place of an earlier one of the same name. Raises GradeFaults with
    every fault of every file at once.
    """
    found = {_fold(one.name): one for one in _bundled()}
    faults: list[str] = []
    for folder in extra:
        try:
            found |= {_fold(one.name): one for one in _read_folder(folder)}
        except GradeFaults as wrong:
            faults += wrong.faults
    faults += _shared_names(found.values())
    if faults:
        raise GradeFaults(faults)
    return tuple(sorted(found.values(), key=_softness))


def read_grade(path: Path) -> Grade:
    """The grade in one file; raises GradeFaults with every fault at once."""
    try:
        written = tomllib.loads(path.read_text(encoding="utf-8"))
    except OSError as error:
        raise GradeFaults([f"{path.name}: the file cannot be read: {error.strerror or error}."]) from error
    except UnicodeDecodeError as error:
        raise GradeFaults([f"{path.name}: the file is not UTF-8 text."]) from error
    except RecursionError as error:
        raise GradeFaults([f"{path.name}: the file is nested too deep."]) from error
    except ValueError as error:
        raise GradeFaults([f"{path.name}: the file is not TOML: {error}."]) from error
    return _GradeFile(written).grade(path.name)


class _GradeFile:
    """A parsed grade file, with the faults found in it so far."""

    def __init__(self, written: Mapping[str, object]) -> None:
        self._written = written
        self._faults: list[str] = []

    def grade(self, file_name: str) -> Grade:
        """The grade, or GradeFaults."""
        self._refuse_strange_keys()
        name, standard, notes = (self._text(self._written, key, key) for key in _WORDS)
        aliases = self._aliases()
        numbers: dict[str, float | None] = dict.fromkeys(PROPERTIES)
        sources: dict[str, str] = {}
        unknown: dict[str, str] = {}
        for key in PROPERTIES:
            self._read_property(key, numbers, sources, unknown)
        self._check_order(numbers)
        density_kg_m3 = numbers["density_kg_m3"]
        if self._faults or density_kg_m3 is None:
            raise GradeFaults(f"{file_name}: {fault}" for fault in self._faults)
        return Grade(
            name=name,
            aliases=aliases,
            standard=standard,
            density_kg_m3=density_kg_m3,
            carbon_share=numbers["carbon_share"],
            forging_low_c=numbers["forging_low_c"],
            forging_high_c=numbers["forging_high_c"],
            welding_low_c=numbers["welding_low_c"],
            welding_high_c=numbers["welding_high_c"],
            notes=notes,
            sources=sources,
            unknown=unknown,
        )

    def _refuse_strange_keys(self) -> None:
        known = (*_WORDS, "aliases", *PROPERTIES)
        for key in self._written:
            if key not in known:
                near = get_close_matches(key[:_LONGEST_ECHO], known, n=1)
                hint = f"the nearest is {near[0]!r}" if near else f"expected are {', '.join(known)}"
                self._faults.append(f"{key[:_LONGEST_ECHO]!r} is not part of a grade; {hint}.")

    def _text(self, table: Mapping[str, object], key: str, shown: str) -> str:
        text = table.get(key)
        if isinstance(text, str) and text.strip():
            return text.strip()
        self._faults.append(f"{shown} is missing or is not text.")
        return ""

    def _aliases(self) -> tuple[str, ...]:
        aliases = self._written.get("aliases", [])
        if not isinstance(aliases, list):
            self._faults.append("aliases is not a list of names.")
            return ()
        names = tuple(one.strip() for one in aliases if isinstance(one, str) and one.strip())
        if len(names) != len(aliases):
            self._faults.append("aliases holds something that is not a name.")
        return names

    def _read_property(
        self, key: str, numbers: dict[str, float | None], sources: dict[str, str], unknown: dict[str, str]
    ) -> None:
        table = self._written.get(key)
        if not isinstance(table, dict):
            self._faults.append(f"{key} is missing: give its value and source, or say why it is unknown.")
        elif set(table) == {"unknown"} and key not in _REQUIRED:
            unknown[key] = self._text(table, "unknown", f"{key}.unknown")
        elif set(table) != {"value", "source"}:
            choice = "" if key in _REQUIRED else ", or only unknown"
            self._faults.append(f"{key} must have a value and a source{choice}.")
        else:
            numbers[key] = self._number(key, table["value"])
            sources[key] = self._text(table, "source", f"{key}.source")
            if not sources[key].endswith(tuple(f"({mark})" for mark in MARKS)):
                marks = ", ".join(f"({mark})" for mark in MARKS)
                self._faults.append(f"{key}.source must end in how far it is confirmed: one of {marks}.")

    def _number(self, key: str, value: object) -> float | None:
        low, high = PROPERTIES[key]
        if isinstance(value, int | float) and not isinstance(value, bool) and low <= value <= high:
            return float(value)
        self._faults.append(f"{key}.value must be a number from {low:g} to {high:g}.")
        return None

    def _check_order(self, numbers: Mapping[str, float | None]) -> None:
        for lower, upper in _BELOW:
            low, high = numbers[lower], numbers[upper]
            if low is not None and high is not None and low >= high:
                self._faults.append(f"{lower} ({low:g}) must be below {upper} ({high:g}).")
        for lower, upper in _NOT_ABOVE:
            low, high = numbers[lower], numbers[upper]
            if low is not None and high is not None and low > high:
                self._faults.append(f"{lower} ({low:g}) must not be above {upper} ({high:g}).")


@cache
def _bundled() -> tuple[Grade, ...]:
    return _read_folder(_BUNDLED)


def _read_folder(folder: Path) -> tuple[Grade, ...]:
    if not folder.is_dir():
        raise GradeFaults([f"{folder}: there is no such folder of grades."])
    found: dict[str, Grade] = {}
    faults: list[str] = []
    for path in sorted(folder.glob("*.toml")):
        try:
            one = read_grade(path)
        except GradeFaults as wrong:
            faults += wrong.faults
            continue
        if _fold(one.name) in found:
            faults.append(f"{path.name}: another file of this folder already describes {one.name}.")
        found[_fold(one.name)] = one
    if faults:
        raise GradeFaults(faults)
    return tuple(found.values())


def _shared_names(found: Iterable[Grade]) -> list[str]:
    owners: dict[str, str] = {}
    faults = []
    for one in found:
        for word in dict.fromkeys(_fold(word) for word in (one.name, *one.aliases)):
            if word in owners:
                faults.append(f"Both {owners[word]} and {one.name} answer to the name {word!r}.")
            owners.setdefault(word, one.name)
    return faults


def _is_name(stem: str) -> bool:
    return re.fullmatch(r"[a-z0-9-]+", stem) is not None


def _fold(name: str) -> str:
    return re.sub(r"[\s_-]+", "", name.casefold()).removeprefix("aisi").removeprefix("sae")


def _softness(one: Grade) -> tuple[bool, float, str]:
    return (one.carbon_share is None, one.carbon_share or 0.0, one.name)
