"""The screens left in order, also when a signal says so, and not before what is typed is asked about."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from typing import TYPE_CHECKING

from textual import events

from coach.quantities.errors import briefly
from coach.screens import reply
from coach.screens.screen import CoachScreen
from coach.screens.widgets.answer_line import AnswerLine
from coach.screens.widgets.box import Box

if TYPE_CHECKING:
    from coach.screens.app import CoachApp

_CLOSE = ("ctrl+c", "ctrl+q")
STAYS = "The coach stays open."

#: Windows has no terminal that hangs up.
_NAMES = ("SIGTERM", "SIGHUP", "SIGINT", "SIGQUIT")
_TELL_TO_STOP = [getattr(signal, name) for name in _NAMES if hasattr(signal, name)]


@contextmanager
def leaving_when_told(app: CoachApp) -> Iterator[None]:
    """Meanwhile signals to stop let the app leave in order, but for those that are ignored."""
    before = {number: signal.getsignal(number) for number in _TELL_TO_STOP}
    heard = [number for number, handler in before.items() if handler not in (signal.SIG_IGN, None)]
    try:
        for number in heard:
            signal.signal(number, app.stop)
        yield
    finally:
        # Nothing that went wrong on the way out may keep the terminal, or the program going.
        if end := getattr(app._driver, "end", None):
            end()
        for number in heard:
            signal.signal(number, before[number])


def not_entered(app: CoachApp) -> str:
    """What stands in a box of the screens and is not entered, though another screen may lie over it."""
    typed = (box.not_entered for screen in reversed(app.screen_stack) for box in screen.query(Box))
    return next(filter(None, typed), "")


def ask(app: CoachApp, key: str) -> bool:
    """Ask whether to close the coach; False where there is no screen to ask on."""
    typed = not_entered(app)
    while typed and not app.screen.query(AnswerLine) and len(app.screen_stack) > 1:
        app.pop_screen()  # it lies over the box, and has no room to ask
    if not isinstance(app.screen, CoachScreen) or not app.screen.query(AnswerLine):
        return False
    kept = "everything entered is kept" if app.shop.outlasts else "this demonstration is thrown away"
    if typed:
        kept = f"{briefly(typed)} is typed and not entered"
    closes = f"{key} again" if typed else f"Enter or {key} again"  # what is typed is entered by Enter
    told = f"Close the coach? {closes} closes it; {kept}."
    reply.ask(app.screen, told, app.exit, partial(app.screen.tell, STAYS), by_enter=not typed)
    return True


def answers_otherwise(event: events.Event) -> bool:
    """Whether it is a click, or a key that does not close the coach, when that was asked about."""
    return isinstance(event, events.MouseDown) or (isinstance(event, events.Key) and event.key not in _CLOSE)


def is_escape(event: events.Event) -> bool:
    """Whether it is Esc, which answers that the coach stays."""
    return isinstance(event, events.Key) and event.key == "escape"
