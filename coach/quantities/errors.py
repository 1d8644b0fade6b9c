"""Errors that typed text can cause, and how such text is echoed in them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Final

from coach.quantities.refusal import NotKnown, Refusal

ECHO_LENGTH = 30


class SizeError(Refusal):
    """Typed text that cannot be understood; `str()` is one plain sentence for the person who typed it."""


def briefly(text: str) -> str:
    """Return `text` in quotes, at most 30 characters of it, with the first that is not seen by its number.

    So it is each time that it stands there; others stand as `?`.

    >>> briefly("25" + chr(0x200b) + "mm")
    '“25<U+200B>mm”'
    """
    # The slice comes first, so that a text of any length costs the same.
    start = text[: ECHO_LENGTH + 1]
    shown = start if len(start) <= ECHO_LENGTH else start[: ECHO_LENGTH - 1] + "…"
    if unseen := next((c for c in shown if not c.isprintable()), ""):
        told = shown.replace(unseen, f"<{_number(unseen)}>")
        shown = "".join(c if c.isprintable() else "?" for c in told)
    # Curved quotes, because straight ones are marks of feet and inches.
    return f"“{shown}”"


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
    return NotKnown(f"There is no {what} {briefly(asked)}{odd_in(asked[:ECHO_LENGTH])}; {hint}.")


def signs_alike(word: str) -> str:
    """A word with the letters that are taken for digits as those digits."""
    return word.casefold().translate(_DIGITS)


_DIGITS: Final = str.maketrans("oil", "011")


def nearest(asked: str, known: Iterable[str], share: float = 0.6) -> str | None:
    """The name that is nearest to the one typed; None where none is near, by the share of letters in both.

    A word that another ends in is another word: nobody types wedge who means edge. Of several that are as
    near the first that is known is told.

    >>> nearest("wedge", ["edge"]), nearest("edges", ["edge"]), nearest("tang", ["left tang"])
    (None, 'edge', 'left tang')
    >>> nearest("chek", ["check", "cheek"])
    'check'
    """
    from difflib import SequenceMatcher, get_close_matches

    row = list(known)
    if alike := [one for one in row if signs_alike(one) == signs_alike(asked)]:
        return alike[0]
    apart = [one for one in row if not (_is_tail(one, asked) or _is_tail(asked, one))]
    close = get_close_matches(asked, apart, n=3, cutoff=share)
    if len(close) < 2:
        return next(iter(close), None)
    return max(sorted(close, key=apart.index), key=lambda one: SequenceMatcher(None, one, asked).ratio())


def _is_tail(tail: str, word: str) -> bool:
    """Whether a word ends in another; a letter that was typed twice is a slip."""
    front = word.removesuffix(tail)
    return bool(tail) and front != word and front[-1:].isalpha() and front != tail[:1]


def did_you_mean(asked: str, known: Iterable[str], otherwise: str) -> str:
    """The end of a refusal: the name that is nearest to the one typed, or what is told where none is near."""
    near = nearest(asked, known)
    return f"did you mean {near}{odd_in(near)}?" if near else otherwise


#: Alphabets of which letters look like those of another.
_ALIKE = ("LATIN", "CYRILLIC", "GREEK", "ARMENIAN", "CHEROKEE", "COPTIC")


def odd_in(text: str) -> str:
    """The first character that is not seen, or looks like one of another alphabet beside it; "" for none.

    A word in one alphabet is never odd, whichever that is. Mixed ones are, where the alphabets have letters
    alike, as in Unicode Technical Standard 39, section 5.1 (https://www.unicode.org/reports/tr39/); a
    character's name says which alphabet it is of.

    >>> odd_in("h" + chr(0x430) + "mmer"), odd_in("hammer"), odd_in(chr(0x430))
    (' (with U+0430, CYRILLIC SMALL LETTER A, in it)', '', '')
    """
    found = _odd(text)
    return f" (with {_number(found[0])}, {found[1]}, in it)" if found else ""


def marked(text: str) -> str:
    """A name as it stands in a list: with the number of the character that is odd in it.

    >>> marked("hammer"), marked("h" + chr(0x430) + "mmer").encode("ascii", "replace")
    ('hammer', b'h?mmer (U+0430)')
    """
    found = _odd(text)
    return f"{text} ({_number(found[0])})" if found else text


def _odd(text: str) -> tuple[str, str] | None:
    """The first odd character and its name."""
    if text.isascii():
        return None
    from unicodedata import name

    named = [(one, name(one, "a character without a name")) for one in text]
    alphabets = [told.split()[0] for _, told in named if told.split()[0] in _ALIKE]
    usual = max(dict.fromkeys(alphabets), key=alphabets.count, default="")  # of as many the first
    for one, told in named:
        if not one.isprintable() or (told.split()[0] in _ALIKE and told.split()[0] != usual):
            return one, told
    return None


def _number(character: str) -> str:
    return f"U+{ord(character):04X}"
