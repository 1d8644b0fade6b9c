"""A recipe reckoned through: what every zone needs of its bar, step by step to its finished size."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from coach.forms import Form, form_kind, listed
from coach.ledger.nominal import Stage
from coach.ledger.working import bar_form, piece_density_g_mm3, scaled_mm
from coach.operations.shape import NOTHING
from coach.quantities import Figure, grams, mm
from coach.recipe.model import Recipe

#: A head's mass is as its metals' density is known, with what its sizes leave open, as a share (judgement).
_MASS_DOUBT_SHARE = 0.02


class MarkOnBar(NamedTuple):
    """One mark, from the start of the bar."""

    at: Figure
    ends: str  # the zone that ends here
    begins: str | None  # the zone that begins here; None at the end of the piece
    cut_in: int | None  # the step that cuts the piece from its bar here; None where it is cut at once


class HoleCentre(NamedTuple):
    """Where a hole is punched, from the start of the bar."""

    zone: str
    at: Figure


class BarOfZone(NamedTuple):
    """The length of bar that a zone starts from."""

    zone: str
    length: Figure  # of bar
    volume: Figure
    extra: Figure | None = None  # of bar to mark out beyond this for a 95 % chance; None when it is enough


class Stock(NamedTuple):
    """The bar that a piece is taken from."""

    form: str  # flat, square, round…
    sizes: tuple[Figure, ...]  # of its section


class StackedBar(NamedTuple):
    """One layer of a stack: a bar as long as the stack."""

    metal: str
    sizes: tuple[Figure, ...]  # of its section


class PlannedPiece(NamedTuple):
    """One piece and what it needs of its bar."""

    piece: str
    metal: str
    stock: Stock
    length: Figure  # of bar
    mass: Figure
    zones: tuple[BarOfZone, ...]
    marks: tuple[MarkOnBar, ...]
    centres: tuple[HoleCentre, ...]
    bar: Figure | None  # the bar in hand when its length is given
    left_over: Figure | None  # of the bar in hand; negative when bar is missing
    stack: tuple[StackedBar, ...] = ()  # from below, where it starts from layers
    layers: int = 0  # of the stack, in the end
    source: str = ""  # the piece that its bar is made of
    in_row: bool = False  # whether its bar is that of other pieces too
    begins: Figure = mm(0.0)  # where it begins on the bar that its marks are measured along


class OneOfRow(NamedTuple):
    """Where one of the pieces that are taken from one bar ends on it."""

    piece: str
    ends: Figure  # from the start of the bar
    cut_in: int | None  # the step that cuts it off


class Row(NamedTuple):
    """Several pieces marked out one after the other on one bar."""

    pieces: tuple[OneOfRow, ...]
    length: Figure  # of bar, for all of them
    bar: Figure | None
    left_over: Figure | None
    is_handle: bool = False  # whether they are worked on its end, each before it is cut off

    @property
    def order(self) -> str:
        """Whether they are forged one after another on its end, or cut apart first; empty where none is."""
        first, second = self.pieces[:2]
        if self.is_handle:
            return (
                "One whole piece after another is forged on the end of this bar, which is their handle: "
                f"{first.piece} up to step {first.cut_in}, which cuts it off; then {second.piece} is its end"
            )
        names = listed([one.piece for one in self.pieces])
        return f"{names} are cut apart before they are forged" if first.cut_in is not None else ""


class PlannedCut(NamedTuple):
    """A length to cut at, and how much of it is still to be drawn."""

    step: int
    zone: str
    length: Figure
    finished: Figure  # the length that the zone will have
    short_by: Figure  # how much shorter than that it is cut


class Plan(NamedTuple):
    """A recipe reckoned through, everything going as it says."""

    recipe: Recipe  # with room for the scale of the heats to come in the sizes that it works to
    as_written: Recipe  # the same without
    start_mm3: Mapping[str, float]  # volume marked out for each zone
    stages: Mapping[str, tuple[Stage, ...]]  # each zone's way
    by_step: Mapping[int, Mapping[str, Stage]]  # the same by step number, then zone
    wanted_mm3: Mapping[str, float]  # each zone's finished volume at nominal sizes, as the scale leaves them
    least_mm3: Mapping[str, float]  # the same with the take-up dimensions at their low limits
    worn_mm3: Mapping[str, float]  # how much of it the scale takes off sizes that no step works after it
    pieces: Mapping[str, PlannedPiece]
    cuts: tuple[PlannedCut, ...]
    rows: tuple[Row, ...] = ()

    @property
    def finished_mass(self) -> Figure:
        """The mass of the finished piece without its haft, at nominal sizes as the scale leaves them."""
        hosts = (zone for piece in self.recipe.finished for zone in self.recipe.pieces[piece].finished_zones)
        mass_g = sum(self.wanted_mm3[zone] * density_of(self, zone) for zone in hosts)
        return grams(mass_g, _MASS_DOUBT_SHARE * mass_g)

    def bar_of(self, zone: str) -> Form:
        """The length of bar marked out for a zone; of one that is split from another what the cut makes."""
        if self.recipe.piece_of(zone).split_from(zone) is not None:
            return self.stages[zone][0].form_before
        return bar_form(self.recipe, zone, self.start_mm3[zone])


def finished_form(
    recipe: Recipe, zone: str, *, least: bool = False, beside_mm: Mapping[str, float] = NOTHING
) -> Form:
    """The drawing's solid at nominal sizes, or with the take-up dimensions at their low limits.

    Those that no metal is taken up in may lie beside it, by what is given; and so may what a ring is outside,
    which goes with its wall.
    """
    drawing = recipe.drawing[zone]
    sizes = drawing.sizes_mm
    form = form_kind(drawing.shape.kind)
    taken_up = set(drawing.take_up) - ({form.FREE} if form.WALL_FROM else set())
    for name in beside_mm.keys() & sizes.keys() - taken_up:
        sizes[name] = scaled_mm(sizes[name], beside_mm[name], 1.0)
    if least:
        for name in drawing.take_up:
            low = drawing.limits[name].low
            if low > 0.0:
                sizes[name] = low
    return drawing.shape.form(sizes)


def density_of(plan: Plan, zone: str) -> float:
    """The density of a zone with the steel laid on it, g/mm³.

    Each metal at its own density; losses from the weld on are shared by volume.
    """
    recipe = plan.recipe
    density = piece_density_g_mm3(recipe.piece_of(zone))
    for stage in plan.stages[zone]:
        if stage.step.lays is not None and stage.laid_mm3:
            share = stage.laid_mm3 / (stage.before_mm3 + stage.laid_mm3)
            density += share * (piece_density_g_mm3(recipe.piece_of(stage.step.lays)) - density)
    return density
