"""Independent geometry for the tests: meshes and outlines built without any formula of the forms."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
import trimesh
from shapely import affinity
from shapely.geometry import LineString, MultiPoint, Point, Polygon, box

from coach.forms import Form

FACETS = 720
# An inscribed polygon of n sides lacks (2π/n)²/6 of its circle's area, 1.3e-5 here, and a quarter of that of
# its circumference; a solid ruled between two such outlines no more. The rest is left for the lofting.
MESH_TOLERANCE = 5e-5


def surface_mm2(form: Form) -> float:
    """The sides and both ends."""
    return form.side_surface_mm2() + form.end_area_mm2("start") + form.end_area_mm2("finish")


def hull(points: Sequence[tuple[float, float, float]]) -> tuple[float, float]:
    """Volume and area of a convex solid from its corners."""
    solid = trimesh.convex.convex_hull(np.array(points))
    return float(solid.volume), float(solid.area)


def frustum_corners(
    start: tuple[float, float], finish: tuple[float, float], at: float, to: float
) -> list[tuple[float, float, float]]:
    """The corners of a solid between two rectangles on one axis."""
    return [
        (x, side * width / 2, face * thickness / 2)
        for x, (width, thickness) in ((at, start), (to, finish))
        for side in (-1, 1)
        for face in (-1, 1)
    ]


def revolved(outline: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Volume and area of a closed (radius, height) outline turned about the axis."""
    solid = trimesh.creation.revolve(np.array([*outline, outline[0]]), sections=FACETS)
    assert solid.is_watertight
    return abs(float(solid.volume)), float(solid.area)


def hole_polygon(shape: str, length: float, width: float) -> Polygon:
    """A hole's outline about the middle of its box, made with shapely's buffers and hulls alone."""
    fine = FACETS // 4
    if shape == "rectangle":
        return box(-length / 2, -width / 2, length / 2, width / 2)
    if shape == "slot":
        if length >= width:
            return LineString([((width - length) / 2, 0), ((length - width) / 2, 0)]).buffer(width / 2, fine)
        return LineString([(0, (length - width) / 2), (0, (width - length) / 2)]).buffer(length / 2, fine)
    if shape == "teardrop":
        round_end = Point(width / 2 - length / 2, 0).buffer(width / 2, fine)
        return MultiPoint([*round_end.exterior.coords, (length / 2, 0)]).convex_hull
    return affinity.scale(Point(0, 0).buffer(1, fine), length / 2, width / 2)


def _rays(polygon: Polygon, angles: np.ndarray) -> np.ndarray:
    """Where rays from the middle at these angles meet the polygon's edge."""
    far = 4 * max(abs(bound) for bound in polygon.bounds)
    ends = np.stack([far * np.cos(angles), far * np.sin(angles)], axis=1)
    lines = shapely.linestrings(np.stack([np.zeros_like(ends), ends], axis=1))
    inside = shapely.intersection(lines, polygon)
    return np.array([segment.coords[-1] for segment in inside])


def pierced_block(
    across: float,
    depth: float,
    length: float,
    shape: str,
    near: tuple[float, float],
    far: tuple[float, float],
) -> tuple[float, float]:
    """Volume and area of a block length × across with a hole through its depth."""
    if shape == "rectangle":
        plug, skin = hull(frustum_corners(near, far, 0, depth))
        mouths = near[0] * near[1] + far[0] * far[1]
        sides = 2 * (across * depth + depth * length + length * across)
        return across * depth * length - plug, sides + skin - 2 * mouths
    levels = 1 if near == far else 8
    block = box(-length / 2, -across / 2, length / 2, across / 2)
    angles = [2 * math.pi * step / FACETS for step in range(FACETS)]
    corners = [math.atan2(y, x) % (2 * math.pi) for x, y in block.exterior.coords[:4]]
    if shape == "teardrop":
        corners.append(0.0)
    turn = np.array(sorted({round(angle, 12) for angle in [*angles, *corners]}))
    loops: list[np.ndarray] = []
    outer = _rays(block, turn)
    loops.append(np.column_stack([outer, np.zeros(len(turn))]))
    for level in range(levels + 1):
        share = level / levels
        size = [a + share * (b - a) for a, b in zip(near, far, strict=True)]
        hole = _rays(hole_polygon(shape, *size), turn)
        loops.append(np.column_stack([hole, np.full(len(turn), -depth * share)]))
    loops.append(np.column_stack([outer, np.full(len(turn), -depth)]))
    count = len(turn)
    faces: list[tuple[int, int, int]] = []
    for row in range(len(loops)):
        after = (row + 1) % len(loops)
        for step in range(count):
            beside = (step + 1) % count
            a, b = row * count + step, row * count + beside
            c, d = after * count + step, after * count + beside
            faces += [(a, b, d), (a, d, c)]
    solid = trimesh.Trimesh(np.concatenate(loops), faces, process=False)
    assert solid.is_watertight
    return abs(float(solid.volume)), float(solid.area)


def swept_rectangle(
    width: float,
    thickness: float,
    turn: float,
    length: float,
    end: tuple[float, float] | None = None,
) -> trimesh.Trimesh:
    """A rectangle moved along its axis while it goes round once in each `turn`, closed at both ends.

    With `end` it runs evenly to those sides as it goes.
    """
    corners = (
        np.array([(-width, -thickness), (width, -thickness), (width, thickness), (-width, thickness)]) / 2
    )
    shares = np.linspace(0, 1, 60, endpoint=False)[:, None]
    beyond = np.roll(corners, -1, axis=0)
    loop = np.concatenate([a + shares * (b - a) for a, b in zip(corners, beyond, strict=True)])
    along = np.linspace(0, length, 1201)
    wide, thick = (1.0, 1.0) if end is None else (end[0] / width, end[1] / thickness)
    narrowing = along[:, None] / length
    here = loop[:, 0] * (1 + narrowing * (wide - 1)) + 1j * loop[:, 1] * (1 + narrowing * (thick - 1))
    turned = np.exp(2j * np.pi * along / turn)[:, None] * here
    count, rows = len(loop), len(along)
    points = np.stack([turned.real, turned.imag, np.repeat(along[:, None], count, axis=1)], axis=2)
    near = np.arange(count)[None, :] + count * np.arange(rows - 1)[:, None]
    beside = np.roll(near, -1, axis=1)
    sides = [(near, beside, beside + count), (near, beside + count, near + count)]
    faces = [np.stack([each.ravel() for each in side], axis=1) for side in sides]
    middles = rows * count, rows * count + 1
    one, next_one = near[0], beside[0]
    ends = (
        (np.full(count, middles[0]), next_one, one),
        (
            np.full(count, middles[1]),
            one + count * (rows - 1),
            next_one + count * (rows - 1),
        ),
    )
    faces += [np.stack(end, axis=1) for end in ends]
    vertices = np.concatenate([points.reshape(-1, 3), [(0, 0, 0), (0, 0, length)]])
    return trimesh.Trimesh(vertices, np.concatenate(faces), process=False)
