"""What a hardness is on every scale, and how hard the part of a tool should be."""

from __future__ import annotations

from typing import Final, NamedTuple

from coach.metals.hardness import converted, read_hardness
from coach.metals.wanted_hardness import parts, wanted
from coach.quantities import Shown

SCALES_SOURCE: Final = (
    "ASTM E140 Table 1, non-austenitic steel (confirmed second-hand in part, the rest from memory)"
)
TENSILE_SOURCE: Final = "ISO 18265 Table A.1, unalloyed and low-alloy steel (from memory)"

#: E140 itself warns that no conversion is exact; ISO 18265 says the second of its tensile strengths.
NOT_EXACT: Final = (
    "No conversion is exact: ASTM E140 rounds a converted Rockwell figure to a whole number, and a hardness "
    "is best told on the scale that it was measured on."
)
TENSILE_WARNING: Final = (
    "ISO 18265 calls tensile strengths from hardness its least reliable values (confirmed): for an idea of "
    "the strength, never for proof of it."
)

_KSI: Final = 0.145038  # in one MPa


class HardnessView(NamedTuple):
    """One hardness on every scale; None where the tables do not reach."""

    asked: str  # the hardness as typed
    hrc: float | None  # Rockwell C; `null` where the table does not reach
    hv: float  # Vickers
    hb: float | None  # 10 mm carbide ball, 3000 kgf
    tensile: float | None  # MPa
    tensile_text: str
    source: str  # where the scales are from, and how far that is confirmed
    tensile_source: str  # where the tensile strength is from
    warnings: tuple[str, ...]  # how far all this can be trusted, in sentences


class PublishedView(NamedTuple):
    """What a standard asks for."""

    low_hrc: float | None  # the least, HRC; `null` where only the most is told
    high_hrc: float  # the most, HRC
    text: str
    source: str  # with how far it is confirmed, in brackets at its end


class WantedView(NamedTuple):
    """How hard the part of a tool should be."""

    part: str
    low_hrc: float | None  # None where it need not be hardened
    high_hrc: float  # the most, HRC
    text: str
    source: str  # where they are from and how far that is confirmed
    note: str  # what else to mind
    published: tuple[PublishedView, ...]  # published hardnesses


class PartsView(NamedTuple):
    """Every part of which that is known."""

    parts: tuple[WantedView, ...]  # a list of parts, cutting edges first


def hardness(asked: str, shown: Shown) -> HardnessView:
    """A hardness as typed, on all scales and as a tensile strength; raises HardnessError.

    Sources: SCALES_SOURCE and TENSILE_SOURCE, by `coach.metals.hardness`.

    >>> round(hardness("650 HV", Shown()).hrc, 2)
    57.85
    """
    found = converted(read_hardness(asked), "HRC")
    tensile_text = ""
    if found.tensile_mpa is not None:
        tensile_text = f"{found.tensile_mpa:.0f} MPa"
        if shown.system == "in":
            tensile_text = f"{found.tensile_mpa * _KSI:.0f} ksi"
    return HardnessView(
        asked=asked.strip(),
        hrc=found.hrc,
        hv=found.hv,
        hb=found.hb,
        tensile=found.tensile_mpa,
        tensile_text=tensile_text,
        source=SCALES_SOURCE,
        tensile_source=TENSILE_SOURCE,
        warnings=(NOT_EXACT, TENSILE_WARNING) if tensile_text else (NOT_EXACT,),
    )


def wanted_hardness(part: str) -> WantedView:
    """How hard a part should be, and what is published for it; raises UnknownPart.

    >>> wanted_hardness("axe edge").text
    '53 to 57 HRC'
    """
    found = wanted(part)
    return WantedView(
        part=found.part,
        low_hrc=found.low_hrc,
        high_hrc=found.high_hrc,
        text=span(found.low_hrc, found.high_hrc),
        source=found.source,
        note=found.note,
        published=tuple(
            PublishedView(one.low_hrc, one.high_hrc, span(one.low_hrc, one.high_hrc), one.source)
            for one in found.published
        ),
    )


def every_part() -> PartsView:
    """How hard every part should be, cutting edges first.

    >>> every_part().parts[-1].text
    'at most 30 HRC'
    """
    return PartsView(tuple(wanted_hardness(part) for part in parts()))


def span(low_hrc: float | None, high_hrc: float) -> str:
    """A range of hardness in words; None where it has no lower end.

    >>> span(54.0, 54.0)
    '54 HRC'
    """
    if low_hrc is None:
        return f"at most {high_hrc:.3g} HRC"
    return f"{high_hrc:.3g} HRC" if low_hrc == high_hrc else f"{low_hrc:.3g} to {high_hrc:.3g} HRC"
