"""The size that is wanted next, in numerals that are read from two metres."""

from __future__ import annotations

import re

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.widgets import Digits, Static

from coach.bench.checks import Check
from coach.screens.wording import LABEL, QUIET, STRONG, one_line, said
from coach.telling.figures import write_figure, write_wanted
from coach.telling.writing import Shown

_NUMBER = re.compile(r"(?P<before>\D*?)(?P<number>\d+(?:[.,]\d+)?)(?P<after>.*)", re.DOTALL)
#: The large numerals have no bar for a fraction, so a size with one is set in bold text instead.
_FRACTION = re.compile(r"[\s-]*\d*\s*/\s*\d")


class BigSize(Vertical, can_focus=False):
    """One size: its name, its number as large as a terminal can, and the limits beside it."""

    DEFAULT_CSS = """
    BigSize {
        height: auto;
        padding: 0 1;
        border-top: solid $secondary 50%;
        border-title-color: $text-secondary;
        border-title-style: bold;
    }
    BigSize Static { height: auto; max-height: 4; }
    BigSize Digits { height: 3; width: 100%; color: $accent; text-style: bold; }
    """

    def __init__(self, *, id: str) -> None:
        super().__init__(id=id)
        self.border_title = "Measure next"
        self._label = Static("", markup=False)
        self._digits = Digits("")
        self._limits = Static("", markup=False)
        self._expected = Static("", markup=False)

    def compose(self) -> ComposeResult:
        yield self._label
        yield self._digits
        yield self._limits
        yield self._expected

    def show(self, check: Check | None, shown: Shown, otherwise: str) -> None:
        """Show a check, or the words that stand there when there is none."""
        self._digits.display = False
        if check is None:
            self._label.update(one_line(otherwise, STRONG))
            self._limits.update("")
            self._expected.update("")
            return
        self._label.update(one_line(check.label, STRONG))
        text = write_wanted(check.wanted, shown) if check.wanted is not None else _expected(check, shown)
        before, number, after = large_part(text)
        if check.wanted is None:
            after += " expected"  # a number alone here is one to work to
        self._digits.display = bool(number)
        self._digits.update(number)
        self._limits.update(one_line(f"{after} {before}" if number else text, STRONG))
        if check.how:
            self._expected.update(one_line(check.how))
            return
        expected = _expected(check, shown) if check.wanted is not None else ""
        self._expected.update(one_line(f"expected {expected}", QUIET) if expected else said("", LABEL))


def _expected(check: Check, shown: Shown) -> str:
    return write_figure(check.expected, shown) if check.expected is not None else ""


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
