"""What a test of the shop is: what is done, and what passes, leaves a doubt or fails; it has no figure."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from typing import Final, NamedTuple

from coach.operations.does import Does
from coach.quantities import SizeError

#: How much of what was typed is told back (our choice).
_LONGEST_ECHO: Final = 30


class Result(Enum):
    """What came of a test."""

    PASS = "pass"
    DOUBT = "doubt"
    FAIL = "fail"

    @property
    def size(self) -> float:
        """As a reading keeps it: 1 for a pass, 0.5 for a doubt, 0 for a failure."""
        return _SIZES[self]

    @classmethod
    def of(cls, size: float) -> Result:
        """The result that a reading keeps."""
        return min(cls, key=lambda known: abs(_SIZES[known] - size))

    @classmethod
    def read(cls, text: str) -> Result:
        """The result that was typed; raises SizeError with one sentence.

        >>> [Result.read(typed).value for typed in ("pass", "2", "F")]
        ['pass', 'doubt', 'fail']
        """
        typed = text.strip().lower()
        for result, words in _WORDS.items():
            if typed in words:
                return result
        shown = typed if len(typed) <= _LONGEST_ECHO else typed[:_LONGEST_ECHO] + "…"
        raise SizeError(f"{shown!r} is no outcome of a test: type pass, doubt or fail, or 1, 2 or 3.")


#: A result as a number, to be reckoned with (our choice).
_SIZES: Final[Mapping[Result, float]] = {Result.PASS: 1.0, Result.DOUBT: 0.5, Result.FAIL: 0.0}
_WORDS: Final[Mapping[Result, tuple[str, ...]]] = {
    Result.PASS: ("pass", "passed", "p", "yes", "y", "ok", "good", "1"),
    Result.DOUBT: ("doubt", "doubtful", "d", "unsure", "?", "2"),
    Result.FAIL: ("fail", "failed", "f", "no", "n", "bad", "3"),
}


class MadeOn(Enum):
    """Steel that a test is made otherwise on, and tells something else of."""

    TEMPERED = "tempered"  # softer than a file
    SOFT = "soft"  # no step hardens it
    HARD = "hard"  # it is hardened, and lies in no fire
    LESS_HARD = "less hard"  # its best quench may leave it softer than a file


class ShopTest(NamedTuple):
    """One test as a smith makes it (common practice, no source); its file's name is what it is asked for by.

    A pass never proves a weld or a temper: it finds no fault.
    """

    how: str  # what to do, and what passes
    after_doubt: str
    after_fail: str
    caution: str = ""
    first: str = ""  # what is done before anything mends a failure
    #: What mends a failure, the gentlest first: steps that are done again. None where none does.
    mended_by: tuple[Does, ...] = ()
    spoils: bool = False  # whether a failure can mean that the piece is lost
    of_piece: bool = False  # whether it tells of all its piece, whichever zone it is made on
    not_yet: bool = False  # whether a failure only means that it is made again a little later
    as_it_heats: bool = False  # whether it is made in the fire, and so holds for the heat taken next
    of_work: tuple[Does, ...] = ()  # what it can only be made of: a zone that such a step works
    once_tempered: ShopTest | None = None  # the same on steel tempered softer than a file; None where alike
    once_hard: ShopTest | None = None  # the same on hard steel that lies in no fire; None where alike
    less_hard: ShopTest | None = None  # the same on steel quenched softer than a file at its best
    never_hardened: ShopTest | None = None  # the same on steel that no step hardens; None where alike

    def made_on(self, steel: MadeOn | None) -> ShopTest:
        """The same as it is made on some steel; itself where that is alike."""
        varied = {
            MadeOn.TEMPERED: self.once_tempered,
            MadeOn.SOFT: self.never_hardened,
            MadeOn.HARD: self.once_hard,
            MadeOn.LESS_HARD: self.less_hard,
        }
        return (varied[steel] if steel is not None else None) or self
