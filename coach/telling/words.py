"""Words with figures in them made into text, in the units asked for."""

from __future__ import annotations

from coach.quantities.figure import Apart, Figure, Span, Wanted
from coach.quantities.words import Part, Words, pieces
from coach.telling.figures import apart, write_figure, write_span, write_wanted
from coach.telling.writing import METRIC, Shown


def write(words: Words | str, shown: Shown = METRIC) -> str:
    """Return words as text.

    >>> from coach.quantities.figure import mm
    >>> from coach.quantities.words import say
    >>> write(say("{} is {} short", "blade length", mm(25.4)), Shown("in"))
    'blade length is 1 in short'
    """
    if isinstance(words, str):
        return words
    return "".join(
        text + ("" if at is None else _part(words.parts[at], how, shown))
        for text, at, how in pieces(words.template)
    )


def sentence(words: Words | str, shown: Shown = METRIC) -> str:
    """Return words as text that begins with a capital and ends with a full stop, if they say anything.

    >>> sentence("the metal is enough")
    'The metal is enough.'
    """
    text = write(words, shown)
    if not text:
        return ""
    return text[0].upper() + text[1:] + ("" if text[-1] in ".!?:" else ".")


def _part(part: Part, how: str, shown: Shown) -> str:
    if isinstance(part, Figure):
        return write_figure(part, shown, how)
    if isinstance(part, Apart):
        return write_figure(apart(*part, shown), shown, how)
    if isinstance(part, Span):
        return write_span(part, shown)
    if isinstance(part, Wanted):
        return write_wanted(part, shown)
    if isinstance(part, Words):
        return write(part, shown)
    return str(part)
