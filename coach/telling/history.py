"""Everything entered for a job, an entry a line, and how the spare of its zones went with it."""

from __future__ import annotations

from collections.abc import Iterable

from coach.bench.history import Logged
from coach.bench.looking_back import MomentOfSpare, SpareGone
from coach.telling.clock import moment
from coach.telling.figures import write_figure
from coach.telling.page import Line, Page, Row, Table, Tone, page, section, table
from coach.telling.words import write
from coach.telling.writing import Shown


def history_page(entries: Iterable[Logged], shown: Shown) -> Page:
    """The entries in their order: number, moment, step and what each says."""
    return page(section("", [Table(tuple(history_row(entry, shown) for entry in entries))]))


def history_row(entry: Logged, shown: Shown) -> Row:
    """One entry, those struck out marked."""
    struck = "struck out: " if entry.struck else ""
    step = f"step {entry.step}" if entry.step else ""
    taken = f" ({moment(entry.reading.taken_at)})" if entry.reading and entry.reading.late_for else ""
    told = f"{struck}{write(entry.words, shown)}{taken}"
    return Row((str(entry.number), moment(entry.at), step, told), Tone.QUIET if entry.struck else Tone.PLAIN)


def spare_history(gone: SpareGone, shown: Shown) -> Page:
    """A row for each moment, a column for each zone."""
    names = list(dict.fromkeys(point.label for point in gone.points))
    by_moment: dict[int, dict[str, MomentOfSpare]] = {}
    for point in gone.points:
        by_moment.setdefault(point.entry, {})[point.label] = point
    rows = []
    for entry, found in by_moment.items():
        first = next(iter(found.values()))
        told = (write_figure(found[name].spare, shown, "n") if name in found else "" for name in names)
        rows.append((str(entry), str(first.heats), str(first.step), *told))
    below = [f"Spare in {shown.system} above the least that the drawing allows."]
    if gone.left_out:
        below.append(
            "Shown are the beginning, each way back, the end of each step that shapes the metal, the last"
            f" heat or step and some of the others; left out are {gone.left_out}, which `--every` tells too."
        )
    return page(
        section("", [table(rows, ("entry", "heats", "step", *names))]),
        section("", [Line(" ".join(below))]),
    )
