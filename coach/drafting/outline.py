"""An outline that was traced in a drawing program, as the stations of a profile.

SVG is an open standard of the W3C (SVG 1.1, second edition, 8.3 and 9; from memory). Read are paths,
polylines and polygons; curves are taken in short straight pieces.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from io import BytesIO
from itertools import pairwise
from typing import Final, TypeAlias
from xml.etree import ElementTree

from coach.drafting.answers import CannotDraft
from coach.recipe.says import LONGEST_LINE

Point: TypeAlias = "tuple[float, float]"

#: A drawing of a tool is smaller, and its parts lie in fewer groups (our choice).
LARGEST_BYTES: Final = 1_000_000
_DEEPEST: Final = 40
_MOST_POINTS: Final = 100_000
#: So many straight pieces stand for a curve, and so many sections are taken (our choice).
_PIECES, _SECTIONS = 16, 97
#: A station is left out where the outline lies no farther from the straight line, as a share of the widest
#: (our choice).
_NEAR_SHARE: Final = 0.012
#: What is smaller than this share of the outline is a mark beside it, such as a scale (judgement).
_MARK_SHARE: Final = 0.3
#: Ends of a line that lie no farther apart than this share of it were meant to meet (judgement).
_OPEN_SHARE: Final = 0.02
#: By so much farther at each try where there are more than one line holds (our choice).
_COARSER: Final = 1.25
#: What a proposal adds to the line: the limits of its length and the allowance (our choice).
_ROOM_FOR_LIMITS: Final = 40
#: No section is told narrower than this share of the widest: a point has no width to forge (our choice).
_LEAST_SHARE: Final = 0.04
_TOKEN: Final = re.compile(r"([MmLlHhVvCcSsQqTtAaZz])|([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)")
_NUMBERS: Final = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}


def stations_of(svg: bytes, long_mm: float, *, across: bool = False) -> tuple[tuple[float, float], ...]:
    """Where along the piece it is how wide, in mm: the outline's own length is `long_mm`.

    Its longer side lies along the piece; with `across` the shorter. Raises CannotDraft for what is no such
    drawing.
    """
    loops = list(_loops(svg))
    if not loops:
        raise CannotDraft("There is no outline in that drawing: trace one as a path or a polyline.")
    loop = max(loops, key=_size)
    xs, ys = [x for x, _ in loop], [y for _, y in loop]
    frame = (min(xs), max(xs)), (min(ys), max(ys))
    least = _MARK_SHARE * _size(loop)
    beside = [one for one in loops if _size(one) > least and not _is_within(one, *frame)]
    if beside:
        raise CannotDraft(
            f"There are {len(beside) + 1} outlines in that drawing: save the one of this piece alone."
        )
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    if min(wide, high) <= 0.0:
        raise CannotDraft("That outline encloses nothing: trace it all round.")
    if math.dist(loop[0], loop[-1]) > _OPEN_SHARE * _size(loop):
        raise CannotDraft("That outline is open: join its two ends, so that it goes all round the piece.")
    if (high > wide) != across:
        loop = [(y, x) for x, y in loop]
    start = min(x for x, _ in loop)
    extent = max(x for x, _ in loop) - start
    scale = long_mm / extent
    rows = []
    for at in range(_SECTIONS):
        share = at / (_SECTIONS - 1)
        inside = min(max(share, 1e-6), 1.0 - 1e-6)
        rows.append((share * long_mm, scale * _width(loop, start + inside * extent)))
    widest = max(width for _, width in rows)
    rows = [(x, max(width, _LEAST_SHARE * widest)) for x, width in rows]
    return tuple(_thinned(rows, _NEAR_SHARE * widest))


def _size(loop: Sequence[Point]) -> float:
    xs, ys = [x for x, _ in loop], [y for _, y in loop]
    return (max(xs) - min(xs)) + (max(ys) - min(ys)) if loop else 0.0


def _is_within(one: Sequence[Point], xs: Sequence[float], ys: Sequence[float]) -> bool:
    """Whether a line lies in a frame, as a hole or a mark of the piece does in that of its outline."""
    return all(xs[0] <= x <= xs[1] and ys[0] <= y <= ys[1] for x, y in one)


def _width(loop: Sequence[Point], x: float) -> float:
    """From the lowest to the highest crossing of a line across the piece."""
    crossings = []
    for (x0, y0), (x1, y1) in zip(loop, [*loop[1:], loop[0]], strict=True):
        if (x0 <= x < x1) or (x1 <= x < x0):
            crossings.append(y0 + (x - x0) / (x1 - x0) * (y1 - y0))
    return max(crossings) - min(crossings) if crossings else 0.0


def _thinned(rows: Sequence[tuple[float, float]], near: float) -> list[tuple[float, float]]:
    """The sections that matter (D. Douglas and T. Peucker 1973; from memory)."""
    first, last = rows[0], rows[-1]
    if len(rows) < 3:
        return [first, last]
    run = last[0] - first[0]
    off = [abs(w - (first[1] + (x - first[0]) / run * (last[1] - first[1]))) for x, w in rows[1:-1]]
    worst = max(range(len(off)), key=off.__getitem__)
    if off[worst] <= near:
        return [first, last]
    at = worst + 1
    return [*_thinned(rows[: at + 1], near)[:-1], *_thinned(rows[at:], near)]


# ── the file ────────────────────────────────────────────────────────────────────────────────────────


def _loops(svg: bytes) -> Iterator[list[Point]]:
    """Every line that is drawn in a file that passes the gate of size, depth and entities."""
    if len(svg) > LARGEST_BYTES:
        raise CannotDraft(f"That drawing is larger than {LARGEST_BYTES // 1000} kB: save the outline alone.")
    if b"<!DOCTYPE" in svg or b"<!ENTITY" in svg:
        raise CannotDraft("That drawing declares a document type or entities: save it as plain SVG.")
    depth, moved, points = 0, 0, 0
    try:
        for event, element in ElementTree.iterparse(BytesIO(svg), ("start", "end")):
            depth += 1 if event == "start" else -1
            if depth > _DEEPEST:
                raise CannotDraft("That drawing is nested too deep: ungroup the outline.")
            turned = bool(element.get("transform"))
            moved += turned if event == "start" else 0
            if event == "start":
                continue
            for loop in _drawn(element):
                points += len(loop)
                if points > _MOST_POINTS:
                    raise CannotDraft("That drawing has too many points: save the outline alone.")
                if moved:
                    raise CannotDraft("The outline is moved by a transform: apply it, or draw it as it lies.")
                yield loop
            moved -= turned
    except (ElementTree.ParseError, LookupError, ValueError) as error:
        if isinstance(error, CannotDraft):
            raise
        raise CannotDraft("That is no drawing in SVG: save the outline as plain SVG.") from None


def _drawn(element: ElementTree.Element) -> Iterator[list[Point]]:
    kind = element.tag.rpartition("}")[2]
    if kind == "path":
        yield from _path(element.get("d", ""))
    elif kind in ("polyline", "polygon"):
        numbers = [float(one[1]) for one in _TOKEN.findall(element.get("points", "")) if one[1]]
        points = list(zip(numbers[::2], numbers[1::2], strict=False))
        yield [*points, *points[:1]] if kind == "polygon" else points


def _path(d: str) -> Iterator[list[Point]]:
    """The lines of a path, its curves in short pieces."""
    tokens = _TOKEN.findall(d)
    loop: list[Point] = []
    at, began, handle, before = (0.0, 0.0), (0.0, 0.0), (0.0, 0.0), ""
    place, command = 0, ""
    while place < len(tokens):
        letter, _ = tokens[place]
        if letter:
            command, place = letter, place + 1
        elif command.upper() == "M":
            command = "l" if command == "m" else "L"
        count = _NUMBERS[command.upper()] if command else -1
        given = [float(one) for _, one in tokens[place : place + count]] if count > 0 else []
        if count < 0 or any(mark for mark, _ in tokens[place : place + count]) or len(given) < count:
            raise CannotDraft("A path of that drawing cannot be read: save the outline as plain SVG.")
        place += count
        kind, relative = command.upper(), command.islower()
        if kind == "Z":
            if loop:
                yield [*loop, began]
            loop, at = [], began
            command = ""
            before = kind
            continue
        if kind == "M":
            if loop:
                yield loop
            at = began = _to(at, given[0], given[1], relative)
            loop = [at]
        else:
            loop = loop or [at]
            ends, handle = _segment(kind, at, given, relative, handle, before)
            loop += ends
            at = ends[-1]
        before = kind
    if loop:
        yield loop


def _to(at: Point, x: float, y: float, relative: bool) -> Point:
    return (at[0] + x, at[1] + y) if relative else (x, y)


def _segment(
    kind: str, at: Point, given: Sequence[float], relative: bool, handle: Point, before: str
) -> tuple[list[Point], Point]:
    """The points of one segment, and the last handle of a curve for one that goes on smoothly."""
    if kind == "H":
        end = (at[0] + given[0] if relative else given[0], at[1])
        return [end], end
    if kind == "V":
        end = (at[0], at[1] + given[0] if relative else given[0])
        return [end], end
    end = _to(at, given[-2], given[-1], relative)
    if kind in ("L", "A"):  # an arc is taken as its chord where it is short, and halved where it bulges
        return ([end], end) if kind == "L" else (_arc(at, given, end), end)
    handles = [_to(at, x, y, relative) for x, y in zip(given[:-2:2], given[1:-2:2], strict=True)]
    smooth = (2 * at[0] - handle[0], 2 * at[1] - handle[1])
    if kind == "S":
        handles.insert(0, smooth if before in ("C", "S") else at)
    if kind == "T":
        handles.insert(0, smooth if before in ("Q", "T") else at)
    return [_bezier([at, *handles, end], at_ / _PIECES) for at_ in range(1, _PIECES + 1)], handles[-1]


def _bezier(points: Sequence[Point], share: float) -> Point:
    """A point of a curve by its handles (P. de Casteljau; from memory)."""
    row = list(points)
    while len(row) > 1:
        row = [(a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])) for a, b in pairwise(row)]
    return row[0]


def _arc(at: Point, given: Sequence[float], end: Point) -> list[Point]:
    """The points of an elliptical arc (SVG 1.1, F.6.5; from memory)."""
    rx, ry, turn = abs(given[0]), abs(given[1]), math.radians(given[2])
    large, sweep = bool(given[3]), bool(given[4])
    if rx == 0.0 or ry == 0.0 or at == end:
        return [end]
    cos, sin = math.cos(turn), math.sin(turn)
    dx, dy = (at[0] - end[0]) / 2.0, (at[1] - end[1]) / 2.0
    x, y = cos * dx + sin * dy, cos * dy - sin * dx
    reach = math.sqrt(max((x / rx) ** 2 + (y / ry) ** 2, 1.0))
    rx, ry = rx * reach, ry * reach
    below = (rx * y) ** 2 + (ry * x) ** 2
    root = math.sqrt(max(((rx * ry) ** 2 - below) / below, 0.0)) * (1.0 if large != sweep else -1.0)
    cx, cy = root * rx * y / ry, -root * ry * x / rx
    middle = (cos * cx - sin * cy + (at[0] + end[0]) / 2.0, sin * cx + cos * cy + (at[1] + end[1]) / 2.0)
    first = math.atan2((y - cy) / ry, (x - cx) / rx)
    swept = math.atan2((-y - cy) / ry, (-x - cx) / rx) - first
    swept += math.tau if sweep and swept < 0.0 else -math.tau if not sweep and swept > 0.0 else 0.0
    found = []
    for piece in range(1, _PIECES + 1):
        angle = first + swept * piece / _PIECES
        a, b = rx * math.cos(angle), ry * math.sin(angle)
        found.append((middle[0] + cos * a - sin * b, middle[1] + sin * a + cos * b))
    return found


def profile_line(stations: Sequence[tuple[float, float]], thick_mm: float) -> str:
    """The line of a zone that is drawn through these stations, all of one thickness.

    As many of them as one line of a recipe holds: those that the outline lies nearest to are left out first.
    """
    near, rows = _NEAR_SHARE, list(stations)
    while len(line := _line(rows, thick_mm)) > LONGEST_LINE - _ROOM_FOR_LIMITS and len(rows) > 2:
        near *= _COARSER
        rows = _thinned(stations, near * max(width for _, width in stations))
    return line


def _line(stations: Sequence[tuple[float, float]], thick_mm: float) -> str:
    (_, first), *rest = ((round(x, 1), round(width, 1)) for x, width in stations)
    parts = [
        f"profile {first:g} x {thick_mm:g}",
        *(f"then {width:g} x {thick_mm:g} at {x:g}" for x, width in rest),
    ]
    return ", ".join([*parts, f"long {rest[-1][0]:g}"])
