"""The one box that everything is typed into: sizes, notes and things to put right."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final, Literal

from textual import events

from coach.quantities.amounts import ANGLE, DURATION, LENGTH, MASS, TEMPERATURE
from coach.quantities.numerals import in_cells
from coach.screens.widgets.box import Box

if TYPE_CHECKING:
    from coach.screens.bench_typing import TypingScreen

Mode = Literal["size", "note", "right"]

#: Keys of the number pad that no size begins with: on an empty box they do what other keys do.
SIGNS: Final = ("*", "/", "-", "+", ">")
#: Those that no size has in it either: they do so whatever of a size stands in the box.
_IN_NO_SIZE: Final = ("*", "+")
_POINTS: Final = (".", ",")
_ALL_DIGITS: Final = re.compile(r"[\d.,]+")
#: What a bare number may be followed by.
_UNITS: Final = frozenset(
    ("hrc", "hv", "hb", *(word for one in (LENGTH, MASS, TEMPERATURE, DURATION, ANGLE) for word in one.words))
)
#: A gauge that types by itself sometimes does so twice; a hand is not so quick (common practice, no source).
TWICE_WITHIN_S: Final = 1.0
#: An Enter sooner behind another may be of the same burst, or of a key held down, which repeats after 0.66 s
#: at most (the X.Org server's -ardelay, from memory). A hand that has seen the answer takes longer.
MEANT_AFTER_S: Final = 0.7
#: No hand goes on so soon behind Enter: what does comes from a paste or a list (judgement).
NO_HAND_S: Final = 0.05
#: Nobody pastes the readings of a longer list by hand.
MOST_LINES: Final = 50
_AFTER: Final[dict[Mode, Mode]] = {"size": "note", "note": "right", "right": "size"}


class EntryBox(Box):
    """Types of one kind at a time; what stands in the box of another kind is kept while this one is typed.

    Every key comes to it in its order, and goes on from it in that order.
    """

    def __init__(self, taker: TypingScreen) -> None:
        super().__init__(placeholder="type the size, then Enter")
        self.select_on_focus = False  # what is half typed is typed on, whatever lay over it meanwhile
        self.mode: Mode = "size"
        self.taker = taker
        self._drafts: dict[Mode, str] = {}
        self._last = ("", float("-inf"))  # the last size sent, and when
        self._entered_at = float("-inf")  # when Enter last came
        self._enter_came = float("-inf")  # the same by the terminal's clock
        self._typed_at = float("-inf")  # when the last sign was typed, by that clock
        self._at_once = 0  # how many signs came in one go until then
        self._given_back = ""  # what was refused and has not been touched since
        self._refused = ""  # the number that was refused, though something was typed behind it since

    @property
    def size_typed(self) -> str:
        """What is typed of a size, though a note may stand in the box just now."""
        return self.value if self.mode == "size" else self._drafts.get("size", "")

    @property
    def not_entered(self) -> str:
        """What is typed of any kind, and was not sent off."""
        return next(filter(None, map(str.strip, (self.value, *self._drafts.values()))), "")

    def take_out(self) -> str:
        """What stood in the box, which is empty now."""
        text, self.value = self.value, ""
        self._refused = ""
        return text

    def send(self) -> None:
        """Send off what stands in the box."""
        text, now, mode = self.take_out(), self.taker.coach.stopwatch(), self.mode
        meant, self._entered_at = now - self._entered_at >= MEANT_AFTER_S, now
        if mode != "size":  # what is typed behind a note is a size again
            self.turn("size")
        elif text.strip():
            last, at = self._last
            self._last = (text, now)
            if text == last and now - at < TWICE_WITHIN_S:
                told = "came twice at once: the second is left out. Type it again to take it."
                self.taker.tell(f"{text.strip()} {told}")
                return
        self.taker.sent(text, mode, meant=meant)

    def give_back(self, text: str, mode: Mode) -> None:
        """Put a text of this kind into the empty box again: it was not taken, so it has not come yet."""
        self._last = ("", 0.0)
        self._drafts[mode] = text
        self._given_back = text if mode == "size" else ""
        # What only waits for its turn is kept, whatever is typed behind it.
        is_refused = mode == "size" and not self.taker.waiting.holds_box
        self._refused = text if is_refused and _ALL_DIGITS.fullmatch(text) else ""
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
        if event.key == "enter" or (event.key == "tab" and self._ends_a_burst(event.time)):
            self.send()
            self._enter_came = event.time
        elif types or not await self.taker.pressed(event.key):
            no_hand = self._no_hand_s
            if types:
                goes_on = bool(self.value) and event.time - self._typed_at < no_hand
                self._at_once, self._typed_at = self._at_once + 1 if goes_on else 1, event.time
            if types and not self.value and event.time - self._enter_came < no_hand:
                self.taker.next_in_order()  # as in a paste that comes key by key
            if types and self._begins_anew(event.character or ""):
                self.set_back()  # another number in its place, and not run together with it
            elif types and self._begins_a_word(event.character or ""):
                self._word_alone()
            if self._given_back:
                self.taker.waiting.mend()
            self._given_back = ""
            self.taker.typing()
            return
        event.stop()
        event.prevent_default()

    def _cells_of(self, line: str) -> list[str]:
        """The numbers of a pasted line; left whole, to be refused, where a cell between them is empty."""
        cells = in_cells(line) if self.mode == "size" else [line]
        return cells if all(cells) else [line]

    @property
    def _no_hand_s(self) -> float:
        return min(self.taker.coach.burst_s, NO_HAND_S)

    def _ends_a_burst(self, at: float) -> bool:
        """Whether a Tab ends a line that no hand typed: some callipers are set to end their numbers so."""
        line = self.value if self.mode == "size" else ""
        return 0 < len(line) == self._at_once and at - self._typed_at < self._no_hand_s

    def _begins_anew(self, typed: str) -> bool:
        """Whether a letter or digit, typed upon what was given back and not touched, begins another line."""
        if not self._given_back or self.value != self._given_back:
            return False
        # A letter behind a bare number may be its unit.
        by_name = "=" in self._given_back or self._given_back[:1].isalpha()
        # A point mends nothing but a bare number that has none yet.
        apart = self.taker.waiting.holds_box or not self._given_back.isdecimal()
        return typed.isnumeric() or by_name or (apart and typed in _POINTS)

    def _begins_a_word(self, typed: str) -> bool:
        """Whether a refused number has a word behind it that is no unit, so that it is typed in its place."""
        behind = self.value.removeprefix(self._refused)
        word = f"{behind}{typed}".strip().lower()
        at_end = self.cursor_position == len(self.value)
        is_word = bool(self._refused) and self.value.startswith(self._refused) and at_end and word.isalpha()
        return is_word and not any(unit.startswith(word) for unit in _UNITS)

    def _word_alone(self) -> None:
        """The refused number makes room for the word behind it."""
        word = self.value.removeprefix(self._refused).lstrip()
        self._refused = ""
        self.set_back()
        self.value = word
        self.cursor_position = len(word)

    def set_back(self) -> None:
        """What was given back makes room for another line."""
        self.value = self._given_back = ""
        self.taker.begin_anew()

    def _on_paste(self, event: events.Paste) -> None:
        """Each line as if it had been typed; the last without its Enter where it has none. A note is one.

        Of a size the numbers between tabs, as a table has them in a row, are lines of their own.
        """
        event.stop()
        event.prevent_default()
        as_lines = re.split(r"\r\n|\r|\n", event.text)
        *lines, last = [one for line in as_lines for one in self._cells_of(line)]
        if len(lines) > MOST_LINES:
            told = f"{len(lines)} lines came at once: nothing is taken of them. Paste {MOST_LINES} at most."
            self.taker.tell(told, bad=True)
            return
        if self.mode == "size" and self._given_back and self.value == self._given_back:
            if lines and self.taker.waiting.holds_box:  # they come behind what waits already
                self.taker.hold([line for line in map(str.strip, (*lines, last)) if line])
                return
            self.set_back()
        self.taker.typing()
        if self.mode != "size" and lines:
            self.insert_text_at_cursor(" ".join(filter(None, map(str.strip, (*lines, last)))))
            if not last:
                self.send()
            self.taker.fill()
            return
        for at, line in enumerate(lines):
            if at:
                self.taker.next_in_order()
            self.insert_text_at_cursor(line)
            self.send()
        if lines and last:
            self.taker.next_in_order()
        self.insert_text_at_cursor(last)
        self.taker.fill()
