"""A recipe as the rest of the house knows it: plain frozen values, no file behind them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import chain
from typing import NamedTuple

from coach.fire.scale import FIRE_FACTOR, FIRE_FACTOR_DOUBT
from coach.operations import operation
from coach.operations.does import Does, HeatKind
from coach.operations.shape import NOTHING, Shape
from coach.quantities import Limits
from coach.quantities.units import System


def spoken_of(shape: Shape | None, limits: Mapping[str, Limits]) -> tuple[str, ...]:
    """The sizes worth showing: not those that only repeat another, as the far side of a straight hole."""
    if shape is None:
        return tuple(limits)
    return tuple(
        name
        for name, wanted in limits.items()
        if (leader := shape.follows(name)) is None or limits.get(leader) != wanted
    )


class Stock(NamedTuple):
    """The bar that a piece starts from."""

    shape: Shape  # a bar with a constant section
    sizes_mm: Mapping[str, float]  # the section, without the length
    length_mm: float | None = None  # the bar's own length when it is given
    doubt_share: float = 0.005  # standard uncertainty of the bar's section sizes, as a share


class Layer(NamedTuple):
    """One bar of a stack, as wide as the others."""

    metal: str
    thickness_mm: float


class Branch(NamedTuple):
    """One of the zones that a zone is split into."""

    zone: str
    share: float  # of the metal that is there to be split


class Piece(NamedTuple):
    """One lump of one alloy, or of layers of several that are welded together."""

    name: str
    metal: str  # a grade's name; of layers the one with the most carbon, which hardens
    stock: Stock
    zones: tuple[str, ...]  # in order along the bar from the end that marks are measured from; no branches
    layers: tuple[Layer, ...] = ()  # from below, where it starts from a stack
    source: str = ""  # the piece whose finished bar it is taken from
    beside: str = ""  # the first of the pieces that are taken from one bar, where it is not that itself
    branches: Mapping[str, tuple[Branch, ...]] = NOTHING  # what a zone is split into, by that zone
    given_up: bool = False  # whether it is not made any more: nothing of the drawing is asked of it

    @property
    def every_zone(self) -> tuple[str, ...]:
        """The zones along the bar, each with those that it is split into behind it."""
        return tuple(chain.from_iterable((zone, *self._below(zone)) for zone in self.zones))

    @property
    def finished_zones(self) -> tuple[str, ...]:
        """The zones that are left in the end, in order: those that a zone is split into in its place."""
        return tuple(chain.from_iterable(map(self.leaves_of, self.zones)))

    def split_from(self, zone: str) -> str | None:
        """The zone that this one is split from; None for one along the bar."""
        found = (whole for whole, into in self.branches.items() if any(one.zone == zone for one in into))
        return next(found, None)

    def leaves_of(self, zone: str) -> tuple[str, ...]:
        """What a zone is in the end: itself, or all that it is split into."""
        below = tuple(self._below(zone))
        return tuple(one for one in below if one not in self.branches) or (zone,)

    def root_of(self, zone: str) -> str:
        """The zone along the bar that this one is split from, or is."""
        while (whole := self.split_from(zone)) is not None:
            zone = whole
        return zone

    def _below(self, zone: str) -> Iterator[str]:
        for branch in self.branches.get(zone, ()):
            yield branch.zone
            yield from self._below(branch.zone)

    @property
    def row(self) -> str:
        """What all pieces of its bar have in common."""
        return self.beside or self.name

    @property
    def shares(self) -> Mapping[str, float]:
        """Every metal in it, with its share of the whole."""
        if not self.layers:
            return {self.metal: 1.0}
        thick_mm = sum(layer.thickness_mm for layer in self.layers)
        found: dict[str, float] = {}
        for layer in self.layers:
            found[layer.metal] = found.get(layer.metal, 0.0) + layer.thickness_mm / thick_mm
        return found


class ZoneDrawing(NamedTuple):
    """The finished sizes of a zone; for steel to be laid on, its sizes ready to weld."""

    zone: str
    piece: str
    shape: Shape
    limits: Mapping[str, Limits]  # every dimension of the shape, mm; of a zone to be split its length if said
    take_up: tuple[str, ...]  # where spare or missing metal is allowed to show, in order
    allowance_share: float = 0.0  # extra metal marked out for this zone, as a share of its volume
    remains_mm: float | None = None  # of steel to be laid on: how thick it is to be left where it works
    taken_back_mm: float = 0.0  # off its end after it was laid on, beyond what the steps take

    @property
    def sizes_mm(self) -> dict[str, float]:
        """What is aimed at of each size, mm."""
        return {name: limits.nominal for name, limits in self.limits.items()}


class Scale(NamedTuple):
    """What each heat takes off every bare face; None where the published law is left to say it."""

    forging_mm: float | None = None
    welding_mm: float | None = None
    treatment_mm: float | None = None
    fire_share: float = FIRE_FACTOR  # of what the same heat would take in free air
    doubt_share: float = FIRE_FACTOR_DOUBT / FIRE_FACTOR  # standard uncertainty, as a share of the loss


class Loss(NamedTuple):
    """Extra metal that a step is said to take, one of these."""

    share: float | None = None  # of the zone's volume
    mass_g: float | None = None
    length_mm: float | None = None  # of the zone as it was before the step


class Step(NamedTuple):
    """One operation on one zone, piece or join, with what to do and what to measure."""

    number: int  # from 1, as shown
    operation: str
    zones: tuple[str, ...]  # the zones it works on; one for most steps, all of a piece for a mark-out
    title: str
    lays: str | None = None  # the zone of another piece that a weld lays on
    holds: tuple[str, ...] = ()  # the pieces and zones that a rivet, a tenon or a collar holds, where it says
    tried_on: tuple[str, ...] = ()  # the zones and pieces that a part is fitted to, where it says
    parts: tuple[str, ...] = ()  # the zones that it splits its zone into, which there are from then on
    shape: Shape | None = None  # the shape it leaves; None keeps the shape
    targets: Mapping[str, Limits] = NOTHING  # by dimension; mm, degrees for angles
    free: str | None = None  # the dimension the volume settles; None takes the operation's own
    amounts: Mapping[str, float] = NOTHING  # slug_mm, kerf_mm, offcut_mm, squeeze_share
    loses: Loss = Loss()
    heats: int = 0
    heats_said: bool = True  # False where the recipe leaves them to be reckoned from the work
    heat_kind: HeatKind = HeatKind.FORGING
    heated: tuple[str, ...] = ()  # zones that scale in these heats
    together: tuple[str, ...] = ()  # of those, the ones that the same is done to as to the zone
    colour: str = ""
    temperature_c: float | None = None
    heat_names: tuple[str, ...] = ()  # what each heat is for, in order, where the recipe tells them apart
    quench: str = ""  # one of `coach.metals.quenches`
    flux: str = ""
    keep: tuple[str, ...] = ()  # what stays in its place, such as the drift in the eye
    how: str = ""
    watch: str = ""
    cautions: tuple[str, ...] = ()
    checks: tuple[str, ...] = ()  # "zone.dimension", in the order they are asked for
    gauge: str = "calliper"
    may_rest: bool = True
    again: bool = False  # whether a job put it in, to do once more what a test found wanting

    def does(self, what: Does) -> bool:
        """Whether its operation is one that does this."""
        return what in operation(self.operation).DOES

    @property
    def worked(self) -> frozenset[str]:
        """The zones that it works on, with what it lays on them."""
        return frozenset((*self.zones, *([self.lays] if self.lays else [])))

    @property
    def metal(self) -> frozenset[str]:
        """The zones that it works on and those that are hot meanwhile."""
        return self.worked | frozenset(self.heated)


class Recipe(NamedTuple):
    """From stock to finished tool: the drawing, the pieces and the steps in order."""

    title: str
    name: str  # short name made from the title or the file: letters, digits and hyphens
    summary: str
    pieces: Mapping[str, Piece]
    drawing: Mapping[str, ZoneDrawing]  # by zone
    steps: tuple[Step, ...]
    scale: Scale = Scale()
    tools: tuple[str, ...] = ()
    system: System = "mm"  # mm or in: the unit of bare numbers, and the first choice for showing
    mark_doubt_mm: float = 0.7  # standard uncertainty of one mark as it holds through the forging
    forge: str = ""
    duration: str = ""
    marks_in_row: bool = False  # whether pieces of one bar are marked from its one end, or each from its own
    enough_for: float | None = None  # the chance that every zone's allowance is to give it of enough metal
    text: str = ""  # the file as it was read
    source: str = ""  # the file's name, for messages

    @property
    def sources(self) -> frozenset[str]:
        """The pieces that others are taken from."""
        return frozenset(one.source for one in self.pieces.values() if one.source)

    @property
    def given_up(self) -> tuple[str, ...]:
        """The pieces that are made no more."""
        return tuple(name for name, piece in self.pieces.items() if piece.given_up)

    @property
    def finished(self) -> tuple[str, ...]:
        """The pieces that are left in the end: without what was laid on another or made its bar."""
        gone = {self.drawing[zone].piece for zone in self.welds} | self.sources
        return tuple(name for name in self.pieces if name not in gone)

    @property
    def welds(self) -> dict[str, Step]:
        """For each zone that is welded on another, the step that lays it there."""
        return {step.lays: step for step in self.steps if step.lays is not None}

    def zones_with(self, piece: str) -> frozenset[str]:
        """The zones of a piece that is left, with those that are welded on it."""
        own = frozenset(self.pieces[piece].every_zone)
        return own | {laid for laid, step in self.welds.items() if own & {*step.zones}}

    def piece_of(self, zone: str) -> Piece:
        """The piece that a zone is taken from."""
        return self.pieces[self.drawing[zone].piece]
