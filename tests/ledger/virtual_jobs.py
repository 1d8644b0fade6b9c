"""Recipes for the made-up forge, each beside what its steps truly do."""

from __future__ import annotations

from collections.abc import Mapping
from math import pi
from typing import NamedTuple

from tests.ledger.virtual_forge import Bar, Work


class Check(NamedTuple):
    """Sizes of a zone that the smith may take at the end of a step, each with its gauge."""

    zone: str
    sizes: Mapping[str, str]


class Stage(NamedTuple):
    """One step of the recipe as truth has it, and what may be read when it is done."""

    works: tuple[Work, ...]
    checks: tuple[Check, ...] = ()
    heats: int = 0

    @property
    def half_way(self) -> bool:
        """Whether the sizes may be taken before the last heat: where the form stays what it is."""
        return len(self.works) == 1 and not self.works[0].lays and self.works[0].kind != "eyed"


class Job(NamedTuple):
    """A recipe with its drawing's limits left open, and what its steps truly do."""

    name: str
    text: str
    limits: tuple[Mapping[str, str], ...]  # the tight and the loose ones
    bars: tuple[Bar, ...]
    stages: tuple[Stage, ...]


FORGING_MM, WELDING_MM, TREATMENT_MM = 0.03, 0.08, 0.01
#: What a tack's heat takes between two faces: a size of the drawing is worked so much fuller. The bit's bar
#: has no more width to give; what normalising takes is not worth it.
TACKED_MM = 2 * WELDING_MM

STRAP = Job(
    "drawn strap",
    """
title: Strap
pieces:
  strap: {metal: mild steel, stock: {form: flat, width: 40, thickness: 12}}
drawing:
  strap: {form: flat, width: 40 ±1, thickness: 8 ±0.5, length: 240 ±%(length)s, take up: length}
steps:
  - {do: mark out, piece: strap}
  - {do: draw, zone: strap, to: {thickness: 10 ±0.6, width: 40 ±1}, heats: 2}
  - {do: draw, zone: strap, to: {thickness: 8 ±0.5, width: 40 ±1}, heats: 3}
""",
    ({"length": "1"}, {"length": "3"}, {"length": "6"}, {"length": "10"}),
    (Bar("flat", {"width": 40.0, "thickness": 12.0}, ("strap",)),),
    (
        Stage((), (Check("strap", {"length": "rule"}),)),
        Stage(
            (
                Work(
                    "strap",
                    "flat",
                    {"width": (39.0, 41.0), "thickness": (9.4, 10.6)},
                    heats=2,
                    face_mm=FORGING_MM,
                ),
            ),
            (Check("strap", {"thickness": "calliper", "width": "calliper", "length": "rule"}),),
            heats=2,
        ),
        Stage(
            (
                Work(
                    "strap",
                    "flat",
                    {"width": (39.0, 41.0), "thickness": (7.5, 8.5)},
                    heats=3,
                    face_mm=FORGING_MM,
                ),
            ),
            (Check("strap", {"thickness": "calliper", "width": "calliper", "length": "rule"}),),
            heats=3,
        ),
    ),
)

#: A stadium of 30 × 10 mm, punched with a slug of 6 mm.
SLUG_MM3 = (20.0 * 10.0 + pi * 25.0) * 6.0

HAMMER = Job(
    "hammer head with shared marks and an eye",
    """
title: Hammer head
pieces:
  head:
    metal: C45
    stock: {form: square, side: 38}
    zones: [poll, eye, face]
drawing:
  poll: {form: square, side: 34 ±0.8, length: 40 ±%(poll)s}
  eye:
    form: eyed
    hole: oval
    thickness: 38 ±1
    length: 44 ±2
    width: 49 ±%(eye)s
    hole length: 32 ±1
    hole width: 20 ±0.8
    take up: width
  face: {form: square, side: 32 ±0.8, length: 50 ±%(face)s}
steps:
  - {do: mark out, piece: head, gauge: calliper}
  - do: punch
    zone: eye
    hole: slot
    to: {hole length: 30 ±1, hole width: 10 ±0.6, thickness: 38 ±1, length: 44 ±1.5}
    slug: 6 mm
    heats: 3
  - {do: draw, zone: poll, to: {side: 34 ±0.8}, heats: 2}
  - {do: draw, zone: face, to: {side: 32 ±0.8}, heats: 3}
  - {do: drift, zone: eye, to: drawing, heats: 2}
""",
    (
        {"poll": "0.5", "eye": "0.4", "face": "0.6"},
        {"poll": "1.2", "eye": "1", "face": "1.5"},
        {"poll": "2.2", "eye": "2", "face": "2.6"},
    ),
    (Bar("square", {"side": 38.0}, ("poll", "eye", "face")),),
    (
        Stage((), (Check("poll", {"length": "calliper"}), Check("face", {"length": "calliper"}))),
        Stage(
            (
                Work(
                    "eye",
                    "eyed",
                    {
                        "hole_length": (29.0, 31.0),
                        "hole_width": (9.4, 10.6),
                        "thickness": (37.0, 39.0),
                        "length": (42.5, 45.5),
                    },
                    free="width",
                    options={"hole": "slot"},
                    heats=3,
                    face_mm=FORGING_MM,
                    slug_mm3=SLUG_MM3,
                ),
            ),
            (
                Check(
                    "eye",
                    {
                        "thickness": "calliper",
                        "length": "calliper",
                        "width": "calliper",
                        "hole_length": "calliper",
                        "hole_width": "calliper",
                    },
                ),
            ),
            heats=3,
        ),
        Stage(
            (Work("poll", "square", {"side": (33.2, 34.8)}, heats=2, face_mm=FORGING_MM),),
            (Check("poll", {"side": "calliper", "length": "rule"}),),
            heats=2,
        ),
        Stage(
            (Work("face", "square", {"side": (31.2, 32.8)}, heats=3, face_mm=FORGING_MM),),
            (Check("face", {"side": "calliper", "length": "rule"}),),
            heats=3,
        ),
        Stage(
            (
                Work(
                    "eye",
                    "eyed",
                    {
                        "hole_length": (31.0, 33.0),
                        "hole_width": (19.2, 20.8),
                        "thickness": (37.0, 39.0),
                        "length": (42.0, 46.0),
                    },
                    free="width",
                    options={"hole": "oval"},
                    heats=2,
                    face_mm=FORGING_MM,
                ),
            ),
            (
                Check(
                    "eye",
                    {
                        "thickness": "calliper",
                        "length": "calliper",
                        "width": "calliper",
                        "hole_length": "calliper",
                        "hole_width": "calliper",
                    },
                ),
            ),
            heats=2,
        ),
    ),
)

CHISEL = Job(
    "steeled chisel",
    """
title: Steeled chisel
pieces:
  body:
    metal: wrought iron
    stock: {form: flat, width: 40, thickness: 16}
    zones: [shank, blade]
  bit: {metal: C80, stock: {form: flat, width: 40, thickness: 6}}
drawing:
  shank: {form: flat, width: 38 ±1, thickness: 14 ±0.8, length: 80 ±%(shank)s}
  blade: {form: flat, width: 42 ±1.5, thickness: 10 ±0.7, length: 150 ±%(blade)s}
  bit: {form: flat, width: 40 ±1, thickness: 5 ±0.4, length: 60 ±%(bit)s}
steps:
  - {do: mark out, piece: body}
  - {do: draw, zone: bit, to: {width: 40 ±1, thickness: 5 ±0.4}, heats: 1}
  - {do: tack, zone: blade, heated: [blade, bit], heats: 1}
  - {do: weld, zone: blade, lay: bit, to: {width: 41 ±1.5, thickness: 17 ±1}, heats: 2}
  - {do: draw, zone: shank, to: {width: 38 ±1, thickness: 14 ±0.8}, heats: 2}
  - {do: draw, zone: blade, to: {width: 42 ±1.5, thickness: 10 ±0.7}, heats: 3}
  - {do: normalise, zone: blade, heats: 2}
""",
    (
        {"shank": "0.5", "blade": "1", "bit": "0.5"},
        {"shank": "1.5", "blade": "3", "bit": "1.2"},
        {"shank": "3", "blade": "7", "bit": "2.5"},
    ),
    (
        Bar("flat", {"width": 40.0, "thickness": 16.0}, ("shank", "blade")),
        Bar("flat", {"width": 40.0, "thickness": 6.0}, ("bit",)),
    ),
    (
        Stage((), (Check("shank", {"length": "rule"}), Check("blade", {"length": "rule"}))),
        Stage(
            (
                Work(
                    "bit",
                    "flat",
                    {"width": (39.0, 41.0), "thickness": (4.6 + TACKED_MM, 5.4 + TACKED_MM)},
                    heats=1,
                    face_mm=FORGING_MM,
                ),
            ),
            (Check("bit", {"width": "calliper", "thickness": "calliper", "length": "calliper"}),),
            heats=1,
        ),
        Stage(
            (
                Work("blade", "flat", heats=1, face_mm=WELDING_MM),
                Work("bit", "flat", heats=1, face_mm=WELDING_MM),
            ),
            heats=1,
        ),
        Stage(
            (
                Work(
                    "blade",
                    "flat",
                    {"width": (39.5, 42.5), "thickness": (16.0, 18.0)},
                    heats=2,
                    face_mm=WELDING_MM,
                    squeeze_share=0.01,
                    lays="bit",
                    after_only=True,
                ),
            ),
            (Check("blade", {"width": "calliper", "thickness": "calliper", "length": "rule"}),),
            heats=2,
        ),
        Stage(
            (
                Work(
                    "shank",
                    "flat",
                    {"width": (37.0, 39.0), "thickness": (13.2, 14.8)},
                    heats=2,
                    face_mm=FORGING_MM,
                ),
            ),
            (Check("shank", {"width": "calliper", "thickness": "calliper", "length": "rule"}),),
            heats=2,
        ),
        Stage(
            (
                Work(
                    "blade",
                    "flat",
                    {"width": (40.5, 43.5), "thickness": (9.3, 10.7)},
                    heats=3,
                    face_mm=FORGING_MM,
                ),
            ),
            (Check("blade", {"width": "calliper", "thickness": "calliper", "length": "rule"}),),
            heats=3,
        ),
        Stage((Work("blade", "flat", heats=2, face_mm=TREATMENT_MM),), heats=2),
    ),
)

GROUND = Job(
    "punch with a ground end",
    """
title: Punch with a ground end
pieces:
  punch:
    metal: C80
    stock: {form: square, side: 30}
    zones: [head, point]
drawing:
  head: {form: square, side: 27 ±0.5, length: 50 ±%(head)s}
  point: {form: square, side: 22 ±0.6, length: 80 ±%(point)s}
steps:
  - {do: mark out, piece: punch}
  - {do: draw, zone: head, to: {side: 28 ±1}, heats: 3}
  - {do: draw, zone: point, to: {side: 22 ±0.6}, heats: 3}
  - {do: grind, zone: head, to: {side: 27 ±0.5, length: 50 ±%(head)s}, skin: 0.3 mm}
""",
    ({"head": "0.3", "point": "0.7"}, {"head": "1", "point": "2"}, {"head": "2", "point": "5"}),
    (Bar("square", {"side": 30.0}, ("head", "point")),),
    (
        Stage((), (Check("head", {"length": "calliper"}), Check("point", {"length": "rule"}))),
        Stage(
            (Work("head", "square", {"side": (27.0, 29.0)}, heats=3, face_mm=FORGING_MM),),
            (Check("head", {"side": "calliper", "length": "calliper"}),),
            heats=3,
        ),
        Stage(
            (Work("point", "square", {"side": (21.4, 22.6)}, heats=3, face_mm=FORGING_MM),),
            (Check("point", {"side": "calliper", "length": "rule"}),),
            heats=3,
        ),
        Stage(
            (Work("head", "square", {"side": (26.5, 27.5)}, reach=(50.0, "head")),),
            (Check("head", {"side": "calliper", "length": "calliper"}),),
        ),
    ),
)

JOBS = (STRAP, HAMMER, CHISEL, GROUND)
