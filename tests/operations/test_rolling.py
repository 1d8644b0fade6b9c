"""What is curled or rolled keeps the middle of its metal, and the steps tell how much that is."""

from __future__ import annotations

import pytest

from coach.bench.planned import planned_tool
from coach.forms.socket import Socket
from coach.forms.taper import Taper
from coach.operations import operation
from coach.telling.words import write
from tests.ledger.recipes import planned

CURL = """
title: Curl
scale: none
pieces:
  bar: {metal: mild steel, stock: {form: flat, width: 20, thickness: 5}}
drawing:
  bar: {form: scroll, across: 91, eye: 21, pitch: 12, width: 20, thickness: 5, take up: across}
steps:
  - {do: scroll, zone: bar, to: drawing}
"""


def test_the_bar_marked_out_for_a_scroll_is_as_long_as_its_middle() -> None:
    plan = planned(CURL)
    # The turns of tests/forms/test_scrolls.py, by hand: three of a mean radius of 28 mm and 1.5 mm.
    assert plan.bar_of("bar").length_mm == pytest.approx(527.79 + 1.5, abs=0.1)
    told = write(planned_tool(plan).steps[0].step.know[0])
    assert "529 mm of bar roll up in 3 turns, out to 91 mm across." in told


def test_a_plate_is_told_as_wide_as_the_middle_of_the_wall_it_becomes() -> None:
    # By hand: π·(28 − 3) and π·(19 − 3); a plate so cut has the volume of the cone it becomes.
    cone, plate = Socket(28, 19, 3, 90), Taper(78.5398, 3, 50.2655, 3, 90)
    assert cone.volume_mm3() == pytest.approx(plate.volume_mm3(), rel=1e-6)
    (told,) = operation("roll").know(plate, cone)
    assert "78.5 mm at the mouth and 50.3 mm at the narrow end" in write(told)
