"""The one box that everything is typed into: sizes, notes and things to put right."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final, Literal

from textual import events
from textual.app import ComposeResult
from textual.containers import Container
from textual.content import Content
from textual.widgets import Input, Static

if TYPE_CHECKING:
    from coach.screens.bench_typing import TypingScreen

Mode = Literal["size", "note", "right"]

#: Keys of the number pad that no size begins with: on an empty box they do what other keys do.
SIGNS: Final = ("*", "/", "-", "+")
#: A gauge that types by itself sometimes does so twice; a hand is not so quick (common practice, no source).
TWICE_WITHIN_S: Final = 1.0
#: Nobody pastes the readings of a longer list by hand.
MOST_LINES: Final = 50
_AFTER: Final[dict[Mode, Mode]] = {"size": "note", "note": "right", "right": "size"}


class EntryBox(Container):
    """Types of one kind at a time; what stands in the box of another kind is kept while this one is typed."""

    def __init__(self, brought: str, taker: TypingScreen, *, id: str) -> None:
        super().__init__(id=id)
        self.mode: Mode = "size"
        self.taker = taker
        self._brought = brought
        self._drafts: dict[Mode, str] = {}
        self._last = ("", float("-inf"))  # the last size sent, and when

    def compose(self) -> ComposeResult:
        yield Static("", id="prompt", markup=False)
        yield _Line(self, self._brought)

    @property
    def text(self) -> str:
        """What stands in the box."""
        return self._line.value

    @property
    def size_typed(self) -> str:
        """What is typed of a size, though a note may stand in the box just now."""
        return self.text if self.mode == "size" else self._drafts.get("size", "")

    @property
    def _line(self) -> Input:
        return self.query_one(Input)

    def ask(self, prompt: Content, placeholder: str, *, hot: bool) -> None:
        """Say what is to be typed."""
        self._line.placeholder = placeholder
        line = self.query_one("#prompt", Static)
        line.update(prompt)
        line.set_class(hot, "-hot")

    def take_out(self) -> str:
        """What stood in the box, which is empty now."""
        text = self.text
        self._line.value = ""
        return text

    def send(self) -> None:
        """Send off what stands in the box."""
        text, now, mode = self.take_out(), self.taker.coach.stopwatch(), self.mode
        if mode != "size":  # what is typed behind a note is a size again
            self.turn("size")
        elif text.strip():
            last, at = self._last
            self._last = (text, now)
            if text == last and now - at < TWICE_WITHIN_S:
                told = "came twice at once: the second is left out. Type it again to take it."
                self.taker.tell(f"{text.strip()} {told}")
                return
        self.taker.sent(text, mode)

    def give_back(self, text: str, mode: Mode) -> None:
        """Put a text of this kind into the empty box again: it was not taken, so it has not come yet."""
        self._last = ("", 0.0)
        self._drafts[mode] = text
        self.turn(mode)

    def turn(self, mode: Mode | None = None) -> None:
        """Go on to another kind; None takes the next one."""
        wanted = mode or _AFTER[self.mode]
        if wanted != self.mode:
            self._drafts[self.mode] = self._line.value
        self.mode = wanted
        self._line.value = self._drafts.pop(wanted, "")
        self._line.cursor_position = len(self._line.value)


class _Line(Input):
    """The line itself: every key comes to it in its order, and goes on from it in that order."""

    def __init__(self, box: EntryBox, text: str) -> None:
        super().__init__(text, id="typed", compact=True, placeholder="type the size, then Enter")
        self._box = box

    async def _on_key(self, event: events.Key) -> None:
        box = self._box
        sign = not self.value and box.mode == "size" and event.character in SIGNS
        types = event.is_printable and not sign
        if event.key == "enter":
            box.send()
        elif types or not await box.taker.pressed(event.key):
            box.taker.typing()
            return
        event.stop()
        event.prevent_default()

    def _on_paste(self, event: events.Paste) -> None:
        """Each line as if it had been typed; the last without its Enter where it has none."""
        event.stop()
        event.prevent_default()
        *lines, last = re.split(r"\r\n|\r|\n", event.text)
        if len(lines) > MOST_LINES:
            told = f"{len(lines)} lines came at once: nothing is taken of them. Paste {MOST_LINES} at most."
            self._box.taker.tell(told, bad=True)
            return
        self._box.taker.typing()
        for line in lines:
            self.insert_text_at_cursor(line)
            self._box.send()
        self.insert_text_at_cursor(last)
