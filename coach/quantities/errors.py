"""The one error that typed text can cause, and how such text is echoed in it."""

from __future__ import annotations

from coach.quantities.refusal import Refusal

ECHO_LENGTH = 30


class SizeError(Refusal):
    """Typed text that cannot be understood; `str()` is one plain sentence for the person who typed it."""


def briefly(text: str) -> str:
    """Return `text` in quotes, at most 30 characters of it, with anything unprintable shown as `?`."""
    # The slice comes first, so that a text of any length costs the same.
    start = text[: ECHO_LENGTH + 1]
    shown = start if len(start) <= ECHO_LENGTH else start[: ECHO_LENGTH - 1] + "…"
    # Curved quotes, because straight ones are marks of feet and inches.
    return "“" + "".join(c if c.isprintable() else "?" for c in shown) + "”"
