"""What a bath does to a steel that is quenched in another: cracks it, or leaves it soft."""

from __future__ import annotations

from typing import Final

from coach.metals.grade_file import Grade
from coach.metals.tempering_table import hardened_through_mm
from coach.quantities.figure import mm
from coach.quantities.words import NOTHING, Words, as_words, say

#: Baths from the mildest to the fiercest (common practice, no source).
FIERCENESS: Final = ("air", "oil", "salt", "fast oil", "water", "brine")
WATERS: Final = ("water", "brine")
#: The baths for which a steel is too deep hardening to be quenched in water (common practice, no source).
_MILD_BATHS: Final = ("oil", "salt", "air")
#: From this thickness, in mm, a piece is big for what is told of big pieces (judgement).
BIG_MM: Final = 35.0


def is_fiercer(bath: str, other: str) -> bool:
    """Whether a bath takes the heat out faster than another.

    >>> is_fiercer("brine", "water"), is_fiercer("oil", "fast oil")
    (True, False)
    """
    return FIERCENESS.index(bath) > FIERCENESS.index(other)


def can_crack_in(bath: str, metal: Grade) -> bool:
    """Whether a bath is fiercer on a steel than its own; hot salt is used against cracks (from memory)."""
    return metal.quench is not None and bath != "salt" and is_fiercer(bath, metal.quench.medium)


def cracks_in(bath: str, metal: Grade, thick_mm: float | None = None) -> bool:
    """Whether a steel does not stand a bath; thin, also where its own hardens it through."""
    if metal.quench is None or bath not in WATERS or metal.quench.medium in WATERS:
        return False
    if bears(bath, metal, thick_mm):
        return False
    if metal.quench.medium in _MILD_BATHS:
        return True
    through_mm = hardened_through_mm(metal.name, metal.quench.medium)
    return thick_mm is not None and through_mm is not None and thick_mm <= through_mm


def may_crack_in(bath: str, metal: Grade, thick_mm: float | None = None) -> bool:
    """Whether a crack is looked for after a bath: also after brine on a steel of water that names no brine.

    >>> from coach.metals.grade import grade
    >>> may_crack_in("brine", grade("C45")), may_crack_in("brine", grade("W1"))
    (True, False)
    """
    if metal.quench is not None and (bath, metal.quench.medium) == ("brine", "water"):
        return bath not in metal.quench.words.lower()
    return cracks_in(bath, metal, thick_mm)


def never_hard_in_air(metal: Grade) -> bool:
    """Whether no piece of a steel is so thin that air hardens it: its quench is a fast one (from memory).

    >>> from coach.metals.grade import grade
    >>> never_hard_in_air(grade("C80")), never_hard_in_air(grade("O1"))
    (True, False)
    """
    return metal.quench is not None and metal.quench.medium in ("fast oil", *WATERS)


def bears(bath: str, metal: Grade, thick_mm: float | None) -> bool:
    """Whether a piece is so big that its steel is told to bear a bath, where it is plain.

    >>> from coach.metals.grade import grade
    >>> bears("water", grade("4140"), 40.0), bears("water", grade("4140"), 20.0)
    (True, False)
    """
    return metal.quench is not None and bath == metal.quench.bears and (thick_mm or 0.0) >= BIG_MM


def other_bath_words(metal: Grade, bath: str) -> Words:
    """What to say of a steel in a bath that is not its own; nothing of its own, and where that is unknown.

    >>> from coach.metals.grade import grade
    >>> str(other_bath_words(grade("C45"), "brine"))
    'C45 is quenched in water; brine can crack it.'
    """
    if not bath or metal.quench is None or bath == metal.quench.medium:
        return NOTHING
    own, through_mm = metal.quench.medium, hardened_through_mm(metal.name, bath)
    how = as_words("may leave it soft where it is thick")
    if bath == "salt":  # it draws less than oil (from memory)
        how = as_words("is kinder to it, and may leave it soft where it is thick")
    elif can_crack_in(bath, metal):
        how = as_words("can crack it")
    elif bath.endswith("oil") and through_mm is not None:
        how = say("may leave it soft where it is thicker than about {}", mm(through_mm))
    return say("{} is quenched in {}; {} {}.", metal.name, own, bath, how)
