"""How far each zone has come while the steps of a recipe are read in order."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from coach.forms import listed
from coach.metals.grade import grade
from coach.operations import Does, Operation, Shape, names_of, operations
from coach.operations.does import HeatKind
from coach.recipe import words
from coach.recipe.findings import Findings, Path
from coach.recipe.model import Branch, Piece, ZoneDrawing
from coach.recipe.nodes import Node
from coach.recipe.shapes import a


@dataclass(slots=True)
class ZoneSoFar:
    """One zone after the steps read so far."""

    zone: str
    piece: str
    shape: Shape | None  # None where a fault leaves it open
    worked_in: int | None = None  # the first step that worked or heated it
    laid_in: int | None = None  # the step that welded it on another zone
    carries: str = ""  # what was welded on it
    split_from: str | None = None  # the zone whose metal it still is, before that is split
    split_in: int | None = None  # the step that split it into others

    @property
    def is_there(self) -> bool:
        """Whether it is a stretch of its own now."""
        return self.laid_in is None and self.split_from is None and self.split_in is None


class Unsafe(NamedTuple):
    """A step on a zone that may not be left until another is done."""

    zone: str
    step: int
    operation: str
    until: Does
    path: Path

    def __str__(self) -> str:
        until = listed(names_of(self.until), "or")
        return f"{self.operation} of {self.zone} in step {self.step} is not safe to leave before {until}"


class Settled(NamedTuple):
    """A step that has to do with what others leave unsafe: what it does, and what it reaches."""

    step: int
    operation: str
    does: frozenset[Does]
    zones: tuple[str, ...]


@dataclass(slots=True)
class Progress:
    """The job so far, and what every step needs to know of the recipe."""

    pieces: Mapping[str, Piece]
    drawing: Mapping[str, ZoneDrawing | None]
    zones: dict[str, ZoneSoFar] = field(default_factory=dict)
    unsafe: dict[str, Unsafe] = field(default_factory=dict)  # by zone
    joined: set[str] = field(default_factory=set)  # pieces that a weld has to do with
    fastened: bool = False  # whether some step holds pieces together without a weld
    settled: list[Settled] = field(default_factory=list)  # what makes anything safe to leave, in order
    fires: list[Settled] = field(default_factory=list)  # what is forged or welded, in order
    astray: bool = False  # some step could not be followed, so the end cannot be held against the drawing
    struck_hot: bool = False  # some step before struck hot metal

    def __post_init__(self) -> None:
        for piece in self.pieces.values():
            shape = piece.stock.shape if piece.stock.sizes_mm else None
            for zone in piece.every_zone:
                whole = piece.split_from(zone)
                self.zones[zone] = ZoneSoFar(
                    zone, piece.name, shape if whole is None else None, split_from=whole
                )

    def _zones_of(self, piece: str) -> list[str]:
        """The zones of a piece by their short names; none for what is no piece."""
        return [one.zone.removeprefix(f"{piece} ") for one in self.zones.values() if one.piece == piece]

    def zone(self, node: Node, name: str | None = None) -> ZoneSoFar | None:
        """The zone named here, or one that was meant; None, with a finding, when it has no form any more."""
        name = words.own_name(node.text() if name is None else name)
        if not name or not self.zones:
            self.astray = True
            return None
        found = self.zones.get(name)
        if found is None and not all(piece.every_zone for piece in self.pieces.values()):
            self.astray = True  # the name of a zone was refused, and with it what is said of that here
            return None
        if found is None:
            short = dict.fromkeys(one.zone.removeprefix(f"{one.piece} ") for one in self.zones.values())
            known = self.zones if words.nearest(name, self.zones) else short
            if zones := self._zones_of(name):
                whole = f"or all of {name} where no metal is moved"
                node.fault(f"{name} is a whole piece: write its {listed(zones, 'or')}, {whole}")
            else:
                node.fault(f"there is no zone {words.echo(name)}: {words.hint(name, known)}")
            found = self.zones.get(words.nearest(name, self.zones) or "")
            self.astray = self.astray or found is None
        elif found.laid_in is not None:
            node.fault(f"{name} was welded on in step {found.laid_in}: from then on name the zone it lies on")
            return None
        elif found.split_in is not None:
            into = [one.zone for one in self.branches_of(found)]
            node.fault(f"{name} was split in step {found.split_in}: from then on name {listed(into, 'or')}")
            return None
        elif found.split_from is not None:
            whole = found.split_from
            node.fault(
                f"{name} is part of {whole} until that is split: write split: {whole} before this step"
            )
            self.astray = True
            for one in self.branches_of(self.zones[found.split_from]):  # told once
                self.zones[one.zone].split_from = None
            return None
        return found

    def branches_of(self, zone: ZoneSoFar) -> tuple[Branch, ...]:
        """What a zone is split into, if it is."""
        return self.pieces[zone.piece].branches.get(zone.zone, ())

    def zones_of_piece(self, node: Node) -> list[ZoneSoFar]:
        """All zones of the piece named here."""
        name = words.own_name(node.text())
        if not self.pieces:
            return []
        if name and name not in self.pieces:
            node.fault(f"there is no piece {words.echo(name)}: {words.hint(name, self.pieces)}")
            name = words.nearest(name, self.pieces) or ""
        zones = self.pieces[name].every_zone if name else ()
        return [
            self.zones[zone]
            for zone in zones
            if self.zones[zone].split_from is None and self.zones[zone].split_in is None
        ]

    def rests(
        self, todo: Operation, step: int, zones: Iterable[str], reached: Iterable[str], path: Path
    ) -> None:
        """Note what a step makes safe to leave, and what it makes unsafe."""
        self._remember(todo, step, tuple(dict.fromkeys(reached)))
        for zone in set(reached) & set(self.unsafe):
            if self.unsafe[zone].until in todo.DOES:
                del self.unsafe[zone]
        if todo.UNSAFE_UNTIL is not None:
            for zone in zones:
                self.unsafe[zone] = Unsafe(zone, step, todo.NAME, todo.UNSAFE_UNTIL, path)

    def finish(self, findings: Findings) -> None:
        """Note what the steps leave undone."""
        if self.astray:
            return
        for left in self.unsafe.values():
            findings.add((*left.path, "do"), f"the job cannot end so: {left}{self._instead(left)}")
        for zone in self.zones.values():
            if zone.split_in is None and zone.split_from is None and (into := self.branches_of(zone)):
                names = listed([one.zone for one in into])
                findings.add(
                    ("drawing", zone.zone), f"no step splits {zone.zone} into {names}: add split: {zone.zone}"
                )
            elif zone.is_there:
                self.compare_with_drawing(zone, ("drawing", zone.zone), findings, "the steps leave")
        for name, piece in self.pieces.items():
            if self.joined and not self.fastened and name not in self.joined and piece.zones:
                message = f"no step welds {name} on: add a weld with {piece.zones[0]}"
                findings.add(("pieces", name), message)

    def _remember(self, todo: Operation, step: int, reached: tuple[str, ...]) -> None:
        if {Does.TEMPERS, Does.JOINS} & todo.DOES:
            self.settled.append(Settled(step, todo.NAME, todo.DOES, reached))
        if todo.HEATS and todo.HEAT_KIND in (HeatKind.FORGING, HeatKind.WELDING) and not todo.UNSAFE_UNTIL:
            self.fires.append(Settled(step, todo.NAME, todo.DOES, reached))

    def _instead(self, left: Unsafe) -> str:
        """What was likely meant: another order, another zone, or another metal."""
        if left.until is Does.TEMPERS and (soft := self._without_steel()):
            return f"; and {listed(soft)} does not harden: leave the {left.operation} out, or take a steel"
        fire = next((one for one in self.fires if one.step > left.step and left.zone in one.zones), None)
        if left.until is Does.TEMPERS and fire is not None:
            return (
                f"; and step {fire.step}, {fire.operation}, is a fire that undoes it: put {left.operation} "
                f"behind that, and its temper behind it"
            )
        does = [one for one in self.settled if left.until in one.does]
        early = next((one for one in does if one.step < left.step and left.zone in one.zones), None)
        if early is not None:
            return f", and step {early.step}, {early.operation}, comes before it: put that behind it"
        piece = self.zones[left.zone].piece
        other = next((one for one in does if one.step > left.step and piece in self._pieces_of(one)), None)
        if other is not None:
            return (
                f"; step {other.step}, {other.operation}, is of {listed(other.zones)}: "
                f"is {left.zone} meant there?"
            )
        return ""

    def _without_steel(self) -> list[str]:
        """The metals of a recipe in which nothing hardens; none where one of them does or may."""
        from coach.metals.hardening import LEAST_CARBON_SHARE  # a sound recipe does without it

        metals = list(dict.fromkeys(metal for piece in self.pieces.values() for metal in piece.shares))
        carbon = [grade(metal).carbon_share for metal in metals]
        return metals if all(one is not None and one < LEAST_CARBON_SHARE for one in carbon) else []

    def _pieces_of(self, one: Settled) -> set[str]:
        return {self.zones[zone].piece for zone in one.zones if zone in self.zones}

    def compare_with_drawing(self, zone: ZoneSoFar, path: Path, findings: Findings, leaves: str) -> None:
        """Note it when a zone is not the shape of its drawing."""
        drawn = self.drawing.get(zone.zone)
        if drawn is None or zone.shape is None or zone.shape == drawn.shape:
            return
        if zone.shape.kind != drawn.shape.kind:
            difference = f"as {a(zone.shape.kind)}, but it is drawn as {a(drawn.shape.kind)}"
        elif zone.shape.options != drawn.shape.options:
            is_now, is_drawn = (
                listed(_said(name, choice) for name, choice in shape.options.items())
                for shape in (zone.shape, drawn.shape)
            )
            difference = f"with {is_now}, but it is drawn with {is_drawn}"
        else:
            difference = "with other stations than it is drawn with"
        todo = f"work it to its drawing in the last step that shapes it{_as_in(zone.zone, drawn.shape.kind)}"
        if "hole" in zone.shape.options and "hole" not in drawn.shape.options:
            todo = "draw it with its hole, or give the hole a zone of its own"
        findings.add(path, f"{leaves} {zone.zone} {difference}: {todo}")


def _as_in(zone: str, kind: str) -> str:
    """The step that makes a form, where one operation alone makes it; empty where several do, or none."""
    makers = [todo.NAME for todo in operations().values() if kind == todo.FORM]
    makers = ["bend"] if kind.endswith("ring") else makers
    return f", as in {makers[0]}: {zone}, {kind}" if len(makers) == 1 else ""


def rows_besides(node: Node, whole: ZoneSoFar, parts: Sequence[ZoneSoFar]) -> list[Node]:
    """What lies in the fire besides a zone that a step splits; its branches are there when that is done."""
    rows = [row for row in node.rows() if words.own_name(row.text()) != whole.zone]
    for row in rows:
        if (name := words.own_name(row.text())) in [part.zone for part in parts]:
            row.fault(f"{name} is part of {whole.zone} until this step has split it: leave it out here")
    return rows


def of_branch(check: str, parts: Sequence[ZoneSoFar]) -> str:
    """How a check of a branch is written: `left.length`, also where it stands as `left length`."""
    for part in parts:
        if (rest := check.removeprefix(f"{part.zone} ")) != check:
            return f"{part.zone}.{rest[:30]}"
    return f"{parts[0].zone}.{check[:30]}"


def _said(name: str, choice: str) -> str:
    """A choice of a form in the words of the shop."""
    if name == "sides":
        return f"{choice} side{'s' if choice == 'both' else ''} worked"
    return f"{name}: {choice}"
