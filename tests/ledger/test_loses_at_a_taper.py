"""So many millimetres off the end of a taper are so many off its length, and the end is thicker then."""

from __future__ import annotations

from math import pi

import pytest

from coach.ledger.looking_back import look_back
from coach.recipe.reader import read_recipe

SPIKE = """\
recipe: Spike
pieces:
  spike:
    metal: mild steel
    bar: round 12
    zones:
      tip: round 12 to 4 ±1.5, long 47 ±4
      shank: round 12, long 60
usual: {at: yellow}
steps:
  - mark out: spike
  - cut: shank, cold, kerf 1.5
  - taper: tip, round 12 to 4 ±1, long 52 ±4, 2 heats
  - grind: tip, loses 5 mm
"""


def test_the_length_goes_by_what_is_said_and_the_metal_by_what_stood_there() -> None:
    plan = look_back(read_recipe(SPIKE, "spike.yaml"))
    ground = plan.by_step[4]["tip"]
    before, after = ground.form_before.sizes_mm(), ground.form_after.sizes_mm()
    assert before["length"] - after["length"] == pytest.approx(5.0, abs=0.01)
    # By similar triangles, of a taper that runs from d to e over its length.
    thicker = (before["diameter"] - before["end_diameter"]) * 5.0 / before["length"]
    assert after["end_diameter"] - before["end_diameter"] == pytest.approx(thicker, abs=0.01)
    # Frustum of a cone: V = π·h/12·(d² + d·e + e²) (elementary geometry).
    d, e = after["end_diameter"], before["end_diameter"]
    gone = pi * 5.0 / 12.0 * (d * d + d * e + e * e)
    lost = ground.form_before.volume_mm3() - ground.form_after.volume_mm3()
    assert lost == pytest.approx(gone, rel=0.01)
