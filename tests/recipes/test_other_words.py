"""Words of other shops and slips in a line of a step or a zone: what to write is told."""

from __future__ import annotations

import pytest

from coach.operations import also_called, operations
from coach.telling.words import write
from tests.recipes.test_faults import faults_of

HASP = """\
recipe: Hasp
pieces:
  hasp:
    metal: 1075
    bar: 30 x 6
    zones:
      strap: 30 x 6, long 120, four round holes 6
      slot: 30 x 6, long 50, slot hole 30 x 8 through its thickness
      tip: 30 x 6 to 8 x 4, long 60
steps:
  - mark out: hasp
  - pierce: strap, slug 2
  - punch: slot, slot hole 30 x 8, slug 2
  - taper: tip
  - bend: tip, radius 12, angle 30
  - file: tip, edge angle 22
"""


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("pierce: strap", "drill: strap", "“drill” is no operation: write pierce or punch for it"),
        ("taper: tip", "taper: tip, 2 forge heats", "as in heats 2 forge"),
        ("taper: tip", "point: tip", "“point” is no operation: write taper for it"),
        ("taper: tip", "forge: tip", "write draw, spread or taper for it"),
        ("file: tip, edge angle 22", "quench: tip", "such as harden: tip"),
        ("four round holes", "four round hole", "several holes: write four round holes"),
        ("slot hole 30 x 8 through", "slothole 30 x 8 through", "did you mean slot hole?"),
        ("30 x 6, long 120", "30 x6, long 120", "a blank belongs on both sides of the x"),
        ("radius 12", "radius 1 2", "a second number"),
        ("edge angle 22", "edge angle 22 mm", "“mm” is no unit of the number before it"),
        ("metal: 1075", "metal: 1O75", "the nearest is 1075"),
    ],
)
def test_what_to_write_is_told(old: str, new: str, told: str) -> None:
    found = [write(one.message) for one in faults_of(HASP.replace(old, new, 1))]
    assert any(told in one for one in found), found
    assert len(found) <= 2, found


def test_a_word_of_other_shops_is_no_operation_of_ours() -> None:
    assert not also_called().keys() & operations().keys()


def test_a_join_without_anything_that_joins_says_what_does() -> None:
    found = [write(one.message) for one in faults_of(HASP + "  - join: hasp by staple\n")]
    assert any("none is drawn as collar or rivet, which is what joins" in one for one in found), found
