"""Work that its metal has not got, or that comes too late: holes, arcs, joints and edges."""

from __future__ import annotations

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.questions import questions
from coach.ledger.weigh import weigh
from coach.recipe.reader import read_recipe
from coach.telling.words import write


def found(text: str) -> list[str]:
    return [write(one.sentence) for one in weigh(look_back(read_recipe(text, "job.yaml")))]


def asked(text: str) -> list[str]:
    return [write(one.sentence) for one in questions(look_back(read_recipe(text, "job.yaml")))]


EYE = """\
recipe: Eye
pieces:
  b:
    metal: mild steel
    bar: 30 x 12
    zones:
      eye: 34 x 12, long 60 ±8, slot hole 30 x 12 through its thickness
      arm: 30 x 12, long 80 ±8
steps:
  - mark out: b
  - punch: eye, slot hole 24 x 8, slug 3, at light orange
  - drift: eye, at light orange, 2 heats
  - cut: arm, cold, kerf 2
"""


def test_nothing_is_drifted_out_of_the_solid() -> None:
    assert found(EYE) == []
    (one,) = found(EYE.replace("  - punch: eye, slot hole 24 x 8, slug 3, at light orange\n", ""))
    assert "eye has no hole there to drift: punch one before it" in one


ARC = """\
recipe: Arc
pieces:
  a:
    metal: mild steel
    bar: 12 x 6
    zones:
      arm: 12 x 6, long 100 ±6
      bow: 12 x 6, long 150 ±8
steps:
  - mark out: a
  - cut: bow, cold, kerf 2
  - bend: bow, radius 40 ±2, angle 180, 1 heat, at light orange
"""


# By hand: half a circle through the middle of a bar 6 mm thick, 40 mm inside, is pi x 43 = 135 mm long; with
# 200 mm inside it is pi x 203 = 638 mm.
def test_an_arc_is_no_longer_than_its_bar() -> None:
    assert found(ARC) == []
    (one,) = found(ARC.replace("radius 40", "radius 200"))
    assert "takes 637." in one
    assert "bow is 150 mm long there" in one


PLATES = """\
recipe: Plates
pieces:
  a:
    metal: mild steel
    bar: 30 x 5
    size: 30 x 5, long 80 ±6, round hole 8.5
  c:
    metal: mild steel
    bar: 30 x 5
    size: 30 x 5, long 90 ±6, two round holes 8.5
  pin:
    metal: mild steel
    bar: round 8
    size: rivet, heads two, diameter 8 ±0.3, grip 10 ±0.6, head diameter 14 ±1, head height 5 ±1.2
usual: {at: light orange, kerf: 2}
steps:
  - cut: a, cold
  - cut: c, cold
  - cut: pin, cold
  - punch: a, 2 heats, slug 2
  - pierce: c, 2 heats, slug 2
  - join: a and c by pin, 2 heats
"""
PUNCHED, PIERCED = "  - punch: a, 2 heats, slug 2\n", "  - pierce: c, 2 heats, slug 2\n"


@pytest.mark.parametrize("made", [PUNCHED, PIERCED])
def test_a_hole_is_made_before_what_goes_through_it(made: str) -> None:
    assert found(PLATES) == []
    assert asked(PLATES) == []
    zone = made.split(": ")[1].partition(",")[0]
    (one,) = found(PLATES.replace(made, "") + made)
    assert f"makes the hole of {zone} after it: make it first" in one


def test_a_plate_without_a_hole_is_asked_about() -> None:
    text = PLATES.replace("long 90 ±6, two round holes 8.5", "long 90 ±6").replace(PIERCED, "")
    assert any(
        "no hole is drawn in c, which it goes through: is it drilled there?" in one for one in asked(text)
    )


def test_a_rivet_fits_a_hole_of_a_row_as_it_fits_any() -> None:
    assert any(
        "the hole of c is 6 mm: it does not go in" in one
        for one in found(PLATES.replace("two round holes 8.5", "two round holes 6"))
    )


BLADE = """\
recipe: Blade
pieces:
  a:
    metal: 1075
    bar: 25 x 5
    size: side bevel, width 28 ±2, thickness 3 ±0.5, reach 16 ±3, edge 0.6 ±0.3, long 150 ±15
usual: {at: light orange, kerf: 2}
steps:
  - cut: a, cold
  - side bevel: a, 4 heats
  - normalise: a, 3 heats, at 850 °C
  - harden: a, at 800 to 830 °C, soak 5 min, quench fast oil
  - temper: a, at 230 to 260 °C, soak 1 h
  - sharpen: a, edge angle 22
"""


# The skin by Fick's second law, as `coach skin` has it for those heats: 0.3 mm of each face.
def test_an_edge_that_is_all_skin_is_not_called_hard() -> None:
    (one,) = found(BLADE)
    assert "taken the carbon out of 0.3 mm of each face, and a is 0.6 mm thick at its edge" in one
    assert found(BLADE.replace("edge 0.6", "edge 1.8")) == []
