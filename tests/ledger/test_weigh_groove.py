"""A groove that has no room in what it is sunk into is a finding."""

from __future__ import annotations

import pytest

from coach.ledger.weigh import Cannot, weigh
from coach.telling.words import write
from tests.ledger.recipes import planned

SWAGE = """\
recipe: Swage
pieces:
  block:
    metal: C45
    bar: 50 x 40
    zones:
      face: 50 x 40, long 45 ±3
      neck: 50 x 40, long 60 ±5
      shank: 25 x 25, long 60 ±5
steps:
  - groove: {zone}, {asked}, 2 heats
  - draw: shank, 25 x 25
"""


def found(asked: str, zone: str = "face") -> list[str]:
    text = SWAGE.format(asked=asked, zone=zone)
    return [write(one.sentence) for one in weigh(planned(text)) if one.step == 1]


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        # No groove is as deep or as wide as what it is in (by definition).
        ("groove depth 48", "48 mm deep"),
        ("groove depth 480, groove wide 600", "480 mm deep, 600 mm wide"),
        ("groove wide 60", "60 mm wide"),
        ("groove depth 8, groove wide 20, groove long 70", "70 mm long"),
    ],
)
def test_a_groove_larger_than_its_piece_is_told(asked: str, told: str) -> None:
    (words,) = found(asked)
    assert words.startswith("Step 1, Groove the face: a groove ")
    assert f"{told} has no room in face, which is 50 mm × 40 mm there" in words


@pytest.mark.parametrize("asked", ["groove depth 8, groove wide 20", "groove depth 30, groove wide 3"])
def test_a_groove_with_room_is_none(asked: str) -> None:
    assert found(asked) == []


def test_only_the_end_of_a_bar_is_cleft_along_it() -> None:
    # 50 mm of width leave a bar no more than that to be cut through; an end may be cleft further.
    assert found("groove depth 52", "neck")
    drawn_first = SWAGE.format(asked="groove depth 52", zone="shank").splitlines()
    drawn_first = [*drawn_first[:-2], drawn_first[-1], drawn_first[-2]]
    assert [one for one in weigh(planned("\n".join(drawn_first))) if "groove" in write(one.sentence)] == []


def test_the_words_stand_for_what_cannot_be_made() -> None:
    found_here = weigh(planned(SWAGE.format(asked="groove wide 60", zone="face")))
    (one,) = [one for one in found_here if one.step == 1]
    assert (one.what, one.zone) == (Cannot.MAKE_SIZE, "face")
