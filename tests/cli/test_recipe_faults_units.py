"""What is wrong with a recipe is told in the units asked for, wherever it is listed."""

from __future__ import annotations

import json
from pathlib import Path

from tests.cli.conftest import Coach

#: A hole longer than the head: a fault that holds sizes.
CROOKED = """\
recipe: Crooked head
units: mm
summary: Made up.
time: an hour
tools:
  - hammer
pieces:
  body:
    metal: mild steel
    bar: 40 x 36
    size: 44 ±4 x 34 ±1, oval hole 28 ±1 x 17 ±0.8 through its thickness, long 20 ±1
steps:
  - inspect: body
"""


def test_the_list_of_recipes_tells_faults_in_inches_when_asked(coach: Coach) -> None:
    folder = coach.home / "config" / "recipes"
    folder.mkdir(parents=True)
    (Path(folder) / "crooked.yaml").write_text(CROOKED, encoding="utf-8")
    told = json.loads(coach("recipes", "--units", "in", "--json").out)
    (faults,) = [one["faults"] for one in told["recipes"] if one["name"] == "crooked"]
    assert faults
    assert all(" mm" not in fault for fault in faults)
    assert any(" in" in fault for fault in faults)
