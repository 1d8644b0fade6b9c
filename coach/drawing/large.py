"""Figures and signs built of solid blocks, which are still read when the picture is shrunk to a quarter.

No two of them look alike when small: the three rows of a small one have their bar low in 3, 4, 5 and 8, high
in 2, 6 and 9, and a round 0. The larger ones are made of strokes as wide as there is room for.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import IntEnum
from functools import cache
from types import MappingProxyType
from typing import Final

Rows = tuple[str, ...]


class Stroke(IntEnum):
    """How heavy the strokes of a large figure are; its value is how many cells wide a figure is."""

    LIGHT = 5
    HEAVY = 6
    WIDE = 8


SMALL, MIDDLE, TALL = 3, 5, 7  # rows that figures are drawn in

#: What stands in a row of a figure five rows high: both ends of a bar and the strokes at its sides.
_PARTS: Final[Mapping[str, Mapping[Stroke, str]]] = MappingProxyType(
    {
        "full": {Stroke.LIGHT: "█████", Stroke.HEAVY: "██████", Stroke.WIDE: "████████"},
        "top": {Stroke.LIGHT: "▄███▄", Stroke.HEAVY: "▄████▄", Stroke.WIDE: "▄██████▄"},
        "foot": {Stroke.LIGHT: "▀███▀", Stroke.HEAVY: "▀████▀", Stroke.WIDE: "▀██████▀"},
        "left": {Stroke.LIGHT: "█▌   ", Stroke.HEAVY: "██    ", Stroke.WIDE: "███     "},
        "right": {Stroke.LIGHT: "   ▐█", Stroke.HEAVY: "    ██", Stroke.WIDE: "     ███"},
        "both": {Stroke.LIGHT: "█▌ ▐█", Stroke.HEAVY: "██  ██", Stroke.WIDE: "███  ███"},
        "tongue": {Stroke.LIGHT: " ████", Stroke.HEAVY: " █████", Stroke.WIDE: "  ██████"},
        "cap": {Stroke.LIGHT: "███  ", Stroke.HEAVY: "████  ", Stroke.WIDE: "██████  "},
        "stem": {Stroke.LIGHT: " ▐█  ", Stroke.HEAVY: "  ██  ", Stroke.WIDE: "   ███  "},
        "slant": {Stroke.LIGHT: "  ▐█ ", Stroke.HEAVY: "   ██ ", Stroke.WIDE: "    ███ "},
        "back": {Stroke.LIGHT: "  █▌ ", Stroke.HEAVY: "  ██  ", Stroke.WIDE: "   ███  "},
        "low": {Stroke.LIGHT: "▄▄▄▄▄", Stroke.HEAVY: "▄▄▄▄▄▄", Stroke.WIDE: "▄▄▄▄▄▄▄▄"},
        "none": {Stroke.LIGHT: "     ", Stroke.HEAVY: "      ", Stroke.WIDE: "        "},
    }
)
_FIGURES: Final[Mapping[str, tuple[str, str, str, str, str]]] = MappingProxyType(
    {
        "0": ("top", "both", "both", "both", "foot"),
        "1": ("cap", "stem", "stem", "stem", "full"),
        "2": ("full", "right", "full", "left", "full"),
        "3": ("full", "right", "tongue", "right", "full"),
        "4": ("both", "both", "full", "right", "right"),
        "5": ("full", "left", "full", "right", "full"),
        "6": ("full", "left", "full", "both", "full"),
        "7": ("full", "right", "slant", "back", "back"),
        "8": ("full", "both", "full", "both", "full"),
        "9": ("full", "both", "full", "right", "full"),
        "?": ("full", "right", "tongue", "none", "back"),
        "-": ("none", "none", "low", "none", "none"),
        "/": ("right", "slant", "back", "stem", "left"),
    }
)
#: Narrower than a figure, with the columns that stand between it and the next.
_POINTS: Final[Mapping[str, Mapping[Stroke, Rows]]] = MappingProxyType(
    {
        ".": {
            Stroke.LIGHT: ("  ", "  ", "  ", "  ", "█▌"),
            Stroke.HEAVY: ("  ", "  ", "  ", "  ", "██"),
            Stroke.WIDE: ("   ", "   ", "   ", "   ", "███"),
        },
        ":": {
            Stroke.LIGHT: ("  ", "▐▌", "  ", "▐▌", "  "),
            Stroke.HEAVY: ("  ", "██", "  ", "██", "  "),
            Stroke.WIDE: ("   ", "███", "   ", "███", "   "),
        },
        " ": dict.fromkeys(Stroke, ("  ",) * 5),
    }
)
_SMALL: Final[Mapping[str, Rows]] = MappingProxyType(
    {
        "0": ("▄▀▀▄", "█  █", "▀▄▄▀"),
        "1": ("▀█ ", " █ ", "▄█▄"),
        "2": ("▀▀▀█", "█▀▀▀", "█▄▄▄"),
        "3": ("▀▀▀█", " ▄▄█", "▄▄▄█"),
        "4": ("█  █", "█▄▄█", "   █"),
        "5": ("█▀▀▀", "█▄▄▄", "▄▄▄█"),
        "6": ("█▀▀▀", "█▀▀█", "█▄▄█"),
        "7": ("▀▀▀█", "  █ ", " █  "),
        "8": ("█▀▀█", "█▄▄█", "█▄▄█"),
        "9": ("█▀▀█", "▀▀▀█", "▄▄▄█"),
        "?": ("▀▀▀█", " ▄▄▀", " ▄  "),
        "-": ("    ", "▀▀▀▀", "    "),
        "/": ("  ▄█", " ▄█ ", "▄█  "),
        ".": (" ", " ", "▄"),
        ":": ("▄", " ", "▀"),
        " ": ("  ", "  ", "  "),
        "A": ("█▀▀█", "█▀▀█", "█  █"),
        "B": ("█▀▀▄", "█▀▀▄", "█▄▄█"),
        "C": ("█▀▀▀", "█   ", "█▄▄▄"),
        "K": ("█ ▄▀", "█▀▄ ", "█  █"),
        "▼": ("  █  ", "▄▄█▄▄", " ▀█▀ "),
        "▲": (" ▄█▄ ", "▀▀█▀▀", "  █  "),
        "✓": ("    ▄█▀", "▀█▄█▀  ", "  ▀    "),
        "✗": ("▀█▄ ▄█▀", " ▄█▀█▄ ", "▀▀   ▀▀"),
        "~": (" ▄▄   ▄", "██▀█▄██", "▀   ▀▀ "),
        "»": ("▀▄ ▀▄  ", " ▄▀ ▄▀ ", "▀  ▀   "),
        "○": ("▄▀▀▀▄", "█   █", "▀▄▄▄▀"),
    }
)
_SIGNS: Final[Mapping[str, Rows]] = MappingProxyType(
    {
        "▼": ("  ███  ", "  ███  ", "  ███  ", "▀█████▀", "  ▀█▀  "),
        "▲": ("  ▄█▄  ", "▄█████▄", "  ███  ", "  ███  ", "  ███  "),
        "✓": ("       ▄█", "      ▄██", "█▄   ▄██ ", "▀██▄██▀  ", "  ▀█▀    "),
        "✗": ("██▄   ▄██", " ▀██▄██▀ ", "   ███   ", " ▄██▀██▄ ", "██▀   ▀██"),
        "~": ("         ", " ▄██▄   ▄", "██▀▀██▄██", "▀    ▀██▀", "         "),
        "»": ("█▄  █▄   ", " ▀█▄ ▀█▄ ", "  ▄█▀ ▄█▀", "▄█▀ ▄█▀  ", "▀   ▀    "),
        "○": (" ▄███▄ ", "█▀   ▀█", "█     █", "█▄   ▄█", " ▀███▀ "),
    }
)
_TALL_SIGNS: Final[Mapping[str, Rows]] = MappingProxyType(
    {
        "▼": ("   ███   ",) * 4 + ("█████████", " ▀█████▀ ", "   ▀█▀   "),
        "▲": ("   ▄█▄   ", " ▄█████▄ ", "█████████") + ("   ███   ",) * 4,
    }
)


def can_draw(text: str) -> bool:
    """Whether every letter of a text has a large form."""
    return all(letter in _SMALL for letter in text)


@cache
def large(text: str, rows: int = MIDDLE, stroke: Stroke = Stroke.LIGHT) -> Rows:
    """Return a text in large figures, a column between each two.

    Args:
        text: digits, `. : / - ?`, blanks and the signs ▼ ▲ ✓ ✗ ~ » ○; in three rows the letters of BACK too.
        rows: 3, 5 or 7 of them.
        stroke: how heavy the figures of five and seven rows are.

    Raises:
        KeyError: a letter without a large form.

    >>> print("\\n".join(large("4.1", 3)))
    █  █   ▀█
    █▄▄█    █
       █ ▄ ▄█▄
    """
    drawn = [_letter(letter, rows, stroke) for letter in text]
    return tuple(" ".join(parts).rstrip() for parts in zip(*drawn, strict=True)) if drawn else ("",) * rows


def _letter(letter: str, rows: int, stroke: Stroke) -> Rows:
    if rows == SMALL:
        return _SMALL[letter]
    if letter in _SIGNS:
        if rows == TALL and letter in _TALL_SIGNS:
            return _TALL_SIGNS[letter]
        return _centred(_SIGNS[letter], rows)
    if letter in _POINTS:
        drawn = _POINTS[letter][stroke]
        if rows == TALL and letter == ":":
            blank, dot = drawn[0], drawn[1]
            return (blank, blank, dot, blank, dot, blank, blank)
    elif letter in _FIGURES:
        drawn = tuple(_PARTS[part][stroke] for part in _FIGURES[letter])
    else:
        raise KeyError(letter)
    return _taller(drawn) if rows == TALL else drawn


def _taller(drawn: Rows) -> Rows:
    """Five rows as seven: the second and the fourth are there twice."""
    first, second, third, fourth, fifth = drawn
    return (first, second, second, third, fourth, fourth, fifth)


def _centred(drawn: Rows, rows: int) -> Rows:
    blank = " " * len(drawn[0])
    above = (rows - len(drawn)) // 2
    return (blank,) * above + drawn + (blank,) * (rows - len(drawn) - above)
