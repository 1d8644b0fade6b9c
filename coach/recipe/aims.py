"""What a step is to make of its zone: the shape it leaves, the sizes asked for and the one that follows."""

from __future__ import annotations

from dataclasses import dataclass, field

from coach.forms import kinds, said
from coach.operations import Operation, Shape
from coach.operations.does import Scope
from coach.quantities import Kind, Limits
from coach.recipe import words
from coach.recipe.nodes import Node
from coach.recipe.progress import Progress, ZoneSoFar
from coach.recipe.shapes import a, option_names, shape_told
from coach.recipe.sizes import limits_reader


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
    if todo.FORM is not None and not kinds()[todo.FORM].OPTIONS.keys() <= after.options.keys():
        # A punch makes a hole: the shape it leaves must have one.
        (node.get("form") or to).fault(f"{todo.NAME} leaves {a(todo.FORM)}, not {a(after.kind)}")
        return _lost(zone)
    if _is_drawing(to) and not _fits_drawing(to, after, zone, progress):
        return _lost(zone)
    targets, all_read = _targets(to, todo, after, zone, progress)
    free_told = _free_told(node.get("free"), after)
    free = free_told or (todo.FREE if todo.FREE in after.dimensions else after.usual_free)
    aim = Aim(shape, targets, free_told, free)
    if all_read and zone.shape is not None:
        _ask_for_missing(to, todo, zone, zone.shape, aim)
    return aim


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
    kind = kind or todo.FORM
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
    return shape, shape is not None


def _targets(
    to: Node, todo: Operation, after: Shape, zone: ZoneSoFar, progress: Progress
) -> tuple[dict[str, Limits], bool]:
    """The sizes asked for, and whether all of them could be read."""
    if to.is_text:
        drawn = progress.drawing.get(zone.zone)
        if drawn is not None and _is_drawing(to):
            return dict(drawn.limits), True
        to.fault("write sizes here, such as {width: 30}, or to: drawing for the finished ones")
        return {}, False
    targets: dict[str, Limits] = {}
    all_read = True
    for name, size in to.items():
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


def _ask_for_missing(to: Node, todo: Operation, zone: ZoneSoFar, before: Shape, aim: Aim) -> None:
    """Note each size of a new shape that is neither asked for nor there to keep."""
    after = aim.shape or before
    have = {*before.dimensions, *aim.targets}
    for name in after.dimensions:
        leads = name not in kinds()[after.kind].FALLBACKS  # a size that goes with another needs no asking
        if leads and name != aim.free and have.isdisjoint(after.sources(name)):
            dimension = said(name)
            message = (
                f"{zone.zone} becomes {a(after.kind)} here, and nothing says its {dimension}: add it under to"
            )
            to.get(name).missing(message)
    works_to_size = todo.RESHAPES and not todo.FIXES and todo.SCOPE is Scope.ZONE
    if works_to_size and after == before and not aim.targets:
        to.missing(f"{todo.NAME} needs a size to work to: add it under to")
