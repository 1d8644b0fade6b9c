"""The one box that everything is typed into: sizes, notes and things to put right."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final, Literal

from textual import events

from coach.screens.widgets.box import Box

if TYPE_CHECKING:
    from coach.screens.bench_typing import TypingScreen

Mode = Literal["size", "note", "right"]

#: Keys of the number pad that no size begins with: on an empty box they do what other keys do.
SIGNS: Final = ("*", "/", "-", "+")
#: Those that no size has in it either: they do so whatever of a size stands in the box.
_IN_NO_SIZE: Final = ("*", "+")
_ALL_DIGITS: Final = re.compile(r"[\d.,]+")
#: A gauge that types by itself sometimes does so twice; a hand is not so quick (common practice, no source).
TWICE_WITHIN_S: Final = 1.0
#: Nobody pastes the readings of a longer list by hand.
MOST_LINES: Final = 50
_AFTER: Final[dict[Mode, Mode]] = {"size": "note", "note": "right", "right": "size"}


class EntryBox(Box):
    """Types of one kind at a time; what stands in the box of another kind is kept while this one is typed.

    Every key comes to it in its order, and goes on from it in that order.
    """

    def __init__(self, brought: str, taker: TypingScreen) -> None:
        super().__init__(brought, "type the size, then Enter")
        self.mode: Mode = "size"
        self.taker = taker
        self._drafts: dict[Mode, str] = {}
        self._last = ("", float("-inf"))  # the last size sent, and when
        self._given_back = ""  # what was refused and has not been touched since

    @property
    def size_typed(self) -> str:
        """What is typed of a size, though a note may stand in the box just now."""
        return self.value if self.mode == "size" else self._drafts.get("size", "")

    @property
    def is_at_rest(self) -> bool:
        """Whether the last size was sent long enough ago for another Enter to be meant."""
        return self.taker.coach.stopwatch() - self._last[1] >= TWICE_WITHIN_S

    def take_out(self) -> str:
        """What stood in the box, which is empty now."""
        text, self.value = self.value, ""
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
        self._given_back = text if mode == "size" else ""
        self.turn(mode)

    def turn(self, mode: Mode | None = None) -> None:
        """Go on to another kind; None takes the next one."""
        wanted = mode or _AFTER[self.mode]
        if wanted != self.mode:
            self._drafts[self.mode] = self.value
        self.mode = wanted
        self.value = self._drafts.pop(wanted, "")
        self.cursor_position = len(self.value)

    async def _on_key(self, event: events.Key) -> None:
        signs = _IN_NO_SIZE if self.value else SIGNS
        if self.taker.session.system == "mm" and _ALL_DIGITS.fullmatch(self.value):
            signs = (*signs, "-")  # millimetres have none, and inches in fractions may
        sign = self.mode == "size" and event.character in signs
        types = event.is_printable and not sign
        if event.key == "enter":
            self.send()
        elif types or not await self.taker.pressed(event.key):
            # A letter behind a bare number may be its unit.
            begins_anew = (
                (event.character or "").isdigit() or "=" in self._given_back or self._given_back[:1].isalpha()
            )
            if types and self._given_back and begins_anew and self.value == self._given_back:
                self.value = ""  # another number in its place, and not run together with it
            self._given_back = ""
            self.taker.typing()
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
            self.taker.tell(told, bad=True)
            return
        self.taker.typing()
        for line in lines:
            self.insert_text_at_cursor(line)
            self.send()
        self.insert_text_at_cursor(last)
