"""The one box that everything is typed into: sizes, notes and things to put right."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, Literal

from textual import on
from textual.app import ComposeResult
from textual.containers import Container
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, Static

Mode = Literal["size", "note", "right"]

#: Keys of the number pad that no size begins with: the box takes every printable key, so they cannot be
#: bindings.
SIGNS: Final = ("*", "/", "-", "+")
#: A gauge that types by itself sometimes does so twice; a hand is not so quick (common practice, no source).
TWICE_WITHIN_S: Final = 1.0
_AFTER: Final[dict[Mode, Mode]] = {"size": "note", "note": "right", "right": "size"}


class EntryBox(Container):
    """Types of one kind at a time; what stands in the box of another kind is kept while this one is typed."""

    DEFAULT_CSS = """
    EntryBox { height: auto; }
    """

    class Typed(Message):
        """Enter was pressed."""

        def __init__(self, text: str, mode: Mode) -> None:
            super().__init__()
            self.text = text
            self.mode = mode

    class Sign(Message):
        """One of SIGNS was pressed on an empty box."""

        def __init__(self, sign: str) -> None:
            super().__init__()
            self.sign = sign

    class Twice(Message):
        """The same size came again too quickly for a hand: it was left out."""

        def __init__(self, text: str) -> None:
            super().__init__()
            self.text = text

    class Changed(Message):
        """Something stands in the box now."""

    def __init__(self, brought: str, stopwatch: Callable[[], float], *, id: str) -> None:
        super().__init__(id=id)
        self.mode: Mode = "size"
        self._brought = brought
        self._stopwatch = stopwatch
        self._drafts: dict[Mode, str] = {}
        self._last = ("", float("-inf"))  # the last size sent, and when

    def compose(self) -> ComposeResult:
        yield Static("", id="prompt", markup=False)
        yield Input(self._brought, id="typed", compact=True, placeholder="type the size, then Enter")

    @property
    def text(self) -> str:
        """What stands in the box."""
        return self._box.value

    @property
    def _box(self) -> Input:
        return self.query_one(Input)

    def ask(self, prompt: Content, placeholder: str, *, hot: bool) -> None:
        """Say what is to be typed."""
        self._box.placeholder = placeholder
        line = self.query_one("#prompt", Static)
        line.update(prompt)
        line.set_class(hot, "-hot")

    def clear(self) -> None:
        """Empty the box, for what stood in it was taken."""
        self._box.clear()

    def turn(self, mode: Mode | None = None) -> None:
        """Go on to another kind; None takes the next one."""
        self._drafts[self.mode] = self._box.value
        self.mode = mode or _AFTER[self.mode]
        self._box.value = self._drafts.pop(self.mode, "")
        self._box.cursor_position = len(self._box.value)

    @on(Input.Changed, "#typed")
    def _changed(self, event: Input.Changed) -> None:
        event.stop()
        if self.mode == "size" and event.value in SIGNS:
            event.input.clear()
            self.post_message(self.Sign(event.value))
        elif event.value:
            self.post_message(self.Changed())

    @on(Input.Submitted, "#typed")
    def _entered(self, event: Input.Submitted) -> None:
        event.stop()
        text, now = event.value, self._stopwatch()
        if self.mode == "size" and text.strip():
            last, at = self._last
            self._last = (text, now)
            if text == last and now - at < TWICE_WITHIN_S:
                event.input.clear()
                self.post_message(self.Twice(text))
                return
        self.post_message(self.Typed(text, self.mode))
