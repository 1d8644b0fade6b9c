"""Lines as they are written out: safe to show, and with a swatch of colour where the terminal can."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Mapping, Sequence

from coach.telling.harmless import harmless

SWATCH = 6
INDENT = " " * (SWATCH + 2)
"""What a line that may take a swatch begins with."""

_RESET = "\x1b[0m"


class Swatched(str):
    """A line whose first blanks may be painted; what it says stands beside them in words."""

    rgb: tuple[int, int, int]

    def __new__(cls, text: str, rgb: tuple[int, int, int]) -> Swatched:
        """The line, which begins with INDENT."""
        line = super().__new__(cls, text)
        line.rgb = rgb
        return line


def swatched(lines: Sequence[str], colours: Iterable[tuple[int, int, int]]) -> list[str]:
    """The lines of a table indented by INDENT, each row with its colour; lines that go on have none."""
    found = iter(colours)
    return [
        Swatched(line, next(found)) if line.startswith(INDENT) and line[len(INDENT)] != " " else line
        for line in lines
    ]


def printed(line: str, *, colour: bool) -> str:
    """A line as it is written out, with its swatch where the terminal has colour."""
    text = harmless(line)
    if not (colour and isinstance(line, Swatched)):
        return text
    red, green, blue = line.rgb
    return f"\x1b[48;2;{red};{green};{blue}m{text[:SWATCH]}{_RESET}{text[SWATCH:]}"


def has_colour(environment: Mapping[str, str] = os.environ) -> bool:
    """Whether standard output is a terminal of 24-bit colour whose user has not said NO_COLOR."""
    if environment.get("NO_COLOR") or not sys.stdout.isatty():
        return False
    kind = environment.get("TERM", "")
    if kind == "dumb":
        return False
    if environment.get("COLORTERM", "").lower() in ("truecolor", "24bit") or environment.get("WT_SESSION"):
        return True
    return kind.endswith(("-direct", "-truecolor"))
