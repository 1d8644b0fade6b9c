"""The shapes a hole can have, straight or tapered: area, way round, wall and outline."""

from __future__ import annotations

import math
from typing import Final

SHAPES: Final = ("slot", "oval", "round", "rectangle", "teardrop")
Points = tuple[tuple[float, float], ...]

# Every shape is as long as `length` along the bar and as wide as `width` across it, in mm, and is centred on
# its own middle. A slot has straight sides and half-round ends; a round hole is an oval whose two sizes are
# equal; a teardrop is round at its start and runs by two tangents to a point at its finish.


def area_mm2(shape: str, length: float, width: float) -> float:
    """The area of the hole, mm².

    Slot (stadium) with c = min, l = max: (l − c)·c + π·c²/4. Oval: π/4·l·w. Teardrop of radius r, its point
    d = l − r from the circle's centre: r²·(π − φ) + r·√(d² − r²), cos φ = r/d. Elementary geometry.
    """
    if shape == "slot":
        across = min(length, width)
        return (max(length, width) - across) * across + math.pi / 4 * across * across
    if shape == "rectangle":
        return length * width
    if shape == "teardrop" and length > width:
        radius, reach = width / 2, length - width / 2
        turn = math.acos(radius / reach)
        return radius * radius * (math.pi - turn) + radius * math.sqrt(reach * reach - radius * radius)
    return math.pi / 4 * length * width


def perimeter_mm(shape: str, length: float, width: float) -> float:
    """The way round the hole, mm.

    Oval: Ramanujan's second approximation π(a + b)(1 + 3h/(10 + √(4 − 3h))), h = ((a − b)/(a + b))²
    (Ramanujan, Quarterly Journal of Mathematics 45 (1914) 350, from memory); the rest elementary geometry.
    """
    if shape == "slot":
        return _around_slot((length, width), (0.0, 0.0))
    if shape == "rectangle":
        return 2 * (length + width)
    if shape == "teardrop" and length > width:
        return _around_teardrop((length, width), (0.0, 0.0))
    h = ((length - width) / (length + width)) ** 2
    return math.pi / 2 * (length + width) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))


def volume_mm3(shape: str, near: tuple[float, float], far: tuple[float, float], depth: float) -> float:
    """The metal missing from a hole that runs evenly from (length, width) near to far, mm³.

    Prismatoid from mean dimensions: exact for every shape but a teardrop that changes its proportions, which
    is right to 0.03 % of the hole when its mouths differ by a fifth (tested against quadrature).
    """
    if near == far:
        return depth * area_mm2(shape, *near)
    middle = area_mm2(shape, (near[0] + far[0]) / 2, (near[1] + far[1]) / 2)
    return depth / 6 * (area_mm2(shape, *near) + 4 * middle + area_mm2(shape, *far))


def wall_mm2(shape: str, near: tuple[float, float], far: tuple[float, float], depth: float) -> float:
    """The surface of the hole's wall, mm².

    A wall whose outline moves outward by v per unit of depth has area ∮∫√(1 + v²) ds dz (the area formula for
    a surface swept by an outline). Flats have it in closed form; the rest is summed over the depth
    and over the turn.
    """
    if near == far:
        return depth * perimeter_mm(shape, *near)
    grow_length, grow_width = (far[0] - near[0]) / depth, (far[1] - near[1]) / depth
    if shape == "rectangle":
        ends = (near[1] + far[1]) * math.hypot(1, grow_length / 2)
        return depth * (ends + (near[0] + far[0]) * math.hypot(1, grow_width / 2))
    around = {"slot": _around_slot, "teardrop": _around_teardrop}.get(shape, _around_oval)
    middle = ((near[0] + far[0]) / 2, (near[1] + far[1]) / 2)
    growth = (grow_length, grow_width)
    return depth / 6 * (around(near, growth) + 4 * around(middle, growth) + around(far, growth))


#: Simpson's rule over a quarter turn: (cosine, sine, weight), the weights adding up to π/2 (our choice).
_STEPS = 8
_QUARTER = tuple(
    (
        math.cos(math.pi / 2 * step / _STEPS),
        math.sin(math.pi / 2 * step / _STEPS),
        math.pi / 2 / _STEPS / 3 * (1 if step in (0, _STEPS) else 4 if step % 2 else 2),
    )
    for step in range(_STEPS + 1)
)


def _around_oval(size: tuple[float, float], growth: tuple[float, float]) -> float:
    """∮√(1 + v²) ds round an ellipse, from x = a·cos u, y = b·sin u."""
    a, b = size[0] / 2, size[1] / 2
    grow_a, grow_b = growth[0] / 2, growth[1] / 2
    total = 0.0
    # Equal weights: on a smooth curve that repeats, the plain sum beats Simpson's by far.
    for step, (cosine, sine, _) in enumerate(_QUARTER):
        outward = grow_a * b * cosine * cosine + grow_b * a * sine * sine
        part = math.sqrt((b * cosine) ** 2 + (a * sine) ** 2 + outward * outward)
        total += part / 2 if step in (0, _STEPS) else part
    return 4 * total * math.pi / 2 / _STEPS


def _around_slot(size: tuple[float, float], growth: tuple[float, float]) -> float:
    """∮√(1 + v²) ds round a stadium: v is steady on the flats and runs with the cosine round the ends."""
    (long, short), (grow_long, grow_short) = size, growth
    if short > long:
        long, short, grow_long, grow_short = short, long, grow_short, grow_long
    flats = 2 * (long - short) * math.hypot(1, grow_short / 2)
    ends = sum(
        weight * math.hypot(1, (grow_long - grow_short) / 2 * cosine + grow_short / 2)
        for cosine, _, weight in _QUARTER
    )
    return flats + 4 * short / 2 * ends


def _around_teardrop(size: tuple[float, float], growth: tuple[float, float]) -> float:
    """∮√(1 + v²) ds round a teardrop: its arc, then its two tangents."""
    (length, width), (grow_length, grow_width) = size, growth
    if length <= width:
        return _around_oval(size, growth)
    radius, grow_radius = width / 2, grow_width / 2
    reach = length - radius
    turn = math.acos(radius / reach)
    grow_centre = grow_radius - grow_length / 2
    half_arc = math.pi - turn
    arc = 0.0
    for step in range(_STEPS + 1):
        outward = grow_centre * math.cos(turn + half_arc * step / _STEPS) + grow_radius
        weight = 1 if step in (0, _STEPS) else 4 if step % 2 else 2
        arc += weight * math.hypot(1, outward)
    arc *= 2 * radius * half_arc / _STEPS / 3
    at_tangent = grow_centre * math.cos(turn) + grow_radius
    at_point = grow_length / 2 * math.cos(turn)
    tangent = math.hypot(1, at_tangent) + 4 * math.hypot(1, (at_tangent + at_point) / 2)
    tangent = (tangent + math.hypot(1, at_point)) / 6
    return arc + 2 * math.sqrt(reach * reach - radius * radius) * tangent


def half_width_mm(shape: str, length: float, width: float, along: float) -> float:
    """Half the opening across the hole, mm, at `along` from its middle; 0 beyond its ends."""
    if abs(along) > length / 2:
        return 0.0
    if shape == "rectangle":
        return width / 2
    if shape == "slot":
        radius = min(length, width) / 2
        straight = max(width - length, 0.0) / 2
        beyond = max(abs(along) - max(length - width, 0.0) / 2, 0.0)
        return straight + math.sqrt(max(radius * radius - beyond * beyond, 0.0))
    if shape == "teardrop" and length > width:
        radius, reach = width / 2, length - width / 2
        from_centre = along + length / 2 - radius
        if from_centre <= radius * radius / reach:
            return math.sqrt(max(radius * radius - from_centre * from_centre, 0.0))
        return (reach - from_centre) * radius / math.sqrt(reach * reach - radius * radius)
    return width / 2 * math.sqrt(max(1 - (2 * along / length) ** 2, 0.0))


def loop_mm(shape: str, length: float, width: float, steps: int = 48) -> Points:
    """The hole's outline from its middle as (along, across) points, mm, round shapes as fine polygons."""
    if shape == "rectangle":
        x, y = length / 2, width / 2
        return ((-x, -y), (x, -y), (x, y), (-x, y))
    # Cosine spacing puts the points close together where the outline turns.
    stops = [-length / 2 * math.cos(math.pi * step / steps) for step in range(steps + 1)]
    if shape == "slot":
        straight = (length - width) / 2
        if straight > 0.0:
            stops = sorted({*stops, -straight, straight})
    elif shape == "teardrop" and length > width:
        radius, reach = width / 2, length - width / 2
        widest = radius - length / 2
        stops = sorted({*stops, widest, widest + radius * radius / reach})
    upper = [(along, half_width_mm(shape, length, width, along)) for along in stops]
    lower = [(along, -half) for along, half in reversed(upper) if half > 0.0]
    return tuple(upper + lower)
