"""A size that is typed with its first letters or its number before it: `l 91`, `2=91`, `end w 74`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from coach.bench.checks import Check
from coach.bench.entering import weighs
from coach.bench.resting import StartingSize
from coach.forms import label
from coach.operations.measures import MASS
from coach.operations.shop_test import Result
from coach.quantities import Kind, Refusal
from coach.screens.beside_sizes import says_blows_alone
from coach.telling.reading import INSISTING, reading_sentence
from coach.telling.writing import Shown

_LETTERS_THEN_SIZE = re.compile(r"\s*(?P<name>[^\W\d_][^\W\d_ ]*(?: +[^\W\d_]+)*) *(?P<size>[\d.,½¼¾⅛⅜⅝⅞].*)")
#: The outcome of a test behind the letters of its name; by itself it is of the test that is asked for.
_RESULTS = "|".join(one.value for one in Result)
_LETTERS_THEN_RESULT = re.compile(
    rf"\s*(?P<name>[^\W\d_]+(?: +[^\W\d_]+)*) +(?P<size>{_RESULTS})\s*", re.IGNORECASE
)
#: What begins with a letter may name its size; a colour's or a test's word is found to name none.
_NAMES_ITS_SIZE = re.compile(r"[^=]*=|\s*[^\W\d_]+(?: +[^\W\d_]+)* *[\d.,]")

#: Several numbers in one line, each alone or behind its row and =.
_SEVERAL = re.compile(r"\s*(?:\d+\s*=\s*)?\d+(?:[.,]\d+)?(?:\s+(?:\d+\s*=\s*)?\d+(?:[.,]\d+)?)+\s*")

#: A hardness whose scale stands before it, which names no size.
_SCALE_FIRST = re.compile(r"\s*H(?:RC|V|BW?)\s*\d", re.IGNORECASE)
#: Minutes so many times what a soak asks for may have been degrees (our choice).
_MUCH_LONGER = 3.0
#: A heat that was read is hardly so many times what is wanted, or less by as much (judgement).
_AS_HOT = 1.25
#: The key that insists.
_INSISTS = "F12"


class Named(NamedTuple):
    """A size and what was typed for it."""

    name: str  # as `Session.read` takes it
    typed: str


class Called(NamedTuple):
    """A size by all that it may be called."""

    name: str  # as `Session.read` takes it
    label: str  # as it is spoken of
    zone: str


def may_name_its_size(text: str) -> bool:
    """Whether a line looks as if it named the size that it is of."""
    return bool(_NAMES_ITS_SIZE.match(text) or _LETTERS_THEN_RESULT.fullmatch(text))


def is_of(text: str, shown: Check | None) -> Check | None:
    """The size that a line is of, where another is shown: none where it says itself what it is of.

    A weight says so by its unit, unless a weight is asked for.
    """
    if says_blows_alone(text):
        return None
    asks_weight = shown is not None and shown.kind is Kind.MASS
    return None if may_name_its_size(text) or (weighs(text) and not asks_weight) else shown


def named_row(text: str, name: str, rows: Sequence[Check]) -> Check | None:
    """The row that a line named by its number or letters; None where it gave the size its whole name."""
    row = next((one for one in rows if one.name == name), None)
    before = text.partition("=")[0].lower().replace(".", " ").split()
    whole = row is not None and before in (row.label.lower().split(), row.name.replace(".", " ").split())
    return None if whole else row


def row_it_fits(checks: Sequence[Check], name: str) -> int:
    """The number of the size that a questioned reading fits; 0 where it fits none."""
    fits = next((one.fits for one in checks if one.name == name), "")
    return next((number for number, one in enumerate(checks, start=1) if one.name == fits), 0)


def doubted_words(said: str, text: str, checks: Sequence[Check], name: str) -> str:
    """What is said of a questioned reading with the key that makes it stand, and the row that it may fit."""
    said, typed = said.replace(INSISTING, _INSISTS), "" if may_name_its_size(text) else text.strip()
    if row := row_it_fits(checks, name):
        return f"{said} {row}={typed} enters it there."
    if typed.isdigit() and 1 <= int(typed) <= len(checks):
        return f"{said} Row {int(typed)} is chosen by {int(typed)}= and Enter."
    return said


def meant_as_heat(text: str, name: str, checks: Sequence[Check]) -> str:
    """What is said of a bare number of minutes, many more than are asked, that may be its heat."""
    read = next((one for one in checks if one.name == name and one.kind is Kind.TIME), None)
    number = text.rpartition("=")[2].strip()
    if read is None or read.wanted is None or not number.isdecimal():
        return ""
    if 60.0 * int(number) < _MUCH_LONGER * read.wanted.limits.low:
        return ""
    for row, one in enumerate(checks, start=1):
        if one.kind is Kind.TEMPERATURE and one.zone == read.zone and one.wanted is not None:
            limits = one.wanted.limits
            if limits.low / _AS_HOT <= int(number) <= limits.high * _AS_HOT:
                return f" Was {number} its temperature? F8, then {row}={number}."
    return ""


def not_insisted(check: Check | None, shown: Shown) -> str:
    """Why the latest reading of a size cannot be stood by; None stands for no size."""
    if check is not None and check.reading is not None and check.reading.old:
        return reading_sentence(check, shown)
    return "Only a reading that was questioned can be insisted on."


def named(
    text: str,
    checks: Sequence[Check],
    others: Sequence[StartingSize] = (),
    besides: Sequence[tuple[str, str]] = (),
    *,
    takes_weight: bool = False,
) -> Named | None:
    """Which size a line names, and what it says of it; None where it names none.

    What the step asks for comes before the `others`, which are to be measured as a job is resumed. What can
    be read `besides`, by zone and dimension, goes by whole words: a letter too few would be another size.

    A number before `=` is a row of the table; letters are the beginning of a size's name, or of each of its
    words, or of its last words where they are of one size alone. A name that no size of the step has stays
    as it is, for the job may know it. Where it `takes_weight` a weight alone is that of the piece in hand.

    Raises:
        Refusal: letters that several sizes begin with or none does, or a number that none has.
    """
    if says_blows_alone(text):
        return None
    if _SEVERAL.fullmatch(text):
        first = text.split(maxsplit=1)[0]
        raise Refusal("The box takes one size at a time: type {} and Enter, then the next.", first)
    asked = [Called(one.name, one.label, one.zone) for one in checks]
    more = [Called(f"{one.zone}.{one.dimension}", label(one.zone, one.dimension), one.zone) for one in others]
    rest = [Called(f"{zone}.{dimension}", label(zone, dimension), zone) for zone, dimension in besides]
    before, sign, after = text.partition("=")
    if sign:
        found_by = _by_number(before.strip(), checks) or _by_name(before, asked, more, rest)
        return Named(found_by or before, after)
    if takes_weight and weighs(text):
        return Named(MASS, text)
    if _SCALE_FIRST.match(text):  # HRC 58 names no size: it says of itself what it is
        hard = [one for one in checks if one.kind is Kind.HARDNESS]
        if hard:
            return Named(next((one.name for one in hard if one.is_open), hard[0].name), text)
    found = _LETTERS_THEN_SIZE.fullmatch(text) or _LETTERS_THEN_RESULT.fullmatch(text)
    if found is None:
        return None
    name = _by_name(found["name"], asked, more, rest)
    if not name and weighs(found["size"]):
        return Named(found["name"], found["size"])
    if not name and checks:
        told = ", ".join(one.label for one in checks)
        raise Refusal(
            "No size of this step begins with {}: they are {}. One of another step goes by its whole name "
            "and =, such as {}=31.5.",
            found["name"],
            told,
            checks[0].label,
        )
    return Named(name, found["size"]) if name else None


def _by_number(text: str, checks: Sequence[Check]) -> str:
    if not text.isdigit():
        return ""
    if not checks:
        raise Refusal("This step asks for no size, and so none has the number {}.", text)
    if not 1 <= int(text) <= len(checks):
        raise Refusal("No size of this step has the number {}: they are 1 to {}.", text, str(len(checks)))
    return checks[int(text) - 1].name


def _by_name(text: str, asked: Sequence[Called], more: Sequence[Called], rest: Sequence[Called]) -> str:
    """The size that letters name, the first way that they name one; "" for none."""
    found = _by_letters(text, asked) or _by_letters(text, more) or _by_ending(text, asked)
    return found or _by_ending(text, more) or _by_words(text, rest)


def _by_ending(text: str, sizes: Sequence[Called]) -> str:
    """The one size whose last words begin so, as `edge width` of the first of several chisels does."""
    typed = text.lower().replace(".", " ").split()
    found = [one for one in sizes if typed and _begins(one.label.lower().split()[-len(typed) :], typed)]
    return found[0].name if len(found) == 1 else ""


def _by_words(text: str, sizes: Sequence[Called]) -> str:
    """The one size whose words these are, without its zone or with the last words of that; "" for none."""
    typed = text.lower().replace(".", " ").replace("_", " ").split()
    found = [one for one in sizes if _words_of(one) == typed] or [
        one
        for one in sizes
        if len(typed) > len(_words_of(one)) and one.label.lower().split()[-len(typed) :] == typed
    ]
    return found[0].name if len(found) == 1 else ""


def _by_letters(text: str, sizes: Sequence[Called]) -> str:
    """The one size whose name begins so; "" for none."""
    typed = text.lower().replace(".", " ").split()
    if not typed:
        return ""
    whole = [one for one in sizes if one.label.lower().split() == typed or one.name.lower() == text.strip()]
    short = [one for one in sizes if _begins(_words_of(one), typed)]
    fitting = whole or short or [one for one in sizes if _begins(one.label.lower().split(), typed)]
    if len(fitting) > 1:
        exact = [one for one in fitting if len(_words_of(one)) == len(typed)]
        fitting = exact if len(exact) == 1 else fitting
    if len(fitting) > 1:
        told = ", ".join(one.label for one in fitting)
        raise Refusal("{} may be {}: type more letters, or its number with =.", text.strip(), told)
    return fitting[0].name if fitting else ""


def _words_of(size: Called) -> list[str]:
    """The words of a size without its zone."""
    return size.label.lower().removeprefix(f"{size.zone.lower()} ").split()


def _begins(words: Sequence[str], typed: Sequence[str]) -> bool:
    """Whether the typed letters begin the words, one after another."""
    return len(typed) <= len(words) and all(
        word.startswith(letters) for word, letters in zip(words, typed, strict=False)
    )
