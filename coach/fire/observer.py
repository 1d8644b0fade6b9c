"""The CIE 1931 standard colorimetric observer of 2°: how the eye weighs each wavelength of light.

Source: CIE 15, Colorimetry, and ISO/CIE 11664-1, colour-matching functions at 5 nm (confirmed
second-hand: as the open library colour-science gives them, which the tests compare).
"""

from __future__ import annotations

from pathlib import Path
from typing import Final

STEP_NM: Final = 5
_LINES: Final = Path(__file__).with_name("observer.csv").read_text(encoding="utf-8").splitlines()

#: Wavelength in nm, and x̄, ȳ and z̄ there.
CIE_1931_2_DEG: Final = tuple(
    (int(nm), float(x_bar), float(y_bar), float(z_bar))
    for nm, x_bar, y_bar, z_bar in (line.split(",") for line in _LINES[1:])
)
