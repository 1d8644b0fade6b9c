"""How light becomes a colour of the screen, and how bright that colour looks."""

from __future__ import annotations

from typing import Final, Literal

Rgb = tuple[int, int, int]  # sRGB, each channel 0 to 255
Linear = tuple[float, float, float]  # linear sRGB: light itself, 1.0 the most the screen can give

#: The share of the luminance of white that the full red, green and blue of sRGB give: IEC 61966-2-1:1999
#: (confirmed second-hand: a listing).
_LUMINANCE: Final = (0.2126, 0.7152, 0.0722)


def linear_from_xyz(x: float, y: float, z: float) -> Linear:
    """Linear sRGB (white D65) of CIE XYZ; a channel below 0 lies outside what a screen can show.

    Source: the primaries of IEC 61966-2-1, as a matrix to seven figures (confirmed second-hand).
    """
    return (
        3.2404542 * x - 1.5371385 * y - 0.4985314 * z,
        -0.9692660 * x + 1.8760108 * y + 0.0415560 * z,
        0.0556434 * x - 0.2040259 * y + 1.0572252 * z,
    )


def rgb_from_linear(linear: Linear) -> Rgb:
    """The 8-bit colour of linear sRGB, each channel first brought within 0 and 1.

    12.92 v up to v = 0.0031308, else 1.055 v^(1/2.4) - 0.055. Source: IEC 61966-2-1 (confirmed second-hand).

    >>> rgb_from_linear((1.0, 0.2140, -0.1))
    (255, 127, 0)
    """
    red, green, blue = (_encoded(min(max(channel, 0.0), 1.0)) for channel in linear)
    return (red, green, blue)


def linear_from_rgb(rgb: Rgb) -> Linear:
    """Linear sRGB of an 8-bit colour: `rgb_from_linear` undone, after the same source."""
    red, green, blue = (_decoded(channel) for channel in rgb)
    return (red, green, blue)


def relative_luminance(linear: Linear) -> float:
    """The luminance of a colour as a share of that of white.

    0.2126 R + 0.7152 G + 0.0722 B. Source: IEC 61966-2-1, and WCAG 2.2 alike (confirmed second-hand).
    """
    return sum(weight * channel for weight, channel in zip(_LUMINANCE, linear, strict=True))


def luminance_of(lightness_100: float) -> float:
    """The luminance, as a share of that of white, of a CIE 1976 L* from 0 (black) to 100 (white).

    ((L* + 16) / 116)³ above L* = 8, else L* 27/24389. Source: CIE 15, Colorimetry (from memory).

    >>> round(luminance_of(50), 8)
    0.18418652
    """
    if lightness_100 > 8.0:
        return ((lightness_100 + 16.0) / 116.0) ** 3
    return lightness_100 * 27 / 24389


def contrast(one: Rgb, other: Rgb) -> float:
    """The contrast ratio of two colours, from 1 (none) to 21 (black and white).

    (L1 + 0.05) / (L2 + 0.05), of their relative luminances the greater above; text wants 4.5 or more.
    Source: W3C, Web Content Accessibility Guidelines (WCAG) 2.2, criterion 1.4.3 (confirmed second-hand).

    >>> round(contrast((0, 0, 0), (255, 255, 255)), 6)
    21.0
    """
    darker, lighter = sorted(relative_luminance(linear_from_rgb(rgb)) for rgb in (one, other))
    return (lighter + 0.05) / (darker + 0.05)


def readable_on(rgb: Rgb) -> Literal["black", "white"]:
    """Whether black or white words stand out better on a colour, by `contrast`.

    The better of the two has 4.58 or more on any colour: sqrt(21), as their ratios multiply to 21.

    >>> readable_on((255, 232, 133))
    'black'
    """
    return "black" if contrast(rgb, (0, 0, 0)) >= contrast(rgb, (255, 255, 255)) else "white"


def _encoded(channel: float) -> int:
    """The curve of IEC 61966-2-1:1999 (confirmed second-hand: a listing)."""
    if channel <= 0.0031308:
        return round(255 * 12.92 * channel)
    return round(255 * (1.055 * float(channel ** (1 / 2.4)) - 0.055))


def _decoded(channel: int) -> float:
    """The curve of IEC 61966-2-1, backwards (confirmed second-hand: a listing)."""
    share = channel / 255
    return share / 12.92 if share <= 0.04045 else float(((share + 0.055) / 1.055) ** 2.4)
