"""The app: the shop it serves, the way from screen to screen, and what becomes of a fault."""

from __future__ import annotations

import gc
import sys
from asyncio import AbstractEventLoop, get_running_loop
from collections.abc import Awaitable, Callable, Sequence
from functools import partial
from pathlib import Path
from threading import Timer, current_thread, main_thread
from time import monotonic
from typing import TYPE_CHECKING, Any, TypeAlias

from textual import events
from textual.app import App
from textual.geometry import Size
from textual.screen import Screen
from textual.theme import Theme
from textual.widgets import Input

from coach.bench.answer import Answer
from coach.bench.session import Session
from coach.bench.shop import Shop
from coach.log.newest import Newest
from coach.screens import leaving
from coach.screens.choices import LOOKS, Choices, keep_choices, kept_choices
from coach.screens.line_out import line_out
from coach.screens.own_keys import meant
from coach.screens.places import new_screen
from coach.screens.reply import NO_SIZE_HERE, Question, answers
from coach.screens.screen import CoachScreen, JobScreen
from coach.telling.entered import answer_text
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from coach.remembered import Memory

#: What takes the screen that a job opens with.
AtRest: TypeAlias = Callable[[Newest, str, Size], None]

#: Seconds that a terminal has to take what is still to be written when the app is told to leave (judgement).
_LONGEST_TO_LEAVE_S = 0.8

#: Seconds after which the first screen is looked at: nothing is done on it by then, or it is left alone.
_TO_REST_S = 0.5


class CoachApp(App[None]):
    """Screens over one shop."""

    TITLE = "Between Heats"
    DEFAULT_MODE = "work"
    ENABLE_COMMAND_PALETTE = False  # the coach has its own

    def __init__(
        self,
        shop: Shop,
        *,
        session: Session | None = None,
        notice: str = "",
        folders: Sequence[Path] = (),
        straight: bool = False,
        now: Callable[[], str] | None = None,
        stopwatch: Callable[[], float] = monotonic,
        choices_file: Path | None = None,
        memory: Memory | None = None,
        modes: list[Any] | None = None,
    ) -> None:
        first = (
            new_screen("shop", notice)
            if session is None
            else new_screen(_first_place(session, straight), session, notice)
        )
        # The style sheets of the first screen and of the bench are read with the app's: one that comes later
        # costs to read all of them once more.
        sheets = dict.fromkeys(["app.tcss", str(first.CSS_PATH), "bench.tcss"])
        super().__init__(css_path=[*sheets], driver_class=line_out(modes))
        self.shop = shop
        self.memory = memory
        """Keeps what was told before, to be shown sooner; None keeps nothing."""
        self.now = now or shop.now
        """The moment that the clock of a heat goes by, ISO 8601 UTC."""
        self.stopwatch = stopwatch
        """Seconds that only go forward, to tell a gauge that types twice from a hand."""
        self.fault: Exception | None = None
        """A fault of the program, for whoever started the app to report."""
        self.stopped_by = 0
        """The signal that told the app to leave; 0 while none has."""
        self._given_up = False
        self.loop: AbstractEventLoop | None = None
        """What the app runs in, once it does."""
        self.at_rest: AtRest | None = None
        """Takes the first screen of a job as it is painted, once it comes to rest untouched."""
        self.rests_after_s = _TO_REST_S
        self.given: Newest | None = None
        """The newest entry of the job whose first screen was given."""
        self.in_hand = session
        """The job that was opened last."""
        self.burst_s = 0.2
        """Seconds until all has come that a gauge types by itself before there is a box to take it."""
        self._number_typed = False
        self.question: Question | None = None
        """What is asked, until a key that does not answer it."""
        self._asked_on: Screen[Any] | None = None
        """The screen on which it was asked whether to leave, and nothing was done since."""
        self._coming: Awaitable[object] | None = None
        """The screen that was gone to, as long as no key was pressed since."""
        self.is_up = False
        """Whether the first frame is written."""
        self._folders = tuple(folders)
        self.choices_file = choices_file
        self.choices = kept_choices(choices_file)
        self.register_theme(LOOKS[self.choices.look][0])
        # Nothing is drawn yet, so nothing needs to be told that the theme has changed.
        self.set_reactive(App.theme, self.choices.look)
        self.add_mode(self.DEFAULT_MODE, lambda: first.suit(self.size))

    def on_load(self) -> None:
        self.loop = get_running_loop()
        if self.stopped_by:
            self.exit()
        self.app_resume_signal.subscribe(self, self._draw_anew)

    def stop(self, number: int, _: object) -> None:
        """Leave in order, told so by a signal or the terminal's end: the terminal is put back as it was."""
        self.stopped_by = number
        if self.loop is not None and not self.loop.is_closed():
            self.loop.call_soon_threadsafe(self.exit)
            given_up = Timer(_LONGEST_TO_LEAVE_S, self._give_up)
            given_up.daemon = True
            given_up.start()
        elif current_thread() is main_thread():
            raise KeyboardInterrupt

    def _give_up(self) -> None:
        """Wait no longer for a terminal that takes nothing more, nor for what is typed ahead."""
        self._given_up = True
        if give_up := getattr(self._driver, "give_up", None):
            give_up()

    def action_help_quit(self) -> None:
        """Ctrl+C, where nothing is chosen to be copied: ask, and leave when it is pressed again."""
        self._leave("Ctrl+C", asks=True)

    async def action_quit(self) -> None:
        """Ctrl+Q: leave, once what was typed before it has come; ask first where that is not entered."""
        behind = self.focused if isinstance(self.focused, Input) else self
        behind.call_later(self._leave, "Ctrl+Q", asks=False)

    def _leave(self, key: str, *, asks: bool) -> None:
        asks = (asks or bool(leaving.not_entered(self))) and self._asked_on is not self.screen
        self._asked_on = self.screen if asks and leaving.ask(self, key) else None
        if self._asked_on is None:
            self.exit()

    def _draw_anew(self, _: object) -> None:
        """Paint every cell: the shell has had the terminal meanwhile."""
        self.refresh(layout=True)

    def put_aside(self) -> bool:
        """Stop until the shell brings the coach back to the front; False where there is no such shell."""
        if sys.platform == "win32" or self._driver is None or not self._driver.can_suspend:
            return False
        self.action_suspend_process()
        return True

    def on_ready(self) -> None:
        self.is_up = True
        # Whoever started the app may have stopped the collection of rubbish, to be quicker to this moment.
        # What was loaded until now stays: to look through it again and again would hold some answer up.
        if not gc.isenabled():
            gc.freeze()
            gc.enable()
        if self.at_rest is not None:
            self.set_timer(self.rests_after_s, partial(self._give_frame, self.screen))

    def _give_frame(self, first: Screen[Any]) -> None:
        """Give the first screen away as it is painted, unless something was done on it or moves on it."""
        if self.at_rest is None or self.screen is not first or not isinstance(first, JobScreen):
            return
        if first.is_busy:
            self.set_timer(self.rests_after_s, partial(self._give_frame, first))
        elif not first.moves:
            # Textual gives a screen away as a picture only; its lines are read as it paints them itself.
            lines = enumerate(first._compositor.render_strips(), start=1)
            painted = "".join(f"\x1b[{row};1H{strip.render(self.console)}" for row, strip in lines)
            self.given = first.session.newest
            self.at_rest(self.given, painted, self.size)

    async def on_event(self, event: events.Event) -> None:
        if isinstance(event, events.InputEvent):
            if self._given_up:
                return
            self.at_rest = None
        event = meant(event, self)
        if self._coming is None and answers(self, event):
            self._asked_on = self._asked_on if self.question is not None else None
            return
        if leaving.answers_otherwise(event):
            asked, self._asked_on = self._asked_on, None
            if asked is self.screen and isinstance(asked, CoachScreen):
                asked.tell(leaving.STAYS if (stays := leaving.is_escape(event)) else "")
                if stays:
                    return
        if isinstance(event, (events.Key, events.Paste)) and not event.is_forwarded:
            # What is typed ahead is for the screen that the keys before it lead to, once that can take it.
            await self._screen_to_come()
            if isinstance(self.screen, CoachScreen) and self.screen.takes_first(event):
                return
            await self._screen_to_come()
            if isinstance(event, events.Key) and self._into_nothing(event):
                return
        await super().on_event(event)

    async def _screen_to_come(self) -> None:
        coming, self._coming = self._coming, None
        if coming is not None:
            await coming

    def _into_nothing(self, event: events.Key) -> bool:
        """Whether this Enter or unit ends a number that was typed, as by a gauge, where no number goes."""
        screen, typed = self.screen, self._number_typed
        self._number_typed = False
        if not isinstance(screen, CoachScreen) or screen.is_typed_into or isinstance(self.focused, Input):
            return False
        number = event.character is not None and event.character in "0123456789.,"
        self._number_typed = number or (typed and event.is_printable)
        if typed and not number and (event.is_printable or event.key == "enter"):
            screen.tell(NO_SIZE_HERE, bad=True)
            return True
        return False

    @property
    def folders(self) -> tuple[Path, ...]:
        """Where recipes are looked for, the smith's own first."""
        if not self._folders:
            from coach.places import recipe_folders

            self._folders = recipe_folders()
        return self._folders

    def show_job(self, session: Session) -> None:
        """Go to a job that was opened or begun."""
        self.in_hand = session
        self.go(_first_place(session), session)

    def go(self, place: str, *given: object) -> None:
        """Go to the screen of a place, made of what it is given.

        The one that the app began with cannot be exchanged, and stays underneath unseen.
        """
        while isinstance(self.screen, CoachScreen) and self.screen.OVER:
            self.pop_screen()
        screen = new_screen(place, *given).suit(self.size)
        exchange = self.switch_screen if len(self.screen_stack) > 1 else self.push_screen
        self._coming = exchange(screen)

    def lay_over(
        self, place: str, *given: object, then: Callable[[Answer | None], None] | None = None
    ) -> None:
        """Lay another screen over the one in front.

        Args:
            place: its name, that of its file.
            given: what it is made of; a session for a screen of a job.
            then: what to do when it is taken off again, with what the coach said to what was taken on it.
        """
        self.push_screen(new_screen(place, *given).suit(self.size), then)

    def begin_job(self, screen: CoachScreen, path: Path) -> None:
        """Begin a job from a recipe file and go to its bench; what is wrong is shown on the screen."""
        from coach.screens.beginning import begin

        begin(self, screen, path)

    def say_once(self, session: Session, answer: Answer) -> None:
        """Say what holds all day, before the job goes on at its bench."""
        self.go("resume", session, answer_text(answer, Shown(session.system)), answer.care)

    def next_look(self) -> str:
        """Go on to the next look; what it is for."""
        names = list(LOOKS)
        at = names.index(self.theme) if self.theme in names else -1
        theme, words = LOOKS[names[(at + 1) % len(names)]]
        self.take_look(theme)
        return words

    def take_look(self, theme: Theme) -> None:
        """Take another look, now and next time."""
        self.register_theme(theme)
        self.theme = theme.name
        self.choose(self.choices._replace(look=theme.name))

    def choose(self, choices: Choices) -> None:
        """Take other choices, and keep them for next time."""
        self.choices = choices
        keep_choices(self.choices_file, choices)

    def _handle_exception(self, error: Exception) -> None:
        # Textual has no public hook for a fault in a handler, and prints a traceback over the terminal: the
        # fault goes to whoever started the app instead, who writes it to a file and says so in one line.
        # What fails because everything is on its way out is none.
        if self.fault is None and not self.stopped_by:
            self.fault = error
        super()._handle_exception(error)
        self._exit_renderables.clear()


def _first_place(session: Session, straight: bool = False) -> str:
    """The bench for a job that has only begun or is asked for, else the summary of where it stands."""
    return "bench" if straight or session.standing().last_entry <= 1 else "resume"
