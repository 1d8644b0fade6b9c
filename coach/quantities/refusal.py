"""The base of every error that a user can cause."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from coach.quantities.units import System
from coach.quantities.words import Part, Words, say


class Refusal(ValueError):
    """What was asked cannot be done: one sentence with what is wrong, where, and what to type instead.

    The way in that catches it needs to know no more of it; the sentence holds its figures as values, so that
    it is told in the units asked for.
    """

    BAD_NEWS: ClassVar[bool] = False
    """Whether it is the answer itself that is bad news, rather than a question that cannot be answered."""

    system: System | None = None
    """The units to tell it in where none are asked for; None where it is about no file of its own."""

    def __init__(self, sentence: str | Words, *parts: Part) -> None:
        """Say what is wrong.

        Args:
            sentence: with a pair of braces for each part; a text that stands alone may hold anything.
            parts: what stands in the braces: texts, counts, figures, other words.
        """
        if isinstance(sentence, Words):
            self.words = sentence
        else:
            self.words = say(sentence, *parts) if parts else say("{}", sentence)
        super().__init__(str(self.words))

    def details(self) -> Mapping[str, object]:
        """What an answer in JSON carries besides the sentence."""
        return {}


class OutOfRange(Refusal):
    """A figure outside the range in which anything is known of it, or can be."""


class NotKnown(Refusal):
    """A name that nothing has."""
