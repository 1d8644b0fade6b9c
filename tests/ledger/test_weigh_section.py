"""What is bent, turned, rolled, split or headed keeps the section of its bar: another one is a finding."""

from __future__ import annotations

import re

import pytest

from coach.bench.planned import planned_tool
from coach.ledger.looking_back import look_back
from coach.ledger.weigh import Cannot, Finding
from coach.recipe.reader import read_recipe
from coach.telling.words import write


def found(bar: str, size: str, *steps: str) -> list[Finding]:
    """What is found of a pin of that bar and size."""
    head = f"recipe: Pin\npieces:\n  pin:\n    metal: mild steel\n    bar: {bar}\n    size: {size}\n"
    text = f"{head}steps:\n  - cut: pin, cold, kerf 2\n" + "".join(f"  - {step}\n" for step in steps)
    planned = planned_tool(look_back(read_recipe(text, "pin.yaml")))
    return [one for one in planned.findings if one.what is Cannot.KEEP_SECTION]


SCROLL = "scroll, across 72 ±6, eye 18 ±3, pitch 14 ±2, wide 20 ±1, thick 5.5 ±0.5"
COLLAR = "collar, inside wide 20 ±0.6, inside height 12 ±2, wide 12 ±0.8, thick 4 ±0.4"
RIVET = "rivet, diameter 8 ±0.4, grip 25 ±2, head diameter 14 ±1.5, head height 5.5 ±1.5"
STRAP_EYE = "strap eye, inside 20, wide 20, thick 4, lap 30"
SOCKET = "socket, mouth 38, neck 22, wall 3, long 110"
FORK = "fork, tine 10, thick 10, end tine 4, end thick 4, long 150"

#: (bar, drawing, step): the bar has not that section, and nothing draws it there (common practice, no source:
#: what is bent, turned or curled keeps its section, and a round bar shows no twist).
OTHERWISE = [
    ("round 12", "square 12, long 70, twisted 2 turns", "twist: pin"),
    ("square 12", "square 10, long 70, twisted 2 turns", "twist: pin"),
    ("hexagon 12", "square 12, long 70, twisted 2 turns", "twist: pin"),
    ("square 12", "twisted taper, wide 12, end wide 8, turn 30, long 70", "twist: pin, twisted taper"),
    ("round 12", SCROLL, "scroll: pin"),
    ("20 x 8", SCROLL, "scroll: pin"),
    (
        "square 8",
        "round scroll, across 72 ±6, eye 18 ±3, pitch 14 ±2, diameter 8",
        "scroll: pin, round scroll",
    ),
    ("round 30", SOCKET, "roll: pin"),
    ("80 x 8", SOCKET, "roll: pin"),
    ("110 x 3", SOCKET, "roll: pin"),
    ("round 12", COLLAR, "collar: pin"),
    ("square 12", "ring of round 10, inside 60", "bend: pin, ring of round 10, inside 60"),
    ("round 12", STRAP_EYE, "fold: pin, strap eye"),
    ("square 8", RIVET, "rivet: pin"),
    ("round 12", RIVET, "rivet: pin"),
    ("20 x 10", FORK, "split: pin"),
    ("round 20", "fork, tine 10, thick 10, long 150", "split: pin"),
    ("20 x 5.5", SCROLL, "draw: pin"),
]


@pytest.mark.parametrize(("bar", "size", "step"), OTHERWISE)
def test_a_bar_that_has_not_the_section_is_found_at_its_step(bar: str, size: str, step: str) -> None:
    (one,) = found(bar, size, step)
    assert (one.step, one.zone, one.line, one.column) == (2, "pin", 9, 5)


#: The same from a bar that has it, or with the work that gives it one.
AS_IT_IS = [
    ("square 12", "square 12, long 70, twisted 2 turns", ("twist: pin",)),
    ("16 x 12", "square 12, long 70, twisted 2 turns", ("draw: pin, square 12", "twist: pin")),
    ("20 x 5.5", SCROLL, ("scroll: pin",)),
    ("20 x 8", SCROLL, ("draw: pin, 20 x 5.5", "scroll: pin")),
    ("12 x 4", COLLAR, ("collar: pin",)),
    ("round 10", "ring of round 10, inside 60", ("bend: pin, ring of round 10, inside 60",)),
    # A hoop on its edge: its wall is the bar's thickness.
    ("25 x 6", "ring of 25 x 6 on edge, inside 150", ("bend: pin, ring, inside 150, thick 25",)),
    ("20 x 4", STRAP_EYE, ("fold: pin, strap eye",)),
    ("round 8", RIVET, ("rivet: pin",)),
    ("20 x 10", FORK, ("split: pin, tine 10", "draw: pin")),
]


@pytest.mark.parametrize(("bar", "size", "steps"), AS_IT_IS)
def test_a_bar_that_has_it_is_bent_as_it_is(bar: str, size: str, steps: tuple[str, ...]) -> None:
    assert found(bar, size, *steps) == []


def test_it_is_told_what_there_is_what_is_wanted_and_what_to_do() -> None:
    (one,) = found("round 12", "square 10, long 70, twisted 2 turns", "twist: pin")
    told = write(one.sentence)
    assert "pin is round 12 mm there, and it is made of square 10 mm" in told
    assert "on a round bar no twist shows" in told
    assert "forge it to square 10 mm in a step before this" in told


def test_a_bar_that_is_thinner_is_to_be_heavier_or_gathered() -> None:
    (one,) = found("square 8", "square 10, long 70, twisted 2 turns", "twist: pin")
    assert "heavier stock" in write(one.sentence)


def test_no_upset_is_advised_of_what_folds_in_it() -> None:
    """A rod of 8 mm for a twist of 400 mm is sixty times as long as it is thick."""
    (one,) = found("square 8", "square 10, long 400, twisted 4 turns", "twist: pin")
    told = write(one.sentence)
    assert "upset it first" not in told
    assert "take heavier stock, for" in told
    assert "folds when it is driven up" in told


@pytest.mark.parametrize(
    ("bar", "turn_mm", "told"),
    [
        # The corner of a square of 12 at 8 mm a turn: sqrt(1 + (pi * 16.97 / 8)^2) = 6.7 times (geometry).
        ("square 12", 8, "6.7 times"),
        ("square 12", 6, "8.9 times"),
        # A tight twist takes a turn in one and a half to two sides (common practice, no source).
        ("square 12", 18, ""),
        ("square 12", 40, ""),
        ("20 x 5", 25, ""),
        ("20 x 5", 12, "5.5 times"),
    ],
)
def test_a_twist_that_tears_its_corners_is_found_at_its_step(bar: str, turn_mm: float, told: str) -> None:
    wide = "wide 12" if bar == "square 12" else "wide 20, thick 5"
    text = f"recipe: Pin\npieces:\n  pin:\n    metal: mild steel\n    bar: {bar}\n"
    text += (
        f"    size: twisted bar, {wide}, turn {turn_mm} ±1, long 80 ±9\nsteps:\n  - twist: pin, at yellow\n"
    )
    planned = planned_tool(look_back(read_recipe(text, "pin.yaml")))
    torn = [one for one in planned.findings if one.what is Cannot.TURN]
    assert [(one.step, one.zone, one.line) for one in torn] == ([(1, "pin", 8)] if told else [])
    assert all(told in write(one.sentence) for one in torn)


PLATE = """\
recipe: Socket
pieces:
  body:
    metal: mild steel
    bar: 60 x 6
    zones:
      socket: socket, mouth 40, neck 24, wall 3, long 110 ±6
      blade: 55 x 5, long 120 ±8
steps:
  - mark out: body
  - spread: socket, SPREAD
  - roll: socket
  - draw: blade
"""


def of_the_plate(spread: str, plate: str = PLATE) -> list[str]:
    plan = planned_tool(look_back(read_recipe(plate.replace("SPREAD", spread), "socket.yaml")))
    return [write(one.sentence) for one in plan.findings]


def test_the_advice_for_a_rolled_socket_leads_to_one_that_is_possible() -> None:
    # Elementary geometry: π·(40 - 3) = 116 mm round at the mouth, π·(24 - 3) = 66 mm at the neck.
    first = of_the_plate("66 x 3 to 116 x 3, wide free")
    assert any("write long free there where its length is to follow" in one for one in first)
    assert not any("gathers no metal" in one for one in first)
    # Its three heats take 3 · 2 · 0.0336 = 0.2 mm off the plate, which keeps its length: 2.8 of 3 ±0.5.
    assert of_the_plate("66 x 3 to 116 x 3, long free") == []
    # A width that is asked for is what comes out: the length follows unsaid.
    assert of_the_plate("66 x 3 to 116 x 3") == []


def test_a_wall_that_its_fire_leaves_too_thin_says_by_how_much_to_forge_the_plate_thicker() -> None:
    # Five heats take 5 · 2 · 0.0336 = 0.34 mm: 2.66 of 3.
    fine = PLATE.replace("wall 3,", "wall 3 ±0.3,").replace("roll: socket", "roll: socket, 5 heats")
    (one,) = of_the_plate("66 x 3 to 116 x 3, long free", fine)
    assert "leave the wall of socket at 2.7 mm in the end" in one
    assert "Its fires take 0.3 mm off that: forge it so much fuller before it is bent" in one
    assert of_the_plate("66 x 3.2 to 116 x 3.2, long free", fine) == []


def test_the_plate_of_a_socket_is_told_from_the_neck_on_and_wide_at_the_free_end() -> None:
    # The first size is where a zone meets its neighbour (docs/recipes.md), and the mouth is at the free end:
    # round the middle of the neck's wall, π·(24 - 2.8) = 66.6 mm, then of the mouth's, π·(40 - 2.8) = 117.
    (one,) = [told for told in of_the_plate("80 x 3, long free") if "it is made of" in told]
    assert "it is made of 66.6 mm × 2.8 mm to 117 mm × 2.8 mm" in one
    (one,) = of_the_plate("116 x 3 to 66 x 3, long free")
    assert "116 mm × 3 mm to 66 mm × 3 mm there, and so it would open where it meets its neighbour" in one
    assert "Make it 66 mm × 3 mm to 116 mm × 3 mm in a step before this." in one


def test_a_socket_alone_on_its_bar_has_no_neighbour_to_open_at() -> None:
    alone = PLATE.replace("      blade: 55 x 5, long 120 ±8\n", "").replace("  - draw: blade\n", "")
    assert of_the_plate("116 x 3 to 66 x 3, long free", alone) == []


def test_a_ring_that_is_welded_shut_before_it_was_bent_to_one_says_how_to_bend_it() -> None:
    hoop = """\
recipe: Hoop
pieces:
  hoop:
    metal: mild steel
    bar: 25 x 8
    size: ring of 25 x 8 on edge, inside 160
usual: {at: yellow}
steps:
  - cut: hoop, cold, kerf 2
  - bend: hoop
  - weld shut: hoop, at 1300 °C
"""
    plan = planned_tool(look_back(read_recipe(hoop, "hoop.yaml")))
    (told,) = [write(one.sentence) for one in plan.findings]
    assert "bend or fold it to one in a step before, as in bend: hoop, ring." in told
    cured = planned_tool(look_back(read_recipe(hoop.replace("bend: hoop", "bend: hoop, ring"), "hoop.yaml")))
    assert cured.findings == ()


def test_a_curl_that_is_asked_thicker_than_its_bar_is_told_once_as_that() -> None:
    text = """\
recipe: Bracket
pieces:
  bar:
    metal: mild steel
    bar: square 8
    zones:
      curl: scroll, across 70 ±8, eye 20 ±3, pitch 14 ±3, wide 8, thick 8, allowance 2 %
      body: square 8, long 200 ±9
steps:
  - mark out: bar
  - scroll: curl, wide 9, thick 9, eye 20 ±3, pitch 14 ±3, at orange
  - cut: body, cold
"""
    told = [write(one.sentence) for one in planned_tool(look_back(read_recipe(text, "x"))).findings]
    assert [one for one in told if "what is curled keeps the section of its bar" in one]
    assert not [one for one in told if "gathers no metal" in one]


PRONGS = """\
recipe: Prongs
pieces:
  poker:
    metal: mild steel
    bar: square 10
    zones:
      prongs:
        size: uneven fork, tine 6.2 ±1, thick 9.2 ±1, end tine 6.2 ±1, end thick 9.2 ±1, long 40 ±13
        other tine: 3.1 ±1
        other thick: 9.2 ±1
        other end tine: 3.1 ±1
        other end thick: 9.2 ±1
        other long: 40 ±13
      shank: square 10, long 200 ±12
usual: {at: light yellow}
steps:
  - mark out: poker
  - draw: prongs, SECTION
  - split: prongs, uneven fork, tine 6.2 ±0.8, other tine 3.1 ±0.8, 4 heats
"""


def test_what_is_split_to_tines_is_told_to_be_wider_before_as_the_line_takes_it() -> None:
    def gathers(section: str) -> list[str]:
        plan = planned_tool(look_back(read_recipe(PRONGS.replace("SECTION", section), "prongs.yaml")))
        return [told for told in (write(one.sentence) for one in plan.findings) if "gathers" in told]

    # Tines of 6.2 and 3.1 mm are 9.3 mm of bar as the fire leaves them: wider before it, as thick.
    (told,) = gathers("square 9.3")
    advice = re.search(r"forged to ([\d.]+) mm × ([\d.]+) mm in a step before", told)
    assert advice is not None
    wide, thick = advice.groups()
    assert (float(wide) > 9.3, thick) == (True, "9.3")
    assert gathers(f"{wide} x {thick}") == []
