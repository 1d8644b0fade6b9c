"""A recipe reckoned through: what every zone needs of its bar, step by step to its finished size."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from coach.forms import Form
from coach.ledger.nominal import Stage
from coach.ledger.working import bar_form, density_g_mm3
from coach.recipe.model import Recipe


class Mark(NamedTuple):
    """One mark along a bar, measured from its start."""

    at_mm: float
    ends: str  # the zone that ends here
    begins: str | None  # the zone that begins here; None at the end of the piece


class CutLength(NamedTuple):
    """The length at which a zone is to be cut, and how much of it will still be drawn."""

    step: int
    zone: str
    length_mm: float
    finished_mm: float  # the zone's finished length

    @property
    def short_by_mm(self) -> float:
        """How much shorter than its finished length the zone is cut."""
        return self.finished_mm - self.length_mm


class PiecePlan(NamedTuple):
    """What one piece needs of its bar."""

    piece: str
    length_mm: float  # of bar, all its zones together
    mass_g: float
    marks: tuple[Mark, ...]
    centres: Mapping[str, float]  # where to punch, from the start, by zone
    bar_mm: float | None  # the bar in hand when its length is given

    @property
    def left_over_mm(self) -> float | None:
        """Bar beyond what is needed; negative when it is missing; None when no bar is given."""
        return None if self.bar_mm is None else self.bar_mm - self.length_mm


class Plan(NamedTuple):
    """A recipe reckoned through, everything going as it says."""

    recipe: Recipe
    start_mm3: Mapping[str, float]  # volume marked out for each zone
    stages: Mapping[str, tuple[Stage, ...]]  # each zone's way
    by_step: Mapping[int, Mapping[str, Stage]]  # the same by step number, then zone
    wanted_mm3: Mapping[str, float]  # each zone's finished volume at nominal sizes
    least_mm3: Mapping[str, float]  # the same with the take-up dimensions at their low limits
    pieces: Mapping[str, PiecePlan]
    cuts: tuple[CutLength, ...]

    @property
    def finished_mass_g(self) -> float:
        """The mass of the tool's head at nominal sizes."""
        hosts = self.recipe.drawing.keys() - laid_zones(self.recipe).keys()
        return sum(
            self.wanted_mm3[zone] * density_of(self, zone) for zone in self.recipe.drawing if zone in hosts
        )

    def bar_of(self, zone: str) -> Form:
        """The length of bar marked out for a zone."""
        return bar_form(self.recipe, zone, self.start_mm3[zone])


def finished_form(recipe: Recipe, zone: str, *, least: bool = False) -> Form:
    """The drawing's solid at nominal sizes, or with the take-up dimensions at their low limits."""
    drawing = recipe.drawing[zone]
    sizes = {name: limits.nominal for name, limits in drawing.limits.items()}
    if least:
        for name in drawing.take_up:
            low = drawing.limits[name].low
            if low > 0.0:
                sizes[name] = low
    return drawing.shape.form(sizes)


def laid_zones(recipe: Recipe) -> dict[str, str]:
    """Each zone that is welded on another, with the zone it is welded on."""
    return {step.lays: step.zones[0] for step in recipe.steps if step.lays is not None}


def density_of(plan: Plan, zone: str) -> float:
    """The density of a zone with the steel laid on it, g/mm³.

    Each metal at its own density; losses from the weld on are shared by volume.
    """
    recipe = plan.recipe
    density = density_g_mm3(recipe.pieces[recipe.drawing[zone].piece].metal)
    for stage in plan.stages[zone]:
        if stage.step.lays is not None and stage.laid_mm3:
            steel = density_g_mm3(recipe.pieces[recipe.drawing[stage.step.lays].piece].metal)
            share = stage.laid_mm3 / (stage.before_mm3 + stage.laid_mm3)
            density += share * (steel - density)
    return density
