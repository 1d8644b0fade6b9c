"""What a hardness is on every scale, and how hard the part of a tool should be."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.metals.hardness import on_every_scale
from coach.metals.wanted_hardness import PartOfATool, parts, wanted
from coach.quantities import Figure, Words, say
from coach.quantities.takes import Take, Typed
from coach.reckoner.asking.reading import NotReckoned
from coach.reckoner.asking.told import Told, Under, rows

SUMMARY = "Tell a hardness on every scale, or how hard a part should be."
SOURCES = (
    "Sources: ASTM E140 Table 1 (confirmed second-hand in part, the rest from memory), ISO 18265 for the "
    "tensile strength (from memory); for the parts of tools the standards told beside them, and proposals "
    "of the coach (judgement)."
)
TAKES = (
    Take(
        "hardness",
        "such as 56 HRC, 205 HV or 550 HB; a bare number is HRC",
        "HARDNESS",
        typed=Typed.RUN_ON,
    ),
    Take("--part", "how hard this is to be: axe edge; alone, all of them", "PART", alone=""),
)

SCALES_SOURCE: Final = (
    "ASTM E140 Table 1, non-austenitic steel (confirmed second-hand in part, the rest from memory)"
)
SOFT_SOURCE: Final = "ISO 18265 Table A.1, unalloyed and low-alloy steel (from memory)"
TENSILE_SOURCE: Final = (
    "ISO 18265 Table A.1, unalloyed and low-alloy steel, to 470 HV as DIN 50150 (confirmed second-hand), "
    "above it (from memory)"
)

#: E140 itself warns that no conversion is exact; ISO 18265 says the second of its tensile strengths.
NOT_EXACT: Final = (
    "No conversion is exact: ASTM E140 rounds a converted Rockwell figure to a whole number, and a hardness "
    "is best told on the scale that it was measured on."
)
TENSILE_WARNING: Final = (
    "ISO 18265 calls tensile strengths from hardness its least reliable values (confirmed): for an idea of "
    "the strength, never for proof of it."
)


#: ISO 6506-1: no Brinell hardness is measured above, for the ball itself gives way (from memory).
BALL_TO_HB: Final = 650.0
NO_BALL: Final = "no ball measures above 650 HBW"


class HardnessOnEveryScale(NamedTuple):
    """One hardness on every scale; None where the tables do not reach."""

    asked: str  # the hardness as typed
    rockwell: Figure | None  # Rockwell C, which ends at 20 HRC
    vickers: Figure
    brinell: Figure | None  # with a carbide ball of 10 mm under 3000 kgf
    tensile: Figure | None  # the tensile strength
    source: str  # where the scales are from, and how far that is confirmed
    tensile_source: str  # where the tensile strength is from


class PartsOfTools(NamedTuple):
    """How hard every part of which that is known should be."""

    parts: tuple[PartOfATool, ...]  # cutting edges first


def reckon(
    hardness: str | None = None, part: str | None = None
) -> HardnessOnEveryScale | PartOfATool | PartsOfTools:
    """A hardness on all scales and as a tensile strength; or a part of a tool; of an empty name, all parts.

    Raises NotReckoned unless one of them is given, SizeError and NotKnown. Sources: SCALES_SOURCE and
    TENSILE_SOURCE, by `coach.metals.hardness`.

    >>> round(reckon("650 HV").rockwell.value, 2), reckon(part="axe edge").high.value
    (57.85, 57.0)
    """
    if (part is None) == (hardness is None):
        raise NotReckoned(
            "Give either a hardness, as in `coach hardness 56 HRC`, or a part, as in `coach hardness --part "
            '"axe edge"`.'
        )
    if hardness is not None:
        found = on_every_scale(hardness)
        source = SOFT_SOURCE if found.rockwell is None else SCALES_SOURCE
        return HardnessOnEveryScale(hardness.strip(), *found, source, TENSILE_SOURCE)
    return wanted(part) if part and part.strip() else PartsOfTools(tuple(map(wanted, parts())))


def told(answer: HardnessOnEveryScale | PartOfATool | PartsOfTools) -> Iterator[Told]:
    """The scales, the part or every part."""
    if isinstance(answer, HardnessOnEveryScale):
        yield from _scales_told(answer)
    elif isinstance(answer, PartsOfTools):
        yield rows((one.part, span(one.low, one.high), one.source) for one in answer.parts)
    else:
        yield say("{}: {}, {}.", answer.part, span(answer.low, answer.high), answer.source)
        yield answer.note
        published = rows((span(one.low, one.high), one.source) for one in answer.published)
        yield Under("Published", (published,))


def span(low: Figure | None, high: Figure) -> Words:
    """A range of hardness in words; None where it has no lower end."""
    if low is None:
        return say("at most {}", high)
    return say("{}", high) if low == high else say("{:n} to {}", low, high)


def _scales_told(answer: HardnessOnEveryScale) -> Iterator[Told]:
    beyond = "beyond the table"
    brinell: Words | Figure | str = answer.brinell or NO_BALL
    if answer.brinell is not None and answer.brinell.value > BALL_TO_HB:
        brinell = say("{} by the table; {}", answer.brinell, NO_BALL)
    yield f"{answer.asked}:"
    yield rows(
        (
            ("Rockwell C", say("{:=}", answer.rockwell) if answer.rockwell else "too soft for it"),
            ("Vickers", answer.vickers),
            ("Brinell, carbide ball", brinell),
            ("tensile strength", say("about {}", answer.tensile) if answer.tensile else beyond),
        )
    )
    yield NOT_EXACT
    yield TENSILE_WARNING if answer.tensile else ""
    yield f"Source: {answer.source}"
    yield f"Of the tensile strength: {answer.tensile_source}" if answer.tensile else ""
