"""Words with figures in them made into text, in the units asked for."""

from __future__ import annotations

from coach.quantities.figure import Apart, Figure, Kind, Limit, Span, Wanted
from coach.quantities.words import Part, Words, pieces
from coach.telling.figures import apart, by_doubt, write_figure, write_span, write_wanted
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
    return _written(words, shown, alike(words, shown))


def alike(words: Words, shown: Shown) -> frozenset[float]:
    """Lengths that would be told as one though they are set against each other: they are told finer."""
    found: set[float] = set()
    for part in words.parts if shown.system == "in" else ():
        if isinstance(part, Words):
            found |= alike(part, shown)
        elif isinstance(part, Apart) and part.one.kind is Kind.LENGTH and _is_finer(part, shown):
            found |= {part.one.value, _figure_of(part.other).value}
    return frozenset(found)


def _is_finer(part: Apart, shown: Shown) -> bool:
    from coach.telling.bounds import is_by_calliper

    if isinstance(part.other, Limit) and is_by_calliper(part.other, shown):
        return True
    return is_hair(_apart(part, shown, fine=False), shown)


def _apart(part: Apart, shown: Shown, *, fine: bool) -> Figure:
    one, other = part
    if isinstance(other, Limit):
        from coach.telling.bounds import off_bound

        return off_bound(one, other, shown, fine=fine)
    return apart(in_thousandths(one), in_thousandths(other), shown) if fine else apart(one, other, shown)


def _figure_of(other: Figure | Limit) -> Figure:
    return other.figure if isinstance(other, Limit) else other


def is_hair(off: Figure, shown: Shown) -> bool:
    """Whether so little cannot be seen in what is told of it."""
    return not by_doubt(off, shown) or write_figure(off, shown, "hair") == "a hair"


def in_thousandths(length: Figure) -> Figure:
    """A length as it is told where a thirty-second of an inch does not show what matters."""
    return length._replace(kind=Kind.FINE)


def _written(words: Words, shown: Shown, finer: frozenset[float]) -> str:
    return "".join(
        text + ("" if at is None else _part(words.parts[at], how, shown, finer))
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


def _part(part: Part, how: str, shown: Shown, finer: frozenset[float]) -> str:
    if isinstance(part, Figure):
        is_finer = part.kind is Kind.LENGTH and part.value in finer
        return write_figure(in_thousandths(part) if is_finer else part, shown, how)
    if isinstance(part, Apart):
        from coach.telling.bounds import write_off

        off = _apart(part, shown, fine=part.one.value in finer)
        return write_off(off, shown) if how == "hair" else write_figure(off, shown, how)
    if isinstance(part, Limit):
        from coach.telling.bounds import write_bound

        return write_bound(part, shown, fine=part.figure.value in finer)
    if isinstance(part, Span):
        return write_span(part, shown)
    if isinstance(part, Wanted):
        if how == "aim":
            from coach.telling.limits import write_aim

            return write_aim(part.limits, shown)
        return write_wanted(part, shown)
    if isinstance(part, Words):
        return _written(part, shown, finer)
    return str(part)
