"""The plan: what to take from the rack, where to mark it, and what each step should leave."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from textual.app import ComposeResult
from textual.content import Content

from coach.bench.planned import planned_tool
from coach.bench.session import Session
from coach.drawing.braille import stacked
from coach.drawing.job import finished_views, host_pieces, stock_views
from coach.ledger.plan import Plan
from coach.screens.page_content import page_content
from coach.screens.screen import CoachScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.panel import Lines
from coach.screens.widgets.picture import lines_content
from coach.screens.wording import Ink, joined, one_line
from coach.telling.page import page
from coach.telling.plan import plan_page
from coach.telling.writing import Shown

WAY_IN = {"key": "ctrl+l", "words": "Plan", "told": "Show the plan of this job"}

_NARROWEST, _WIDEST = 20, 100
_BLANK = Content("")


class PlanScreen(CoachScreen):
    """A recipe reckoned through; of a recipe not yet begun, Enter begins the job."""

    CSS_PATH = "plan.tcss"
    OVER = True
    NAME = "The plan"
    HELP_TEXT = """
        Marks are measured along the cold bar from one end, all from the same end. A length to cut is
        shorter than the finished part where the part will still be drawn longer. The sizes under each
        step are what it should leave when all goes as the recipe says; the forecast tells how likely it
        is that the metal suffices.
    """
    BINDINGS = [
        key("enter", "begin", "Begin the job", "Begin a job from this recipe"),
        key("escape", "close", "Back", "Go back"),
    ]

    def __init__(self, of: Session | Plan, path: Path | None = None) -> None:
        """The plan that a job follows now, or that of a recipe not yet begun, with its path.

        Raises LedgerError when the metal does not balance.
        """
        super().__init__()
        self._plan = of if isinstance(of, Plan) else of.plan
        self._shown = Shown(of.recipe.system if isinstance(of, Plan) else of.system)
        self._planned = planned_tool(self._plan)
        self._path = path

    def compose(self) -> ComposeResult:
        told = "Enter begins the job; Esc goes back." if self._path else "Esc goes back to the work."
        yield from self.framed(f"Plan: {self._planned.title}", Lines(), AnswerLine(told))

    def on_resize(self) -> None:
        self.call_after_refresh(self._draw)

    def _draw(self) -> None:
        width = min(max(self.query_one(Lines).room, _NARROWEST), _WIDEST)
        told, count = plan_page(self._planned, self._shown).sections, len(self._planned.steps)
        before, steps = (page_content(page(*part), width) for part in (told[:-count], told[-count:]))
        words = [before, *self._pictures(width), _BLANK, steps]
        self.query_one(Lines).show(joined(words))

    def _pictures(self, width: int) -> Iterator[Content]:
        """Each bar with its marks, and the finished tool."""
        plan = self._plan
        told = [(f"The bar of the {piece}", stock_views(plan, piece)[:1], 7) for piece in plan.recipe.pieces]
        told += [(f"The finished {piece}", finished_views(plan, piece), 18) for piece in host_pieces(plan)]
        for title, views, rows in told:
            if lines := stacked(views, (), width, rows, shown=self._shown):
                yield joined([_BLANK, one_line(title, Ink.LABEL), lines_content(lines)])

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        return self._path is not None if action == "begin" else True

    def action_begin(self) -> None:
        if self._path is not None:
            self.coach.begin_job(self, self._path)
