"""What a step is to make of its zone: the shape it leaves, the sizes asked for and the one that follows."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field

from coach.forms import kinds, listed, said
from coach.operations import Operation, Shape
from coach.operations.does import Does, Scope
from coach.quantities import Kind, Limits
from coach.recipe import words
from coach.recipe.model import ZoneDrawing
from coach.recipe.naming import own_size
from coach.recipe.nodes import Node
from coach.recipe.progress import Progress, ZoneSoFar
from coach.recipe.shape_words import FLAT, TAPER
from coach.recipe.shapes import NO_HOLES, a, is_bent, option_names, read_stations, shape_told
from coach.recipe.sizes import default_limits, limits_reader

#: Sizes that differ by less than this are the same (our choice).
_SAME_MM = 1e-6
_HOLES = {Does.PUNCHES, Does.PIERCES}
_SHAPE_WORDS = ("form", "section", "hole", "through", "stations")


@dataclass(frozen=True, slots=True)
class Aim:
    """What a step makes of a zone."""

    shape: Shape | None = None  # the shape it leaves; None keeps the shape
    targets: dict[str, Limits] = field(default_factory=dict)
    free_told: str | None = None  # the dimension that the recipe sets free
    free: str | None = None  # the dimension that follows from the metal


def read_aim(node: Node, todo: Operation, zone: ZoneSoFar, progress: Progress) -> Aim:
    """The aim of a step on one zone; a zone whose shape cannot be told loses it."""
    to = node.get("to")
    shape, sound = _shape(node, todo, zone, progress)
    after = shape or zone.shape
    if not sound or after is None:
        return _lost(zone)
    if not todo.DOES.isdisjoint(_HOLES) and zone.shape is not None and is_bent(zone.shape.kind):
        node.get("do").fault(f"{zone.zone} is {a(zone.shape.kind)} by then{NO_HOLES}")
        return _lost(zone)
    options = kinds()[todo.FORM].OPTIONS.keys() if todo.FORM is not None else set()
    if todo.FORM is not None and (
        not options <= after.options.keys() or (todo.FIXES and after.kind != todo.FORM)
    ):
        # A punch makes a hole: the shape it leaves must have one; and what is cut to a shape has that shape.
        (node.get("form") or to).fault(f"{todo.NAME} leaves {a(todo.FORM)}, not {a(after.kind)}")
        return _lost(zone)
    if todo.KEEPS_FORM and not _is_kept(node, todo, shape, zone):
        return _lost(zone)
    if _is_drawing(to) and not _fits_drawing(to, after, zone, progress):
        return _lost(zone)
    targets, all_read = _targets(node, todo, after, zone, progress)
    free_told = _free_told(node.get("free"), after)
    for name, limits in _by_stations(node, after, progress.drawing.get(zone.zone)).items():
        if name != free_told:
            targets.setdefault(name, limits)
    free_told = free_told or _left_free(todo, after, targets)
    free = free_told or (todo.FREE if todo.FREE in after.dimensions else after.usual_free)
    aim = Aim(shape, targets, free_told, free)
    is_drawn = progress.drawing.get(zone.zone) is not None  # else its own line is at fault, and says so
    if all_read and zone.shape is not None and is_drawn:
        _ask_for_missing(to, todo, zone, zone.shape, aim)
    return aim


def _is_kept(node: Node, todo: Operation, shape: Shape | None, zone: ZoneSoFar) -> bool:
    """Whether a step that makes no other form asks for none, and the zone has the size that it settles."""
    before = zone.shape
    if before is None:
        return True
    if shape is not None and shape != before:
        said_at = next((one for name in _SHAPE_WORDS if (one := node.get(name))), node.get("to"))
        said_at.fault(f"{todo.NAME} makes no other form of {a(before.kind)}: leave the form out")
        return False
    if todo.FREE is not None and todo.FREE not in before.dimensions:
        node.get("do").fault(f"{a(before.kind)} has no {said(todo.FREE)} to {todo.NAME}: do it before")
        return False
    return True


def _lost(zone: ZoneSoFar) -> Aim:
    zone.shape = None  # it is not held against the steps that follow
    return Aim()


def refuse_aim(node: Node, todo: Operation) -> None:
    """Note it where an operation over a whole piece is given sizes."""
    for name in ("to", "free", "form", "stations", *sorted(option_names())):
        if told := node.get(name):
            told.stray(f"{todo.NAME} takes no form and no sizes: they are reckoned from the drawing")


def _is_drawing(to: Node) -> bool:
    return to.is_text and words.word(to.text()) == words.DRAWING


def _fits_drawing(to: Node, after: Shape, zone: ZoneSoFar, progress: Progress) -> bool:
    """Whether the finished sizes can be asked of the shape that the step leaves; if not, a finding."""
    drawn = progress.drawing.get(zone.zone)
    if drawn is not None and drawn.shape != after:
        if drawn.shape.kind == after.kind and after.options:
            chosen = listed([f"{said(name)} {one}" for name, one in after.options.items()])
            sizes = listed(map(said, after.dimensions))
            to.fault(
                f"{zone.zone} is {a(after.kind)} with {chosen} here and drawn as another: its finished sizes "
                f"do not fit this step. Write those that it is to have here, of {sizes}"
            )
        else:
            differs = a(after.kind) if drawn.shape.kind != after.kind else "otherwise"
            to.fault(
                f"{zone.zone} is {differs} here and drawn as {a(drawn.shape.kind)}: "
                f"its finished sizes do not fit this step"
            )
    return drawn is not None and drawn.shape == after


def _shape(node: Node, todo: Operation, zone: ZoneSoFar, progress: Progress) -> tuple[Shape | None, bool]:
    """The shape that the step leaves, None for the one there is, and whether it could be told."""
    drawn = progress.drawing.get(zone.zone)
    to_drawing = _is_drawing(node.get("to"))
    form = node.get("form")
    told_choices = any(node.get(name) for name in (*option_names(), "stations"))
    kind = form.word("form", kinds())
    if (form and kind is None) or (to_drawing and drawn is None):
        return None, False
    if to_drawing and drawn is not None and kind is None:
        if not told_choices:
            return (drawn.shape if todo.RESHAPES else None), True
        kind = drawn.shape.kind
    kind = kind or _drawn_kind(node, todo, drawn) or todo.FORM or _of_section(node, zone)
    if kind is None:
        if not told_choices or zone.shape is None:
            return None, zone.shape is not None
        kind = zone.shape.kind
    kept = zone.shape
    if drawn is not None and drawn.shape.kind == kind:
        # Asked for the drawing, its choices hold; and a profile is first made with the drawing's stations.
        fresh = kept is None or kept.kind != kind
        kept = drawn.shape if to_drawing or (fresh and drawn.shape.stations) else kept
    shape, _ = shape_told(node, kind, kept)
    is_kept = shape == zone.shape and todo.FORM is None and not told_choices
    return (None if is_kept else shape), shape is not None


def _drawn_kind(node: Node, todo: Operation, drawn: ZoneDrawing | None) -> str | None:
    """The drawing's form, where the sizes asked for are its own and not the operation's usual form's."""
    if todo.FORM is None or drawn is None or not node.get("to").is_names:
        return None
    usual, own = (set(kinds()[kind].DIMENSIONS) for kind in (todo.FORM, drawn.shape.kind))
    asked = {name for name, _ in node.get("to").items()} - todo.EXTRAS.keys()
    return drawn.shape.kind if asked <= own and not asked <= usual else None


def _of_section(node: Node, zone: ZoneSoFar) -> str | None:
    """The form that sizes across ask for, where the zone has none that holds both of them.

    A section of two sizes makes a flat of a bar or a taper; what has a width and a thickness otherwise keeps
    its form. A thickness asked of a bar that has none makes a flat of it too, and of a ring that has one not.
    """
    before = zone.shape
    if before is None or before.kind == FLAT:
        return None
    flat = set(kinds()[FLAT].DIMENSIONS)
    if node.get("section"):
        return FLAT if before.kind == TAPER or not flat <= set(before.dimensions) else None
    asked = {name for name, _ in node.get("to").items()} if node.get("to").is_names else set()
    across = asked & {"width", "thickness"}
    return (
        FLAT
        if across and asked & flat == across | (asked & {"length"}) and not across <= set(before.dimensions)
        else None
    )


def _targets(
    node: Node, todo: Operation, after: Shape, zone: ZoneSoFar, progress: Progress
) -> tuple[dict[str, Limits], bool]:
    """The sizes asked for, and whether all of them could be read."""
    to = node.get("to")
    if to.is_text:
        drawn = progress.drawing.get(zone.zone)
        if drawn is None:
            return {}, False
        besides, all_read = _sizes(node.get("besides"), todo, after)
        return {**drawn.limits, **besides}, all_read
    return _sizes(to, todo, after)


def _by_stations(node: Node, after: Shape, drawn: ZoneDrawing | None) -> dict[str, Limits]:
    """The sizes that the stations of a step say, with the drawing's limits where they are the drawing's."""
    if not node.get("stations") or not after.stations:
        return {}
    read = read_stations(node.get("stations"))
    found = {}
    for name, size_mm in (read[0] if read is not None else {}).items():
        own = drawn.limits.get(name) if drawn is not None and drawn.shape == after else None
        same = own is not None and abs(own.nominal - size_mm) <= _SAME_MM
        found[name] = own if own is not None and same else default_limits(name, size_mm)
    return found


def _sizes(to: Node, todo: Operation, after: Shape) -> tuple[dict[str, Limits], bool]:
    targets: dict[str, Limits] = {}
    all_read = True
    for told, size in to.items():
        name = own_size(told, after.dimensions)
        kind = Kind.LENGTH if name in after.dimensions else todo.EXTRAS.get(name)
        if kind is None:
            hint = words.hint(said(name), map(said, (*after.dimensions, *todo.EXTRAS)))
            size.stray(f"{a(after.kind)} has no {said(name)[:40]} to {todo.NAME}: {hint}")
            limits = None
        else:
            limits = size.in_unit(limits_reader(name, kind))
        if limits is None:
            all_read = False
        else:
            targets[name] = limits
    return targets, all_read


def _free_told(node: Node, after: Shape) -> str | None:
    if not node:
        return None
    name = words.key(node.text())
    if name in after.dimensions:
        return name
    known = [said(one) for one in after.dimensions]
    node.fault(f"{a(after.kind)} has no {words.echo(node.text())}: {words.hint(said(name), known)}")
    near = words.nearest(said(name), known)
    return words.key(near) if near else None


def _left_free(todo: Operation, after: Shape, targets: Collection[str]) -> str | None:
    """The form's free dimension, where what usually runs in an operation is asked for and that is not."""
    if todo.RUNS and todo.FREE in targets and after.usual_free not in targets:
        return after.usual_free
    return None


def _ask_for_missing(to: Node, todo: Operation, zone: ZoneSoFar, before: Shape, aim: Aim) -> None:
    """Note each size of a new shape that is neither asked for nor there to keep."""
    after = aim.shape or before
    have = {*before.dimensions, *aim.targets}
    for name in after.dimensions:
        leads = name not in kinds()[after.kind].FALLBACKS  # a size that goes with another needs no asking
        if leads and name != aim.free and have.isdisjoint(after.sources(name)):
            dimension = said(name)
            message = (
                f"{zone.zone} becomes {a(after.kind)} here, and nothing says its {dimension}: "
                "add it to the line"
            )
            to.get(name).missing(message)
    works_to_size = todo.RESHAPES and not todo.FIXES and todo.SCOPE is Scope.ZONE
    if works_to_size and after == before and not aim.targets:
        to.missing(f"{todo.NAME} needs a size to work to: add it to the line")
