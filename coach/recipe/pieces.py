"""The pieces of a recipe: what each zone starts from."""

from __future__ import annotations

from coach.forms import said
from coach.metals.grade import grade
from coach.metals.grade_file import GradeFaults
from coach.operations import Shape
from coach.quantities import read_length_mm, read_share
from coach.quantities.refusal import NotKnown
from coach.recipe import words
from coach.recipe.model import Piece, Stock
from coach.recipe.nodes import Node
from coach.recipe.shapes import bar_kinds, no_such_size

_NO_SHAPE = Shape("square")


def read_pieces(node: Node) -> dict[str, Piece]:
    """Every piece by its name; a zone of two pieces stays with the first."""
    pieces: dict[str, Piece] = {}
    homes: dict[str, str] = {}
    for name, told in node.items():
        if not words.NAME.fullmatch(name):
            told.stray(f"{words.echo(name)} cannot be a name: {_NAMING}")
        pieces[name] = Piece(name, _metal(told), _stock(told), _zones(told, name, homes))
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
        elif name not in ("form", "doubt"):
            size.stray(no_such_size(shape.kind, name))
    for name in shape.dimensions:
        if name not in sizes and name != "length":
            node.get(name).missing(f"the bar's {said(name)} is missing")
    return sizes
