"""A question to the reckoner as a smith types it: bars, lengths, heats and grades."""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from coach.fire.colours import COLOUR_DOUBT_C, FIGURE_DOUBT_C, colour_temperature_c
from coach.fire.cooling import Section
from coach.forms import kinds
from coach.forms.bar import Bar
from coach.quantities import (
    Shown,
    SizeError,
    read_duration_s,
    read_length_mm,
    read_share,
    read_temperature_c,
    write_length,
)
from coach.quantities.errors import briefly
from coach.quantities.refusal import Refusal

#: Judgement: what is thinner is sheet and foil, and what is thicker is not forged at an anvil.
LEAST_BAR_MM: Final = 0.4
GREATEST_BAR_MM: Final = 508.0

_TIMES: Final = re.compile(r"\s*[x×]\s*", re.IGNORECASE)
_UNIT_AT_END: Final = re.compile(
    r"(?<=[^a-z])(?:mm|cm|m|ins?|inch|inches|ft|feet|foot|[\"'″′])\.?$", re.IGNORECASE
)
_SHAPES: Final = {"square": 1, "flat": 2, "round": 1, "octagon": 1}
_SECTIONS: Final = "type 25 for a square bar, 40x10 for a flat, round 25 or octagon 25"


class NotReckoned(Refusal):
    """A question that has no answer; its text is one plain sentence."""


class TypedBar(NamedTuple):
    """A bar by its section; of a flat the width comes first and the thickness lies under the hammer."""

    kind: str  # square, flat, round or octagon
    sizes_mm: tuple[float, ...]

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
        return self.kind in ("square", "flat")

    @property
    def area_mm2(self) -> float:
        """The area of the section."""
        return self._metre().section_area_mm2()

    @property
    def cooling_section(self) -> Section:
        """How it loses heat where it is long: the two ends are left out."""
        bar = self._metre()
        return Section(bar.section_area_mm2() / bar.perimeter_mm(), self.thickness_mm / 2.0)

    def text(self, shown: Shown) -> str:
        """As shown, and as it can be typed again: `flat 40 × 10 mm`."""
        sizes = " × ".join(write_length(size_mm, shown, unit=False) for size_mm in self.sizes_mm)
        return f"{self.kind} {sizes} {shown.system}"

    def _metre(self) -> Bar:
        bar = kinds()[self.kind](*self.sizes_mm, 1000.0)
        assert isinstance(bar, Bar)
        return bar


class TypedHeat(NamedTuple):
    """A temperature, and how far it can be trusted as it was told."""

    temperature_c: float
    doubt_c: float


def read_bar(text: str, shown: Shown) -> TypedBar:
    """The bar that a text names: `25` is square, `40x10` flat, `round 25`, `octagon 1 in`.

    A bare number is in the units shown; in `1 1/2 x 3/8 in` the unit holds for both. Raises SizeError.

    >>> read_bar("40x10", Shown())
    TypedBar(kind='flat', sizes_mm=(40.0, 10.0))
    """
    words = text.split()
    kind = next((word.lower() for word in (words[:1] + words[-1:]) if word.lower() in _SHAPES), None)
    rest = " ".join(word for word in words if word.lower() != kind)
    parts = _TIMES.split(rest)
    # The reader of lengths refuses what has no digit with its own sentence; this one shows what a bar is.
    if len(parts) > 2 or not all(re.search(r"[0-9½¼¾⅛⅜⅝⅞]", part) for part in parts):
        raise SizeError(f"{briefly(text)} is no bar: {_SECTIONS}.")
    unit = _UNIT_AT_END.search(parts[-1])
    if unit and not _UNIT_AT_END.search(parts[0]):
        parts[0] = f"{parts[0]} {unit[0]}"
    sizes = sorted((read_length_mm(part, shown.system) for part in parts), reverse=True)
    square = len(sizes) == 2 and sizes[0] == sizes[1]
    if square and kind in (None, "square"):
        kind, sizes = "square", sizes[:1]
    kind = kind or ("flat" if len(sizes) == 2 else "square")
    if len(sizes) != _SHAPES[kind]:
        wanted = "two sizes, as in 40x10" if kind == "flat" else f"one size, as in {kind} 25"
        raise SizeError(f"{briefly(text)} is no bar: a {kind} bar has {wanted}.")
    if sizes[-1] < LEAST_BAR_MM or sizes[0] > GREATEST_BAR_MM:
        least, greatest = (write_length(size_mm, shown) for size_mm in (LEAST_BAR_MM, GREATEST_BAR_MM))
        raise SizeError(f"{briefly(text)} is no bar for the anvil; give sizes from {least} to {greatest}.")
    return TypedBar(kind, tuple(sizes))


def read_target(text: str, shown: Shown) -> tuple[float | None, TypedBar | None]:
    """What a bar is forged to: a bare size is a thickness, anything else a section. Raises SizeError.

    >>> read_target("20", Shown()), read_target("30x10", Shown())[1]
    ((20.0, None), TypedBar(kind='flat', sizes_mm=(30.0, 10.0)))
    """
    bar = read_bar(text, shown)
    if bar.kind == "square" and "square" not in text.lower() and not _TIMES.search(text):
        return bar.thickness_mm, None
    return None, bar


def read_size_mm(text: str, shown: Shown) -> float:
    """A length in mm; a bare number is in the units shown. Raises SizeError."""
    return read_length_mm(text, shown.system)


def read_size_or_nothing_mm(text: str, shown: Shown) -> float:
    """A length in mm that may also be `0`, as that of a keen edge; raises SizeError.

    >>> read_size_or_nothing_mm("0", Shown())
    0.0
    """
    return 0.0 if text.strip() == "0" else read_size_mm(text, shown)


def read_two_sizes_mm(text: str, what: str, shown: Shown) -> tuple[float, float]:
    """Two lengths in mm, in the order they are typed in; `what` says what of. Raises SizeError.

    >>> read_two_sizes_mm("22x36", "a haft", Shown())
    (22.0, 36.0)
    """
    parts = _TIMES.split(text)
    if len(parts) != 2:
        raise SizeError(f"{briefly(text)} is no size of {what}: type two sizes, as in 36x22.")
    unit = _UNIT_AT_END.search(parts[1])
    if unit and not _UNIT_AT_END.search(parts[0]):
        parts[0] = f"{parts[0]} {unit[0]}"
    first_mm, second_mm = (read_size_mm(part, shown) for part in parts)
    return first_mm, second_mm


def read_hours(text: str) -> float:
    """A time in hours; a bare number is in minutes. Raises SizeError.

    >>> read_hours("90")
    1.5
    """
    return read_duration_s(text) / 3600.0


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


def read_percent(text: str) -> float:
    """Per cent, with the sign or without it, from 0 to 100; raises NotReckoned.

    >>> read_percent("12"), read_percent("12 %")
    (12.0, 12.0)
    """
    try:
        return 100.0 * read_share(f"{text.strip().removesuffix('%')} %")
    except SizeError:
        raise NotReckoned(f"{briefly(text)} is no percentage from 0 to 100; type one such as 12.") from None


def write_fine(mm: float, shown: Shown) -> str:
    """A length finer than forge work is measured, for skins and edges: to 0.01 mm or 0.001 in.

    >>> write_fine(0.6789, Shown()), write_fine(0.6789, Shown("in"))
    ('0.68 mm', '0.027 in')
    """
    return f"{mm / 25.4:.3f} in" if shown.system == "in" else f"{mm:.2f} mm"


def read_heat(text: str) -> TypedHeat:
    """A temperature typed as a figure (`950`, `1750 F`) or as a heat colour; raises SizeError, UnknownColour.

    >>> read_heat("light orange")
    TypedHeat(temperature_c=941.0, doubt_c=40.0)
    """
    told = text.strip()
    if is_figure(told):
        return TypedHeat(read_temperature_c(told), FIGURE_DOUBT_C)
    return TypedHeat(colour_temperature_c(told), COLOUR_DOUBT_C)


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
