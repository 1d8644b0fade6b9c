"""The drawing as it is now expected to come out, and the metal to spare above the least it allows."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import NamedTuple

from coach.forms import label
from coach.ledger.forecast import Forecast
from coach.ledger.verdict import SizeState, conformance
from coach.ledger.zone_forecast import ZoneForecast
from coach.quantities import Figure, Wanted, Words, mm, say
from coach.recipe.model import Recipe, ZoneDrawing, spoken_of


class DrawnSize(NamedTuple):
    """One size of the drawing."""

    name: str  # `blade.length`
    zone: str
    dimension: str
    wanted: Wanted  # by the drawing
    expected: Figure  # what it is now expected to be
    state: SizeState  # by the expected size alone
    take_up: bool  # whether spare or missing metal is allowed to show in it
    measured: bool  # whether it was read, and believed, since it was last worked

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)

    @property
    def chance(self) -> float:
        """That it is within its limits."""
        return conformance(self.expected.value, self.expected.doubt or 0.0, self.wanted.limits)

    @property
    def words(self) -> Words:
        """How it lies to its limits, where no step ahead works it any more."""
        limits, size = self.wanted.limits, self.expected.value
        nearer = limits.low if size - limits.low < limits.high - size else limits.high
        bound, off = mm(nearer), self.expected._replace(value=abs(size - nearer))
        is_ = "is" if self.measured else "is not measured; it is reckoned at"
        off_by = say("{} {} the", off, self.state)
        where, sure = ("too near the", " to be sure of") if self.state is SizeState.GOOD else (off_by, "")
        return say(
            "{} {} {:±}, {} {} the drawing allows{}", self.label, is_, self.expected, where, bound, sure
        )


class MetalToSpare(NamedTuple):
    """Metal above the least that the drawing allows, told in a dimension where it may show."""

    zone: str
    dimension: str
    spare: Figure  # how much; negative when metal is missing
    chance: float  # that the zone makes the drawing

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)


def drawn_sizes(
    recipe: Recipe, found: Forecast, measured: Collection[tuple[str, str]] = ()
) -> tuple[DrawnSize, ...]:
    """Every size of the drawing, in its order; `measured` are those that were, by zone and dimension."""
    return tuple(
        DrawnSize(
            name=f"{zone}.{size.dimension}",
            zone=zone,
            dimension=size.dimension,
            wanted=Wanted(size.limits),
            expected=mm(size.expected_mm, size.doubt_mm),
            state=size.state,
            take_up=size.dimension in drawn.take_up,
            measured=(zone, size.dimension) in measured,
        )
        for zone, drawn, forecast in _forecasts(recipe, found)
        for size in forecast.sizes
        if size.dimension in spoken_of(drawn.shape, drawn.limits)
    )


def metal_to_spare(recipe: Recipe, found: Forecast) -> tuple[MetalToSpare, ...]:
    """Spare or shortage in every take-up dimension, in the drawing's order."""
    return tuple(
        MetalToSpare(zone, spare.dimension, mm(spare.spare_mm, spare.doubt_mm), forecast.chance)
        for zone, _, forecast in _forecasts(recipe, found)
        for spare in forecast.spares
    )


def _forecasts(recipe: Recipe, found: Forecast) -> Iterator[tuple[str, ZoneDrawing, ZoneForecast]]:
    for zone, drawn in recipe.drawing.items():
        if zone in found.zones:
            yield zone, drawn, found.zones[zone]
