"""Recipes that the tests read, written out as a smith would."""

from __future__ import annotations

#: A one-piece recipe, as short as one can be.
PIN = """\
format: 1
title: Drift pin
pieces:
  pin:
    metal: mild steel
    stock: {form: round, diameter: 12}
drawing:
  pin: {form: round taper, diameter: 12, end diameter: 6 ±0.5, length: 100 ±3}
steps:
  - {do: taper, zone: pin, form: round taper, to: drawing}
"""

#: An iron body with an eye and a steel face welded on: every part of the format is in it.
HAMMER = """\
format: 1
title: Riveter's hammer
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
    stock: {form: square, side: 30, length: 400, doubt: 1 %}
    zones: [poll, eye, peen]
  face:
    metal: C45
    stock: {form: flat, width: 30, thickness: 10}
drawing:
  poll: {form: square, side: 28 ±1, length: 40 ±2, take up: length}
  eye:
    form: eyed
    hole: oval
    through: thickness
    width: 32 ±2
    thickness: 28
    length: 36 ±2
    hole length: 24 ±1
    hole width: 14 ±0.5
    take up: [width, length]
    allowance: 2 %
  peen: {form: taper, width: 28, thickness: 28, end width: 28, end thickness: 6 ±1, length: 60 ±3}
  face: {form: flat, width: 28, thickness: 8, length: 28}
steps:
  - do: mark out
    piece: body
  - do: punch
    zone: eye
    form: eyed
    hole: slot
    to: {hole length: 20, hole width: 8}
    slug: 6 mm
    heats: 4
    colour: light orange
    how: [Go half through., Turn it over.]
    watch: The punch sticks.
  - do: drift
    zone: eye
    to: drawing
    free: width
    check: [width, hole length, poll.side]
    gauge: rule
  - do: draw
    zone: poll
    to: {side: 28 ±1}
    heated: [poll, eye]
  - do: taper
    zone: peen
    to: drawing
    temperature: 1050 °C
    loses: 5 g
  - {do: draw, zone: face, to: {width: 28, thickness: 8}}
  - {do: tack, zone: poll, heated: [poll, face]}
  - do: weld
    zone: poll
    lay: face
    to: drawing
    squeeze: 2 %
    caution: Nobody stands in line.
  - {do: harden, zone: poll, temperature: 830 °C}
  - {do: temper, zone: poll, colour: dark straw, rest: no}
"""

#: A head taken off a drawing as stations.
WEDGE = """\
format: 1
title: Splitting wedge
pieces:
  wedge:
    metal: C45
    stock: {form: flat, width: 50, thickness: 25}
drawing:
  wedge: {form: profile, stations: [[0, 48, 24], [20, 50, 24], [120, 50, 3]], length: 120 ±3}
steps:
  - {do: draw, zone: wedge, to: drawing}
"""
