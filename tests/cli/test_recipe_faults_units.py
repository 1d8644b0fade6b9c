"""What is wrong with a recipe is told in the units asked for, wherever it is listed."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

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


#: A hole as wide as its strap, in a file in inches.
NARROW = """\
recipe: Strap
units: in
pieces:
  strap:
    metal: mild steel
    bar: 1 1/4 x 3/8
    zones:
      eye: 1 1/8 x 3/8, long 4, slot hole 1 1/2 x 1 1/4 through its thickness
      tail: TAIL, long 4
usual: {at: yellow}
steps:
  - mark out: strap
  - punch: eye
  - cut: tail, cold
"""


@pytest.mark.parametrize("verb", ["check", "plan", "begin"])
def test_a_fault_of_a_file_in_inches_is_told_in_inches_at_its_size_with_its_cure(
    coach: Coach, tmp_path: Path, verb: str
) -> None:
    strap = tmp_path / "strap.yaml"
    strap.write_text(NARROW.replace("TAIL", "1 1/4 x 3/8"), encoding="utf-8")
    answer = coach(verb, str(strap))
    told = answer.out + answer.err
    assert (
        ":8:51: eye cannot be made: the hole width of 1 1/4 in leaves no wall in a width of 1 1/8 in" in told
    )
    assert "make the hole smaller or the width larger" in told
    asked = coach(verb, str(strap), "--units", "mm")
    assert "31.8 mm leaves no wall in a width of 28.6 mm" in asked.out + asked.err


def test_millimetres_in_a_file_in_inches_are_told_with_what_to_write(coach: Coach, tmp_path: Path) -> None:
    strap = tmp_path / "strap.yaml"
    strap.write_text(NARROW.replace("TAIL", "22 x 19").replace("1 1/2 x 1 1/4", "1 x 1/4"), encoding="utf-8")
    (told,) = [line for line in coach("check", str(strap)).out.splitlines() if ":9:" in line]
    assert ":9:13: 22 of what, in a file in inches? Write 22 in, 22 mm, or the fraction" in told
