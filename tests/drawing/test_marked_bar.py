"""A bar with its marks: every figure stands at its own mark, however wide the window."""

from __future__ import annotations

import re
from itertools import accumulate

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.drawing.cells import Line, as_text, cell_width
from coach.drawing.marked_bar import marked_bar
from coach.ledger.plan import BarOfZone, HoleCentre, MarkOnBar, PlannedPiece, Stock
from coach.quantities.figure import Figure, Kind, grams, mm
from coach.telling.figures import write_figure
from coach.telling.writing import Shown

METRIC = Shown()
NAMES = ("poll", "eye", "blade", "bit", "shoulder", "tang", "point")


def piece(
    lengths_mm: list[float],
    *,
    holes: tuple[int, ...] = (),
    left_mm: float | None = None,
    cut_in: int | None = 7,
) -> PlannedPiece:
    """An invented piece, with holes in the middle of some of its zones."""
    ends = list(accumulate(lengths_mm))
    names = NAMES[: len(lengths_mm)]
    marks = [
        MarkOnBar(mm(end), name, after, None if after else 7)
        for end, name, after in zip(ends, names, [*names[1:], None], strict=True)
    ]
    centres = tuple(HoleCentre(names[one], mm(ends[one] - lengths_mm[one] / 2)) for one in holes)
    zones = tuple(
        BarOfZone(name, mm(length), Figure(100.0 * length, Kind.VOLUME))
        for name, length in zip(names, lengths_mm, strict=True)
    )
    bar = None if left_mm is None else mm(ends[-1] + left_mm)
    left = None if left_mm is None else mm(left_mm)
    stock = Stock("square", (mm(10.0),))
    return PlannedPiece(
        "hook", "mild steel", stock, mm(ends[-1]), grams(1.0), zones, tuple(marks), centres, bar, left
    )


def text(lines: tuple[Line, ...]) -> list[str]:
    return as_text(lines).splitlines()


def test_marks_are_gaps_to_scale_and_their_figures_stand_over_them() -> None:
    told = text(marked_bar(piece([30.0, 60.0, 10.0], holes=(1,)), 57, METRIC))
    # 100 mm in 51 cells, the rest of the bar in six: the marks at 15.3 and 45.9, the hole at 30.6.
    assert told == [
        "0             30             60             90    100",
        "│              │              │              │     │",
        "███████████████▌██████████████○██████████████▌█████ ░░░░░",
        "███████████████▌██████████████○██████████████▌█████ ░░░░░",
        "poll            eye         hole              blade cut",
    ]


@pytest.mark.parametrize(("left_mm", "ends"), [(None, " ░░░░░"), (40.0, " ░░░░░"), (0.0, ""), (-25.0, "·")])
def test_the_end_shows_whether_the_bar_goes_on_or_is_short(left_mm: float | None, ends: str) -> None:
    told = text(marked_bar(piece([100.0], left_mm=left_mm), 46, METRIC))
    bar = next(line for line in told if line.startswith("█"))
    assert bar.endswith(ends or "█")
    if left_mm == -25.0:  # a quarter of 40 cells
        assert bar == "█" * 30 + "·" * 10


def test_a_window_too_narrow_for_a_bar_shows_none() -> None:
    assert marked_bar(piece([30.0, 70.0]), 10, METRIC) == ()


LENGTHS = st.lists(st.floats(0.5, 300.0), min_size=1, max_size=len(NAMES))


@given(
    lengths=LENGTHS,
    columns=st.integers(30, 160),
    system=st.sampled_from(["mm", "in"]),
    holes=st.sets(st.integers(0, len(NAMES) - 1)),
)
def test_whatever_is_marked_no_line_runs_over_and_every_figure_is_told_once(
    lengths: list[float], columns: int, system: str, holes: set[int]
) -> None:
    shown = Shown("in") if system == "in" else METRIC
    there = tuple(sorted(one for one in holes if one < len(lengths)))
    planned = piece(lengths, holes=there)
    lines = marked_bar(planned, columns, shown)
    told = text(lines)
    assert all(cell_width(line) <= columns for line in told)
    if not told:
        return
    bar = next(at for at, line in enumerate(told) if line.startswith(("█", "▌", "○")))
    above = [span.text for line in lines[: bar - 1] for span in line]
    figures = " ".join(above).replace("│", " ")
    for at in (*(one.at for one in planned.marks), *(one.at for one in planned.centres)):
        assert write_figure(at, shown, "n") in figures
    whole = [re.sub(r"(?<=\d) (?=\d)", "_", line) for line in told]
    # Under every figure, in every row down to the bar, its line or itself is unbroken.
    for place, letter in enumerate(told[bar - 1]):
        if letter == "│":
            column = [line[place] if place < len(line) else " " for line in whole[: bar - 1]]
            first = max((at for at, one in enumerate(column) if one not in " │"), default=-1)
            assert all(one == "│" for one in column[first + 1 :])
