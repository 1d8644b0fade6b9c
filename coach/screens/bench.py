"""The bench: one step, one number to type next, and whether the metal that is left is enough."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from textual.binding import Binding

from coach.bench.answer import Answer
from coach.bench.session import Session
from coach.bench.standing import Standing
from coach.drafting.bar_there import asked_of_bar
from coach.screens.bench_drawn import TICK_S
from coach.screens.bench_fire import FireScreen
from coach.screens.bench_pages import PAGES, needs_a_way_back
from coach.screens.bench_words import (
    BENCH_HELP,
    LEFT_AS_IT_IS,
    NOT_ENTERED,
    TOO_QUICK,
    counts_the_planned,
    opening_words,
    planned_words,
)
from coach.screens.named_sizes import not_insisted
from coach.screens.places import in_order, keys_from
from coach.screens.reply import ask
from coach.screens.screen import Given, key
from coach.telling.entered import unsettled_text
from coach.telling.words import sentence

#: What is done in a step alone.
_OF_A_STEP = ("heat", "fire", "done", "insist")
#: Far apart and one at a time, for gloves.
_KEYS = [
    key("f2", "heat", "Out", "Count a heat and start its clock", group="Fire"),
    key("f3", "fire", "In", "Back in the fire: start the soak", group="Fire"),
    key("f4", "done", "Done", "Finish this step", group="Step"),
    key(
        "delete",
        "no_heat",
        "No heat",
        "When asked: no heat, or the fire was out",
        show=False,
        group="Step",
    ),
    key(
        "greater_than_sign",
        "next_piece",
        "Next piece",
        "Of several alike the next in hand",
        show=False,
        group="Step",
    ),
    key("f5", "back", "Back", "Go back to the last finished step", show=False, group="Step"),
    key("f6", "note", "Note", "Write a note; twice: to put right", group="Write"),
    key("f7,minus", "hot", "Hot", "Take the next readings hot, or cold", group="Write"),
    key("f8", "strike", "Undo", "Strike out the last entry", group="Write"),
    key("escape", "leave", "Shop", "Go back to the work, then to the shop", group="Go"),
    key(
        "f12,ctrl+y",
        "insist",
        "It is so",
        "Stand by a reading that was questioned",
        show=False,
        group="Write",
    ),
    key(
        "slash,ctrl+g",
        "gauge",
        "Gauge",
        "Read sizes with the next gauge",
        show=False,
        group="Write",
    ),
    key("ctrl+s", "weigh", "Weigh", "Weigh the piece: what the scales say", show=False, group="Write"),
    key("tab", "page(1)", "More", "Turn the page: metal, picture, steps", show=False, group="See"),
    key("shift+tab", "page(-1)", "Page before", "Turn the page back", show=False, group="See"),
    key("up", "choose(-1)", "Up", "Choose the size before", show=False),
    key("down", "choose(1)", "Down", "Choose the size after", show=False),
    key("pageup", "turn(-1)", "Page up", "Scroll the texts back", show=False),
    key("pagedown", "turn(1)", "Page down", "Scroll the texts on", show=False),
]


class BenchScreen(FireScreen):
    """The screen that stays open while forging."""

    CSS_PATH = "bench.tcss"
    NAME = "The bench"
    HELP_TEXT = BENCH_HELP
    ALL_DAY = ("f2", "f3", "f4", "f10", "f6", "f7", "f8", "tab", "f1")
    COMES_AND_GOES = ("no_heat", "next_piece")
    # The box takes them first, so that each comes behind what was typed before it.
    BINDINGS = [replace(one, priority=False) for one in in_order([*_KEYS, *keys_from("bench")])]

    def __init__(self, session: Session, notice: str = "", typed: str = "") -> None:
        super().__init__(session, typed)
        self._notice = notice

    def on_mount(self) -> None:
        self.set_interval(TICK_S, partial(self.if_there, self.tick))
        self.choose_next()
        self.tell(self._notice or self._opening())
        self.hold(self._held)
        self.set_focus(self._box)  # at once: keys may wait for it

    def leads(self) -> tuple[str, ...]:
        check = self.check_shown(self.session.standing())
        if self._question == "night":
            return ("delete",)
        if self._question == "done" and counts_the_planned(self.session.standing()):
            return ("delete",)
        if check is not None and check.is_questioned:
            return ("f12", "f8")
        standing = self.session.standing()
        if not needs_a_way_back(standing):
            return ()
        if not self.knows_no_way(standing):
            return ("asterisk",)
        # Where no way back is known the step before is what can still be gone back to.
        return ("f5",) if standing.done and standing.to_right else ()

    def _opening(self) -> str:
        if left_out := (standing := self.session.standing()).left_out:
            return sentence(left_out[0].words, self.shown)
        if asked := asked_of_bar(self.session):
            return f"{asked} by Ctrl+X, in such words."
        return opening_words(self.check_shown(standing)) if standing.step is not None else ""

    def attempt(self, deed: Callable[[], Given]) -> Given | None:
        """Do something that can be refused; what others have entered meanwhile is shown with the refusal."""
        before = self.session.standing().last_entry
        answer = super().attempt(deed)
        if answer is None and self.session.standing().last_entry != before:
            self.choose_next()
            self.fill()
        elif isinstance(answer, Answer) and answer.meanwhile:
            self.choose_next()
        return answer

    def catch_up(self) -> None:
        """Show what another window or a command has entered since."""
        before = self.session.standing().last_entry
        if self.look(self.session.refresh):
            self._question = ""
            self.choose_next()
            self.tell(f"{self.entered_elsewhere(before)}{self.as_usual_again()}")
            self.fill()

    # ── what was typed ───────────────────────────────────────────────────────────────────────────

    def skip(self, standing: Standing, *, meant: bool) -> None:
        """Enter on an empty box: yes to a question, else the next check, or the end of the step."""
        if self._question in ("heat", "night"):
            self._heat(sure=True)
        elif self._question == "fire":
            self._fire(sure=True)
        elif self._question == "begun":
            self._take_back_the_job()
        elif self._question:
            if meant:
                self._finish(always_ask=False)
            else:
                self._ask_this(self._asked, TOO_QUICK)
        else:
            check = self.check_shown(standing)
            if check is not None:
                self.action_choose(1)
                if check.is_open and len(standing.checks) == 1:  # two idle Enters end no step
                    self.tell(
                        f"{check.label.capitalize()} is not read: type it, or Enter asks to end the step."
                    )
                    return
            if self.check_shown(self.session.standing()) is None:
                self._finish(always_ask=not (meant and self._is_all_good(self.session.standing())))

    # ── keys ─────────────────────────────────────────────────────────────────────────────────────

    def action_choose(self, by: int) -> None:
        super().action_choose(by)
        self.tell("")  # it was said of another size

    def action_done(self) -> None:
        self.in_turn(partial(self._finish, always_ask=False))

    def _finish(self, *, always_ask: bool) -> None:
        warning, standing = self.session.done_warning(), self.session.standing()
        step, typed = standing.step, self._box.size_typed.strip()
        # A key pressed twice, or held too long by a glove, must not finish the step after it too.
        untouched = standing.heats == 0 and all(check.reading is None for check in standing.checks)
        asks = warning or untouched or always_ask or typed or counts_the_planned(standing)
        if step is not None and self._question != "done" and asks:
            self._question = "done"
            said = sentence(unsettled_text(warning, self.shown)) or "Nothing is left to measure."
            keys = "Enter or F4"
            if typed:
                said, keys = f"{typed} stands in the box and is not entered. {said}", "F4"
            again = f"{keys} finishes step {step.number}, Esc does not."
            if counts_the_planned(standing):
                planned = planned_words(standing)
                again = f"No heat is marked: {keys} counts {planned}, Delete none, Esc goes on."
            self._ask_this(f"{said} {again}")
            return
        said_yes = step is not None and standing.heats_told is None and counts_the_planned(standing)
        heats = step.heats_planned if step is not None and said_yes else None
        if self.enter(partial(self.session.done, heats)) and self.session.standing().step is None:
            self.action_open("sheet")  # what came of it

    @staticmethod
    def _is_all_good(standing: Standing) -> bool:
        """Whether one Enter may end the step: all is read and good."""
        return bool(standing.checks) and all(check.is_settled for check in standing.checks)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action != "no_heat":
            return super().check_action(action, parameters)
        if self._question == "night":
            return True
        return self._question == "done" and counts_the_planned(self.session.standing())

    def keys_now(self) -> list[Binding]:
        """Those that do something: once every step is done, none that is of a step."""
        gone = {*_OF_A_STEP} if self.session.standing().step is None else set()
        gone |= set() if self.session.has_next_piece else {"next_piece"}
        night = self._question == "night"
        return [
            replace(one, description="Fire out") if night and one.action == "no_heat" else one
            for one in super().keys_now()
            if one.action not in gone
        ]

    def action_back(self) -> None:
        self.enter_in_turn(self.session.back)

    def action_next_piece(self) -> None:
        self.enter_in_turn(lambda: self.session.change("next piece"))

    def action_note(self) -> None:
        self._question = ""
        self._box.turn()
        self.tell("")  # it was said of the size that stood there
        self.fill()

    def action_strike(self) -> None:
        self.in_turn(self._strike)

    def _strike(self) -> None:
        """Strike the last entry out; where that was a reading, its size is asked for again.

        While something is asked there is nothing to take back but the question.
        """
        if self._question == "begun":
            self._take_back_the_job()
            return
        if self._question:
            self._say_no(" Nothing is struck out: F8 again strikes out the last entry.")
            return
        typed = self._box.value.strip() if self._box.mode == "size" else ""
        of_no_size = self.waiting.holds_box and self.check_shown(self.session.standing()) is None
        if typed and (self.waiting.was_refused or of_no_size):
            self.waiting.empty()
            self._box.take_out()
            self.choose_next()
            self.tell(NOT_ENTERED.format(typed))
            self.fill()
            return
        if self.session.standing().last_entry <= 1 and not self._box.size_typed:
            self._question = "begun"
            self._ask_this("Nothing is entered yet. Enter or F8 sets the job aside; Esc does not.")
            return
        before = {check.name: check.reading for check in self.session.standing().checks}
        if not self.enter(self.session.strike) or self._box.size_typed:
            return
        standing = self.session.standing()
        struck = [one for one in standing.checks if one.is_open and before.get(one.name) != one.reading]
        if len(struck) == 1:
            self._choose(struck[0].name)

    def _ask_this(self, told: str, besides: str = "") -> None:
        self._asked = told
        ask(self, f"{told} {besides}".rstrip(), self._say_yes, self._say_no)
        self.fill()

    def _say_yes(self) -> None:
        """Do what was asked about, as its key does."""
        if self._question == "leave":
            self.action_leave()
        elif self._question:
            self.skip(self.session.standing(), meant=True)

    def _take_back_the_job(self) -> None:
        """A job of which nothing is entered yet is set aside: its bar is free again."""
        if self.attempt(self.session.set_aside) is not None:
            title = self.session.recipe.title
            self.coach.go("shop", f"{title} is set aside: nothing of it was entered. Ctrl+A brings it back.")

    def _say_no(self, more: str = "") -> None:
        """Leave all as it is, whatever was asked."""
        self.tell(f"{LEFT_AS_IT_IS.get(self._question, 'The step goes on.')}{more}")
        self.step_goes_on()

    def action_insist(self) -> None:
        self.in_turn(self._insist)

    def _insist(self) -> None:
        check, elsewhere = self.check_shown(self.session.standing()), self._doubted_elsewhere
        if elsewhere is not None and self._box.mode == "size" and not self._box.value.strip():
            self.sent(elsewhere.text, "size", insist=True)
            return
        if self._box.mode != "size" or check is None or check.reading is None or not check.reading.questioned:
            self.tell(not_insisted(check if self._box.mode == "size" else None, self.shown), bad=True)
            return
        if self.waiting.holds_box:  # that is another number
            self._box.set_back()
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
        waiting = len(self.waiting) + bool(typed)
        if waiting and self._question != "leave" and self._box.mode == "size":
            self._question = "leave"
            what = f"{typed} stands in the box" if waiting == 1 and typed else f"{waiting} numbers wait"
            told = f"{what} and would be lost: Esc leaves all the same."
            self._ask_this(told)
            return
        if self._question == "leave":
            self.in_turn(partial(self.coach.go, "shop"))
            return
        if self._question:
            self._say_no()
        elif self._box.mode != "size":
            self._box.turn("size")
            self._bring_back()
            self.fill()
        elif self._page != PAGES[0]:
            self._turn_to(PAGES[0])
        else:
            self.in_turn(partial(self.coach.go, "shop"))
