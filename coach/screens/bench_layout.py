"""How the bench shares a window among its parts."""

from __future__ import annotations

#: Lines that parts of the body take at two columns, their titles included.
_GUIDE_LINES, _METAL_LINES, _CHECKS_LINES = 7, 5, 7


def columns_at(width: int, height: int) -> int:
    """How many columns the style sheet lays the body out in at this size of window."""
    if width < 80 or height < 24:
        return 1
    return 3 if width >= 120 and height >= 36 else 2


def metal_lines(columns: int, body_lines: int, checks: int) -> int | None:
    """The most lines for the metal; None where it has a column to itself.

    At two columns what to do and what to measure get their lines first; the metal has what is left.
    """
    if columns != 2:
        return None
    return max(body_lines - min(checks + 2, _CHECKS_LINES) - _GUIDE_LINES, _METAL_LINES)
