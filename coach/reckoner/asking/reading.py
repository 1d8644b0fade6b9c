"""What a smith types into a question: bars, lengths, heats, shares and differences."""

from __future__ import annotations

import re
from functools import cache
from typing import Final, NamedTuple

from coach.fire.colours import FIGURE_DOUBT_C, HEAT_COLOURS, word_doubt_c
from coach.fire.cooling import CoolingSection
from coach.forms import kinds
from coach.forms.bar import Bar
from coach.quantities import SizeError, Words, mm, read_length_mm, read_share, read_temperature_c, say
from coach.quantities.errors import briefly
from coach.quantities.refusal import Refusal
from coach.quantities.units import System

#: Judgement: what is thinner is sheet and foil, and what is thicker is not forged at an anvil.
LEAST_BAR_MM: Final = 0.4
GREATEST_BAR_MM: Final = 508.0

_TIMES: Final = re.compile(r"\s*[x×]\s*", re.IGNORECASE)
_UNIT_AT_END: Final = re.compile(
    r"(?<=[^a-z])(?:mm|cm|m|ins?|inch|inches|ft|feet|foot|[\"'″′])\.?$", re.IGNORECASE
)


@cache
def bars() -> dict[str, type[Bar]]:
    """The forms that are bars, by the names that they are typed by."""
    return {kind: form for kind, form in kinds().items() if issubclass(form, Bar)}


def how_bars_are_typed() -> str:
    """Every kind of bar, as in `25 (square), 40x10 (flat) or round 25`."""
    others = [f"{kind} 25" for kind in bars() if kind not in ("square", "flat")]
    return f"25 (square), 40x10 (flat), {', '.join(others[:-1])} or {others[-1]}"


def _parts(text: str) -> list[str]:
    """The sizes in a text such as `1 1/2 x 3/8 in`, where a unit at its end holds for all."""
    parts = _TIMES.split(text)
    unit = _UNIT_AT_END.search(parts[-1])
    return [part if unit is None or _UNIT_AT_END.search(part) else f"{part} {unit[0]}" for part in parts]


class NotReckoned(Refusal):
    """A question that has no answer; its text is one plain sentence."""


class TypedBar(NamedTuple):
    """A bar by its section; of a flat the width comes first and the thickness lies under the hammer."""

    kind: str  # square, flat, round and so on
    sizes_mm: tuple[float, ...]  # of its section, the greatest first

    @property
    def width_mm(self) -> float:
        """The greatest size of the section."""
        return self.sizes_mm[0]

    @property
    def thickness_mm(self) -> float:
        """The least size of the section."""
        return self.sizes_mm[-1]

    @property
    def has_four_sides(self) -> bool:
        """Whether it can be squeezed on one side and spread to the other."""
        return len(self._metre().outline()) == 4

    @property
    def area_mm2(self) -> float:
        """The area of the section."""
        return self._metre().section_area_mm2()

    @property
    def cooling_section(self) -> CoolingSection:
        """How it loses heat where it is long: the two ends are left out."""
        bar = self._metre()
        return CoolingSection(bar.section_area_mm2() / bar.perimeter_mm(), self.thickness_mm / 2.0)

    @property
    def words(self) -> Words:
        """As it is told, and as it can be typed again: `flat 40 × 10 mm`."""
        if len(self.sizes_mm) == 1:
            return say("{} {}", self.kind, mm(self.width_mm))
        return say("{} {:n} × {}", self.kind, mm(self.width_mm), mm(self.thickness_mm))

    def _metre(self) -> Bar:
        return bars()[self.kind](*self.sizes_mm, 1000.0)


class TypedHeat(NamedTuple):
    """A temperature, and how far it can be trusted as it was told."""

    temperature_c: float
    doubt_c: float


def read_bar(text: str, system: System) -> TypedBar:
    """The bar that a text names: `25` is square, `40x10` flat, `round 25`, `octagon 1 in`.

    A bare number is in the units of the system; the unit in `1 1/2 x 3/8 in` holds for both. Raises
    SizeError.

    >>> read_bar("40x10", "mm")
    TypedBar(kind='flat', sizes_mm=(40.0, 10.0))
    """
    words = text.split()
    kind = next((word.lower() for word in (words[:1] + words[-1:]) if word.lower() in bars()), None)
    rest = " ".join(word for word in words if word.lower() != kind)
    parts = _parts(rest)
    # The reader of lengths refuses what has no digit with its own sentence; this one shows what a bar is.
    if len(parts) > 2 or not all(re.search(r"[0-9½¼¾⅛⅜⅝⅞]", part) for part in parts):
        raise SizeError(f"{briefly(text)} is no bar: type {how_bars_are_typed()}.")
    sizes = sorted((read_length_mm(part, system) for part in parts), reverse=True)
    square = len(sizes) == 2 and sizes[0] == sizes[1]
    if square and kind in (None, "square"):
        kind, sizes = "square", sizes[:1]
    kind = kind or ("flat" if len(sizes) == 2 else "square")
    if len(sizes) != len(bars()[kind].DIMENSIONS) - 1:  # all but the length
        wanted = "two sizes, as in 40x10" if kind == "flat" else f"one size, as in {kind} 25"
        raise SizeError(f"{briefly(text)} is no bar: a {kind} bar has {wanted}.")
    if sizes[-1] < LEAST_BAR_MM or sizes[0] > GREATEST_BAR_MM:
        limits = mm(LEAST_BAR_MM), mm(GREATEST_BAR_MM)
        raise SizeError("{} is no bar for the anvil; give sizes from {} to {}.", briefly(text), *limits)
    return TypedBar(kind, tuple(sizes))


class Target(NamedTuple):
    """What a bar is forged to."""

    bar: TypedBar
    thickness_mm: float | None  # where a bare size was typed: a thickness, or the square of that size


def read_target(text: str, system: System) -> Target:
    """What a bar is forged to: a bare size is a thickness, anything else a section. Raises SizeError.

    >>> read_target("20", "mm").thickness_mm, read_target("30x10", "mm").bar.kind
    (20.0, 'flat')
    """
    bar = read_bar(text, system)
    bare = bar.kind == "square" and "square" not in text.lower() and not _TIMES.search(text)
    return Target(bar, bar.thickness_mm if bare else None)


def read_size_or_nothing_mm(text: str, system: System) -> float:
    """A length in mm that may also be `0`, as that of a keen edge; raises SizeError.

    >>> read_size_or_nothing_mm("0", "mm")
    0.0
    """
    return 0.0 if text.strip() == "0" else read_length_mm(text, system)


def read_two_sizes_mm(text: str, what: str, system: System) -> tuple[float, float]:
    """Two lengths in mm, in the order they are typed in; `what` says what of. Raises SizeError.

    >>> read_two_sizes_mm("22x36", "a haft", "mm")
    (22.0, 36.0)
    """
    parts = _parts(text)
    if len(parts) != 2:
        raise SizeError(f"{briefly(text)} is no size of {what}: type two sizes, as in 36x22.")
    first_mm, second_mm = (read_length_mm(part, system) for part in parts)
    return first_mm, second_mm


def read_fraction(text: str) -> float:
    """A share of 1, as `0.5` or `50 %`; raises SizeError and NotReckoned.

    >>> read_fraction("0.5"), read_fraction("50%")
    (0.5, 0.5)
    """
    if "%" in text:
        return read_share(text)
    found = re.fullmatch(r"\s*([01]|[01]?[.,][0-9]{1,6})\s*", text)
    if found is None or float(found[1].replace(",", ".")) > 1.0:
        raise NotReckoned(f"{briefly(text)} is no share of a whole; type one such as 0.5 or 50 %.")
    return float(found[1].replace(",", "."))


def read_heat(text: str) -> TypedHeat:
    """A temperature typed as a figure (`950`, `1750 F`) or as a heat colour; raises SizeError, NotKnown.

    >>> read_heat("light orange")
    TypedHeat(temperature_c=941.0, doubt_c=40.0)
    """
    told = text.strip()
    if is_figure(told):
        return TypedHeat(read_temperature_c(told), FIGURE_DOUBT_C)
    return TypedHeat(HEAT_COLOURS.temperature_c(told), word_doubt_c(told))


def read_difference_c(text: str) -> float:
    """A difference of temperatures, in °C: `25`, `25 C` or `45 F`; raises NotReckoned.

    >>> read_difference_c("45F")
    25.0
    """
    found = re.fullmatch(r"\s*([0-9]{1,6}(?:[.,][0-9]{1,6})?)\s*(?:°\s*)?([cf]?)\s*", text, re.IGNORECASE)
    if found is None:
        raise NotReckoned(f"{briefly(text)} is no difference of temperatures; type one such as 25 or 45 F.")
    degrees = float(found[1].replace(",", "."))
    return degrees / 1.8 if found[2].lower() == "f" else degrees


def is_figure(text: str) -> bool:
    """Whether a temperature was typed as a number rather than as a colour."""
    return not text or not text[0].isalpha()
