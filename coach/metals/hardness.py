"""How a steel's hardness on one scale reads on another.

ASTM E140 Table 1, non-austenitic steel: Rockwell C, Vickers, and Brinell with a 10 mm tungsten carbide ball
and 3000 kgf (the rows at 55, 50, 45 and 40 HRC, those at 60 and 65 HRC for Vickers and at 35 HRC for Brinell
confirmed second-hand, the others from memory). Tables that were made with a steel ball give less Brinell:
613 at 60 HRC instead of 654. No conversion is exact; E140 rounds a Rockwell figure that was converted to a
whole number.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Sequence
from typing import Final, Literal, NamedTuple, TypeAlias

from coach.quantities.errors import SizeError, briefly
from coach.quantities.numerals import NUMBER, number_in, refuse_odd_numbers, tidy

Scale: TypeAlias = Literal["HRC", "HV", "HB"]

LOWEST_HRC: Final = 20.0
HIGHEST_HRC: Final = 65.0

#: From here up the ball itself gives way: Brinell is not a fair test of harder steel (from memory).
HIGHEST_HB: Final = 650.0

_HRC: Final = (
    *(20.0, 22.0, 24.0, 25.0, 26.0, 28.0, 30.0, 32.0, 34.0, 35.0, 36.0, 38.0, 40.0, 42.0),
    *(44.0, 45.0, 46.0, 48.0, 50.0, 52.0, 54.0, 55.0, 56.0, 58.0, 60.0, 62.0, 64.0, 65.0),
)
_HV: Final = (
    *(238.0, 248.0, 260.0, 266.0, 272.0, 286.0, 302.0, 318.0, 336.0, 345.0, 354.0, 372.0, 392.0, 412.0),
    *(434.0, 446.0, 458.0, 484.0, 513.0, 544.0, 577.0, 595.0, 613.0, 653.0, 697.0, 746.0, 800.0, 832.0),
)
_HB: Final = (
    *(226.0, 237.0, 247.0, 253.0, 258.0, 271.0, 286.0, 301.0, 319.0, 327.0, 336.0, 353.0, 371.0, 390.0),
    *(409.0, 421.0, 432.0, 455.0, 481.0, 512.0, 543.0, 560.0, 577.0, 615.0, 654.0, 688.0, 722.0, 739.0),
)
