"""The pieces of a recipe: what each zone starts from."""

from __future__ import annotations

from coach.forms import said
from coach.metals.grade import grade
from coach.metals.grade_file import GradeFaults
from coach.operations import Shape
from coach.quantities import read_length_mm, read_share
from coach.quantities.refusal import NotKnown
from coach.recipe import words
from coach.recipe.model import Layer, Piece, Stock
from coach.recipe.nodes import Node
from coach.recipe.shapes import bar_kinds, no_such_size

_NO_SHAPE = Shape("square")
_LAYER = Shape("flat")
_FEWEST = 2


def read_pieces(node: Node) -> dict[str, Piece]:
    """Every piece by its name; a zone of two pieces stays with the first."""
    pieces: dict[str, Piece] = {}
    homes: dict[str, str] = {}
    for name, told in node.items():
        if not words.NAME.fullmatch(name):
            told.stray(f"{words.echo(name)} cannot be a name: {_NAMING}")
        layers, stack = _stack(told.get("stack"))
        metal = max((one.metal for one in layers), key=_carbon, default="") if layers else _metal(told)
        stock = _stock(told) if stack is None else stack
        pieces[name] = Piece(name, metal, stock, _zones(told, name, homes), layers)
    if node.is_names and not pieces:
        node.fault("there is no piece here: name one, such as body, with its metal and bar")
    return pieces


_NAMING = "a name is up to 40 letters, digits, blanks and hyphens, and begins with a letter"


def _metal(told: Node) -> str:
    metal = told.get("metal")
    asked = metal.text()
    if not asked:
        return ""
    try:
        return grade(asked).name
    except NotKnown as error:
        metal.fault(words.clause(error))
    except GradeFaults as error:
        metal.fault(f"{words.echo(asked)} is no grade that can be read: {' '.join(error.faults)[:300]}")
    return asked


def _carbon(metal: str) -> float:
    """How much carbon a metal has; none where it is not known, which is a finding already."""
    try:
        return grade(metal).carbon_share or 0.0
    except (NotKnown, GradeFaults):
        return 0.0


def _stack(node: Node) -> tuple[tuple[Layer, ...], Stock | None]:
    """The layers of a stack and the bar that they make together; None where there is no stack."""
    layers: list[Layer] = []
    widths: list[float] = []
    for row in node.rows() if node else ():
        if not row.is_names:
            continue
        row.get("form").word("form of a layer", (_LAYER.kind,))
        sizes = _section_mm(row, _LAYER)
        width_mm = sizes.get("width", 1.0)
        if widths and width_mm != widths[0]:
            row.fault("the layers of a stack are all as wide as the lowest: saw or draw them to one width")
        widths.append(width_mm)
        layers.append(Layer(_metal(row), sizes.get("thickness", 1.0)))
    if not node:
        return (), None
    if len(layers) < _FEWEST:
        node.fault("a stack has two layers at least, one to a dash, such as 1084, 30 x 4")
        return (), Stock(_NO_SHAPE, {})
    thick_mm = sum(layer.thickness_mm for layer in layers)
    return tuple(layers), Stock(_LAYER, {"width": widths[0], "thickness": thick_mm})


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
        node.fault("the list of zones is empty: a piece of one zone has its size instead")
    return tuple(found)


def _stock(told: Node) -> Stock:
    node = told.get("stock")
    kind = node.get("form").word("form of stock", bar_kinds())
    if kind is None:
        return Stock(_NO_SHAPE, {})
    shape = Shape(kind)
    sizes = _section_mm(node, shape)
    doubt = node.get("doubt").size(read_share)
    bar_mm = sizes.pop("length", None)
    stock = Stock(shape, sizes, bar_mm)
    return stock if doubt is None else stock._replace(doubt_share=doubt)


def _section_mm(node: Node, shape: Shape) -> dict[str, float]:
    """The sizes of a bar; one that cannot be read, with its finding, counts as 1."""
    sizes: dict[str, float] = {}
    for name, size in node.items():
        if name in shape.dimensions:
            length_mm = size.in_unit(read_length_mm)
            sizes[name] = 1.0 if length_mm is None else length_mm
        elif name not in ("form", "doubt", "metal"):
            size.stray(no_such_size(shape.kind, name))
    for name in shape.dimensions:
        if name not in sizes and name != "length":
            node.get(name).missing(f"the bar's {said(name)} is missing")
    return sizes
