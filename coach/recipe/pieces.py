"""The pieces of a recipe and its drawing: what each zone starts from and what it is to become."""

from __future__ import annotations

from functools import partial

from coach.forms import FormError, kinds, listed
from coach.metals.grade import GradeFaults, UnknownGrade, grade
from coach.operations import Shape
from coach.quantities import Limits, read_length_mm, read_share
from coach.recipe import words
from coach.recipe.model import Piece, Stock, ZoneDrawing
from coach.recipe.nodes import Node
from coach.recipe.shapes import a, bar_kinds, option_names, shape_told
from coach.recipe.sizes import default_limits, limits_reader

_NO_SHAPE = Shape("square")
#: Keys of a zone's drawing that are neither sizes nor choices.
DRAWING_WORDS = frozenset({"form", "stations", "take_up", "allowance", "remains"})


def read_pieces(node: Node, unit: str) -> dict[str, Piece]:
    """Every piece by its name; a zone of two pieces stays with the first."""
    pieces: dict[str, Piece] = {}
    homes: dict[str, str] = {}
    for name, told in node.items():
        if not words.NAME.fullmatch(name):
            told.stray(f"{words.echo(name)} cannot be a name: {_NAMING}")
        pieces[name] = Piece(name, _metal(told), _stock(told, unit), _zones(told, name, homes))
    if node.is_names and not pieces:
        node.fault("there is no piece here: name one, such as body, with its metal and stock")
    return pieces


_NAMING = "a name is up to 40 letters, digits, blanks and hyphens, and begins with a letter"


def _metal(told: Node) -> str:
    metal = told.get("metal")
    asked = metal.text()
    if not metal:
        metal.missing("the metal is missing: name a grade, such as mild steel")
    if not asked:
        return ""
    try:
        return grade(asked).name
    except UnknownGrade as error:
        metal.fault(words.clause(error))
    except GradeFaults as error:
        metal.fault(f"{words.echo(asked)} is no grade that can be read: {' '.join(error.faults)[:300]}")
    return asked


def _zones(told: Node, piece: str, homes: dict[str, str]) -> tuple[str, ...]:
    """The zones of a piece in order; those that another piece has are left out with a finding."""
    node = told.get("zones")
    rows = [(words.own_name(row.text()), row) for row in node.rows()] if node else [(piece, told)]
    found: list[str] = []
    for name, row in rows:
        if not name:
            row.fault("a zone needs a name")
        elif name in homes:
            where = "named twice here" if homes[name] == piece else f"already a zone of {homes[name]}"
            row.fault(f"{words.echo(name)} is {where}: every zone has a name of its own")
        else:
            homes[name] = piece
            found.append(name)
            if node and not words.NAME.fullmatch(name):
                row.fault(f"{words.echo(name)} cannot be a zone's name: {_NAMING}")
    if node and not rows:
        node.fault("the list of zones is empty: leave it out when the piece is one zone")
    return tuple(found)


def _stock(told: Node, unit: str) -> Stock:
    node = told.get("stock")
    if not node:
        node.missing("the stock is missing: its form and the sizes of its section")
        return Stock(_NO_SHAPE, {})
    if not node.is_names:
        node.fault("stock is a form with its sizes, such as {form: square, side: 12}")
        return Stock(_NO_SHAPE, {})
    form = node.get("form")
    kind = form.word("form of stock", bar_kinds())
    if not form:
        form.missing(f"the form of the stock is missing: {listed(bar_kinds(), 'or')}")
    if kind is None:
        return Stock(_NO_SHAPE, {})
    shape = Shape(kind)
    sizes: dict[str, float] = {}
    for name, size in node.items():
        if name in shape.dimensions:
            length_mm = size.size(partial(read_length_mm, unit=unit))
            sizes[name] = 1.0 if length_mm is None else length_mm
        elif name not in ("form", "doubt"):
            size.stray(_no_such(kind, name))
    for name in shape.dimensions:
        if name not in sizes and name != "length":
            node.get(name).missing(f"the stock's {words.said(name)} is missing")
    doubt = node.get("doubt").size(read_share)
    bar_mm = sizes.pop("length", None)
    if doubt is None:
        return Stock(shape, sizes, bar_mm)
    return Stock(shape, sizes, bar_mm, doubt)


def read_drawing(node: Node, pieces: dict[str, Piece], unit: str) -> dict[str, ZoneDrawing | None]:
    """Every zone's drawing, in the order of the pieces; None for one that cannot be read."""
    homes = {zone: piece.name for piece in pieces.values() for zone in piece.zones}
    told = dict(node.items())  # a finding where there are no names
    if not node.is_names or not homes:
        return dict.fromkeys(homes)
    for name, zone in told.items():
        if name not in homes:
            zone.stray(f"no piece has a zone {words.echo(name)}: {words.hint(name, homes)}")
    drawing: dict[str, ZoneDrawing | None] = {}
    for name, piece in homes.items():
        if name in told:
            drawing[name] = _zone_drawing(told[name], name, piece, unit)
        else:
            drawing[name] = None
            node.get(name).missing(f"the zone {name} of {piece} has no drawing: give its finished sizes")
    return drawing


def _zone_drawing(node: Node, zone: str, piece: str, unit: str) -> ZoneDrawing | None:
    if not node.is_names:
        node.fault("a zone's drawing is a form with its sizes, such as {form: flat, width: 30, ...}")
        return None
    form = node.get("form")
    kind = form.word("form", kinds())
    if not form:
        form.missing(f"the form of {zone} is missing: {words.hint('', kinds())}")
    if kind is None:
        return None
    shape, drawn_mm = shape_told(node, kind, None, unit)
    dimensions = kinds()[kind].DIMENSIONS
    limits: dict[str, Limits] = {name: default_limits(name, size) for name, size in drawn_mm.items()}
    stated = set(limits)
    for name, size in node.items():
        if name in dimensions:
            stated.add(name)
            read = size.size(limits_reader(name, "length", unit))
            if read is not None:
                limits[name] = read
        elif name not in DRAWING_WORDS and name not in option_names():
            size.stray(_no_such(kind, name))
    share = node.get("allowance").size(read_share)
    remains_mm = node.get("remains").size(partial(read_length_mm, unit=unit))
    take_up = _take_up(node.get("take_up"), kind)
    if shape is None:
        return None
    filled = kinds()[kind].filled(dict.fromkeys(stated, 1.0), shape.options)
    for name in dimensions:
        if name not in filled and name not in kinds()[kind].FALLBACKS:
            node.get(name).missing(f"{a(kind)} needs its {words.said(name)}: add {words.said(name)}:")
    if stated != set(limits) or not filled.keys() >= set(dimensions):
        return None
    try:
        made = shape.form({name: one.nominal for name, one in limits.items()})
    except FormError as error:
        node.fault(f"{zone} cannot be made: {error}")
        return None
    for name, size_mm in made.sizes_mm().items():
        if name not in limits:
            limits[name] = _same(limits, shape, name, size_mm)
    ordered = {name: limits[name] for name in dimensions}
    return ZoneDrawing(zone, piece, shape, ordered, take_up or (shape.usual_free,), share or 0.0, remains_mm)


def _no_such(kind: str, name: str) -> str:
    known = [words.said(dimension) for dimension in kinds()[kind].DIMENSIONS]
    return f"{a(kind)} has no {words.said(name)[:40]}: {words.hint(words.said(name), known)}"


def _same(limits: dict[str, Limits], shape: Shape, name: str, size_mm: float) -> Limits:
    """The limits of a size that goes with another one: those of the one it takes its size from."""
    for source in shape.sources(name):
        if source in limits and limits[source].nominal == size_mm:
            return limits[source]
    return default_limits(name, size_mm)


def _take_up(node: Node, kind: str) -> tuple[str, ...]:
    dimensions = kinds()[kind].DIMENSIONS
    found: list[str] = []
    for row in node.rows():
        name = words.key(row.text())
        if name not in dimensions:
            row.fault(
                f"the take-up {words.echo(row.text())} is no dimension of {a(kind)}: "
                f"{words.hint(words.said(name), map(words.said, dimensions))}"
            )
        elif name in found:
            row.fault(f"the {words.said(name)} stands twice in the take-up")
        else:
            found.append(name)
    return tuple(found)
