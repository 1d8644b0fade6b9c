"""Errors that typed text can cause, and how such text is echoed in them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from coach.quantities.refusal import NotKnown, Refusal

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


def not_known(
    what: str, asked: str, known: Mapping[str, str], listed: Iterable[str] | None = None
) -> NotKnown:
    """The refusal of a name that nothing has, with the nearest right one, or else with all there are.

    Args:
        what: what there is none of, such as `grade`.
        asked: the name as typed.
        known: what may be typed, in small letters, with how that is told.
        listed: what is told where nothing is near; all that is known when None.
    """
    near = nearest(" ".join(asked[:ECHO_LENGTH].casefold().split()), known)
    every = dict.fromkeys(known.values() if listed is None else listed)
    hint = f"the nearest is {known[near]}" if near else f"there are {', '.join(every)}"
    return NotKnown(f"There is no {what} {briefly(asked)}; {hint}.")


def nearest(asked: str, known: Iterable[str]) -> str | None:
    """The name that is nearest to the one typed; None where none is near."""
    from difflib import get_close_matches

    return next(iter(get_close_matches(asked, known, n=1)), None)


def did_you_mean(asked: str, known: Iterable[str], otherwise: str) -> str:
    """The end of a refusal: the name that is nearest to the one typed, or what is told where none is near."""
    near = nearest(asked, known)
    return f"did you mean {near}?" if near else otherwise
