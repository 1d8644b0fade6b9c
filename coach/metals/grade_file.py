"""What the file of one grade of iron or steel says, and how it is read."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final, NamedTuple

from coach.files import text_of
from coach.metals.quenches import QUENCHES
from coach.metals.transformation import HIGHEST_CARBON_SHARE, solidus_c
from coach.quantities.errors import nearest
from coach.quantities.refusal import Refusal

#: How far a source is confirmed; every source ends in one of these, in brackets.
MARKS: Final = ("confirmed", "confirmed second-hand", "from memory", "judgement", "own shop")

#: The elements a composition may give.
ELEMENTS: Final = ("C", "Mn", "Si", "P", "S", "Cr", "Ni", "Mo", "W", "V", "Cu", "Al")

#: The most of an element, per cent by mass, that leaves the metal an iron or steel; judgement.
HIGHEST_SHARE: Final = 50.0

#: Every number a grade file may give, and the limits between which it can be true. 1538 °C is the melting
#: point of iron; the limits of heat treatment are wide enough for any tool steel and narrow enough to catch a
#: figure in °F (judgement).
PROPERTIES: Final[Mapping[str, tuple[float, float]]] = {
    "density_kg_m3": (1000.0, 25000.0),
    "carbon_share": (0.0, HIGHEST_CARBON_SHARE),
    "forging_low_c": (20.0, 1538.0),
    "forging_high_c": (20.0, 1538.0),
    "welding_low_c": (20.0, 1538.0),
    "welding_high_c": (20.0, 1538.0),
    "normalising_low_c": (600.0, 1300.0),
    "normalising_high_c": (600.0, 1300.0),
    "hardening_low_c": (600.0, 1300.0),
    "hardening_high_c": (600.0, 1300.0),
    "tempering_low_c": (50.0, 750.0),
    "tempering_high_c": (50.0, 750.0),
}

#: Commercial steel burns at least so far below where its iron and carbon begin to melt, in °C (from memory).
BURNS_BELOW_SOLIDUS_C: Final = 80.0

#: What is unknown because the file leaves it out.
NOT_SAID: Final = "The grade's file does not say."

#: Numbers a grade cannot do without.
_REQUIRED: Final = ("density_kg_m3",)

#: Pairs of numbers that stand in order, with whether they may be equal.
_ORDER: Final = (
    ("forging_low_c", "forging_high_c", False),
    ("welding_low_c", "welding_high_c", False),
    ("hardening_low_c", "hardening_high_c", False),
    ("tempering_low_c", "tempering_high_c", False),
    ("tempering_high_c", "hardening_low_c", False),
    ("forging_high_c", "welding_high_c", True),
    ("normalising_low_c", "normalising_high_c", True),
)

_WORDS: Final = ("name", "standard", "notes")
_TABLES: Final = ("composition", "quench")
#: How much of what was typed is told back (our choice).
_LONGEST_ECHO: Final = 30


class GradeFaults(Refusal):
    """What is wrong with grade files: one sentence to a line, each with the file's name."""

    def __init__(self, faults: Iterable[str]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(self.faults))


class Share(NamedTuple):
    """How much of an element a grade holds, in per cent by mass."""

    low: float
    nominal: float
    high: float


class Quench(NamedTuple):
    """What a grade is quenched in."""

    medium: str  # one of QUENCHES
    words: str  # what else is to be minded, as sentences
    thick: str = ""  # what thick pieces are quenched in, where that is another
    bears: str = ""  # a fiercer bath that big, plain pieces bear


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
    normalising_low_c: float | None
    normalising_high_c: float | None
    hardening_low_c: float | None
    hardening_high_c: float | None
    tempering_low_c: float | None
    tempering_high_c: float | None
    notes: str
    sources: Mapping[str, str] = field(hash=False)  # of each number, with one of MARKS at its end
    unknown: Mapping[str, str] = field(default_factory=dict, hash=False)  # the reason for each None
    composition: Mapping[str, Share] = field(default_factory=dict, hash=False)  # by symbol; empty if unknown
    quench: Quench | None = None

    @property
    def names(self) -> tuple[str, ...]:
        """All that it answers to."""
        return (self.name, *self.aliases)

    def said_of(self, key: str) -> str:
        """Where a number of the file is from and how far that is confirmed, or why it is not known."""
        return self.sources.get(key) or self.unknown.get(key, "")

    @property
    def nominal(self) -> dict[str, float]:
        """The nominal composition, per cent by mass by symbol; empty where it is unknown."""
        return {element: share.nominal for element, share in self.composition.items()}


def read_grade(path: Path) -> Grade:
    """The grade in one file; raises GradeFaults with every fault at once."""
    try:
        text = text_of(path)
    except OSError as error:
        raise GradeFaults([f"{path.name}: the file cannot be read: {error.strerror or error}."]) from error
    except UnicodeDecodeError as error:
        raise GradeFaults([f"{path.name}: the file is not UTF-8 text."]) from error
    return grade_in(text, path.name)


def grade_in(text: str, file_name: str) -> Grade:
    """The grade in a file's text; raises GradeFaults with every fault at once."""
    try:
        written = tomllib.loads(text)
    except RecursionError as error:
        raise GradeFaults([f"{file_name}: the file is nested too deep."]) from error
    except ValueError as error:
        raise GradeFaults([f"{file_name}: the file is not TOML: {error}."]) from error
    return _GradeFile(written).grade(file_name)


def template_text(name: str) -> str:
    """A file to begin a grade of one's own with: it reads as it stands, and shows all that may be added.

    What may be added is commented out by a `#` with no blank after it. Raises GradeFaults for a name that is
    empty or holds what cannot be printed.
    """
    if not name.strip() or not name.isprintable():
        raise GradeFaults(["A grade's name must be words that can be printed, such as W2 or old file steel."])
    quoted = name.strip().replace("\\", "\\\\").replace('"', '\\"')
    template = Path(__file__).with_name("grade_template.toml").read_text(encoding="utf-8")
    return template.replace("NAME", quoted, 1)


class _GradeFile:
    """A parsed grade file, with the faults found in it so far."""

    def __init__(self, written: Mapping[str, object]) -> None:
        self._written = written
        self._faults: list[str] = []
        self._numbers: dict[str, float | None] = dict.fromkeys(PROPERTIES)
        self._sources: dict[str, str] = {}
        self._unknown: dict[str, str] = {}

    def grade(self, file_name: str) -> Grade:
        """The grade, or GradeFaults."""
        self._refuse_strange_keys()
        name, standard, notes = (self._text(self._written, key, key) for key in _WORDS)
        aliases = self._aliases()
        for key in PROPERTIES:
            self._read_property(key)
        composition = self._composition()
        quench = self._quench()
        self._check_order()
        self._check_burning()
        number = dict(self._numbers)
        density_kg_m3 = number.pop("density_kg_m3")
        if self._faults or density_kg_m3 is None:
            raise GradeFaults(f"{file_name}: {fault}" for fault in self._faults)
        return Grade(
            name=name,
            aliases=aliases,
            standard=standard,
            density_kg_m3=density_kg_m3,
            notes=notes,
            sources=self._sources,
            unknown=self._unknown,
            composition=composition,
            quench=quench,
            **number,
        )

    def _refuse_strange_keys(self) -> None:
        known = (*_WORDS, "aliases", *PROPERTIES, *_TABLES)
        for key in self._written:
            if key not in known:
                near = nearest(key[:_LONGEST_ECHO], known)
                hint = f"the nearest is {near!r}" if near else f"expected are {', '.join(known)}"
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

    def _given(self, key: str, wanted: str) -> Mapping[str, object] | None:
        """The table of this key, or None where there is none to read further."""
        table = self._written.get(key)
        if table is None and key not in _REQUIRED:
            self._unknown[key] = NOT_SAID
        elif isinstance(table, dict) and set(table) == {"unknown"} and key not in _REQUIRED:
            self._unknown[key] = self._text(table, "unknown", f"{key}.unknown")
        elif isinstance(table, dict):
            return table
        else:
            self._faults.append(f"{key} must have {wanted}.")
        return None

    def _source(self, table: Mapping[str, object], key: str) -> None:
        source = self._text(table, "source", f"{key}.source")
        self._sources[key] = source
        if source and not source.endswith(tuple(f"({mark})" for mark in MARKS)):
            marks = ", ".join(f"({mark})" for mark in MARKS)
            self._faults.append(f"{key}.source must end in how far it is confirmed: one of {marks}.")

    def _read_property(self, key: str) -> None:
        wanted = f"a value and a source{'' if key in _REQUIRED else ', or only unknown'}"
        table = self._given(key, wanted)
        if table is None:
            return
        if set(table) != {"value", "source"}:
            self._faults.append(f"{key} must have {wanted}.")
            return
        low, high = PROPERTIES[key]
        value = _number(table["value"], low, high)
        if value is None:
            self._faults.append(f"{key}.value must be a number from {low:g} to {high:g}.")
        self._numbers[key] = value
        self._source(table, key)

    def _composition(self) -> dict[str, Share]:
        table = self._given("composition", "a source and its elements, or only unknown")
        if table is None:
            return {}
        self._source(table, "composition")
        shares: dict[str, Share] = {}
        for element, given in table.items():
            if element == "source":
                continue
            if element not in ELEMENTS:
                shown = repr(element[:_LONGEST_ECHO])
                self._faults.append(f"{shown} in composition is not one of {', '.join(ELEMENTS)}.")
                continue
            high = HIGHEST_CARBON_SHARE if element == "C" else HIGHEST_SHARE
            share = _share(given, high)
            if share is None:
                self._faults.append(
                    f"composition.{element} must be three numbers in order from 0 to {high:g}: the least, "
                    "the nominal and the most, in per cent by mass."
                )
            else:
                shares[element] = share
        if "C" not in table:
            self._faults.append("composition.C is missing: give the least, the nominal and the most carbon.")
        elif "C" in shares:
            self._match_carbon(shares["C"].nominal)
        return shares

    def _match_carbon(self, nominal: float) -> None:
        """A file that gives its carbon once gives it for both places; one that gives it twice, alike."""
        carbon_share = self._numbers["carbon_share"]
        if "carbon_share" not in self._written:
            del self._unknown["carbon_share"]
            self._numbers["carbon_share"] = nominal
            self._sources["carbon_share"] = self._sources["composition"]
        elif "carbon_share" in self._unknown:
            self._faults.append("carbon_share is said to be unknown, but composition.C gives it.")
        elif carbon_share is not None and carbon_share != nominal:
            self._faults.append(
                f"composition.C is nominally {nominal:g}, but carbon_share is {carbon_share:g}; "
                "they must be the same."
            )

    def _quench(self) -> Quench | None:
        wanted = "a medium, words and a source, or only unknown"
        table = self._given("quench", wanted)
        if table is None:
            return None
        if set(table) - {"thick", "bears"} != {"medium", "words", "source"}:
            self._faults.append(f"quench must have {wanted}.")
            return None
        medium = table["medium"]
        if medium not in tuple(QUENCHES):
            self._faults.append(f"quench.medium must be one of {', '.join(QUENCHES)}.")
        others = {key: table.get(key, "") for key in ("thick", "bears")}
        for key, bath in others.items():
            if bath not in ("", *QUENCHES):
                self._faults.append(f"quench.{key} must be one of {', '.join(QUENCHES)}.")
        self._source(table, "quench")
        words = self._text(table, "words", "quench.words")
        return Quench(str(medium), words, str(others["thick"]), str(others["bears"]))

    def _check_order(self) -> None:
        for lower, upper, may_be_equal in _ORDER:
            low, high = self._numbers[lower], self._numbers[upper]
            if low is not None and high is not None and (low > high or (low == high and not may_be_equal)):
                must = "must not be above" if may_be_equal else "must be below"
                self._faults.append(f"{lower} ({low:g}) {must} {upper} ({high:g}).")

    def _check_burning(self) -> None:
        carbon_share = self._numbers["carbon_share"]
        if carbon_share is None:
            return
        most_c = solidus_c(carbon_share) - BURNS_BELOW_SOLIDUS_C
        for key in ("forging_high_c", "welding_high_c"):
            heat_c = self._numbers[key]
            if heat_c is not None and heat_c > most_c:
                self._faults.append(
                    f"{key} ({heat_c:g}) burns steel of {carbon_share:g} % carbon: it must not be above "
                    f"{most_c:.0f}."
                )


def _number(value: object, low: float, high: float) -> float | None:
    # A number that is none, or without end, fails the comparison; a truth value is no measurement.
    if isinstance(value, int | float) and not isinstance(value, bool) and low <= value <= high:
        return float(value)
    return None


def _share(given: object, most: float) -> Share | None:
    if not isinstance(given, list) or len(given) != len(Share._fields):
        return None
    low, nominal, high = (_number(one, 0.0, most) for one in given)
    if low is None or nominal is None or high is None or not low <= nominal <= high:
        return None
    return Share(low, nominal, high)
