"""What is typed to a question that stands: yes, no, or neither; it goes into no other field."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual import events
from textual.widgets import Input

from coach.quantities.errors import briefly
from coach.screens.widgets.answer_line import AnswerLine

if TYPE_CHECKING:
    from coach.screens.app import CoachApp
    from coach.screens.screen import CoachScreen

#: Said of a number that was typed where none is taken.
NO_SIZE_HERE = "Sizes are typed at the bench: nothing was done with that number."
_YES, _NO = ("y", "yes"), ("n", "no")


def reply_of(typed: str) -> bool | None:
    """Whether it says yes or no; None where it says neither.

    >>> reply_of("Y"), reply_of("no"), reply_of("put off 4"), reply_of("")
    (True, False, None, None)
    """
    word = typed.strip().lower()
    return True if word in _YES else False if word in _NO else None


def no_reply(typed: str, enters: str) -> str:
    """What is said of something else, where y `enters`.

    >>> no_reply("maybe", "enters it")
    '“maybe” is neither yes nor no: y or Enter alone enters it, n or Esc does not.'
    """
    return f"{briefly(typed)} is neither yes nor no: y or Enter alone {enters}, n or Esc does not."


class Question:
    """A question that stands on a screen; letters answer it, and Enter sends them off."""

    def __init__(
        self,
        screen: CoachScreen,
        sentence: str,
        yes: Callable[[], None],
        no: Callable[[], None],
        *,
        by_enter: bool = False,
    ) -> None:
        """`by_enter` where Enter alone says yes by this way; else the screen makes of it what it does."""
        self.screen, self._sentence, self._yes, self._no = screen, sentence, yes, no
        self._by_enter = by_enter
        self._typed = ""

    def ask(self) -> None:
        """Show it, with what is typed of the answer."""
        typed = f" › {self._typed}" if self._typed else ""
        for line in self.screen.query(AnswerLine):
            line.tell(f"{self._sentence}{typed}", asks=True)

    def takes(self, event: events.Key) -> bool:
        """Whether a key goes on with the answer, or gives it."""
        if event.key == "enter":
            return self._is_answered()
        if event.key == "backspace" and self._typed:
            self._typed = self._typed[:-1]
        elif event.character and event.is_printable and (self._typed or event.character.isalpha()):
            typed, box = self._typed + event.character, self.screen.focused
            if isinstance(box, Input) and not any(one.startswith(typed.lower()) for one in (*_YES, *_NO)):
                box.insert_text_at_cursor(self._typed)  # something is typed there, and no answer
                return False
            self._typed = typed
        else:
            return False
        self.ask()
        return True

    def _is_answered(self) -> bool:
        if not self._typed and not self._by_enter:
            return False
        typed, self._typed = self._typed, ""
        said = reply_of(typed) if typed else True
        if said is None:
            self.screen.tell(f"{briefly(typed)} is neither yes nor no. {self._sentence}", bad=True)
            return True
        self.screen.coach.question = None
        (self._yes if said else self._no)()
        return True


def ask(
    screen: CoachScreen,
    sentence: str,
    yes: Callable[[], None],
    no: Callable[[], None],
    *,
    by_enter: bool = False,
) -> None:
    """Ask it on a screen, until it is answered or another key is pressed."""
    screen.coach.question = Question(screen, sentence, yes, no, by_enter=by_enter)
    screen.coach.question.ask()


def answers(app: CoachApp, event: events.Event) -> bool:
    """Whether a key answers what is asked, or goes on with the answer; all else that is done ends it."""
    question = app.question
    if question is None or not isinstance(event, (events.Key, events.MouseDown, events.Paste)):
        return False
    if event.is_forwarded:
        return False
    if isinstance(event, events.Key) and question.screen is app.screen and question.takes(event):
        return True
    app.question = None
    return False
