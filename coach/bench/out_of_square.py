"""A flat that has gone to a diamond, by its diagonals: how far, and what squares it.

Of a flat W wide and t thick, one of whose broad faces stands d beyond the other along them, the diagonals are
p² = (W + d)² + t² and q² = (W - d)² + t², so that d = (p² - q²) / (4·W); its edges lean by atan(d / t), and
it holds as much metal as a true one, W·t (elementary geometry).
"""

from __future__ import annotations

from math import atan2, degrees, hypot
from typing import Final

from coach.bench.job_state import JobState
from coach.bench.out_of_true import read_both_ways
from coach.log.kinds.reading import Reading
from coach.operations.measures import DIAGONALS
from coach.quantities.errors import SizeError
from coach.quantities.figure import Figure, Kind, mm
from coach.quantities.units import System
from coach.quantities.words import NOTHING, Words, as_words, say

#: Nothing is said of less, for a gauge on a forged face tells no more (judgement).
_LEAST_DEG: Final = 2.0
#: Diagonals that are so much more or less than those of a flat as it is believed are not of it, as a share
#: (judgement).
_ODD_SHARE: Final = 0.08
_ODD: Final = "a flat {} by {} is {} from corner to corner: measure the diagonals again"
_TRUE: Final = as_words("it is square as far as a gauge tells")
#: What squares it is common practice (no source).
_CURE: Final = (
    "out of square by {}, one broad face {} beyond the other: stand it on its long corners and drive them in "
    "until both diagonals are {}; there is as much metal in it as before"
)


def out_of_square(state: JobState, read: Reading, system: System) -> Words:
    """What is said of the diagonals of a flat; nothing of any other size."""
    there = state.now.zones.get(read.zone) if read.dimension == DIAGONALS and state.now is not None else None
    if there is None or not there.has_form or state.now is None:
        return NOTHING
    wide_mm, thick_mm = (state.now.size(read.zone, name).value for name in ("width", "thickness"))
    across_mm = hypot(wide_mm, thick_mm)
    try:
        both = read_both_ways(DIAGONALS, read.typed, system)
    except SizeError:
        return NOTHING
    both_mm = both.greater_mm + both.less_mm if both is not None else 2.0 * across_mm
    if abs(both_mm - 2.0 * across_mm) > 2.0 * _ODD_SHARE * across_mm:
        return say(_ODD, mm(round(wide_mm)), mm(round(thick_mm)), mm(round(across_mm)))
    beyond_mm = read.size * both_mm / (4.0 * wide_mm)
    out_deg = degrees(atan2(beyond_mm, thick_mm))
    if out_deg < _LEAST_DEG:
        return _TRUE
    return say(
        _CURE, Figure(float(round(out_deg)), Kind.ANGLE), mm(round(beyond_mm, 1)), mm(round(across_mm))
    )
