"""The sheet of a job: the drawing against the tool, what it took, what it taught, and the picture."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.content import Content
from textual.widgets import Input

from coach.bench.sheet import Sheet
from coach.drawing.job import host_pieces, views_now
from coach.ledger.verdict import PlanState
from coach.quantities import Figure
from coach.screens.page_content import section_lines
from coach.screens.places import keys_from
from coach.screens.screen import JobScreen, LiveScreen, key
from coach.screens.sheet_rows import TWO_FROM, headed, in_one, in_two
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.box import Box
from coach.screens.widgets.face import Block, Face, Weight, rows_of_figures
from coach.screens.widgets.head_line import HeadLine
from coach.screens.widgets.pane import rule
from coach.screens.widgets.panel import Lines
from coach.screens.widgets.picture import Picture
from coach.screens.wording import Ink, in_signs, joined
from coach.telling.figures import write_figure
from coach.telling.next_time import next_time_section
from coach.telling.page import Line, Section
from coach.telling.sheet import (
    STATE_SIGNS,
    STATE_TONES,
    lost_section,
    notes_section,
    open_section,
    others_text,
    picture_title,
    shop_tests_section,
    stands_line,
    steps_section,
    taken_section,
    taught_section,
    treatment_section,
    ways_section,
    when_text,
)
from coach.telling.why import chance_beside, reason_text
from coach.telling.writing import Shown

WAY_IN = {
    "from": ("bench", "resume"),
    "key": "ctrl+e",
    "words": "Sheet",
    "told": "Show drawing and tool, size by size",
}

_MINUTE_S, _HOUR_S = 60.0, 3600.0
#: The face gives way in a window lower than this.
_FACE_FROM_ROWS = 18
_TELLING_FROM = 60
_WIDE_FROM = (116, 36)
_FIRST_INK = "bold $accent"
_STATE_INKS = {PlanState.ON_PLAN: Ink.GOOD, PlanState.TIGHT: Ink.CARE, PlanState.OFF_PLAN: Ink.BAD}
_SHOWS_CHANGES = "N shows these changes of the recipe and makes those that you choose."
_USUAL_TELLING = "`coach sheet {} --out FILE.html` keeps it to show."
_DOES_BETTER = "n: what to do better. "


class SheetScreen(LiveScreen):
    """A job from its drawing to the tool, at its end or so far."""

    CSS_PATH = "sheet.tcss"
    NAME = "The sheet of a job"
    HELP_TEXT = """
        The drawing against the tool, size by size: what was wanted and what came. ✓ is within what was
        drawn; ≈ is too, as it was read less the scale since; ✗ under or over, with how far; ? too near a
        limit for the gauge; ○ let go by a way back; · not measured since it was last worked, or still to
        come. Nothing that was not measured counts as come.

        Below stand the tests, what it took beside what was planned, what was learned, the notes and what
        is left to put right; hours go by the moments of the entries, rests left out. Tab shows the tool.

        The sheet can be asked for at any time. A finished tool may be measured again at the bench, and F5
        takes its last step up again. F6 writes a note for next time; N shows what cost most metal, heats and
        chance, and makes the changes of the recipe that you choose.
    """
    BINDINGS = [
        key("enter", "bench", "Bench", "Go to the bench, to measure the tool again", first=False, group="Go"),
        key("f5", "again", "Back", "Go back to the last finished step", group="Step"),
        key("f6", "note", "Note", "Write a note for next time", group="Write"),
        *keys_from("sheet"),
        key("tab", "turn_page", "Picture", "The tool to scale, or the sheet again", group="See"),
        key("escape,ctrl+e", "close", "Back", "Go back", group="Go"),
    ]

    _pictured = False  # Tab has turned to the picture
    _costs: Section | None = None  # what to do better next time, once a finished job was looked through

    def compose(self) -> ComposeResult:
        yield HeadLine(id="head")
        yield Face()
        with Container(id="body"):
            yield Lines(id="lines")
            with Vertical(id="beside"):
                yield Picture(id="picture")
                yield Lines(id="taken", can_focus=False)
        yield AnswerLine(self._usually())
        box = Box(placeholder="type the note, then Enter")
        box.display = False
        yield box
        yield from self.rim()

    def on_resize(self, event: events.Resize) -> None:
        self.call_after_refresh(self.fill)

    def _usually(self) -> str:
        """How the sheet is kept; nothing where the line is worth more."""
        told, width = _USUAL_TELLING.format(self.session.job), self.app.size.width
        told = f"{_DOES_BETTER}{told}" if len(_DOES_BETTER) + len(told) <= width - 2 else told
        return told if width >= _TELLING_FROM else ""

    @property
    def _is_wide(self) -> bool:
        width, height = self.app.size
        return width >= _WIDE_FROM[0] and height >= _WIDE_FROM[1]

    @property
    def _is_over_a_job(self) -> bool:
        """Whether what lies below is of the job too, and not the shop."""
        screens = self.app.screen_stack
        return self in screens[1:] and isinstance(screens[screens.index(self) - 1], JobScreen)

    # ── drawing ──────────────────────────────────────────────────────────────────────────────────

    def fill(self) -> None:
        sheet, (width, height) = self.session.sheet(), self.app.size
        fix = f"fix {len(sheet.to_right)}  " if sheet.to_right else ""
        head = f"{sheet.steps_done}/{sheet.steps}  {sheet.title}  {when_text(sheet)}"
        rows = rows_of_figures(width, height) if height >= _FACE_FROM_ROWS else 0
        with self.app.batch_update():
            self.query_one(HeadLine).show(head, f"{fix}sheet")
            self.query_one(Face).show(_blocks(sheet, self.shown), rows)
            self.query_one("#beside").display = self._is_wide or self._pictured
            self.query_one("#lines").display = self._is_wide or not self._pictured
            self.query_one("#taken").display = self._is_wide
            self.query_one("#body").set_class(self._is_wide, "-beside")
            self.tell_keys()
        # A part has its width only once it is laid out.
        self.call_after_refresh(self._fill_parts, sheet, not rows)

    def _fill_parts(self, sheet: Sheet, tells_verdict: bool) -> None:
        lines, taken = self.query_one("#lines", Lines), self.query_one("#taken", Lines)
        wide = self._is_wide
        told = list(_sheet_lines(sheet, self.shown, max(lines.room, 1), wide=wide, verdict=tells_verdict))
        told += headed(self._costs, max(lines.room, 1)) if self._costs is not None and sheet.finished else []
        lines.show(joined(told))
        if wide:
            taken.show(joined(headed(taken_section(sheet, self.shown), max(taken.room, 1))))
        if wide or self._pictured:
            self.once_shown(self._draw)
        if sheet.finished and self._costs is None:
            self.once_shown(self._look_back)

    def _look_back(self) -> None:
        """What cost most, below all else: it takes a while, so that the sheet stands there before."""
        found = self.attempt(partial(self.coach.shop.next_time, self.session))
        if found is not None:
            told = next_time_section(found, self.shown)
            hint = [Line(_SHOWS_CHANGES)] if any(cost.edit is not None for cost in found.costs) else []
            self._costs = told._replace(body=(*told.body, *hint))
            self.fill()

    def _draw(self) -> None:
        """The tool to scale; of several pieces the first."""
        plan, sheet = self.session.plan, self.session.sheet()
        piece = next(iter(host_pieces(plan)), self.session.piece_in_hand())
        views = views_now(plan, piece, self.session.forms_came())
        self.query_one(Picture).show_views(picture_title(sheet, plan.recipe, piece), views, (), self.shown)

    # ── keys ─────────────────────────────────────────────────────────────────────────────────────

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Each key where it does something: the bench over the shop, the picture where it stands apart."""
        if action == "again":
            return self.session.standing().step is None
        return not self._is_wide if action == "turn_page" else True

    def action_turn_page(self) -> None:
        self._pictured = not self._pictured
        self.fill()
        if not self._pictured:
            self.query_one("#lines").focus()

    def action_again(self) -> None:
        answer = self.attempt(self.session.back)
        if answer is not None and self._is_over_a_job:
            self.dismiss(answer)
        elif answer is not None:
            self.coach.go("bench", self.session, self.said(answer))

    def action_bench(self) -> None:
        if self._is_over_a_job:
            self.dismiss()
        else:
            self.coach.go("bench", self.session)

    def action_note(self) -> None:
        box = self.query_one(Input)
        box.display = True
        box.focus()
        self.tell("A note for next time; Esc leaves it.")

    @on(Input.Submitted, "#typed")
    def _typed(self, event: Input.Submitted) -> None:
        if self.enter(lambda: self.session.note(event.value)):
            self._stop_typing()

    def _stop_typing(self) -> None:
        box = self.query_one(Input)
        box.value, box.display = "", False
        self.query_one("#lines").focus()

    def action_open(self, place: str) -> None:
        self.coach.lay_over(place, self.session, then=lambda _: self.fill())

    def action_close(self) -> None:
        if self.query_one(Input).display:
            self._stop_typing()
            self.tell(self._usually())
        elif self._pictured and not self._is_wide:
            self.action_turn_page()
        else:
            self.dismiss()


def _blocks(sheet: Sheet, shown: Shown) -> list[Block]:
    """The face: sizes as drawn, heats, time at the fire, and the verdict."""
    heats, due = sheet.heats, sheet.heats.planned if sheet.finished else sheet.heats.planned_so_far
    marked = heats.taken - heats.unmarked
    unmarked = (f", {marked} marked" if marked else ", unmarked") if heats.unmarked else ""
    hours, figure = _clock(sheet.time.at_the_fire)
    unknown: tuple[str, ...] = ()
    if sheet.time.not_known:  # was put down afterwards
        hours, figure, unknown = "hours", "", ("not known" if sheet.time.none_known else "partly known",)
    done = sheet.finished and sheet.verdict is PlanState.ON_PLAN
    return [
        Block(
            "sizes as drawn",
            f"{sheet.as_drawn}/{sheet.asked}",
            ink=_FIRST_INK,
            caption=others_text(sheet),
        ),
        Block(f"heats{unmarked}", str(heats.taken), caption=f"planned {due}"),
        Block(f"fire, {hours}", figure, lines=unknown, caption=_lost(sheet, shown)),
        Block(
            "DONE" if done else sheet.verdict.upper(),
            STATE_SIGNS[sheet.verdict],
            ink=_STATE_INKS[sheet.verdict],
            caption=in_signs(chance_beside(sheet.verdict, sheet.chance)),
            weight=Weight.SIGN,
        ),
    ]


def _clock(time: Figure) -> tuple[str, str]:
    """A time as it is drawn large, and what it counts."""
    if time.value < 100 * _MINUTE_S:
        return "minutes", f"{time.value / _MINUTE_S:.0f}"
    minutes = round(time.value / _MINUTE_S)
    return (
        "hours",
        f"{minutes // 60}:{minutes % 60:02d}" if time.value < 10 * _HOUR_S else f"{minutes / 60:.0f}",
    )


def _lost(sheet: Sheet, shown: Shown) -> str:
    if sheet.metal is None:
        return ""
    return f"lost {write_figure(sheet.metal.lost, shown)} of {write_figure(sheet.metal.used, shown)}"


def _sheet_lines(sheet: Sheet, shown: Shown, width: int, *, wide: bool, verdict: bool) -> Iterator[Content]:
    """Everything but the face and, in a large window, what stands beside it."""
    if verdict:
        yield from section_lines(Section("", (stands_line(sheet, shown),)), width, hangs=True)
    two = None if wide or width < TWO_FROM else in_two(sheet, shown, width)
    heads = "wanted, came" if two else ""
    yield rule("Finished" if sheet.finished else "So far", width, heads)
    if two is None:
        yield from in_one(sheet, shown, width)
    else:
        yield from two
    if not verdict and sheet.verdict is not PlanState.ON_PLAN:  # the face tells it without its reason
        why = Line(reason_text(sheet.reason, shown), tone=STATE_TONES[sheet.verdict])
        yield from headed(Section(sheet.verdict.capitalize(), (why,)), width)
    left = open_section(sheet, shown)
    parts = [
        shop_tests_section(sheet),
        treatment_section(sheet, shown),
        *([] if wide else [taken_section(sheet, shown)]),
        taught_section(sheet, shown),
        notes_section(sheet),
        lost_section(sheet, shown),
        ways_section(sheet, shown),
        steps_section(sheet),
    ]
    # What is still to be done comes first, that there is nothing last but the steps.
    parts.insert(0 if sheet.to_right or sheet.left_out else -1, left)
    for part in parts:
        yield from headed(part, width)
