"""Hardening: the steel is quenched from above its critical heat."""

from __future__ import annotations

from types import MappingProxyType
from typing import Final

from coach.operations.does import Does
from coach.operations.idle import Treatment
from coach.quantities import Kind, as_words, celsius, say

#: Quenched steel gives until it has cooled to this, in °C, then is glass-hard (common practice, no source).
_GIVES_ABOVE_C: Final = 200.0
_STRAIGHTEN: Final = say(
    "Straighten it while it is above {} from the quench, or in the temper or hot from it; never cold before "
    "the temper: it snaps.",
    celsius(_GIVES_ABOVE_C),
)
#: Coarse grain cracks in the quench: Precision Machined Products Association, 7 Causes of Quench Cracking in
#: Steel, 2010, no. 1 (confirmed). A heat from the cold to just over the upper critical one makes it fine: an
#: encyclopaedia, title and year not seen (confirmed second-hand).
_OVERHEATED: Final = as_words(
    "So hot its grain grows coarse, and coarse grain cracks: do not quench it. Let it cool in still air till "
    "it is black, normalise it, and heat it again to its own heat. If it is quenched already, look for a "
    "crack, then do the same."
)
#: Grain grows with heat far more than by time (`coach.metals.hardening`).
_TOO_LONG: Final = as_words(
    "So long at its own heat it has lost carbon at its skin, and its grain has hardly grown: do not soak it "
    "once more. Quench it, grind the skin off, and try it with a file, or measure it, on the ground steel: "
    "where that is hard it stands."
)
_TOO_COLD: Final = as_words("Too cold to harden: heat it further before it is quenched.")


class Harden(Treatment):
    """Glass-hard and brittle until it is tempered, so the job may not rest in between."""

    DOES = frozenset({Does.QUENCHES})
    HAZARDS = ("black",)
    SUMMARY = "Bring the steel past where a magnet lets go to its own heat, even all through, and quench."
    ALSO_CALLED = ("quench",)
    ACCOUNT = "no rest before the temper"
    EXTRAS = {**Treatment.EXTRAS, "hardness": Kind.HARDNESS, "warp": Kind.GAP}
    AFTER_OUT = MappingProxyType({"warp": _STRAIGHTEN})
    AFTER_OVER = MappingProxyType({"temperature": _OVERHEATED, "soak": _TOO_LONG})
    AFTER_UNDER = MappingProxyType({"temperature": _TOO_COLD})
    UNSAFE_UNTIL = Does.TEMPERS
    UNSAFE_WHY = "quenched steel that is left untempered cracks by itself, often overnight"
    AGAIN_AFTER = Does.NORMALISES
    AGAIN_CAUTION = "Every quench is one more chance to crack: look for a crack after it."
