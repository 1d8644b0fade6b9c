"""A quench of what does not harden is not sent to a temper first."""

from __future__ import annotations

import pytest

from coach.telling.words import write
from tests.recipes.test_faults import faults_of

CHISEL = """\
recipe: Chisel
pieces:
  chisel:
    metal: {metal}
    bar: square 16
    zones:
      head: square 16, long 120
      edge: 16 x 16 to 16 x 4, long 60 ±6
steps:
  - cut: edge, cold
  - taper: edge, 3 heats, at yellow
  - harden: edge, at 820 to 840 °C, quench water
"""


@pytest.mark.parametrize(
    ("metal", "ends"),
    [
        (
            "mild steel",
            "before temper; and mild steel does not harden: leave the harden out, or take a steel",
        ),
        ("C45", "is not safe to leave before temper"),
        ("unknown spring steel", "is not safe to leave before temper"),
    ],
)
def test_what_is_wrong_with_a_quench_alone(metal: str, ends: str) -> None:
    (fault,) = faults_of(CHISEL.format(metal=metal))
    assert write(fault.message).endswith(ends)
    assert fault.line == 12
