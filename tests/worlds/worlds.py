"""The worlds: what one effect, or all of them, does to the bar, the fire, the hand and the gauges."""

from __future__ import annotations

from typing import NamedTuple


class World(NamedTuple):
    """How a shop differs from what the coach assumes of one."""

    scatter: float = 1.0  # the hand's, in usual ones
    hunger: float = 1.0  # what the fire takes, in those of the recipe
    full: float = 0.0  # how much more metal forged sections hold than width × thickness
    wander: float = 0.0  # the share of a zone that moves over each of its shoulders when it is forged
    inside: float = 0.0  # where the hand stops: 0 on the middle, 1 as soon as the limit is reached
    mill: float = 0.005  # the bar's section, one standard uncertainty of each size as a share
    worn: float = 0.0  # mm that every calliper reads too much
    takes: float = 0.75  # how often a size that is asked for is taken
    one_place: bool = False  # a face is read where it was read before: its unevenness does not even out
    forgets: float = 0.0  # how often a heat is taken and not marked
    rounds_mm: float = 0.1  # readings are read to so much
    wrong_heat_c: float = 0.0  # how far off the heat is that hot readings are told at
    to_length: bool = False  # the last section is worked until the length is there
    wrong_zone: float = 0.0  # how often a size is typed for the neighbour
    weighs: bool = False  # the piece is cut off first, and weighed when a step is done


WORLDS = {
    "as assumed": World(),
    "hand's scatter × 1.7": World(scatter=1.7),
    "hand's scatter × 0.6": World(scatter=0.6),
    "fire × 1.8": World(hunger=1.8),
    "sections 2.4 % fuller": World(full=0.024),
    "2 % over a shoulder": World(wander=0.02),
    "stops just inside": World(inside=0.8),
    "all of these": World(scatter=1.35, hunger=1.4, full=0.012, wander=0.01, inside=0.4),
    "bar at mill tolerance": World(mill=0.012),
    "calliper worn by 0.15 mm": World(worn=0.15),
    "every size read": World(takes=1.0),
    "half of the sizes read": World(takes=0.375),
    "one place each time": World(one_place=True),
    "a heat in five forgotten": World(forgets=0.2),
    "read to half a millimetre": World(rounds_mm=0.5),
    "hot, at a wrong heat": World(wrong_heat_c=150.0),
    "worked to the length": World(to_length=True),
    "a wrong zone in twenty": World(wrong_zone=0.05),
    "weighed, as assumed": World(weighs=True),
    "weighed, fire × 1.8": World(weighs=True, hunger=1.8),
    "weighed, fuller": World(weighs=True, full=0.024),
    "weighed, all of these": World(
        weighs=True, scatter=1.35, hunger=1.4, full=0.012, wander=0.01, inside=0.4
    ),
}
