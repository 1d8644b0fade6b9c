"""A piece seen from two sides: outlines, holes, marks, steel and dimensions as plain geometry in mm."""

from __future__ import annotations

import math
from collections.abc import Sequence
from enum import StrEnum
from itertools import groupby, pairwise
from typing import Final, NamedTuple

from coach.forms import Form, said
from coach.forms.bar import Prism
from coach.forms.base import Facing, Loop, Point, circle, rectangle
from coach.forms.eyed import Eyed
from coach.forms.ring import Ring
from coach.forms.round_ring import RoundRing
from coach.quantities.refusal import Refusal

Polygon = Loop  # closed, the first point not repeated

#: Stretches that a zone is cut into along its length; a bar of one section needs one.
STRETCHES: Final = 24
#: Less than this is an edge or a point, not a size.
_LEAST_MM: Final = 1e-6
_MOST_MM: Final = 1e6
#: Branches are drawn apart by this share of the widest of them (our choice).
_APART_SHARE: Final = 0.5


class DrawingError(Refusal):
    """Something that cannot be drawn, told in one plain sentence."""


class Solid(NamedTuple):
    """One zone of a piece as it is drawn."""

    zone: str
    form: Form
    steel: bool = False  # the zone is of hard steel, or has hard steel laid on it
    laid_share: float = 0.0  # of its volume, at its form's finish; 0 with `steel`: steel throughout
    turned: bool = False  # it runs from the finish of its form to the start
    whole: str = ""  # the zone that it was split from: it lies beside the others of that, before and after it


class Hole(NamedTuple):
    """The edge of a hole in one zone."""

    zone: str
    points: Polygon
    hidden: bool  # behind metal, as seen from here: drawn dashed
    sizes_mm: tuple[float, ...] = ()  # what is written in it: length and width, one diameter, or nothing


class Mark(NamedTuple):
    """Where a zone begins."""

    x_mm: float
    name: str


class Axis(StrEnum):
    """Which way of the piece a size is taken."""

    ALONG = "along"
    ACROSS = "across"


class Dimension(NamedTuple):
    """A size and the two points it is taken between."""

    start: Point
    finish: Point
    size_mm: float
    axis: Axis


class View(NamedTuple):
    """A piece seen from one side: x runs along it from its start, y about its axis, all in mm."""

    facing: Facing  # what it is seen on: the width in a plan view, the thickness in a side view
    length_mm: float
    height_mm: float  # the largest
    outlines: tuple[Polygon, ...]  # the silhouettes, one a zone
    holes: tuple[Hole, ...]
    marks: tuple[Mark, ...]
    steel: tuple[Polygon, ...]
    dimensions: tuple[Dimension, ...]


def plan_view(solids: Sequence[Solid]) -> View:
    """The piece seen on its width.

    A bend is drawn straight, and so is a ring that has neighbours; a scroll lies on the axis of its bar.

    Raises:
        DrawingError: a size is not a number above zero.

    >>> from coach.forms.flat import Flat
    >>> view = plan_view([Solid("shank", Flat(30.0, 10.0, 120.0))])
    >>> view.length_mm, view.height_mm
    (120.0, 30.0)
    """
    return _view("width", solids)


def side_view(solids: Sequence[Solid]) -> View:
    """The piece seen on its thickness, otherwise as `plan_view`; raises DrawingError."""
    return _view("thickness", solids)


def _view(facing: Facing, solids: Sequence[Solid]) -> View:
    for solid in solids:
        _check(solid)
    if len(solids) == 1 and isinstance(solids[0].form, Ring | RoundRing):
        return _ring_view(facing, solids[0])
    outlines: list[Polygon] = []
    holes: list[Hole] = []
    marks: list[Mark] = []
    steel: list[Polygon] = []
    dimensions: list[Dimension] = []
    places_along, length = _laid_out(facing, solids)
    before = 0.0
    for solid, (at, up, begins) in zip(solids, places_along, strict=True):
        if begins is not None:
            marks.append(begins)
        if (curl := solid.form.curled(facing)) is not None:
            along = max(x for x, _ in curl)
            outline = _raised(_laid(curl, solid, at, along), up)
            outlines.append(outline)
            steel += [outline] if solid.steel else []
            dimensions += _box(outline, at, along)
            before = 0.0
            continue
        places = _places(solid.form)
        outline = _laid(_silhouette(solid.form, places, facing), solid, at)
        outlines.append(_raised(outline, up))
        holes += [
            hole._replace(points=_raised(_laid(hole.points, solid, at), up))
            for hole in _holes(solid, places, facing)
        ]
        if solid.steel:
            steel.append(_raised(_laid(_steel(solid, places, facing), solid, at), up))
        across = _across(outline)
        dimensions += [
            one._replace(start=(one.start[0], one.start[1] + up), finish=(one.finish[0], one.finish[1] + up))
            for one in _dimensions(solid.form, across, at, before if begins is not None else 0.0)
        ]
        before = across[-1][1]
    height = max(max(y for _, y in outline) - min(y for _, y in outline) for outline in outlines)
    if any(up for _, up, _ in places_along):
        height = max(height, 2 * max(abs(y) for outline in outlines for _, y in outline))
    return View(
        facing, length, height, tuple(outlines), tuple(holes), tuple(marks), tuple(steel), tuple(dimensions)
    )


class _Place(NamedTuple):
    """Where a solid lies."""

    at_mm: float  # where it begins
    up_mm: float  # off the axis
    mark: Mark | None  # that stands there; None where another one's stands already


def _laid_out(facing: Facing, solids: Sequence[Solid]) -> tuple[list[_Place], float]:
    """Where each solid lies, and how long all are together.

    Those that a zone was split into begin together and lie side by side, a little apart: how far they are
    opened is none of their sizes. Seen on the thickness they lie behind each other.
    """
    found: list[_Place] = []
    at = 0.0
    for _, group in groupby(enumerate(solids), key=lambda one: one[1].whole or one[0]):
        beside = [solid for _, solid in group]
        along = [_reach(solid, facing)[0] for solid in beside]
        across = [_reach(solid, facing)[1] for solid in beside] if len(beside) > 1 else [0.0]
        gap = _APART_SHARE * max(across)
        top = (sum(across) + gap * (len(across) - 1)) / 2
        for number, solid in enumerate(beside):
            up = top - across[number] / 2 if facing == "width" and len(beside) > 1 else 0.0
            top -= across[number] + gap
            begins = at + (max(along) - along[number] if solid.turned else 0.0)
            mark = Mark(at, " and ".join(one.zone for one in beside)) if number == 0 else None
            found.append(_Place(begins, up, mark))
        at += max(along)
    return found, at


def _reach(solid: Solid, facing: Facing) -> tuple[float, float]:
    """How far a solid reaches along the piece, and across it."""
    curl = solid.form.curled(facing)
    if curl is not None:
        return max(x for x, _ in curl), 2 * max(abs(y) for _, y in curl)
    outline = _silhouette(solid.form, _places(solid.form), facing)
    return solid.form.length_mm, max(y for _, y in outline) - min(y for _, y in outline)


def _raised(points: Polygon, up_mm: float) -> Polygon:
    return tuple((x, y + up_mm) for x, y in points) if up_mm else points


def _check(solid: Solid) -> None:
    for dimension, size in {**solid.form.sizes_mm(), "length": solid.form.length_mm}.items():
        if not _LEAST_MM <= size <= _MOST_MM:
            raise DrawingError(
                f"The {said(dimension)} of {solid.zone} cannot be drawn: a size above zero and "
                f"below a kilometre was expected, not {size:.4g} mm."
            )


def _places(form: Form) -> list[float]:
    """Where along a zone it is looked at, mm from its start: both ends, and wherever it turns."""
    if isinstance(form, Prism):
        return [0.0, form.length_mm]
    shares = {step / STRETCHES for step in range(STRETCHES + 1)}.union(form.landmarks())
    return [share * form.length_mm for share in sorted(shares)]


def _silhouette(form: Form, places: Sequence[float], facing: Facing) -> Polygon:
    """The zone's outer edge through these places, along the lower side and back along the upper."""
    return _swept([(place, form.section(place).outline) for place in places], facing)


def _swept(loops: Sequence[tuple[float, Sequence[Point]]], facing: Facing) -> Polygon:
    axis = 0 if facing == "width" else 1
    lower = [(place, min(point[axis] for point in loop)) for place, loop in loops]
    upper = [(place, max(point[axis] for point in loop)) for place, loop in loops]
    return (*lower, *reversed(upper))


def _laid(points: Polygon, solid: Solid, at: float, along_mm: float | None = None) -> Polygon:
    """What was drawn from the solid's own start, where it lies along the piece, on so much of that."""
    if not solid.turned:
        return _shifted(points, at)
    finish = at + (solid.form.length_mm if along_mm is None else along_mm)
    # The other way round as well, so that it still runs from left to right.
    half = len(points) // 2
    return tuple((finish - x, y) for x, y in (*reversed(points[:half]), *reversed(points[half:])))


def _shifted(points: Sequence[Point], along_mm: float) -> Polygon:
    return tuple((x + along_mm, y) for x, y in points)


def _holes(solid: Solid, places: Sequence[float], facing: Facing) -> list[Hole]:
    form = solid.form
    if isinstance(form, Eyed):
        return _eye(solid.zone, form, facing)
    if openings := form.openings(facing):
        return [Hole(solid.zone, loop, facing == "thickness", sizes) for loop, sizes in openings]
    creases = [Hole(solid.zone, loop, hidden=True) for loop in form.creases(facing)]
    bores = [(place, hole) for place in places for hole in form.section(place).holes[:1]]
    return [*creases, *([Hole(solid.zone, _swept(bores, facing), hidden=True)] if len(bores) > 1 else [])]


def _eye(zone: str, form: Eyed, facing: Facing) -> list[Hole]:
    middle = form.length_mm / 2
    near, far = form.near_mm, form.far_mm
    if form.through == facing:
        # Seen across its depth: the near mouth is on the upper side.
        half = form.depth_mm / 2
        edge = ((-far[0] / 2, -half), (far[0] / 2, -half), (near[0] / 2, half), (-near[0] / 2, half))
        return [Hole(zone, _shifted(edge, middle), hidden=True)]
    found = [Hole(zone, _shifted(form.hole_loop(0.0), middle), False, _written(form.hole, near))]
    if near != far:
        behind = far[0] > near[0] or far[1] > near[1]
        found.append(Hole(zone, _shifted(form.hole_loop(1.0), middle), behind, _written(form.hole, far)))
    return found


def _written(shape: str, sizes: tuple[float, float]) -> tuple[float, ...]:
    return sizes[:1] if shape == "round" else sizes


def _steel(solid: Solid, places: Sequence[float], facing: Facing) -> Polygon:
    """The part of the silhouette that is shaded: all, or the form's end with the laid share."""
    if not 0.0 < solid.laid_share < 1.0:
        return _silhouette(solid.form, places, facing)
    border = _border_mm(solid.form, 1.0 - solid.laid_share)
    return _silhouette(solid.form, [border, *(place for place in places if place > border)], facing)


def _border_mm(form: Form, share: float) -> float:
    """How far from its start a solid holds this share of its volume; slices summed by the trapezium rule."""
    slices = 4 * STRETCHES
    areas = [form.section(form.length_mm * step / slices).area_mm2 for step in range(slices + 1)]
    parts = [(before + after) / 2 for before, after in pairwise(areas)]
    wanted = share * sum(parts)
    for step, part in enumerate(parts):
        if part >= wanted and part > 0.0:
            return form.length_mm * (step + wanted / part) / slices
        wanted -= part
    return form.length_mm


def _across(silhouette: Polygon) -> list[tuple[float, float]]:
    """Where along the piece a silhouette was taken, and how high it is there."""
    half = len(silhouette) // 2
    pairs = zip(silhouette[:half], reversed(silhouette[half:]), strict=True)
    return [(low[0], high[1] - low[1]) for low, high in pairs]


def _dimensions(
    form: Form, across: Sequence[tuple[float, float]], at: float, before_mm: float
) -> list[Dimension]:
    """The zone's length, and its sizes across: at its ends, and where it is widest between them.

    One that stays the same is given in the middle, beside a hole. None is given again that the zone before
    ended with, `before_mm`.
    """
    length = form.length_mm
    start, finish = across[0], across[-1]
    widest = max(across, key=lambda one: one[1])
    if _same(min(across, key=lambda one: one[1])[1], widest[1]):
        beside = (length - max(form.near_mm[0], form.far_mm[0])) / 4 if isinstance(form, Eyed) else length / 2
        places = [(at + beside, start[1])]
    else:
        between = not (_same(widest[1], start[1]) or _same(widest[1], finish[1]))
        places = [start, *([widest] if between else []), finish]
    if _same(places[0][1], before_mm):
        places = places[1:]
    sizes = [
        Dimension((x, -size / 2), (x, size / 2), size, Axis.ACROSS) for x, size in places if size > _LEAST_MM
    ]
    low = -widest[1] / 2
    return [Dimension((at, low), (at + length, low), length, Axis.ALONG), *sizes]


def _box(outline: Polygon, at: float, along_mm: float) -> list[Dimension]:
    """What is curled is given over its outside: along the piece and across it."""
    low, high = min(y for _, y in outline), max(y for _, y in outline)
    return [
        Dimension((at, low), (at + along_mm, low), along_mm, Axis.ALONG),
        Dimension((at + along_mm / 2, low), (at + along_mm / 2, high), high - low, Axis.ACROSS),
    ]


def _same(one_mm: float, other_mm: float) -> bool:
    return abs(one_mm - other_mm) <= 1e-9 * max(one_mm, other_mm)


def _ring_view(facing: Facing, solid: Solid) -> View:
    """A ring alone, closed: along its axis in the plan view, on its edge in the side view."""
    form = solid.form
    if isinstance(form, Ring):
        outer, inner, height = form.outer_diameter_mm, form.inner_diameter_mm, form.thickness_mm
        edge: Polygon = rectangle(outer, height)
    else:
        assert isinstance(form, RoundRing)
        inner, height = form.inner_diameter_mm, form.diameter_mm
        outer = inner + 2 * height
        reach = (outer - height) / 2
        edge = tuple((x + math.copysign(reach, x), y) for x, y in circle(height))
    if facing == "width":
        edge, height = circle(outer), outer
        holes = [Hole(solid.zone, _shifted(circle(inner), outer / 2), False, (inner,))]
    else:
        holes = [Hole(solid.zone, _shifted(rectangle(inner, height), outer / 2), True)]
        if isinstance(form, RoundRing):
            holes = []  # its inner edge is no straight line from here
    outline = _shifted(edge, outer / 2)
    dimensions = [Dimension((0.0, -height / 2), (outer, -height / 2), outer, Axis.ALONG)]
    if facing == "thickness":
        dimensions.append(Dimension((outer / 2, -height / 2), (outer / 2, height / 2), height, Axis.ACROSS))
    return View(
        facing,
        outer,
        height,
        (outline,),
        tuple(holes),
        (Mark(0.0, solid.zone),),
        (outline,) if solid.steel else (),
        tuple(dimensions),
    )
