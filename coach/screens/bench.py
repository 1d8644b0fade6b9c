"""The bench: one step, one number to type next, and whether the metal that is left is enough."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from textual import events
from textual.app import ComposeResult
from textual.containers import Container, Vertical
from textual.widgets import Static

from coach.bench.answer import Answer
from coach.bench.checks import Check
from coach.bench.replay import seconds_between
from coach.bench.session import Session
from coach.bench.standing import Standing
from coach.operations.gauges import GAUGES, by_gauge
from coach.quantities.words import counted, say
from coach.screens.bench_typing import TypingScreen
from coach.screens.bench_words import (
    BENCH_HELP,
    NOTE_PROMPTS,
    guide_words,
    heat_doubted,
    how_read,
    prompt_words,
    record_words,
    typing_words,
)
from coach.screens.places import in_order, keys_from
from coach.screens.screen import Given, key
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.big_band import BigBand
from coach.screens.widgets.big_size import BigSize
from coach.screens.widgets.check_table import CheckTable
from coach.screens.widgets.entry_box import EntryBox
from coach.screens.widgets.fire_clock import FireClock
from coach.screens.widgets.metal_panel import MetalPanel, needs_a_way_back
from coach.screens.widgets.panel import Panel
from coach.screens.widgets.picture import Picture
from coach.screens.widgets.step_head import StepHead
from coach.telling.entered import unsettled_text
from coach.telling.standing import wanted_text
from coach.telling.words import sentence, write

#: Seconds between two looks at the clock of the heat.
_TICK_S = 0.5
#: Lines that parts of the body take at two columns, their titles included.
_GUIDE_LINES, _METAL_LINES, _CHECKS_LINES = 7, 5, 7
#: Far apart and one at a time, for gloves.
_KEYS = [
    key("f2", "heat", "Out", "Out of the fire: count a heat, start its clock"),
    key("f3", "fire", "In", "Back in the fire: start the soak"),
    key("f4", "done", "Done", "Finish this step"),
    key("delete", "no_heat", "No heat", "Where the end of a step is asked for: it took no heat", show=False),
    key("f5", "back", "Back", "Go back to the last finished step", show=False),
    key("f6", "note", "Note", "Write a note; again, something to put right"),
    key("f7,minus", "hot", "Hot", "Say whether the next readings are hot or cold"),
    key("f8", "strike", "Undo", "Strike out the last entry"),
    key("escape", "leave", "Shop", "Go back to the shop"),
    key("f12,ctrl+y", "insist", "Insist", "Stand by a reading that was questioned", show=False),
    key("slash,ctrl+g", "gauge", "Gauge", "Read sizes with the next gauge", show=False),
    key("up", "choose(-1)", "Up", "Choose the size before", show=False),
    key("down", "choose(1)", "Down", "Choose the size after", show=False),
    key("pageup", "turn(-1)", "Page up", "Scroll the texts back", show=False),
    key("pagedown", "turn(1)", "Page down", "Scroll the texts on", show=False),
]


class BenchScreen(TypingScreen):
    """The screen that stays open while forging."""

    CSS_PATH = "bench.tcss"
    NAME = "The bench"
    HELP_TEXT = BENCH_HELP
    # The box takes them first, so that each comes behind what was typed before it.
    BINDINGS = [replace(one, priority=False) for one in in_order([*_KEYS, *keys_from("bench")])]

    def __init__(self, session: Session, notice: str = "", typed: str = "") -> None:
        super().__init__(session)
        self._brought, *self._held = typed.split("\n")  # what stands in the box at first, and waits behind it
        self._notice = notice
        self._ways: tuple[Standing, tuple[str, ...]] | None = None  # their titles, as it stood then

    def compose(self) -> ComposeResult:
        yield StepHead(id="head")
        yield BigBand()
        with Container(id="body"):
            yield Panel("To do", id="guide")
            with Vertical(id="next"):
                yield FireClock(id="clock")
                yield BigSize("Measure next", id="big", below=2)
            yield MetalPanel("Metal", id="metal")
            yield Panel("So far", id="record")
            with Vertical(id="lower"):
                yield CheckTable(id="checks")
                yield Picture(id="picture")
        with Container(id="entry"):
            yield AnswerLine()
            yield Static("", id="prompt", markup=False)
            yield EntryBox(self._brought, self)
        yield from self.rim()

    def on_mount(self) -> None:
        self.set_interval(_TICK_S, self.tick)
        self.choose_next()
        self.tell(self._notice or self._opening())
        self.hold([line for line in self._held if line])
        self._box.focus()

    def on_resize(self, event: events.Resize) -> None:
        self.call_after_refresh(self.fill)

    @property
    def moves(self) -> bool:
        return bool(self.query_one(FireClock).display)

    # ── drawing ──────────────────────────────────────────────────────────────────────────────────

    def fill(self) -> None:
        """Show where the job stands now; what takes longer follows once that can be seen."""
        standing = self.session.standing()
        check = self.check_shown(standing)
        columns = columns_at(*self.app.size)
        lines = metal_lines(columns, self.query_one("#body").size.height, len(standing.checks))
        with self.app.batch_update():
            self.query_one("#metal").styles.max_height = lines
            self.query_one(BigBand).show(standing, self.shown)
            guide = self.query_one("#guide", Panel)
            guide.show(guide_words(standing, self.shown, guide.room))
            self.query_one(BigSize).tell(check, self.shown, self._without_check(standing))
            self.tick()
            self._tell_ways(standing, columns)
            record = self.query_one("#record", Panel)
            record.show(record_words(standing, record.room))
            chosen = standing.checks.index(check) if check in standing.checks else None
            asks_none = (
                "This step asks for no measurement." if standing.step else "Nothing is left to measure."
            )
            self.query_one(CheckTable).show(standing.checks, chosen, self.shown, asks_none)
            self._draw_prompt(standing, check)
        if columns == 3 or self._known_ways(standing) is None:
            self.once_shown(self._show_the_rest)

    def _show_the_rest(self) -> None:
        """The ways back, and the picture where there is room for it beside everything else."""
        standing, columns = self.session.standing(), columns_at(*self.app.size)
        if self._known_ways(standing) is None:
            found = self.session.ways_back()
            self._ways = standing, tuple(write(way.title, self.shown) for way in found)
            with self.app.batch_update():
                self._tell_ways(standing, columns)
        if columns == 3:
            self.query_one(Picture).show_piece(self.session, self.session.piece_in_hand())

    def _known_ways(self, standing: Standing) -> tuple[str, ...] | None:
        """The titles of the ways back as far as they are reckoned; None where that is still to be done."""
        if not needs_a_way_back(standing):
            return ()
        return self._ways[1] if self._ways is not None and self._ways[0] is standing else None

    def _tell_ways(self, standing: Standing, columns: int) -> None:
        ways = self._known_ways(standing)
        self.query_one(StepHead).show(standing, self.shown, alone=columns == 1, ways=len(ways or ()))
        self.query_one(MetalPanel).tell(standing, self.shown, ways, in_lines=columns == 3)

    def tick(self) -> None:
        """Let the clock of the heat go on; where there is little room it takes the place of the next size."""
        clock = self.session.standing().clock
        seconds = seconds_between(clock.since, self.coach.now()) if clock is not None else 0.0
        dial = self.query_one(FireClock)
        if dial.tell(clock, seconds, self.shown):
            self.app.bell()
        self.query_one("#next").set_class(dial.display, "-timed")
        self.query_one(StepHead).clock = dial.words

    def _draw_prompt(self, standing: Standing, check: Check | None) -> None:
        box, prompt, hot = self._box, self.query_one("#prompt", Static), self.coach.hot
        if box.mode != "size":
            words, box.placeholder = NOTE_PROMPTS[box.mode]
        elif check is not None:
            how = how_read(check, standing, hot=hot, gauge=self.coach.choices.gauge)
            words, box.placeholder = prompt_words(wanted_text(check, self.shown), how), typing_words(check)
        else:
            words, box.placeholder = prompt_words(self._without_check(standing), ""), ""
        prompt.update(words)
        prompt.set_class(hot and box.mode == "size", "-hot")

    @staticmethod
    def _without_check(standing: Standing) -> str:
        if standing.step is None:
            return "The job is finished"
        return "Enter finishes the step" if standing.checks else "Nothing to measure: Enter finishes the step"

    def _opening(self) -> str:
        if left_out := self.session.standing().left_out:
            return sentence(left_out[0].words, self.shown)
        if self.session.standing().step is None:
            return "Every step of this job is done."
        return "Type what the gauge reads and press Enter; F1 explains the rest."

    def attempt(self, deed: Callable[[], Given]) -> Given | None:
        """Do something that can be refused; what others have entered meanwhile is shown with the refusal."""
        before = self.session.standing().last_entry
        answer = super().attempt(deed)
        if answer is None and self.session.standing().last_entry != before:
            self.choose_next()
            self.fill()
        return answer

    def catch_up(self) -> None:
        """Show what another window or a command has entered since."""
        before = self.session.standing().last_entry
        if self.look(self.session.refresh):
            self._question = ""
            latest = self.session.history()[-1]
            more = latest.number - before - 1
            others = f"{more} more, and last " if more > 0 else ""
            self.choose_next()
            self.tell(sentence(say("Entered elsewhere: {}{}", others, latest.words), self.shown))
            self.fill()

    def action_turn(self, by: int) -> None:
        for panel in (self.query_one("#body"), *self.query(Panel)):
            panel.scroll_relative(y=by * max(panel.size.height - 1, 1), animate=False)

    # ── what was typed ───────────────────────────────────────────────────────────────────────────

    def skip(self, standing: Standing) -> None:
        """Enter on an empty box: yes to a question, else the next check, or the end of the step."""
        if self._question == "heat":
            self._heat(sure=True)
        elif self._question:
            self._finish(always_ask=False)
        else:
            if self.check_shown(standing) is not None:
                self.action_choose(1)
            if self.check_shown(self.session.standing()) is None:
                self._finish(always_ask=True)

    # ── keys ─────────────────────────────────────────────────────────────────────────────────────

    def action_heat(self) -> None:
        self.in_turn(partial(self._heat, sure=False))

    def _heat(self, *, sure: bool) -> None:
        """A heat that the step has no use for, or that a held key may have marked, is asked about first."""
        if not sure and (doubted := heat_doubted(self.session.standing())):
            self._question = "heat"
            self.query_one(AnswerLine).tell(f"{doubted} Enter marks one more, Esc does not.", asks=True)
            return
        self.enter(self.session.heat)

    def action_fire(self) -> None:
        self.enter_in_turn(self.session.fire)

    def action_done(self) -> None:
        self.in_turn(partial(self._finish, always_ask=False))

    def _finish(self, *, always_ask: bool) -> None:
        warning, standing = self.session.done_warning(), self.session.standing()
        step, typed = standing.step, self._box.size_typed.strip()
        # A key pressed twice, or held too long by a glove, must not finish the step after it too.
        untouched = standing.heats == 0 and all(check.reading is None for check in standing.checks)
        asks = warning or untouched or always_ask or typed or self._counts_the_planned(standing)
        if step is not None and self._question != "done" and asks:
            self._question = "done"
            said = sentence(unsettled_text(warning, self.shown)) or "Nothing is left to measure."
            keys = "Enter or F4"
            if typed:
                said, keys = f"{typed} stands in the box and is not entered. {said}", "F4"
            again = f"{keys} finishes step {step.number}, Esc does not."
            if self._counts_the_planned(standing):
                planned = counted(step.heats_planned, "planned heat")
                again = f"No heat is marked: {keys} counts the {planned}, Delete none, Esc goes on."
            self.query_one(AnswerLine).tell(f"{said} {again}", asks=True)
            self.fill()
            return
        self.enter(self.session.done)

    @staticmethod
    def _counts_the_planned(standing: Standing) -> bool:
        """Whether the end of the step counts heats that nobody marked."""
        return standing.step is not None and standing.step.heats_planned > 0 and not standing.heats

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action != "no_heat":
            return super().check_action(action, parameters)
        return self._question == "done" and self._counts_the_planned(self.session.standing())

    def action_no_heat(self) -> None:
        self.enter_in_turn(partial(self.session.done, 0))

    def action_back(self) -> None:
        self.enter_in_turn(self.session.back)

    def action_note(self) -> None:
        self._question = ""
        self._box.turn()
        self.fill()

    def action_gauge(self) -> None:
        """Go on to the next gauge; past the last one the step's own counts again."""
        names = [None, *GAUGES]
        gauge = names[(names.index(self.coach.choices.gauge) + 1) % len(names)]
        self.coach.choose(self.coach.choices._replace(gauge=gauge))
        by = by_gauge(gauge) if gauge is not None else "with the gauge that each step names"
        self.tell(f"Sizes are now read {by}.")
        self.fill()

    def action_hot(self) -> None:
        self.coach.hot = not self.coach.hot
        how = "hot: the coach takes them back to cold" if self.coach.hot else "cold"
        self.tell(f"Readings are now taken {how}.")
        self.fill()

    def action_strike(self) -> None:
        self.enter_in_turn(self.session.strike)

    def action_insist(self) -> None:
        self.in_turn(self._insist)

    def _insist(self) -> None:
        check = self.check_shown(self.session.standing())
        if self._box.mode != "size" or check is None or check.reading is None or not check.reading.questioned:
            self.tell("Only a reading that was questioned can be insisted on.", bad=True)
            return
        self.sent(self._box.take_out().strip() or check.reading.typed, "size", insist=True)

    def action_open(self, place: str) -> None:
        self.in_turn(partial(self.coach.lay_over, place, self.session, then=self._returned_from))

    def _returned_from(self, answer: Answer | None) -> None:
        self.choose_next()
        self.fill()
        if answer is not None:
            self.after(self.said(answer), bad=answer.bad_news)

    def action_leave(self) -> None:
        typed = self._box.size_typed.strip()
        waiting = len(self._refused) + bool(typed)
        if waiting and self._question != "leave" and self._box.mode == "size":
            self._question = "leave"
            what = f"{typed} stands in the box" if waiting == 1 and typed else f"{waiting} numbers wait"
            told = f"{what} and would be lost: Esc leaves all the same."
            self.query_one(AnswerLine).tell(told, asks=True)
            return
        if self._question == "leave":
            self.in_turn(partial(self.coach.go, "shop"))
            return
        if self._question:
            self.tell("No heat is marked." if self._question == "heat" else "The step goes on.")
            self._question = ""
            self.fill()
        elif self._box.mode != "size":
            self._box.turn("size")
            self.fill()
        else:
            self.in_turn(partial(self.coach.go, "shop"))


def columns_at(width: int, height: int) -> int:
    """How many columns the style sheet lays the body out in at this size of window."""
    if width < 80 or height < 24:
        return 1
    return 3 if width >= 120 and height >= 36 else 2


def metal_lines(columns: int, body_lines: int, checks: int) -> int | None:
    """The most lines for the metal; None where it has a column to itself.

    At two columns what to do and what to measure get their lines first; the metal has what is left.
    """
    if columns != 2:
        return None
    return max(body_lines - min(checks + 2, _CHECKS_LINES) - _GUIDE_LINES, _METAL_LINES)
