"""What every screen has: its help, its breakpoints, and one way to show a trouble."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any, ClassVar, Self, TypeVar, cast

from textual import events
from textual._styles_cache import StylesCache
from textual.binding import Binding, BindingType
from textual.keys import format_key
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from coach.bench.answer import Answer
from coach.files import said_by_the_system
from coach.quantities import Refusal
from coach.quantities.words import say
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.key_bar import KeyBar
from coach.screens.widgets.panel import Lines
from coach.screens.wording import one_line
from coach.telling.entered import answer_text
from coach.telling.why import reason_text
from coach.telling.words import sentence, write
from coach.telling.writing import Shown

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from textual.geometry import Size
    from textual.timer import Timer

    from coach.bench.session import Session
    from coach.screens.app import CoachApp

Given = TypeVar("Given")

#: Seconds that the terminal gets to take what was painted; Textual paints sixty times a second at most, and
#: the box that was emptied is painted before the answer.
_TO_WRITE_S = 0.03
#: Seconds between looks for what another window or a command has entered.
LOOK_EVERY_S = 2.0


def key(
    keys: str, action: str, words: str, told: str, *, show: bool = True, first: bool = True, group: str = ""
) -> Binding:
    """A key of a screen.

    Args:
        keys: the key, or several with commas between.
        action: what it does, as Textual names it.
        words: its name in the line of keys.
        told: what it does in full, for the help and the command palette.
        show: whether it has a place in the line of keys.
        first: whether it is the screen's even where something else has the focus.
        group: what the hand does with it, one of `GROUPS`; without one it goes by the key.
    """
    one = keys.partition(",")[0]
    held, plus, last = one.rpartition("+")
    shown = _NAMED.get(one) or (f"{held.title()}{plus}{last.upper()}" if plus else format_key(one))
    shown = shown.upper() if shown[1:].isdigit() else shown
    kept = Binding.Group(group or _group_by_key(one))
    return Binding(
        keys, action, words, key_display=shown, show=show, priority=first, tooltip=told, group=kept
    )


def group_of(binding: Binding) -> str:
    """What the hand does with a key: one of `GROUPS`."""
    return binding.group.description if binding.group is not None else _group_by_key(binding.key)


def _group_by_key(name: str) -> str:
    return "See" if name in _ARROWS or name.startswith("ctrl+") else "Go"


#: What the hand does with keys, in the order in which they are told.
GROUPS = ("Fire", "Step", "Write", "See", "Go")
_ARROWS = ("up", "down", "left", "right", "pageup", "pagedown")
#: All of them do something there.
_OF_THE_BENCH = tuple(f"f{number}" for number in range(1, 13))
#: What does something in a window in which nothing can be seen.
_UNSEEN = ("ctrl+c", "ctrl+q", "ctrl+z")
#: Keys by another name than Textual's own.
_NAMED = {
    "escape": "Esc",
    "enter": "Enter",
    "tab": "Tab",
    "shift+tab": "Shift+Tab",
    "pageup": "PgUp",
    "pagedown": "PgDn",
    "delete": "Del",
    "insert": "Ins",
}


#: What can be done everywhere, whatever the screen.
EVERYWHERE = (
    key("ctrl+p", "palette", "Find", "Find anything that can be done by its name", group="See"),
    key(
        "ctrl+z",
        "suspend",
        "Put aside",
        "To the shell; fg there brings it back",
        show=False,
        group="Go",
    ),
    key("ctrl+q", "app.quit", "Close", "Close the coach", group="Go"),
)

#: Of a screen whose box has the focus, what scrolls its text.
TURNS = (
    key("pageup", "read_on(-1)", "Page up", "Scroll the text back", show=False),
    key("pagedown", "read_on(1)", "Page down", "Scroll the text on", show=False),
)


class CoachScreen(Screen[Answer | None]):
    """A place the smith can be; it asks the session for everything and keeps nothing.

    Laid over another it gives that one, as it is taken off, what the coach said to what was taken on it.
    """

    HORIZONTAL_BREAKPOINTS = [(0, "-cramped"), (30, "-narrow"), (80, "-normal"), (120, "-wide")]
    VERTICAL_BREAKPOINTS = [(0, "-flat"), (9, "-tiny"), (18, "-low"), (24, "-middling"), (36, "-tall")]
    BINDINGS: ClassVar[list[BindingType]] = [
        *EVERYWHERE,
        key("f1", "help", "Help", "Explain this screen", group="See"),
        key(
            "f11,ctrl+o",
            "look",
            "Look",
            "Dark, bright, dim or high contrast",
            show=False,
            group="See",
        ),
    ]
    OVER: ClassVar[bool] = False
    """Whether the screen is laid over another, and taken off again, rather than gone to."""
    TAKES_NUMBERS: ClassVar[bool] = False
    """Whether numbers may be typed where no box has the focus."""
    ALL_DAY: ClassVar[tuple[str, ...]] = ()
    """Of a screen that is open all day, the keys that are told however little room there is."""
    COMES_AND_GOES: ClassVar[tuple[str, ...]] = ()
    """What a key does only where it is asked about: it has no place of its own in the line of keys."""
    NAME: ClassVar[str] = ""
    HELP_TEXT: ClassVar[str] = ""
    _waits: Timer | None = None

    def on_unmount(self) -> None:
        # Textual remembers colours by the very things that hold what widgets were painted with: those of a
        # screen that is gone would be kept, a megabyte in five helps.
        StylesCache.get_inner_outer.cache_clear()

    def suit(self, size: Size) -> Self:
        """Take the classes of a window's size before it is laid out; Textual gives them afterwards."""
        all_points = self.HORIZONTAL_BREAKPOINTS, self.VERTICAL_BREAKPOINTS
        for length, points in zip(size, all_points, strict=True):
            self.add_class(max(point for point in points if point[0] <= length)[1], update=False)
        return self

    @property
    def coach(self) -> CoachApp:
        """The app, which holds the shop and moves between screens."""
        return cast("CoachApp", self.app)

    def framed(self, title: str, *parts: Widget) -> Iterable[Widget]:
        """A screen's parts under its title, and what every screen ends with."""
        yield Static(one_line(title), id="title", markup=False)
        yield from parts
        yield from self.rim()

    def rim(self) -> Iterable[Widget]:
        """What every screen ends with: its line of keys, and the cover for a window that is too small."""
        keys = KeyBar(group_of, GROUPS)
        keys.show(*self._in_key_bar())
        yield keys
        yield Static(
            "Make the window larger. Until then no key does anything but Ctrl+Q, which closes.",
            id="too-small",
            markup=False,
        )

    def takes_first(self, event: events.Key | events.Paste) -> bool:
        """Whether a key or pasted text goes no further: taken, or done where nobody could see it."""
        return self._turns_away(event) or self.takes_at_once(event)

    def _turns_away(self, event: events.Key | events.Paste) -> bool:
        closes = isinstance(event, events.Key) and event.key in _UNSEEN
        unseen = not closes and (self.has_class("-cramped") or self.has_class("-flat"))
        if unseen:
            self.app.bell()
        return unseen

    @property
    def is_there(self) -> bool:
        """Whether its parts are: it is composed, and not being taken off."""
        return self.is_mounted and self.is_running and self.display  # what is taken off displays nothing

    def call_after_refresh(self, callback: Callable[..., Any], *args: Any, **kwargs: Any) -> bool:
        # Textual calls it by way of the screen in front, which may be another one by then.
        return super().call_after_refresh(self.if_there, partial(callback, *args, **kwargs))

    def if_there(self, deed: Callable[[], object]) -> None:
        """Do something that comes later, unless the screen was left meanwhile."""
        if self.is_there:
            deed()

    def tell_keys(self) -> None:
        """Show the keys that do something as the screen stands now."""
        self.query_one(KeyBar).show(*self._in_key_bar())

    def _in_key_bar(self) -> tuple[list[Binding], tuple[str, ...], list[Binding]]:
        keys = self.keys_now()
        leads = [one for name in self.leads() for one in keys if name in one.key.split(",")]
        return [one for one in keys if one.action not in self.COMES_AND_GOES], self.ALL_DAY, leads

    def leads(self) -> tuple[str, ...]:
        """The keys that what just happened asks for."""
        return ()

    def keys_now(self) -> list[Binding]:
        """The keys that do something as the screen stands now."""
        return [one for one in self.keys_told() if self.check_action(one.action, ()) is not False]

    def on_key(self, event: events.Key) -> None:
        """A function key that does nothing here is answered: a glove finds out no other way."""
        if self.is_of_the_bench(event):
            event.stop()
            self.tell(f"{event.key.upper()} is a key of the bench. {self.way_to_the_bench()}", bad=True)

    def is_of_the_bench(self, event: events.Key) -> bool:
        """Whether it is a function key that does nothing here."""
        own = {name for one in (*self.keys_told(), *EVERYWHERE) for name in one.key.split(",")}
        return event.key in _OF_THE_BENCH and event.key not in own

    def takes_at_once(self, event: events.Key | events.Paste) -> bool:
        """Whether a key or pasted text was taken before any behind it is looked at: it may lead elsewhere."""
        return False

    def way_to_the_bench(self) -> str:
        """How to get where the other function keys do something."""
        return "Esc goes back."

    def action_close(self) -> None:
        self.dismiss()

    def action_read_on(self, by: int) -> None:
        lines = self.query_one(Lines)
        (lines.scroll_page_down if by > 0 else lines.scroll_page_up)(animate=False)

    def action_palette(self) -> None:
        self.coach.lay_over("palette", self)

    def action_suspend(self) -> None:
        if not self.coach.put_aside():
            self.tell("This terminal cannot put a program aside: Ctrl+Q closes the coach.", bad=True)

    def action_help(self) -> None:
        self.coach.lay_over("help", self.NAME, self.HELP_TEXT, self.keys_told())

    def action_look(self) -> None:
        self.tell(f"{self.coach.next_look()}: F11 goes on to the next look.")

    @classmethod
    def keys_told(cls) -> tuple[Binding, ...]:
        """Every key of this screen, but for what can be done everywhere."""
        kinds = [kind for kind in reversed(cls.__mro__) if issubclass(kind, CoachScreen)]
        keys: list[Binding] = [binding for kind in kinds for binding in vars(kind).get("BINDINGS", ())]
        own = [binding for binding in keys if binding not in EVERYWHERE]
        return tuple({binding.action: binding for binding in own}.values())

    def tell(self, sentence: str, *, bad: bool = False, asks: bool = False) -> None:
        """Show a sentence in the answer line, if there is one: `bad` news or a refusal, or what `asks`."""
        for line in self.query(AnswerLine):
            line.tell(sentence, bad=bad, asks=asks)

    def look(self, seek: Callable[[], bool]) -> bool:
        """Whether another window or a command has entered something; only the screen in front looks.

        One below it has the same job: it would take what is new, and the one in front would show half of it.
        """
        return self.app.screen is self and bool(CoachScreen.attempt(self, seek))

    @property
    def is_busy(self) -> bool:
        """Whether something is still to be shown that takes a while."""
        return self._waits is not None

    @property
    def is_typed_into(self) -> bool:
        """Whether a number that is typed now has a place here."""
        return self.TAKES_NUMBERS

    @property
    def moves(self) -> bool:
        """Whether something on it changes by itself."""
        return False

    def once_shown(self, deed: Callable[[], None]) -> None:
        """Do something that takes a while, once what stands on the screen now has been written out.

        A later deed takes the place of one that still waits.
        """
        if self._waits is not None:
            self._waits.stop()
        self._waits = self.set_timer(_TO_WRITE_S, partial(self._do_once_up, deed))

    def _do_once_up(self, deed: Callable[[], None]) -> None:
        if self.coach.is_up:
            self._waits = None
            self.if_there(deed)
        else:  # not even the first frame is written
            self.once_shown(deed)

    def attempt(self, deed: Callable[[], Given]) -> Given | None:
        """Do something that can be refused; show the refusal and return None when it is."""
        try:
            return deed()
        except Refusal as refusal:
            self.refuse(refusal)
        except OSError as error:
            self.tell(said_by_the_system(error), bad=True)
        return None

    def refuse(self, refusal: Refusal) -> None:
        """Show why something cannot be done: the first sentence, and how many there are more."""
        first, *more = write(refusal.words, self.shown).splitlines()
        self.tell(f"{first} (and {len(more)} more)" if more else first, bad=True)

    @property
    def shown(self) -> Shown:
        """The units that sizes are shown in."""
        return Shown(self.coach.shop.system or "mm")


class JobScreen(CoachScreen):
    """A screen of one job, which is laid over another."""

    OVER = True

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session

    @property
    def shown(self) -> Shown:
        return Shown(self.session.system)

    def attempt(self, deed: Callable[[], Given]) -> Given | None:
        """Do something that can be refused; what holds all day is said where this is the moment for it."""
        answer = super().attempt(deed)
        if isinstance(answer, Answer) and answer.care:
            self.call_later(self.coach.say_once, self.session, answer)
        return answer

    def entered_elsewhere(self, before: int) -> str:
        """What was entered behind the entry of this number, the last of it in words."""
        latest = self.session.history()[-1]
        more = latest.number - before - 1
        others = f"{more} more, and last " if more > 0 else ""
        return sentence(say("Entered elsewhere: {}{}", others, latest.words), self.shown)

    def said(self, answer: Answer) -> str:
        """What was done by an entry, and why the job stands as it does where that changed it."""
        told = answer_text(answer, self.shown)
        if answer.replanned:
            told += f" {reason_text(self.session.standing().reason, self.shown)}"
        return told


class LiveScreen(JobScreen):
    """A screen of one job that also shows what another window or a command enters meanwhile."""

    def on_mount(self) -> None:
        self.fill()
        self.set_interval(LOOK_EVERY_S, self.catch_up)

    def fill(self) -> None:
        """Show the job as it stands now."""
        raise NotImplementedError

    def catch_up(self) -> None:
        """Show what another window or a command has entered since."""
        if self.look(self.session.refresh):
            self.fill()

    def enter(self, deed: Callable[[], Answer]) -> bool:
        """Enter something and show what it makes of the job; False where it is refused."""
        answer = self.attempt(deed)
        if answer is None:
            return False
        self.fill()
        self.tell(self.said(answer), bad=answer.bad_news)
        return True
