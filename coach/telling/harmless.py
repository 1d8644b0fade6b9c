"""What no terminal takes for an order: a text that a file, an entry or a name brings, shown as it stands."""

from __future__ import annotations

import re
from typing import Final

# Control characters move the cursor, reach the clipboard and worse; others turn the direction of writing,
# break a line, or are half a character that no file can hold. The end of a line stands by itself.
_ORDERS: Final = "\x00-\x09\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff"
_IN_LINES: Final = re.compile(f"[{_ORDERS}]")
_IN_A_LINE: Final = re.compile(f"[\n{_ORDERS}]")


def harmless(text: str) -> str:
    """A line of text in which every character is one to look at; it keeps its length.

    >>> harmless("a note" + chr(27) + "[2J").encode("ascii", "replace")
    b'a note?[2J'
    """
    return _IN_A_LINE.sub(_sign, text)


def harmless_lines(text: str) -> str:
    """The same of a text of any number of lines."""
    return _IN_LINES.sub(_sign, text)


def harmless_json(text: str) -> str:
    r"""JSON in which such characters are written by their numbers: it reads as it did.

    >>> harmless_json(chr(0x9b))
    '\\u009b'
    """
    return _IN_LINES.sub(lambda found: f"\\u{ord(found[0]):04x}", text)


def _sign(found: re.Match[str]) -> str:
    return " " if found[0] == "\t" else "\N{REPLACEMENT CHARACTER}"
