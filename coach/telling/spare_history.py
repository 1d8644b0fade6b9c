"""How the spare of each zone has gone from heat to heat."""

from __future__ import annotations

from collections.abc import Sequence

from coach.bench.looking_back import MomentOfSpare
from coach.telling.figures import write_figure
from coach.telling.page import Line, Page, page, section, table
from coach.telling.writing import Shown


def spare_history(points: Sequence[MomentOfSpare], shown: Shown) -> Page:
    """A row for each moment, a column for each zone."""
    names = list(dict.fromkeys(point.label for point in points))
    by_moment: dict[int, dict[str, MomentOfSpare]] = {}
    for point in points:
        by_moment.setdefault(point.entry, {})[point.label] = point
    rows = []
    for entry, found in by_moment.items():
        first = next(iter(found.values()))
        told = (write_figure(found[name].spare, shown, "n") if name in found else "" for name in names)
        rows.append((str(entry), str(first.heats), str(first.step), *told))
    return page(
        section("", [table(rows, ("entry", "heats", "step", *names))]),
        section("", [Line(f"Spare in {shown.system} above the least that the drawing allows.")]),
    )
