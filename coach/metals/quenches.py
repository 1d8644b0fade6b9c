"""What steel is quenched in, with the caution that goes with each."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

#: Tub and lid: 29 CFR 1910.126 (confirmed); no water on an oil fire (confirmed second-hand); all of it under
#: at once (from memory); face and arms, fresh air (common practice, no source).
_OIL = (
    "Oil can flare and smokes: face and arms covered, fresh air, metal lid and extinguisher at hand, nothing "
    "wet in it, no water on an oil fire; under the oil at once, all of it that is hot."
)
#: Spitting and cracks (common practice, no source); quench cracks: Precision Machined Products Association,
#: 7 Causes of Quench Cracking in Steel, 2010 (confirmed).
_WATER = (
    "Water and brine spit, and steel can burst in them: eyes and arms covered, no face above it, look for "
    "cracks after."
)

#: Said where steel from an oil bath is tempered: it is washed before, ASM Handbook vol. 4 (from memory).
OILY: Final = "Wipe the quench oil off first: it smokes and can burn at the heat of a temper."

#: By the word a recipe uses; usual cautions, deferring to the makers' own instructions. Salt: California
#: Title 8 §5188, clean and dry (confirmed).
QUENCHES: Final[Mapping[str, str]] = {
    "oil": _OIL,
    "fast oil": _OIL,
    "water": _WATER,
    "brine": _WATER,
    "salt": (
        "Molten salt explodes on anything wet: piece, tongs and ladle dry and warm, full face and apron, "
        "fume drawn off; by its maker's instructions alone."
    ),
    "air": "It cools black and looks cold: tongs or gloves, and where nobody reaches for it.",
}
