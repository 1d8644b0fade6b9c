"""A recipe that is proposed: the piece to scale, what to take, what is cut short, where doubt comes from."""

from __future__ import annotations

from coach.bench.planned import Planned
from coach.quantities.words import NOTHING, Words
from coach.telling.page import Line, Page, page, section, table
from coach.telling.plan import NOTHING_DRAWN, Drawings, bar_text, cut_rows, doubt_lines, facts, right_first
from coach.telling.words import write
from coach.telling.writing import Shown


def drafted_page(
    planned: Planned, shown: Shown, drawn: Drawings = NOTHING_DRAWN, otherwise: Words = NOTHING
) -> Page:
    """What a smith looks at before the file is begun; first what is otherwise than it was answered."""
    return page(
        section(planned.title, facts(planned, shown)),
        section("Otherwise than answered", [Line(write(otherwise, shown), mark="!")]),
        right_first(planned, shown),
        *(
            section(f"The finished {piece}", [Line(lines, as_it_stands=True)])
            for piece, lines in drawn.finished.items()
        ),
        section("Stock", (Line(f"{one.piece}: {bar_text(one, shown)}", mark="-") for one in planned.pieces)),
        section("Lengths to cut", [table(cut_rows(planned, shown))]),
        section("", doubt_lines(planned, shown)),
    )
