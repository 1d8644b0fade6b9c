"""How a number is written by hand: decimals with a point or a comma, fractions, mixed numbers."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from typing import Final

from coach.quantities.errors import SizeError, briefly

LONGEST_TEXT: Final = 80

# What a text is turned into before it is read. Escapes, because these signs are easily taken for others.
_SIGNS: Final = {
    "\N{MINUS SIGN}": "-",
    "\N{HYPHEN}": "-",
    "\N{NON-BREAKING HYPHEN}": "-",
    "\N{FIGURE DASH}": "\N{EN DASH}",
    "\N{EM DASH}": "\N{EN DASH}",
    "\N{HORIZONTAL BAR}": "\N{EN DASH}",
    "\N{FRACTION SLASH}": "/",
    "\N{DIVISION SLASH}": "/",
    "\N{PRIME}": "'",
    "\N{LEFT SINGLE QUOTATION MARK}": "'",
    "\N{RIGHT SINGLE QUOTATION MARK}": "'",
    "\N{DOUBLE PRIME}": '"',
    "\N{LEFT DOUBLE QUOTATION MARK}": '"',
    "\N{RIGHT DOUBLE QUOTATION MARK}": '"',
    "\N{MASCULINE ORDINAL INDICATOR}": "°",
    "\N{RING ABOVE}": "°",
    "\N{DEGREE CELSIUS}": "°c",
    "\N{DEGREE FAHRENHEIT}": "°f",
}
_VULGAR: Final = {
    c: unicodedata.normalize("NFKC", c).replace("\N{FRACTION SLASH}", "/") for c in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"
}
_DIGITS: Final = frozenset("0123456789")

NUMBER: Final = re.compile(
    r"(?:(?P<whole>[0-9]+)(?:-| ))?(?P<top>[0-9]+) ?/ ?(?P<bottom>[0-9]+)"
    r"|(?P<decimal>[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)"
)
_TWO_MARKS = re.compile(r"[0-9][.,][0-9]*[.,][0-9]")
_POWER_OF_TEN = re.compile(r"[0-9][eE][+-]?[0-9]")
#: What a number may begin with that is no digit.
_BEGINS = (".", ",", "+", "-", "\N{MINUS SIGN}")
_THOUSAND = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")


def in_cells(line: str) -> list[str]:
    r"""The numbers of a row of a table, a tab between each two; the whole line where it is no such row.

    What stands between two tabs is a number of its own, and no fraction of the one before it.

    >>> in_cells("3.2\t7.9"), in_cells("tip.length\t90"), in_cells("1 3/8 in"), in_cells("8\tmm")
    (['3.2', '7.9'], ['tip.length\t90'], ['1 3/8 in'], ['8\tmm'])
    """
    cells = [cell.strip() for cell in line.strip().split("\t")]
    return cells if all(cell[:1].isnumeric() or cell[:1] in _BEGINS for cell in cells if cell) else [line]


def tidy(text: str, wanted: str) -> str:
    """Return `text` in plain signs, lower case, with single blanks and none at the ends.

    `wanted` ends every refusal: what to type instead, as in `"type a length such as 31.5 mm"`.
    Raises SizeError when the text is empty, too long, of more than one line or of several cells of a table,
    or has digits other than 0 to 9.
    """
    if len(text) > LONGEST_TEXT:
        raise SizeError(f"{briefly(text)} is too long to be read; {wanted}.")
    if len(text.splitlines()) > 1 or text != text.rstrip("\r\n\v\f\x1c\x1d\x1e\x85\u2028\u2029"):
        raise SizeError(f"{briefly(text)} has a line break in it; {wanted}.")
    if not text.strip():
        raise SizeError(f"Nothing was typed; {wanted}.")
    if len(in_cells(text)) > 1:
        raise SizeError(f"{briefly(text)} has a tab between its numbers: give one at a time; {wanted}.")
    plain: list[str] = []
    for place, sign in enumerate(text):
        if sign in _VULGAR:
            before, after = text[place - 1 : place], text[place + 1 : place + 2]
            plain += [" " if before in _DIGITS else "", _VULGAR[sign], " " if after in _DIGITS else ""]
        elif sign.isnumeric() and sign not in _DIGITS:
            raise SizeError(f"{briefly(text)} has a digit other than 0 to 9, {briefly(sign)}; {wanted}.")
        elif sign.isspace():
            plain.append(" ")
        else:
            # Only ASCII letters change case, so that no look-alike letter turns into a unit.
            plain.append(_SIGNS.get(sign, sign.lower() if sign.isascii() else sign))
    return re.sub(" +", " ", "".join(plain).replace("''", '"')).strip()


def refuse_odd_numbers(tidied: str, text: str) -> None:
    """Raise SizeError for numbers that people and programs write but a bench cannot take safely.

    These are `1e3` and numbers with two decimal marks, such as `1,500.5`.
    """
    if _POWER_OF_TEN.search(tidied):
        raise SizeError(f"{briefly(text)} has a power of ten; write the number out in full, as in 1000.")
    if _TWO_MARKS.search(tidied):
        raise SizeError(f"{briefly(text)} has two decimal marks; write only one, as in 1500.5.")


def number_in(found: re.Match[str]) -> Fraction:
    """Return the exact number in a match of `NUMBER`.

    Raises SizeError for a fraction over zero, a mixed number whose fraction is one or more, and a number such
    as `1,500`, in which the comma can be a decimal mark or part a thousand.
    """
    decimal, whole, top, bottom = found["decimal"], found["whole"], found["top"], found["bottom"]
    if decimal is not None:
        if _THOUSAND.fullmatch(decimal):
            point, joined = decimal.replace(",", "."), decimal.replace(",", "")
            raise SizeError(f"{briefly(decimal)} can be read in two ways; type either {point} or {joined}.")
        return Fraction(decimal.replace(",", "."))
    if int(bottom) == 0:
        raise SizeError(f"{briefly(found[0])} has a zero under its fraction; type a fraction such as 3/8.")
    part = Fraction(int(top), int(bottom))
    if whole is None:
        return part
    if part >= 1:
        raise SizeError(
            f"{briefly(found[0])} has a fraction of one or more after a whole number; "
            "type a mixed number such as 1 3/8."
        )
    return int(whole) + part
