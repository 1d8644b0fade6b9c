"""What comes from the terminal: keys, and between the brackets of a paste text alone, whatever is in it."""

from __future__ import annotations

import os
import selectors
from codecs import getincrementaldecoder
from collections.abc import Callable, Iterator
from threading import Event

# Textual's own reader of what a terminal sends has no public name.
from textual._parser import ParseError
from textual._xterm_parser import BRACKETED_PASTE_END, BRACKETED_PASTE_START, XTermParser
from textual.message import Message

_ESCAPE = "\x1b"
_LOST = "\N{REPLACEMENT CHARACTER}"
#: So many bytes are read at once, and so often is looked whether an escape stood alone (our choice).
_AT_ONCE = 4096
_LOOKED_AGAIN_S = 0.1


class Reader:
    """Tells what a terminal sends as keys, moves and pasted texts.

    Within a paste Textual's reader tells an escape's letters before the text they stand in, and as keys. What
    closes the paste is the one escape that a terminal means there: every other is shown as a lost character
    in its place. Where a text brings the closing bracket itself, nobody can tell what follows it from keys.
    """

    def __init__(self, debug: bool = False) -> None:
        self._parser = XTermParser(debug)
        self._in_paste = False
        self._held = ""  # of what is not in a paste already read too: the beginning of a bracket, it may be

    def feed(self, came: str) -> Iterator[Message]:
        """Read on; what is not whole yet is waited for."""
        left, self._held = self._held + came, ""
        read = 0 if self._in_paste else len(left) - len(came)
        while left:
            bracket = BRACKETED_PASTE_END if self._in_paste else BRACKETED_PASTE_START
            before, found, after = left.partition(bracket)
            if not found:
                self._held = _beginning_of(bracket, left)
                before = left.removesuffix(self._held) if self._in_paste else left
            text = before.replace(_ESCAPE, _LOST) if self._in_paste else (before + found)[read:]
            yield from self._told(text + found if self._in_paste else text)
            if not found:
                return
            self._in_paste = not self._in_paste
            left, read = after, 0

    def tick(self) -> Iterator[Message]:
        """Look whether an escape that was waited for stood alone."""
        yield from self._parser.tick()
        if not self._in_paste and self._parser._timeout_time is None:
            self._held = ""  # nothing is half read there, so no bracket is

    def end(self) -> None:
        """Nothing more comes."""
        try:
            for _ in self._parser.feed(""):
                pass
        except (EOFError, ParseError):
            pass

    def _told(self, text: str) -> Iterator[Message]:
        if text:  # none is what ends it
            yield from self._parser.feed(text)


def _beginning_of(bracket: str, text: str) -> str:
    """How a text ends, as far as that is how a bracket begins."""
    return next((bracket[:n] for n in range(len(bracket) - 1, 0, -1) if text.endswith(bracket[:n])), "")


def read_on(fileno: int, reader: Reader, take: Callable[[Message], None], ended: Event) -> None:
    """Read a terminal until it is ended, and what has come by then; a byte that is no UTF-8 is a lost one."""
    decode = getincrementaldecoder("utf-8")("replace").decode
    with selectors.SelectSelector() as selector:
        selector.register(fileno, selectors.EVENT_READ)
        is_last = False
        while not is_last:
            is_last = ended.is_set()
            if selector.select(_LOOKED_AGAIN_S):
                for message in reader.feed(decode(os.read(fileno, _AT_ONCE))):
                    take(message)
            for message in reader.tick():
                take(message)
    reader.end()
