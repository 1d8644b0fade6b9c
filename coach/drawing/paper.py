"""Words on paper in rows that keep them apart, and how much room they have taken."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, NamedTuple

from coach.drawing import ink
from coach.telling.writing import Shown, write_length

MARGIN_MM: Final = 8.0
ROW_MM: Final = 4.6  # from one row of figures to the next
_APART_MM: Final = 1.0  # between words in one row
_EDGE_MM: Final = 1.0  # of the paper that no words come to
#: Scales that drawings are made to: one to so many (ISO 5455:1979, reduction scales, from memory).
SCALES: Final = (1, 2, 5, 10, 20, 50, 100)


def scale_for(wide_mm: float, room_mm: float) -> int:
    """How many times smaller something is drawn so that it finds room; the last scale where none is enough.

    >>> scale_for(139.5, 164.0), scale_for(800.0, 164.0)
    (1, 5)
    """
    return next((scale for scale in SCALES if wide_mm <= room_mm * scale), SCALES[-1])


class Label(NamedTuple):
    """Words and the middle of the place where they belong, across the paper."""

    x_mm: float
    words: str


class Paper:
    """Elements so far, and how far down the paper they reach."""

    __slots__ = ("at_mm", "parts", "shown", "width_mm")

    def __init__(self, width_mm: float, shown: Shown, at_mm: float = MARGIN_MM) -> None:
        self.parts: list[str] = []
        self.width_mm = width_mm
        self.shown = shown
        self.at_mm = at_mm

    def size(self, mm: float) -> str:
        """A size as it is written in the drawing, its unit being said once for all."""
        return write_length(mm, self.shown, unit=False)

    def rows(self, labels: Iterable[Label], *, more: str = "", backed: bool = False) -> dict[Label, float]:
        """Write labels in as few rows as keep them apart; where each has its base line.

        Those that say the same at one place are written once. Backed ones lie on white, over what is drawn.
        """
        ends: list[float] = []  # how far each row is written
        found: dict[Label, int] = {}
        placed: list[tuple[int, Label]] = []
        for label in sorted(dict.fromkeys(labels)):
            half = min(ink.wide_mm(label.words), self.width_mm - 2 * _EDGE_MM) / 2
            x = min(max(label.x_mm, _EDGE_MM + half), self.width_mm - _EDGE_MM - half)
            row = next((row for row, end in enumerate(ends) if end + _APART_MM <= x - half), len(ends))
            ends[row : row + 1] = [x + ink.wide_mm(label.words) / 2]
            found[label] = row
            placed.append((row, Label(x, label.words)))
        base = self.at_mm + ROW_MM
        for row, label in sorted(placed, key=lambda one: one[0]):
            if backed:
                self.parts.append(ink.backing(label.x_mm, base + ROW_MM * row, label.words))
            self.parts.append(ink.figure(label.x_mm, base + ROW_MM * row, label.words, more=more))
        self.at_mm += ROW_MM * len(ends)
        return {label: base + ROW_MM * row for label, row in found.items()}

    def document(self, title: str, *, below_mm: float = MARGIN_MM) -> str:
        """All of it as an SVG document that needs no other file and no font of its own."""
        across, down = ink.number(self.width_mm), ink.number(self.at_mm + below_mm)
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{across}mm" height="{down}mm" '
            f'viewBox="0 0 {across} {down}" font-family="sans-serif" font-size="{ink.FIGURE_MM}">'
            f'<title>{ink.letters(title)}</title><rect width="{across}" height="{down}" fill="#fff"/>'
            f"{''.join(self.parts)}</svg>\n"
        )
