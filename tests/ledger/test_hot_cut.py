"""What the heat of a cut does to what was drawn before it, and what grows where a width is hammered in."""

from __future__ import annotations

import pytest

from coach.ledger.nominal import Stage
from coach.ledger.working import layer_of
from tests.ledger.recipes import planned

TIP = """
recipe: Tip
pieces:
  tip:
    metal: mild steel
    bar: square 14, long 400
    size: square 12 ±0.6 to 6 ±0.6, long 131 ±3
steps:
  - taper: tip, 2 heats
    check: width, end width, length
  - cut: tip, long 131 ±2, HOT
    check: length
"""

TANG = """
recipe: Tang
pieces:
  tang:
    metal: mild steel
    bar: 30 x 6, long 300
    size: WIDE ±1 x 6 ±0.5, long 125 ±12
steps:
  - cut: tang, 1 heat
    check: length
  - draw: tang, 3 heats
    check: width, thickness, length
"""


def _last(text: str, zone: str) -> Stage:
    return planned(text).stages[zone][-1]


def test_a_hot_cut_makes_what_was_drawn_thinner_and_no_shorter() -> None:
    hot, sawn = _last(TIP.replace("HOT", "1 heat"), "tip"), _last(TIP.replace("HOT", "cold"), "tip")
    layer_mm = layer_of(planned(TIP.replace("HOT", "1 heat")).recipe, hot.step, 1)
    assert layer_mm >= 0.03
    for name in ("width", "thickness", "end_width", "end_thickness"):
        have, left = hot.form_before.size_mm(name), hot.form_after.size_mm(name)
        assert have - left == pytest.approx(2 * layer_mm), name
        assert sawn.form_before.size_mm(name) == sawn.form_after.size_mm(name)
    # Nothing is over beyond its stated length but the scale of a free end and of the slant (off it were 1.5).
    assert hot.form_before.size_mm("length") == pytest.approx(131.0, abs=0.1)
    assert hot.form_after.size_mm("length") == pytest.approx(131.0, abs=1e-6)


@pytest.mark.parametrize("wide", ["13.5", "17"])
def test_a_width_that_is_hammered_in_keeps_the_thickness_that_the_smith_wants(wide: str) -> None:
    """Blows on the edges of a flat bar thicken it, so its scale makes none of it thinner (by practice)."""
    stage = _last(TANG.replace("WIDE", wide), "tang")
    assert stage.form_before.size_mm("thickness") < 6.0
    assert stage.form_after.size_mm("thickness") == pytest.approx(6.0, abs=1e-6)
