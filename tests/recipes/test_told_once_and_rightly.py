"""A slip is told once, where it stands, with what to write; and the cure is the one that was meant."""

from __future__ import annotations

import pytest

from coach.ledger.looking_back import look_back
from coach.ledger.weigh import weigh
from coach.recipe.faults import RecipeFaults
from coach.recipe.reader import read_recipe
from coach.telling.words import write
from tests.recipes.test_faults import faults_of

KNIFE = """\
recipe: Small knife
usual: {at: orange}
pieces:
  knife:
    metal: 1075
    bar: 30 x 5
    zones:
      blade: 30 x 4, long 120 ±6
      tang: 15 x 5, long 90 ±6
steps:
  - mark out: knife
  - draw: tang, 3 heats
  - draw: blade, 2 heats, at 900 °C
  - harden: blade, at 800 to 830 °C, quench fast oil
  - temper: blade, at 220 °C, soak at least 1 h
"""


def told(was: str, now: str) -> list[tuple[int, str]]:
    """The line of each fault, and its sentence, with one thing written otherwise."""
    assert was in KNIFE
    with pytest.raises(RecipeFaults) as refused:
        read_recipe(KNIFE.replace(was, now, 1), "knife.yaml")
    return [(one.line, str(one.message)) for one in refused.value.faults]


@pytest.mark.parametrize(
    ("was", "now", "line", "said"),
    [
        ("at 900 °C", "at 1650 F", 13, "1650 F in a file in mm: write °C, or units: in for the whole file"),
        ("at 800 to 830 °C", "at 1472 to 1526 F", 14, "1472 F in a file in mm: write °C"),
        ("at 800 to 830 °C", "at 800 to 830 C", 14, "800 C: write °C, as in 800 °C"),
        ("at: orange", "at: 1650 F", 2, "°F in a file in mm"),
        ("usual:", "margin: 3 %\nusual:", 2, "it stands under usual"),
        ("usual:", "quench: oil\nusual:", 2, "it stands in a step"),
        ("metal: 1075", "metal 1075", 5, "a colon is missing behind metal: write “metal: 1075”"),
        ("  knife:", "  knife", 4, "a colon is missing behind knife: write “knife:”"),
    ],
)
def test_a_slip_is_told_once_with_what_to_write(was: str, now: str, line: int, said: str) -> None:
    ((at, sentence),) = told(was, now)
    assert (at, said in sentence) == (line, True), sentence


def test_what_a_step_lacks_of_a_zone_that_was_told_wrongly_is_not_told_beside_it() -> None:
    hinge = KNIFE.replace("tang: 15 x 5, long 90 ±6", "tang: strap eye, inside 14±1, wide 30, thick 5")
    hinge = hinge.replace("draw: tang, 3 heats", "fold: tang, strap eye, 3 heats")
    with pytest.raises(RecipeFaults) as refused:
        read_recipe(hinge, "hinge.yaml")
    assert [one.line for one in refused.value.faults] == [9]


HOOP = """\
recipe: Hoop
usual: {at: light yellow, weld at: 1280 °C}
pieces:
  hoop:
    metal: mild steel
    bar: 30 x 6
    size: ring of 30 x 6 on edge, inside 180 ±6
steps:
  - bend: hoop, ring, 2 heats
  - weld shut: hoop
"""


def test_a_ring_in_a_step_that_says_its_bar_once_more_is_told_to_name_the_form_alone() -> None:
    (fault,) = faults_of(HOOP.replace("hoop, ring", "hoop, ring of 30 x 6 on edge"))
    assert (fault.line, str(fault.message)) == (
        9,
        "“of 30 x 6 on edge”: in a step the form alone is named: write ring",
    )


def test_a_hoop_is_bent_flat_and_not_on_its_edge() -> None:
    assert [one.what for one in weigh(look_back(read_recipe(HOOP, "hoop.yaml")))] == []
    on_edge = HOOP.replace("bend: hoop", "bend on edge: hoop")
    (finding,) = weigh(look_back(read_recipe(on_edge, "hoop.yaml")))
    assert "hoop is to stand on its edge, so its bar is bent flat: write bend." in write(finding.sentence)


def test_a_square_that_ends_flat_is_told_to_say_both_sizes_at_both_ends() -> None:
    (fault,) = faults_of(KNIFE.replace("tang: 15 x 5", "tang: square 20 to 32 x 5"))
    assert "where the other end is flat both say two, as in 20 x 20 to 32 x 5" in str(fault.message)


PRY = """\
recipe: Pry bar
usual: {at: light yellow}
pieces:
  bar:
    metal: C45
    bar: hexagon 20, long 700
    zones:
      claw: 30 x 14 to 36 x 4, long 70 ±10
      shank: hexagon 20, long 300 ±5
steps:
  - mark out: bar
  - upset: claw, 30 x 14, long free
  - taper: claw
"""


def test_heats_of_an_upset_that_are_left_out_are_as_many_as_its_length_is_driven_up_in() -> None:
    # By hand: the claw takes 70/6 · (420 + 66 · 18 + 144) = 20 440 mm³, and a hexagon of 20 has 346.4 mm²:
    # 59 mm, with its scale over 60, three times 20: two heats, though the work is done in one.
    plan = look_back(read_recipe(PRY, "pry.yaml"))
    assert plan.recipe.steps[1].heats == 2
    assert [one.what for one in weigh(plan)] == []


LAYERED = """\
recipe: Layered blank
usual: {at: light orange, weld at: 1180 °C}
pieces:
  blade:
    stack:
      - 1084, 30 x 4
      - C45, 30 x 4
      - 1084, 30 x 4
    size: 30 x 6, long 200 ±20
steps:
  - weld shut: blade, 30 x 12, long free, 3 heats
  - draw: blade
  - harden: blade, at 800 to 820 °C, soak 5 min, quench fast oil
  - temper: blade, at 200 to 220 °C, soak at least 1 h
  - grind: blade, loses 1 g
"""


def test_layers_are_hardened_by_the_one_with_the_most_carbon() -> None:
    # docs/recipes.md says so; 1084 is hardened from about 800 to 830 °C, C45 from 830 to 860 (EN ISO 683-1,
    # from memory).
    plan = look_back(read_recipe(LAYERED, "blade.yaml"))
    assert [write(one.sentence) for one in weigh(plan)] == []
    soft = LAYERED.replace("1084", "C45")
    told = [write(one.sentence) for one in weigh(look_back(read_recipe(soft, "blade.yaml")))]
    assert any("C45 hardens from 830 to 860 °C" in one for one in told)


BEVELLED = """\
recipe: Blade
usual: {at: light orange}
pieces:
  blade:
    metal: 1084
    bar: 30 x 6
    size: 26 x 6, edge 1.2 over 18 on one side, long 80 ±9
steps:
  - draw: blade, 26 x 6, long free
  - side bevel: blade
  - grind: blade, loses LOST
"""


def test_a_gram_off_a_blade_is_no_finding_and_fifteen_are_told_by_the_size_that_is_left() -> None:
    # By hand: 1 g is 127 mm³, off some 5000 mm² of its faces 0.03 mm.
    def told(lost: str) -> list[str]:
        plan = look_back(read_recipe(BEVELLED.replace("LOST", lost), "blade.yaml"))
        return [write(one.sentence) for one in weigh(plan)]

    assert told("1 g") == []
    assert any("Say what is left, as in grind: blade, width 25" in one for one in told("15 g"))


@pytest.mark.parametrize(
    ("recipe", "was", "now", "said"),
    [
        ("LAYERED", "- C45, 30 x 4", "- C45 30 x 4", "a comma belongs behind “C45”"),
        ("PRY", "long 700", "LONG", "a comma belongs here, and no semicolon"),
        ("PRY", "taper: claw", "bend: claw radius 40", "a comma belongs behind “claw”"),
        ("HOOP", "shut: hoop", "shut: hoop, waste 2 at most", "at most stands before its number"),
    ],
)
def test_a_comma_or_a_word_in_the_wrong_place_is_one_fault_that_says_which(
    recipe: str, was: str, now: str, said: str
) -> None:
    text = {"LAYERED": LAYERED, "PRY": PRY, "HOOP": HOOP}[recipe]
    slipped = text.replace(", long 700", "; long 700") if now == "LONG" else text.replace(was, now, 1)
    (fault,) = faults_of(slipped)
    assert said in str(fault.message)
