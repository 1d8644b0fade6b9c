"""What to do with fire and piece before they are left."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final

from coach.bench.resting import Care
from coach.telling.page import Line, Section, section

_WORDS: Final[Mapping[Care, str]] = MappingProxyType(
    {
        Care.TEMPER: (
            "The piece: temper it now, if only by a first warming to a faint straw; until then keep it as "
            "warm as the hand bears, and let nothing strike it."
        ),
        Care.COOL: (
            "The piece: let it cool in still air until it is black, where nobody takes hold of it; not in "
            "water and not on cold iron."
        ),
        Care.OIL: "Bright faces: oil them, and clean the oil off before the next step.",
        Care.FIRE: (
            "The fire: draw it apart or let it burn out, blast off and gas shut; nothing burns unattended. "
            "The quench tub: lid on."
        ),
    }
)


def care_section(care: Iterable[Care]) -> Section:
    """A line for each."""
    return section("", (Line(_WORDS[one], "Caution") for one in care))
