"""The spare of one zone over the heats of a job, with its band, drawn in the terminal."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from textual.content import Content
from textual.widget import Widget

from coach.bench.looking_back import MomentOfSpare
from coach.drawing.plot import Point, plot
from coach.quantities import COVERAGE, Figure
from coach.screens.widgets.picture import lines_content
from coach.screens.wording import QUIET, one_line
from coach.telling.writing import Shown, write_length


class SparePlot(Widget, can_focus=False):
    """One zone at a time; whoever shows it says which."""

    DEFAULT_CSS = """
    SparePlot {
        border-top: solid $secondary 50%;
        border-title-color: $text-secondary;
        border-title-style: bold;
        padding: 0 1;
        height: 1fr;
        display: none;
    }
    """

    def __init__(self, shown: Shown, *, id: str) -> None:
        super().__init__(id=id)
        self._shown = shown
        self._points: Sequence[MomentOfSpare] = ()
        self._label = ""

    def show(self, points: Sequence[MomentOfSpare], label: str) -> None:
        """Take the points of all zones, and which zone to show."""
        self._points, self._label = points, label
        self.border_title = f"Spare in the {label}, over the heats" if label else "Spare over the heats"
        self.refresh()

    def render(self) -> Content:
        """The plot at the size there is."""
        found = {
            point.heats: _point(point.heats, point.spare)
            for point in self._points
            if point.label == self._label
        }
        width, height = self.content_size
        say = partial(write_length, shown=self._shown)
        lines = plot(list(found.values()), width, height, label=say)
        return lines_content(lines) if lines else one_line("Reckoning…", QUIET)


def _point(heats: int, spare: Figure) -> Point:
    band = COVERAGE * (spare.doubt or 0.0)
    return Point(heats, spare.value, spare.value - band, spare.value + band)
