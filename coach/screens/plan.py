"""The plan: what to take from the rack, where to mark it, and what each step should leave."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.widgets import OptionList, Static

from coach.bench.begun_with import Known
from coach.bench.planned import PlannedStep, planned_tool
from coach.bench.session import Session
from coach.drawing.braille import stacked
from coach.drawing.job import finished_views, host_pieces
from coach.drawing.marked_bar import marked_bar
from coach.ledger.plan import Plan
from coach.screens.page_content import page_content
from coach.screens.plan_face import face_of_plan
from coach.screens.plan_rows import StepRows, step_rows
from coach.screens.screen import CoachScreen, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.face import Face, rows_of_figures
from coach.screens.widgets.panel import Lines
from coach.screens.widgets.pick_list import PickList
from coach.screens.widgets.picture import lines_content
from coach.screens.wording import Ink, in_signs, joined, one_line, titled, wrapped
from coach.telling.page import Page, page, section
from coach.telling.plan import (
    bar_text,
    doubt_lines,
    facts,
    outcome_page,
    right_first,
    step_section,
    step_text,
    stock_page,
)
from coach.telling.why import chance_beside, reason_text
from coach.telling.writing import Shown

WAY_IN = {"key": "ctrl+l", "words": "Plan", "told": "Show the plan of this job"}

BAR, STEPS, SIZES = "Bar", "Steps", "Sizes"
_NARROWEST, _WIDEST = 20, 100
#: From so many cells on the steps stand beside the page that is turned to.
_BESIDE_FROM = 118
_FACE_FROM_ROWS = 16
#: A blank on either side, and where it is scrolled from.
_MARGINS = 3
#: A finished piece is drawn in so many rows at least, and at most.
_LEAST_DRAWN, _MOST_DRAWN = 7, 18
_BLANK = Content("")


class PlanScreen(CoachScreen):
    """A recipe reckoned through; of a recipe not yet begun, a key begins the job."""

    CSS_PATH = "plan.tcss"
    OVER = True
    NAME = "The plan"
    HELP_TEXT = """
        Above stands what to take and how long it takes: the bar, the heats, the hours, and how likely it is
        that the metal suffices.

        The bar is drawn to scale along its length, each figure over its own mark. Marks are measured along
        the cold bar from one end, all from the same end. A length to cut is shorter than the finished part
        where the part will still be drawn longer.

        The steps stand in a table: their heats, how long those take one smith, the doubt that the step adds
        to the size that decides, where that is much, and how well that size is known after it when nothing
        is measured on the way. Of cold work and of treatments the time is not known. Enter shows the chosen
        step in full; the sizes that it leaves are what comes of it when all goes as the recipe says.
    """
    BINDINGS = [
        # Not before the list's own: arrows that were pressed just before it come first.
        key("enter", "step", "Step", "Show the chosen step in full", group="See", first=False),
        key("left", "beside(-1)", "Before", "The step before, in full", group="See"),
        key("right", "beside(1)", "Next", "The next step, in full", group="See"),
        key("tab", "turn", "Page", "The next page: the bar, the steps, the sizes", group="See"),
        key("pagedown", "page(1)", "Down", "Go on down the page", group="See"),
        key("pageup", "page(-1)", "Up", "Go back up the page", group="See", show=False),
        key("b", "begin", "Begin", "Begin a job from this recipe", group="Step"),
        key("escape,ctrl+l", "close", "Back", "Go back", group="Go"),
    ]

    _page = BAR
    _opened = False  # the chosen step stands in full
    _rows: StepRows | None = None
    _at = 0  # the chosen step, by its place

    def __init__(self, of: Session | Plan, path: Path | None = None, known: Iterable[Known] = ()) -> None:
        """The plan that a job follows now, or that of a recipe not yet begun, with its path.

        `known` is what a job of that recipe would be begun with of the shop and of the hand.

        Raises LedgerError when the metal does not balance.
        """
        super().__init__()
        self._plan = of if isinstance(of, Plan) else of.plan
        self._shown = Shown(of.recipe.system if isinstance(of, Plan) else of.system)
        self._planned = planned_tool(of, known) if isinstance(of, Plan) else of.as_planned()
        self._path = path
        self._title = f"Plan: {self._planned.title}"
        if not isinstance(of, Plan) and (standing := of.standing()).last_entry > 1:
            chance = in_signs(chance_beside(standing.verdict, standing.chance))
            stands = ", ".join(filter(None, (standing.verdict, chance)))
            began = of.plan.as_written == of.recipe_begun_by
            self._title += f", {'as it began' if began else 'as changed since'}; now {stands}"
        self._picks: PickList[PlannedStep] = PickList(id="steps")

    def compose(self) -> ComposeResult:
        doubt = Static(id="doubt", markup=False)
        steps = Vertical(Static(id="steps-rule", markup=False), self._picks, doubt, id="steps-side")
        beside = Vertical(Static(id="page-rule", markup=False), Lines(), id="page-side")
        body = Horizontal(steps, beside, id="plan")
        yield from self.framed(self._title, Face(), body, AnswerLine())

    def on_mount(self) -> None:
        self.query_one("#doubt", Static).update(one_line(self._doubt(), Ink.QUIET))
        self._lay_out()
        self._tell_page()

    def on_resize(self) -> None:
        self._lay_out()
        self.call_after_refresh(self._draw)

    # ── what is shown ────────────────────────────────────────────────────────────────────────────

    @property
    def _is_beside(self) -> bool:
        """Whether the steps stand beside the page."""
        return self.app.size.width >= _BESIDE_FROM

    @property
    def _room(self) -> int:
        """The cells that a line of the page, or of the list beside it, may take."""
        width = self.app.size.width // (2 if self._is_beside else 1)
        return max(width - _MARGINS, _NARROWEST)

    @property
    def _turned_to(self) -> str:
        """The page that is shown; where the steps stand beside it, they are none of its pages."""
        return BAR if self._is_beside and self._page == STEPS else self._page

    @property
    def _lists(self) -> bool:
        """Whether the steps are there to choose from."""
        return self._is_beside or (self._turned_to == STEPS and not self._opened)

    def _lay_out(self) -> None:
        """What stands on the screen at this size and page."""
        width, height = self.app.size
        rows = rows_of_figures(width, height) if height >= _FACE_FROM_ROWS else 0
        self.query_one(Face).show(face_of_plan(self._planned, self._shown, width), rows)
        self.query_one("#steps-side").display = self._lists
        self.query_one("#doubt").display = self._is_beside
        self.query_one("#page-side").display = self._is_beside or not self._lists
        (self._picks if self._lists else self.query_one(Lines)).focus()
        self.tell_keys()

    def _turned(self) -> None:
        """Show another page, or another step, from its top."""
        self._lay_out()
        self._tell_page()
        self.query_one(Lines).scroll_home(animate=False)
        self.call_after_refresh(self._draw)

    def _draw(self) -> None:
        """Word what is shown for the room there is."""
        if self._lists:
            self._draw_steps()
        lines = self.query_one(Lines)
        if self.query_one("#page-side").display:
            self.query_one("#page-rule", Static).update(self._rule(self._room))
            lines.show(self._content(min(self._room, _WIDEST), lines.size.height))

    def _draw_steps(self) -> None:
        width = self._room
        if self._rows is None or self._rows.width != width:
            self._rows = rows = step_rows(self._planned, self._shown, width)
            steps = self._planned.steps
            places = {id(one): at for at, one in enumerate(steps)}
            at = self._at
            self._picks.fill(
                steps, lambda one: rows.row(places[id(one)], chosen=places[id(one)] == at), chosen=at
            )
            self.query_one("#steps-rule", Static).update(rows.rule())

    def _rule(self, width: int) -> Content:
        """The name of the page, and those that Tab turns to."""
        pages = self._pages
        at = pages.index(self._turned_to)
        name = "Step" if self._opened else self._turned_to
        others = " · ".join([*pages[at + 1 :], *pages[:at]])
        right = "Esc closes it ─" if self._opened else f"Tab: {others} ─"
        left = f"─ {name} "
        told = f"{left}{'─' * max(width - len(left) - len(right) - 1, 1)} {right}"
        return one_line(told[:width], Ink.LABEL)

    @property
    def _pages(self) -> tuple[str, ...]:
        return (BAR, SIZES) if self._is_beside else (BAR, STEPS, SIZES)

    def _content(self, width: int, height: int) -> Content:
        if self._opened:
            return page_content(page(step_section(self._planned.steps[self._at], self._shown)), width)
        if self._turned_to == SIZES:
            return page_content(self._sizes(), width)
        first = right_first(self._planned, self._shown)
        words = stock_page(self._planned, self._shown).sections
        before = [page_content(page(first), width), _BLANK] if first.body else []
        after = page_content(page(section("", facts(self._planned, self._shown)), *words), width)
        return joined([*before, *self._pictures(width, height), after])

    def _sizes(self) -> Page:
        doubt = section("", doubt_lines(self._planned, self._shown))
        return page(doubt, *outcome_page(self._planned, self._shown).sections)

    def _pictures(self, width: int, height: int) -> Iterator[Content]:
        """Each bar with its marks, and the finished tool as large as there is room."""
        left = height
        for one in self._planned.pieces:
            bar = one_line(bar_text(one, self._shown), Ink.STRONG)
            words = wrapped(titled(one.piece.capitalize(), bar), width)
            told = joined([*words, lines_content(marked_bar(one, width, self._shown)), _BLANK])
            left -= told.plain.count("\n") + 1
            yield told
        hosts = host_pieces(self._plan)
        rows = min(max(left // max(len(hosts), 1) - 1, _LEAST_DRAWN), _MOST_DRAWN)
        for piece in hosts:
            lines = stacked(finished_views(self._plan, piece), (), width, rows, shown=self._shown)
            if lines:
                yield joined([one_line(f"The finished {piece}", Ink.STRONG), lines_content(lines), _BLANK])

    def _doubt(self) -> str:
        return " ".join(line.words for line in doubt_lines(self._planned, self._shown))

    def _tell_page(self) -> None:
        """Why it stands as it does; under the steps, what their doubts are of."""
        wrong = len(right_first(self._planned, self._shown).body)
        if self._opened:
            self.tell(step_text(self._planned, self._at, self._shown))
        elif self._lists and not self._is_beside:
            self.tell(self._doubt())
        elif wrong:
            self.tell(f"{wrong} to put right first, on the page of the bar.", bad=True)
        else:
            self.tell(reason_text(self._planned.reason, self._shown))

    # ── keys ─────────────────────────────────────────────────────────────────────────────────────

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        name = action.partition("(")[0]
        if name == "begin":
            return self._path is not None
        if name == "beside":
            return self._opened
        return not self._opened if name in ("turn", "step") else True

    @on(OptionList.OptionHighlighted)
    def _chosen_changed(self, event: OptionList.OptionHighlighted) -> None:
        if self._rows is None or event.option_index == self._at:
            return
        self._choose(event.option_index)

    def _choose(self, at: int) -> None:
        """Take another step as the chosen one, with the sign before its row."""
        was, self._at = self._at, at
        if self._rows is not None:
            for one in (was, at):
                row = self._rows.row(one, chosen=one == at)
                self._picks.replace_option_prompt_at_index(one, row)
        if self._opened:
            self._turned()

    @on(OptionList.OptionSelected)
    def _clicked(self, event: OptionList.OptionSelected) -> None:
        self._choose(event.option_index)
        self.action_step()

    def action_step(self) -> None:
        self._opened = True
        self._turned()

    def action_beside(self, by: int) -> None:
        at = min(max(self._at + by, 0), len(self._planned.steps) - 1)
        if at != self._at:
            self._choose(at)
            self._picks.highlighted = at

    def action_turn(self) -> None:
        pages = self._pages
        self._page = pages[(pages.index(self._turned_to) + 1) % len(pages)]
        self._turned()

    def action_page(self, by: int) -> None:
        if self._lists and not self._is_beside:
            rows, last = max(self._picks.size.height - 1, 1), len(self._planned.steps) - 1
            self._picks.highlighted = min(max(self._at + by * rows, 0), last)
        else:
            lines = self.query_one(Lines)
            (lines.scroll_page_down if by > 0 else lines.scroll_page_up)(animate=False)

    def action_close(self) -> None:
        if self._opened:
            self._opened = False
            self._turned()
        else:
            self.dismiss()

    def action_begin(self) -> None:
        if self._path is not None:
            self.coach.begin_job(self, self._path)
