"""How a recipe's step becomes plain work on a zone, the same for the plan and for the job under way."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache
from math import sqrt
from typing import NamedTuple

from coach.fire.scale import CONTINUED_TO_C, fire_loss_mm
from coach.forms import Form, FormError, form_kind, listed
from coach.metals.grade import grade
from coach.operations import Operation, Shape, Work, Worked, operation
from coach.operations.does import HeatKind
from coach.operations.idle import Idle
from coach.quantities import Words, say
from coach.quantities.refusal import Refusal
from coach.recipe.model import Loss, Piece, Recipe, Scale, Step


class LedgerError(Refusal):
    """The metal account cannot go on; the message is one sentence in the shop's words."""

    BAD_NEWS = True

    step: int = 0  # the step that it shows at; 0 where it is the zone, or the recipe as a whole
    zone: str = ""

    def at(self, step: int = 0, zone: str = "") -> LedgerError:
        """The same, knowing where it shows."""
        self.step, self.zone = step, zone
        return self


def cannot(step: Step, why: Refusal) -> LedgerError:
    """The error that a step asks for what cannot be made."""
    return LedgerError("Step {}, {}: {}", step.number, step.title, why.words).at(step.number)


class _Heated(Idle):
    """A zone that lies in the fire while its neighbour is worked."""

    NAME = "heated"
    SUMMARY = "In the fire while another zone is worked."


_HEATED = _Heated()


class Runs(NamedTuple):
    """The sizes that nobody asks for and that run as a zone is spread."""

    sizes: tuple[tuple[str, str], ...]  # each with the size before that it runs from
    published: float  # spread coefficient by the published rule


class ZoneState(NamedTuple):
    """What a zone is at one moment, without its numbers."""

    zone: str
    piece: str
    shape: Shape
    free: str  # the dimension that follows from the volume
    parts: tuple[str, ...]  # the zones whose metal it holds: itself and what was laid on it
    bare_ends: tuple[bool, bool]
    linked: frozenset[str] = frozenset()  # sizes never said by themselves: they go with their leader
    within: str | None = None  # the zone that it was welded on, or is still to be split from
    parted: tuple[str, ...] = ()  # the zones that it was split into
    runs: Runs | None = None  # while the step that spreads it is in hand
    measured: bool = False  # whether its free dimension was read since a step last shaped it
    known: bool = False  # whether it ever was: how much of the bar it has is settled then
    marked: bool = False  # whether the mark where it ends was ever read
    stands_out_mm: float = 0.0  # how much longer steel that stands out of a cleft makes it, as it was laid
    hammered: bool = False  # whether its section was: a rolled one is as full as its sizes make it

    @property
    def has_form(self) -> bool:
        """Whether it is a solid of its own now: not part of another zone, and not split up."""
        return self.within is None and not self.parted

    @property
    def instead(self) -> str:
        """The zone to name instead, where it has no form of its own."""
        return (*self.parted, self.within or self.zone)[0]

    @property
    def where_it_is(self) -> Words:
        """What became of it, where it has no form of its own."""
        if self.parted:
            return say("The {} was split into {}", self.zone, listed(self.parted))
        if not self.parts:
            return say("The {} is part of the {} until that is split", self.zone, self.instead)
        return say("The {} is welded on the {}", self.zone, self.instead)

    def leader(self, dimension: str) -> str:
        """The size that this one goes with in the end; itself when it goes with none."""
        while dimension in self.linked and (leader := leader_of(self.shape, dimension)) is not None:
            dimension = leader
        return dimension


def leader_of(shape: Shape, dimension: str) -> str | None:
    """The size that this one goes with when nothing is said of it: a far mouth with the near one."""
    return shape.one_with(dimension) or shape.follows(dimension)


def operation_on(step: Step, zone: str) -> Operation:
    """What a step does to a zone: its own operation, or just the fire's scale for a neighbour."""
    return operation(step.operation) if zone in step.zones else _HEATED


def worked_by(step: Step, zone: str, form: Form, volume_mm3: float, work: Work) -> Worked:
    """What a step makes of a zone; raises LedgerError where it asks for what cannot be made."""
    try:
        return operation_on(step, zone).work(form, volume_mm3, work)
    except FormError as error:
        raise cannot(step, error) from None


def reshapes(step: Step, zone: str) -> bool:
    """Whether a step is meant to move the metal of a zone."""
    if step.parts:
        return False  # a cut along it leaves its section as it was, in branches
    return zone in step.zones and (operation(step.operation).RESHAPES or step.shape is not None)


def targets_of(step: Step, zone: str) -> Mapping[str, float]:
    """Nominal sizes of the form that a step asks of a zone, without angles and other extras."""
    if not reshapes(step, zone):
        return {}
    extras = operation(step.operation).EXTRAS
    return {name: limits.nominal for name, limits in step.targets.items() if name not in extras}


def state_after(step: Step, state: ZoneState) -> ZoneState:
    """The zone's shape, free dimension and parts once a step is done."""
    if not reshapes(step, state.zone):
        return state._replace(runs=None)
    todo = operation(step.operation)
    shape = step.shape or state.shape
    if step.shape is None and todo.FORM is not None and shape.kind != todo.FORM:
        shape = Shape(todo.FORM)
    dimensions = shape.dimensions
    if step.free is not None and not todo.FIXES:
        free = step.free
    elif todo.FREE is not None and todo.FREE in dimensions:
        free = todo.FREE
    elif todo.FIXES and state.free in dimensions:
        free = state.free
    else:
        free = shape.usual_free
    parts = (*state.parts, step.lays) if step.lays is not None else state.parts
    linked = frozenset(name for name in dimensions if _is_linked(step, state, shape, name, free))
    out_mm = state.stands_out_mm if shape.kind == state.shape.kind and not todo.FIXES else 0.0
    about = state.zone, state.piece, shape, free, parts, state.bare_ends, linked
    hammered = state.hammered or not todo.FIXES
    made = ZoneState(*about, known=state.known, stands_out_mm=out_mm, hammered=hammered)
    return made._replace(marked=state.marked)


def _is_linked(step: Step, before: ZoneState, shape: Shape, name: str, free: str) -> bool:
    """Whether a size goes with its leader: unsaid, said the same, or never able to differ from it."""
    leader = leader_of(shape, name)
    if leader is None or free in (name, leader):
        return False
    if shape.one_with(name) is not None:
        return True
    if name in step.targets:
        return step.targets[name] == step.targets.get(leader)
    return name not in before.shape.dimensions or name in before.linked


def fixed_free_mm(step: Step, after: ZoneState) -> float | None:
    """The free dimension where a step states it and reaches it by taking metal away."""
    if after.zone in step.zones and operation(step.operation).FIXES and after.free in step.targets:
        return step.targets[after.free].nominal
    return None


class Settled(NamedTuple):
    """Where one settled size of a shape comes from when a step is done."""

    dimension: str
    asked: bool  # True: the step asks for it; False: it is kept from what the zone has
    source: str  # the target's name, or the name of the size that is kept


def settled_by(step: Step, before: ZoneState, after: ZoneState) -> tuple[Settled, ...]:
    """Every settled size that a step leaves and where it comes from.

    A size that is not asked for is kept. One that the zone does not have yet takes the size that its shape
    falls back on: the far end of a taper is as wide as its start unless a width is asked for there.
    Raises LedgerError where a size is neither asked for nor there to keep.
    """
    asked = targets_of(step, before.zone)
    have = before.shape.dimensions
    found = []
    for dimension in after.shape.dimensions:
        if dimension == after.free:
            continue
        stands = dimension in asked or (dimension in have and dimension not in before.linked)
        sources = (dimension,) if stands else after.shape.sources(dimension)
        asked_source = next((name for name in sources if name in asked), None)
        source = asked_source or next((name for name in sources if name in have), None)
        if source is None:
            raise LedgerError(
                f"Step {step.number}, {step.title}: the {dimension.replace('_', ' ')} of {before.zone} is "
                f"not said and cannot be kept from a {before.shape.kind}; add it to the line."
            ).at(step.number, before.zone)
        found.append(Settled(dimension, asked_source is not None, source))
    return tuple(found)


def shed_by(step: Step, after: ZoneState, kept: Iterable[str]) -> dict[str, float]:
    """By how much the scale of a step's heats changes the sizes that it leaves, per mm off every face.

    The metal that a heat takes comes off all faces alike, so what lies between two of them gets thinner by
    both, and a length keeps what it has. A size that the step works to comes out where its work leaves it.
    """
    todo, form = operation_on(step, after.zone), form_kind(after.shape.kind)
    hot = after.zone in step.heated and step.heat_kind is not HeatKind.COLD
    if not hot or not todo.scales(form, step.amounts):
        return {}
    sheds = form.SHEDS
    return {name: sheds[name] for name in kept if name in sheds}


def back_from_end_mm(step: Step, after: ZoneState, have_mm: Mapping[str, float]) -> dict[str, float]:
    """By how much bigger the sizes of an end are once a step has taken a length off it: by similar triangles.

    None of those that the step brings to a size of their own, and none where it takes no length away.
    """
    off_mm, length_mm = step.loses.length_mm, have_mm.get("length")
    if not off_mm or not length_mm or after.free != "length" or not operation_on(step, after.zone).FIXES:
        return {}
    asked = targets_of(step, after.zone)
    pairs = ((name, name.removeprefix(_END)) for name in after.shape.dimensions if name.startswith(_END))
    return {
        name: (have_mm[start] - have_mm[name]) * off_mm / length_mm
        for name, start in pairs
        if name not in asked and name in have_mm and start in have_mm
    }


_END = "end_"

#: However long it lies in the fire, this share of a size is reckoned to be left of it (our choice).
_LEAST_LEFT_SHARE = 0.1


def scaled_mm(size_mm: float, shed: float, layer_mm: float) -> float:
    """What a size is once a layer has come off every face."""
    return max(size_mm + shed * layer_mm, _LEAST_LEFT_SHARE * size_mm)


def scaled_form(form: Form, sheds: Mapping[str, float], layer_mm: float) -> Form:
    """What a zone is once a layer has come off every face, by what each of its sizes loses of it."""
    have = form.sizes_mm()
    return form.with_sizes(
        {name: scaled_mm(have[name], sheds[name], layer_mm) for name in sheds if name in have}
    )


def layer_of(recipe: Recipe, step: Step, heats: float, factor: float = 1.0) -> float:
    """What so many heats of a step take off every bare face, mm, by the shop's own factor on the scale."""
    return heats * factor * face_loss_mm(recipe.scale, step.heat_kind, step.temperature_c)


#: Below this much carbon there is nothing to harden and nothing to lose that would be missed (common
#: practice, no source).
LEAST_CARBON_SHARE = 0.3


class UsualHeat(NamedTuple):
    """What a heat is taken to be where nothing is said of it (common practice, no source)."""

    temperature_c: float
    minutes: float  # in the fire, hot enough to scale


#: By the kind of heat; a heat to normalise, anneal or harden is below forging heat: °C, and minutes hot
#: enough to scale (common practice, no source).
USUAL_HEATS = {
    HeatKind.FORGING: UsualHeat(1100.0, 3.0),
    HeatKind.WELDING: UsualHeat(1300.0, 4.0),
    HeatKind.TREATMENT: UsualHeat(850.0, 5.0),
}


def face_loss_mm(
    scale: Scale, heat_kind: HeatKind, temperature_c: float | None = None, minutes: float | None = None
) -> float:
    """Scale off every bare face in one heat, before the shop's own factor, mm.

    What the recipe states, else the published parabolic law at the heat's temperature times the fire's share
    of it. A heat whose minutes were logged takes by the parabola what they say instead of the usual ones.

    None for the temperature, or for the minutes hot in the fire, takes the kind's usual ones.
    """
    usual = USUAL_HEATS.get(heat_kind)
    if usual is None:
        return 0.0
    stated = {
        HeatKind.FORGING: scale.forging_mm,
        HeatKind.WELDING: scale.welding_mm,
        HeatKind.TREATMENT: scale.treatment_mm,
    }[heat_kind]
    if stated is None:
        stated = _lawful_mm(temperature_c or usual.temperature_c, usual.minutes, scale.fire_share)
    return stated if minutes is None else stated * sqrt(minutes / usual.minutes)


@cache
def _lawful_mm(temperature_c: float, minutes: float, fire_share: float) -> float:
    hottest = min(temperature_c, CONTINUED_TO_C)
    return fire_loss_mm(max(hottest, 20.0), minutes, fire_share)


def density_g_mm3(metal: str) -> float:
    """Density of a grade by its name; raises NotKnown."""
    return grade(metal).density_kg_m3 * 1e-6


def piece_density_g_mm3(piece: Piece) -> float:
    """Density of a piece, of layers that of all of them together; raises NotKnown."""
    return sum(share * density_g_mm3(metal) for metal, share in piece.shares.items())


def work_of(
    recipe: Recipe,
    step: Step,
    after: ZoneState,
    sizes_mm: Mapping[str, float],
    *,
    heats: float,
    scale_factor: float = 1.0,
    minutes: float | None = None,
    free_mm: float | None = None,
) -> Work:
    """The plain work that a step asks of a zone, which it leaves in a state `after` with those sizes.

    `scale_factor` is the shop's own, on the scale of a heat; `minutes` are those hot in the fire, as logged,
    None for the usual ones; `free_mm` is the free dimension to reach, if any.
    """
    worked = after.zone in step.zones
    loses = step.loses if worked else Loss()
    density = piece_density_g_mm3(recipe.pieces[after.piece]) if loses.mass_g else 1.0
    loss_mm = face_loss_mm(recipe.scale, step.heat_kind, step.temperature_c, minutes)
    return Work(
        shape=after.shape,
        sizes_mm=sizes_mm,
        free=after.free,
        heats=heats if after.zone in step.heated else 0.0,
        face_loss_mm=loss_mm * scale_factor,
        bare_ends=after.bare_ends,
        amounts=step.amounts if worked else {},
        free_mm=free_mm,
        loss_share=loses.share or 0.0,
        loss_mm3=(loses.mass_g or 0.0) / density,
        loss_length_mm=loses.length_mm or 0.0,
        cuts=max(len(step.parts) - 1, 1),
    )


def zone_steps(recipe: Recipe, zone: str) -> tuple[Step, ...]:
    """The steps that work or heat a zone, up to the one that lays it on another or splits it."""
    found = []
    for step in recipe.steps:
        if step.lays == zone:
            break
        if zone in step.zones or zone in step.heated:
            found.append(step)
        if step.parts and zone in step.zones:
            break
    return tuple(found)


def starting_state(recipe: Recipe, zone: str) -> ZoneState:
    """A zone while it is still a length of its bar, or as it comes from the cut that makes it a zone."""
    piece = recipe.piece_of(zone)
    if (whole := piece.split_from(zone)) is not None:
        state = starting_state(recipe, whole)
        shape = None
        for step in zone_steps(recipe, whole):
            state = state_after(step, state)
            shape = operation(step.operation).branch(state.shape) if step.parts else None
        if shape is None:
            raise LedgerError("No step splits {} from {}.", zone, whole).at(zone=zone)
        about = zone, piece.name, shape, "length", (zone,), state.bare_ends
        return ZoneState(*about, hammered=state.hammered)
    at, last = piece.zones.index(zone), len(piece.zones) - 1
    # A zone ends away from its neighbour: of the first of several that is where the bar begins.
    ends = (last == 0, at in (0, last))
    return ZoneState(zone, piece.name, piece.stock.shape, "length", (zone,), ends)


def bar_form(recipe: Recipe, zone: str, volume_mm3: float) -> Form:
    """The length of bar that holds a zone's volume."""
    stock = recipe.piece_of(zone).stock
    return stock.shape.draft({**stock.sizes_mm, "length": 1.0}).solved("length", volume_mm3)
