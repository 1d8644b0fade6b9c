"""A row of small holes in one zone: read, written, planned and its metal by hand."""

from __future__ import annotations

from math import pi

import pytest

from coach.drafting.answers import Answers
from coach.drafting.draft import drafted
from coach.ledger.looking_back import look_back
from coach.operations.does import Cause
from coach.recipe.reader import read_recipe
from coach.recipe.spelling import spelt_out
from coach.recipe.writing import write_recipe
from coach.telling.words import write
from tests.recipes.test_faults import faults_of

STRAP = """\
recipe: Strap
pieces:
  strap:
    metal: mild steel
    bar: 40 x 6
    zones:
      nailed: 38 ±2 x 5.5 ±0.5, three round holes 7 ±0.5, long 220 ±18
      end: 40 x 6, long 60 ±6
usual: {at: light yellow, kerf: 2}
scale: none
steps:
  - mark out: strap
  - draw: nailed, 38 x 5.5, 3 heats
  - pierce: nailed, three round holes 7, slug 4
    check: hole diameter
  - cut: end, cold
"""


# By hand: a hole of 7 mm is 38.48 mm2, so three slugs 4 mm thick are 462 mm3, and the finished stretch holds
# 38 x 5.5 x 220 less three holes 5.5 deep, 635 mm3: 45 345 mm3. Drawn and not pierced yet it is 45 807 mm3,
# 219.2 mm long: the 1.5 mm of each hole that no slug takes are pushed aside and make it 220.
def test_its_metal_is_that_of_the_bar_less_its_slugs() -> None:
    plan = look_back(read_recipe(STRAP, "strap.yaml"))
    stage = plan.by_step[3]["nailed"]
    assert stage.taken_mm3[Cause.SLUG] == pytest.approx(3 * pi / 4 * 7**2 * 4, rel=1e-9)
    assert stage.form_after.volume_mm3() == pytest.approx(45_345, abs=1)
    before = stage.form_before.sizes_mm()
    assert before["length"] == pytest.approx(219.2, abs=0.05)
    assert stage.form_after.sizes_mm()["length"] == pytest.approx(220.0, abs=1e-6)


def test_it_reads_back_as_it_is_written() -> None:
    recipe = read_recipe(STRAP, "strap.yaml")
    assert recipe.drawing["nailed"].shape.options["holes"] == "three"
    assert read_recipe(STRAP.replace("three round", "3 round"), "strap.yaml").drawing == recipe.drawing
    text = write_recipe(spelt_out(STRAP, "strap.yaml"))
    assert "three round holes 7 ±0.5" in text
    again = read_recipe(text, "strap.yaml")
    assert again.drawing == recipe.drawing
    assert again.steps[2].shape == recipe.steps[2].shape


@pytest.mark.parametrize(
    ("new", "told"),
    [
        ("three round holes 39", "leave no metal beside them in a width of"),
        ("twelve round holes 20", "leave nothing between them in"),
        ("thre round holes 7", "thre round"),
        ("13 round holes 7", "a row has two to twelve holes, not 13"),
    ],
)
def test_holes_that_cannot_be_are_told(new: str, told: str) -> None:
    found = faults_of(STRAP.replace("three round holes 7 ±0.5", new))
    assert any(told in write(one.message) for one in found), [write(one.message) for one in found]


def test_a_proposal_draws_the_bar_and_pierces_it() -> None:
    draft = drafted(
        Answers(
            "Strap",
            "mild steel",
            "40 x 6",
            {"nailed": "36 ±2 x 5 ±0.5, four round holes 6 ±0.5, long 240", "end": "40 x 6, long 60"},
        )
    )
    assert [write(one.sentence) for one in draft.planned.findings] == []
    assert "- pierce: nailed, four round holes 6" in draft.text
