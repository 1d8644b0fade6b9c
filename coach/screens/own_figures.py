"""What the jobs of the shop have taught of it: each figure with the jobs it rests on, left out by a key."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import Static

from coach.bench.own_figures import OfOneJob, OwnFigure, OwnFigures, bring_back, leave_out, own_figures
from coach.screens.page_content import page_in_window, width_in_window
from coach.screens.screen import CoachScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.panel import Lines
from coach.screens.widgets.row_list import SIGN, RowList
from coach.screens.wording import Ink, in_columns, one_line
from coach.telling.of_shop import FIGURE_HEADS, beside_figures_page, figure_cells, lesson_cells
from coach.telling.words import sentence

WAY_IN = {
    "from": ("shop",),
    "key": "shift+f9",
    "words": "Taught",
    "told": "What your jobs have taught of your shop",
}

#: The column that is cut short where there is little room, and those that are left out before that.
_GIVES, _LEAVES = 0, (1, 3)


#: What jobs say stands so much further in than the figure.
_DEEPER = 2


class _Row(NamedTuple):
    """One row: a figure, or what one job says of it."""

    figure: OwnFigure
    lesson: OfOneJob | None  # None in the row of the figure itself

    @property
    def named(self) -> tuple[str, ...]:
        """What tells it from the others."""
        figure, job = self.figure, self.lesson.job if self.lesson is not None else ""
        return figure.what, figure.fire, figure.hammer, str(figure.forging_mm), job

    @property
    def left_out(self) -> bool:
        """Whether it counts no more: of a figure, all that jobs say of it."""
        if self.lesson is not None:
            return bool(self.lesson.left_out)
        return bool(self.figure.jobs) and all(one.left_out for one in self.figure.jobs)


class OwnFiguresScreen(CoachScreen):
    """Every figure of the shop beside the published one; Enter leaves out what is chosen, or counts it."""

    CSS_PATH = "own_figures.tcss"
    OVER = True
    NAME = "What your jobs have taught"
    HELP_TEXT = """
        Each figure of the shop stands beside the published one, with what a new job begins with and how much
        it rests on; under it stands what each job says of it by its own readings. While jobs are few, what
        they say is drawn towards the published figure.

        Enter on a job leaves out what it said of that figure: new jobs begin without it. Enter on the figure
        leaves out what every job said of it. Enter once more lets it count again. Jobs that are begun keep
        what they began with: there it is struck out in the job's own log.

        Below stands how true it came what finished jobs were told.
    """
    BINDINGS = [
        key("enter", "turn", "Leave out", "Leave out what is chosen, or count it again", group="Write"),
        key("escape,shift+f9", "close", "Back", "Go back"),
    ]

    _own: OwnFigures | None = None

    def compose(self) -> ComposeResult:
        self.picks = RowList[_Row](id="figures")
        heads, words = Static(id="heads", markup=False), Lines(can_focus=False)
        yield from self.framed(self.NAME, heads, self.picks, words, AnswerLine())

    def on_mount(self) -> None:
        self.picks.focus()
        self.fill()

    def on_resize(self) -> None:
        if self._own is not None:
            self._show()

    def fill(self) -> None:
        """Reckon what the jobs have taught anew, and show it."""
        self._own = self.attempt(partial(own_figures, self.coach.shop))
        if self._own is None:
            return
        self._show()
        told = "Enter leaves out what is chosen, or counts it again." if self._own.figures else ""
        self.tell(told or "Nothing is taught yet: Esc goes back.")

    def _show(self) -> None:
        assert self._own is not None
        rows = [*self._rows(self._own)]
        cells = [FIGURE_HEADS, *(self._cells(row) for row in rows)]
        inks = [Ink.LABEL, *(Ink.QUIET if row.left_out else Ink.PLAIN for row in rows)]
        width = width_in_window(self.app.size.width) - len(SIGN)
        deep = [0, *(_DEEPER * (row.lesson is not None) for row in rows)]
        written = [
            (one_line(first, ink, indent=indent), *(one_line(cell, ink) for cell in others))
            for (first, *others), ink, indent in zip(cells, inks, deep, strict=True)
        ]
        head, *told = in_columns(written, width, gives=_GIVES, leaves=_LEAVES)
        by_row = dict(zip(map(id, rows), told, strict=True))
        blank = one_line("", indent=len(SIGN))
        self.query_one("#heads", Static).update(Content.assemble(blank, head))
        self.picks.fill(
            rows, lambda row: Content.assemble(blank, by_row[id(row)]), self.picks.highlighted or 0
        )
        self.picks.display = self.query_one("#heads").display = bool(rows)
        page = beside_figures_page(self._own, self.shown)
        self.query_one("#lines", Lines).show(page_in_window(page, self.app.size.width))

    def _rows(self, own: OwnFigures) -> Iterator[_Row]:
        for figure in own.figures:
            yield _Row(figure, None)
            for lesson in figure.jobs:
                yield _Row(figure, lesson)

    def _cells(self, row: _Row) -> tuple[str, ...]:
        if row.lesson is None:
            return figure_cells(row.figure, self.shown)
        return lesson_cells(row.lesson, self.shown)

    def action_turn(self) -> None:
        """Leave out what is chosen where it counts, and count it again where it does not."""
        row = self.picks.chosen
        if row is None:
            return
        deed = bring_back if row.left_out else leave_out
        job = row.lesson.job if row.lesson is not None else ""
        done = self.attempt(partial(deed, self.coach.shop, row.figure.what, job))
        if done is not None:
            self.fill()
            self.picks.choose(lambda one: one.named == row.named)  # jobs stand as they were touched last
            self.tell(sentence(done, self.shown))
