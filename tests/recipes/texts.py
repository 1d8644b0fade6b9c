"""Recipes that the tests read, written out as a smith would."""

from __future__ import annotations

#: A one-piece recipe, as short as one can be.
PIN = """\
recipe: Drift pin
pieces:
  pin:
    metal: mild steel
    bar: round 12
    size: round 12 to 6 ±0.5, long 100 ±3
steps:
  - taper: pin
"""

#: An iron body with an eye and a steel face welded on: every part of the format is in it.
HAMMER = """\
recipe: Riveter's hammer
forge: Tarn End Forge
summary: >-
  A small hammer: iron body,
  steel face.
time: two days
units: mm
tools: [slot punch, oval drift]
scale: {forging: 0.05 mm, welding: 0.1 mm, doubt: 30 %}
marks: 0.5 mm
pieces:
  body:
    metal: wrought iron
    bar: square 30, long 400, doubt 1 %
    zones:
      poll: square 28 ±1, long 40 ±2
      eye:
        size: 32 ±2 x 28, long 36 ±2
        oval hole: 24 ±1 x 14 ±0.5 through its thickness
        takes up: wide then long
        allowance: 2 %
      peen: 28 x 28 to 28 x 6 ±1, long 60 ±3
  face:
    metal: C45
    bar: 30 x 10
    size: 28 x 8, long 28
steps:
  - mark out: body
  - punch: eye, slot hole 20 x 8, slug 6, 4 heats, at light orange
    how: [Go half through., Turn it over.]
    watch: The punch sticks.
  - drift: eye, wide free
    check: width, hole length, poll.side
    gauge: rule
  - draw: poll, square 28 ±1, also hot eye
  - taper: peen, loses 5 g, at 1050 °C
  - draw: face, 28 x 8
  - tack: poll with face
  - weld: poll with face, to the drawing, squeeze 2 %
    caution: Nobody stands in line.
  - harden: poll, at 830 °C
  - temper: poll, at dark straw
    rest: no
"""

#: A head taken off a drawing as sections at stations.
WEDGE = """\
recipe: Splitting wedge
pieces:
  wedge:
    metal: C45
    bar: 50 x 25
    size: profile 48 x 24, then 50 x 24 at 20, then 50 x 3 at 120, long 120 ±3
steps:
  - draw: wedge
"""

#: A zone that is split into two.
FORKED = """\
recipe: Fork
scale: none
pieces:
  fork:
    metal: mild steel
    bar: 20 x 8
    zones:
      stem: 20 x 8, long 100
      end: 20 x 8, splits into left and right
      left: square 6, long 100
      right: square 6, long 80
steps:
  - mark out: fork
  - split: end
  - draw: left
  - draw: right
"""
