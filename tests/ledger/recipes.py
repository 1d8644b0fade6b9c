"""Small recipes for the tests of the metal account, each as a smith would write it."""

from __future__ import annotations

from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.recipe.model import Recipe
from coach.recipe.reader import read_recipe
from tests.spelt_out import file_text

#: Round figures to reckon with by hand, in place of the law's.
FLAT_SCALE = "scale: {forging: 0.03 mm, welding: 0.08 mm, treatment: 0.01 mm, doubt: 40 %}"


def recipe(text: str) -> Recipe:
    """A recipe from its text; what its heats scale off is round, unless it says so itself."""
    scale = "" if "scale:" in text else f"{FLAT_SCALE}\n"
    return read_recipe(file_text(f"{scale}{text}"), "test.yaml")


def planned(text: str) -> Plan:
    """The same, reckoned back to its stock."""
    return look_back(recipe(text))


#: One zone, one step: a bar drawn to a blade.
DRAW = """
title: Strap
pieces:
  strap: {metal: mild steel, stock: {form: flat, width: 40, thickness: 12}}
drawing:
  strap: {form: flat, width: 40 ±1, thickness: 8 ±0.5, length: 240 ±12, take up: length}
steps:
  - do: draw
    zone: strap
    to: {thickness: 8 ±0.5, width: 40 ±1}
    heats: 3
    check: [thickness, width, length]
"""

#: Two zones that share a mark.
NEIGHBOURS = """
title: Two-part bar
pieces:
  bar:
    metal: mild steel
    stock: {form: square, side: 20}
    zones: [near, far]
drawing:
  near: {form: square, side: 20 ±1, length: 100 ±5}
  far: {form: square, side: 16 ±0.5, length: 150 ±8}
steps:
  - {do: mark out, piece: bar, gauge: calliper}
  - {do: draw, zone: far, to: drawing, heats: 2}
"""

#: A hammer's eye: punched as a slot, drifted to an oval.
EYE = """
title: Eye block
pieces:
  block: {metal: C45, stock: {form: square, side: 38}}
drawing:
  block:
    form: eyed
    hole: oval
    thickness: 38 ±1
    length: 44 ±2
    width: 49 +3 -2
    hole length: 32 ±1
    hole width: 20 ±0.8
    take up: width
steps:
  - do: punch
    zone: block
    hole: slot
    to: {hole length: 30, hole width: 10, thickness: 38, length: 44}
    slug: 6 mm
    heats: 3
  - {do: drift, zone: block, to: drawing, heats: 2}
"""

#: Tapered to an edge that is ground.
EDGED = """
title: Chisel
pieces:
  blade: {metal: C45, stock: {form: flat, width: 30, thickness: 12}}
drawing:
  blade:
    form: taper
    width: 30 ±1
    thickness: 12 ±0.7
    end width: 30 ±1
    end thickness: 2 ±0.3
    length: 90 ±20
    take up: length
steps:
  - do: taper
    zone: blade
    to: {end width: 30 ±1, end thickness: 2.4 ±0.3, width: 30 ±1, thickness: 12 ±0.7}
    heats: 2
  - {do: inspect, zone: blade, check: [end thickness, length]}
"""

#: Steel laid on the end of an iron bar, hardened, tempered, and ground off its length.
FACED = """
title: Faced bar
pieces:
  body: {metal: wrought iron, stock: {form: square, side: 30}}
  face: {metal: C80, stock: {form: flat, width: 30, thickness: 12}}
drawing:
  body: {form: square, side: 30 ±1, length: 60 ±8}
  face: {form: flat, width: 30 ±1, thickness: 10 ±0.5, length: 30 ±1.5, take up: length, remains: 6}
scale: {forging: 0.03 mm, welding: 0.08 mm, treatment: 0.01 mm}
steps:
  - {do: square, zone: face, to: {thickness: 10 ±0.5}, heats: 1, temperature: 1000 °C}
  - {do: weld, zone: body, lay: face, form: square, to: {side: 30 ±1}, heats: 2, temperature: 1150 °C,
     barbs: 1}
  - {do: harden, zone: body, to: {temperature: 790 to 820 °C}, quench: water}
  - {do: temper, zone: body, to: {temperature: 230 °C, soak: 1.5 h, hardness: 54 to 58}}
  - {do: grind, zone: body, loses: 1.6 mm}
"""

#: Steel driven into a cleft.
CLEFT = """
title: Cleft bar
pieces:
  body: {metal: wrought iron, stock: {form: flat, width: 40, thickness: 12}}
  bit: {metal: C80, stock: {form: flat, width: 40, thickness: 6}}
drawing:
  body: {form: flat, width: 40 ±1, thickness: 12 ±1, length: 80 ±10}
  bit: {form: flat, width: 40 ±1, thickness: 6 ±0.5, length: 30 ±2}
steps:
  - {do: groove, zone: body, to: {groove depth: 24}, heats: 2, temperature: 1100 °C}
  - {do: weld, zone: body, lay: bit, to: {width: 40, thickness: 12}, heats: 2, temperature: 1150 °C,
     inset: 20}
"""

#: Steel laid on an iron end, welded, drawn out.
LAID = """
title: Steeled chisel
pieces:
  body:
    metal: wrought iron
    stock: {form: flat, width: 40, thickness: 16}
    zones: [shank, blade]
  bit: {metal: C80, stock: {form: flat, width: 40, thickness: 6}}
drawing:
  shank: {form: flat, width: 40 ±1, thickness: 16 ±1, length: 80 ±6}
  blade: {form: flat, width: 42 ±1.5, thickness: 10 ±0.7, length: 150 ±10}
  bit: {form: flat, width: 40 ±1, thickness: 5 ±0.4, length: 60 ±4}
steps:
  - {do: mark out, piece: body}
  - {do: draw, zone: bit, to: drawing, heats: 1}
  - {do: tack, zone: blade, heated: [blade, bit], heats: 1}
  - {do: weld, zone: blade, lay: bit, to: {width: 41 ±1.5, thickness: 17 ±1}, heats: 2}
  - {do: draw, zone: blade, to: drawing, heats: 3}
  - {do: normalise, zone: blade, heats: 2}
"""
