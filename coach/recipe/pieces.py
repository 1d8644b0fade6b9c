"""The pieces of a recipe: what each zone starts from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from coach.forms import said
from coach.metals.grade import grade
from coach.metals.grade_file import GradeFaults
from coach.operations import Shape
from coach.quantities import read_length_mm, read_share
from coach.quantities.refusal import NotKnown
from coach.recipe import words
from coach.recipe.findings import Findings
from coach.recipe.model import Layer, Piece, Step, Stock, ZoneDrawing
from coach.recipe.nodes import Node
from coach.recipe.shapes import bar_kinds, no_such_size

_NO_SHAPE = Shape("square")
_LAYER = Shape("flat")
_FEWEST = 2
#: How far the section of a bar that the smith drew himself is off when it is measured before it is marked, as
#: a standard uncertainty (judgement).
_OWN_DOUBT_SHARE = 0.01


def read_pieces(node: Node) -> dict[str, Piece]:
    """Every piece by its name; a zone of two pieces stays with the first."""
    pieces: dict[str, Piece] = {}
    homes: dict[str, str] = {}
    for name, told in node.items():
        if wrong := _is_no_name(name):
            told.stray(f"{words.echo(name)} cannot be a name: {wrong}")
        layers, stack = _stack(told.get("stack"))
        shared = {how: told.get("stock").get(how) for how in ("from", "beside")}
        if any(shared.values()):
            metal, stock = "", Stock(_NO_SHAPE, {})
        else:
            metal = max((one.metal for one in layers), key=_carbon) if layers else _metal(told)
            stock = _stock(told) if stack is None else stack
        source, beside = (words.own_name(one.text()) for one in shared.values())
        zones, given_up = _zones(told, name, homes), bool(told.get("given_up").yes())
        pieces[name] = Piece(name, metal, stock, zones, layers, source, beside, given_up=given_up)
    if node.is_names and not pieces:
        node.fault("there is no piece here: name one, such as body, with its metal and bar")
    return pieces


_NAMING = "a name is up to 40 letters, digits, blanks and hyphens, and begins with a letter"
#: What the line of a step says between names, and of which zones it tells.
_BETWEEN_NAMES: Final = frozenset(
    {"and", "with", "to", "into", "by", "at", "all", "of", "like", "itself"},
)


def _is_no_name(name: str) -> str:
    """Why that cannot be the name of a piece or a zone; "" where it can."""
    if not words.NAME.fullmatch(name):
        return _NAMING
    between = next((one for one in name.lower().split() if one in _BETWEEN_NAMES), "")
    return f"“{between}” is a word of a step's line; call it otherwise" if between else ""


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


def with_shared_bars(
    node: Node, pieces: Mapping[str, Piece], drawing: Mapping[str, ZoneDrawing | None]
) -> dict[str, Piece]:
    """The pieces, each with the bar that it has of another one."""
    found = dict(pieces)
    for name, piece in pieces.items():
        if piece.source:
            found[name] = _from_source(node.get(name).get("stock"), piece, pieces, drawing)
    for name, piece in pieces.items():
        if piece.beside:
            found[name] = _beside(node.get(name).get("stock").get("beside"), piece, found)
    return found


def _from_source(
    node: Node, piece: Piece, pieces: Mapping[str, Piece], drawing: Mapping[str, ZoneDrawing | None]
) -> Piece:
    """A piece that is taken from what another one came to."""
    source, told = pieces.get(piece.source), node.get("from")
    if source is None or source is piece or source.source:
        own = [one.name for one in pieces.values() if not (one is piece or one.source)]
        hint = words.hint(piece.source, own)
        told.fault(f"there is no piece {words.echo(piece.source)} to take it from: {hint}")
        return piece._replace(source="")
    drawn = drawing.get(source.zones[0]) if len(source.zones) == 1 else None
    if drawn is None or drawn.shape.kind not in bar_kinds():
        told.fault(f"{source.name} is no bar of one section: draw it as one zone, such as 26 x 6, long 200")
        return piece._replace(source="")
    sizes = drawn.sizes_mm
    bar_mm = sizes.pop("length", None)
    doubt = node.get("doubt").size(read_share)
    stock = Stock(drawn.shape, sizes, bar_mm, _OWN_DOUBT_SHARE if doubt is None else doubt)
    begun_as = pieces.get(source.beside, source)
    return piece._replace(metal=begun_as.metal, stock=stock, layers=begun_as.layers)


def _beside(node: Node, piece: Piece, pieces: Mapping[str, Piece]) -> Piece:
    """A piece that is taken from the same bar as another one, next to it."""
    first = pieces.get(piece.beside)
    if first is None or first is piece or first.beside:
        known = [one.name for one in pieces.values() if one is not piece and not one.beside]
        hint = words.hint(piece.beside, known)
        node.fault(f"there is no piece {words.echo(piece.beside)} with a bar of its own: {hint}")
        return piece._replace(beside="")
    return piece._replace(metal=first.metal, stock=first.stock, layers=first.layers, source=first.source)


def taken_too_early(pieces: Mapping[str, Piece], steps: Sequence[Step], findings: Findings) -> None:
    """Note what is worked before the bar that it is taken from is made."""
    for piece in pieces.values():
        source = pieces[piece.source].zones if piece.source else ()
        made = [step.number for step in steps if set(source) & set(step.zones)]
        begun = [step.number for step in steps if set(piece.zones) & set(step.zones)]
        if made and begun and begun[0] < made[-1]:
            message = f"{piece.name} is taken from {piece.source}, which step {made[-1]} still works on"
            findings.add(("steps", begun[0] - 1, "do"), message)


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
            row.fault(f"{words.echo(name)} is {where}: {words.OWN_NAME}")
        else:
            homes[name] = piece
            found.append(name)
            if node and (wrong := _is_no_name(name)):
                row.fault(f"{words.echo(name)} cannot be a zone's name: {wrong}")
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
