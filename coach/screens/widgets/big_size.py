"""The size that is wanted next, in numerals that are read from two metres."""

from __future__ import annotations

import re

from coach.bench.checks import Check
from coach.screens.widgets.big_number import BigNumber
from coach.screens.wording import Ink, one_line
from coach.telling.figures import write_figure, write_wanted
from coach.telling.writing import Shown

_NUMBER = re.compile(r"(?P<before>\D*?)(?P<number>\d+(?:[.,]\d+)?)(?P<after>.*)", re.DOTALL)
#: The large numerals have no bar for a fraction, so a size with one is set in bold text instead.
_FRACTION = re.compile(r"[\s-]*\d*\s*/\s*\d")


class BigSize(BigNumber):
    """One size: its name, its number, the limits beside it, and what is expected or how to measure it."""

    def tell(self, check: Check | None, shown: Shown, otherwise: str) -> None:
        """Show a check, or the words that stand there when there is none."""
        if check is None:
            self.show(one_line(otherwise, Ink.STRONG), "")
            return
        expected = write_figure(check.expected, shown) if check.expected is not None else ""
        text = write_wanted(check.wanted, shown) if check.wanted is not None else expected
        before, number, after = large_part(text)
        if check.wanted is None:
            after += " expected"  # a number alone here is one to work to
        limits = one_line(f"{after} {before}" if number else text, Ink.STRONG)
        last = f"expected {expected}" if expected and check.wanted is not None else ""
        how = one_line(check.how) if check.how else one_line(last, Ink.QUIET)
        self.show(one_line(check.label, Ink.STRONG), number, limits, how)


def large_part(text: str) -> tuple[str, str, str]:
    """A size's text as what stands before its number, the number, and what follows.

    >>> large_part("28 ±1 mm")
    ('', '28', '±1 mm')
    >>> large_part("at least 40 mm")
    ('at least', '40', 'mm')
    >>> large_part("1 1/8 in")[1]
    ''
    """
    found = _NUMBER.fullmatch(text.strip())
    if found is None or _FRACTION.match(found["after"]):
        return "", "", text
    return found["before"].strip(), found["number"], found["after"].strip(" ,")
