"""What a smith answers of a tool that is to be made, and the head of a recipe that says it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from math import floor
from types import MappingProxyType
from typing import Final, NamedTuple

from coach.quantities import read_length_mm
from coach.quantities.refusal import Refusal
from coach.quantities.units import System
from coach.quantities.words import Words, run_on, say
from coach.recipe import writing
from coach.recipe.branches import with_branches
from coach.recipe.drawing import read_drawing
from coach.recipe.findings import Findings
from coach.recipe.keys import unit_of
from coach.recipe.limits_written import size_text
from coach.recipe.measuring import NUMBER
from coach.recipe.model import Piece, ZoneDrawing
from coach.recipe.nodes import Node
from coach.recipe.pieces import read_pieces
from coach.recipe.spelling import Speller
from coach.recipe.tree import read_plain
from coach.recipe.words import NO, NONE, YES

_NO_ZONES: Final[Mapping[str, str]] = MappingProxyType({})
BODY: Final = "body"
#: The least limits of a length that is given none (judgement).
_LEAST_MM, _LEAST_IN = 3.0, 0.12
#: They are told in steps of so much (our choice).
_STEP_MM, _STEP_IN = 0.5, 0.01
#: A length without a limit, with its unit where it says one.
_BARE_LENGTH: Final = re.compile(rf"\blong ({NUMBER})(?: ?(mm|in))?(?= *(?:,|$))")
_LONG: Final = re.compile(rf"\blong {NUMBER}")


class CannotDraft(Refusal):
    """A tool that no recipe can be proposed for; one sentence with what to say instead."""


class Answers(NamedTuple):
    """A tool as it is wanted; sizes as they are written in a recipe."""

    name: str
    metal: str
    bar: str
    zones: Mapping[str, str] = _NO_ZONES  # by name, in order from the end of the bar
    units: str = "mm"
    laid_on: str = NONE  # the zone that steel is laid on
    steel: str = ""  # its metal
    steel_bar: str = ""
    steel_size: str = ""  # ready to be laid on
    inset: str = NONE  # how deep it goes into a cleft; none lays it on the face
    hard: str = NONE  # the zones that are hardened, with and
    hardness: str = NONE
    haft: str = NO[0]  # yes: in its eye; or the zone that it is fitted to, such as a tang

    @property
    def has_steel(self) -> bool:
        """Whether steel is laid on."""
        return self.laid_on != NONE

    @property
    def piece(self) -> str:
        """What its first piece is called: as its zone, where it has one alone."""
        return next(iter(self.zones)) if len(self.zones) == 1 else BODY

    @property
    def steel_name(self) -> str:
        """What the steel is called."""
        return "steel" if "steel" not in self.zones else "laid steel"


def answers_of(told: Mapping[str, object]) -> Answers:
    """The answers that a file gives by their names; raises CannotDraft for others and for what is missing."""
    known = Answers._fields
    given: dict[str, object] = {}
    strange = [key for key in told if key.replace(" ", "_") not in known]
    if strange:
        called = " or ".join(f"“{key[:30]}”" for key in strange)
        raise CannotDraft(f"There is no answer called {called}: the answers are {_named(known)}.")
    for key, value in told.items():
        name = key.replace(" ", "_")
        if name == "zones":
            if not isinstance(value, Mapping) or not all(isinstance(one, str) for one in value.values()):
                raise CannotDraft("zones are names with their sizes, such as blade: 40 x 6, long 120.")
            given[name] = dict(value)
        elif isinstance(value, str):
            given[name] = value.strip()
        else:
            raise CannotDraft(f"The answer to {key[:30]} is one text, such as none.")
    missing = [name for name in ("name", "metal", "bar", "zones") if not given.get(name)]
    if missing:
        raise CannotDraft(f"The answers do not say {_named(missing)}: add {missing[0]}.")
    answers = Answers(**given)  # type: ignore[arg-type]
    lost = next((name for name in _OF_STEEL if given.get(name, NONE) != NONE), None)
    if lost is not None and not answers.has_steel:
        raise CannotDraft(
            "{} is told and no steel is laid on: say on which zone under laid on, or leave it out.",
            lost.replace("_", " ").capitalize(),
        )
    return answers._replace(haft=hafted_to(answers.haft, answers.zones))


#: What is only of steel that is laid on.
_OF_STEEL: Final = ("steel", "steel_bar", "steel_size", "inset")


def hafted_to(told: str, zones: Iterable[str]) -> str:
    """What an answer to the haft means: yes, no or a zone; raises CannotDraft for any other."""
    word = told.casefold()
    for meant in (YES, NO):
        if word in meant:
            return meant[0]
    if word == NONE:
        return NO[0]
    named = list(zones)
    if told not in named:
        raise CannotDraft(
            "The answer to haft is yes, no or the zone that it is fitted to, not “{}”: the zones are {}.",
            told[:30],
            ", ".join(named),
        )
    return told


def _named(names: object) -> str:
    return ", ".join(str(one).replace("_", " ") for one in names) if isinstance(names, tuple | list) else ""


def with_limits(answers: Answers, share: float) -> Answers:
    """The same with limits of such a share at every length that has none."""
    return answers._replace(
        zones={name: _limited(size, answers.units, share) for name, size in answers.zones.items()},
        steel_size=_limited(answers.steel_size, answers.units, share),
    )


def _limited(size: str, unit: str, share: float) -> str:
    found = _BARE_LENGTH.search(size)
    if found is None:
        return size
    in_inches = (found[2] or unit) == "in"
    least, step = (_LEAST_IN, _STEP_IN) if in_inches else (_LEAST_MM, _STEP_MM)
    number = float(sum(map(Fraction, re.split("[ -]", found[1].replace(",", ".")))))
    off = max(least, round(share * number / step) * step)
    said = f" {found[2]}" if found[2] else ""
    return f"{size[: found.end(1)]}{said} ±{off:g}{said}{size[found.end() :]}"


def with_steel_of(answers: Answers, longest_mm: float) -> Answers:
    """The same with its steel so long at most, in mm: down to a whole millimetre, or to 1/16 in."""
    unit: System = "in" if answers.units == "in" else "mm"
    step_mm = read_length_mm("1/16" if unit == "in" else "1", unit)
    long_mm = max(floor(longest_mm / step_mm), 1) * step_mm
    return answers._replace(steel_size=_LONG.sub(f"long {size_text(long_mm, unit)}", answers.steel_size))


def head_lines(answers: Answers) -> Iterator[str]:
    """The head of the recipe: what it makes, its pieces and their zones."""
    yield f"recipe: {writing.scalar(answers.name)}"
    if answers.units != "mm":
        yield f"units: {answers.units}"
    yield ""
    yield "pieces:"
    yield f"  {writing.scalar(answers.piece)}:"
    yield f"    metal: {_metal(answers.metal)}"
    yield f"    bar: {writing.scalar(answers.bar)}"
    if len(answers.zones) == 1:
        yield f"    size: {writing.scalar(next(iter(answers.zones.values())))}"
    else:
        yield "    zones:  # in order from the end of the bar"
        for zone, size in answers.zones.items():
            yield f"      {writing.scalar(zone)}: {writing.scalar(size)}"
    if answers.has_steel:
        yield f"  {answers.steel_name}:"
        yield f"    metal: {_metal(answers.steel)}"
        yield f"    bar: {writing.scalar(answers.steel_bar)}"
        yield f"    size: {writing.scalar(answers.steel_size)}  # ready to be laid on"
    yield ""


def _metal(name: str) -> str:
    """A grade, in quotes where it is a number."""
    return f'"{name}"' if name[:1].isdigit() else writing.scalar(name)


def drawn(answers: Answers) -> tuple[dict[str, Piece], dict[str, ZoneDrawing]]:
    """The pieces and zones that the answers describe; raises CannotDraft for what cannot be read."""
    text = "\n".join(head_lines(answers)) + "\n"
    plain = read_plain(text, "")
    findings, meant = Findings(), Findings()
    findings.add_unless_explained(plain.findings.found)
    speller = Speller(plain.tree, unit_of(plain.tree))
    spelt = speller.spell()
    findings.add_unless_explained(speller.findings.found)
    root = Node(spelt, (), meant, unit_of(plain.tree))
    pieces = read_pieces(root.get("pieces"))
    zones = read_drawing(root.get("drawing"), pieces)
    pieces = with_branches(root.get("drawing"), pieces)
    findings.add_unless_explained(
        slip._replace(path=speller.origins.of(slip.path, at_key=slip.at_key), at_key=False)
        for slip in meant.found
    )
    unsaid = next((name for name, piece in pieces.items() if not piece.stock.sizes_mm), None)
    if unsaid is not None and not findings.found:
        raise CannotDraft(f"The bar of {unsaid} is not said: give its section, such as square 20.")
    lines = text.splitlines()
    told = [
        say("Of {}: {}{}", _told_of(lines[fault.line - 1], answers), fault.message, _stop(fault.message))
        for fault in findings.faults(plain.places, "")
    ]
    if told:
        raise CannotDraft("{}", run_on(told))
    return pieces, {name: zone for name, zone in zones.items() if zone is not None}


def bare_sizes(answers: Answers) -> set[tuple[str, str]]:
    """The finished sizes that are answered without limits, by zone and dimension."""
    return {
        (zone, name)
        for zone, told in drawn(answers)[1].items()
        for name, limits in told.limits.items()
        if not limits.stated
    }


def _told_of(line: str, answers: Answers) -> str:
    """What a line of the head is about: an answer, or the zone of a piece that has one alone."""
    name = line.strip().partition(":")[0]
    return answers.piece if name == "size" and "# ready" not in line else name


def _stop(message: Words) -> str:
    last = message.parts[-1] if message.parts and message.template.endswith("}") else message.template
    return "" if isinstance(last, str) and last.endswith("?") else "."
