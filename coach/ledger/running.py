"""Where the sizes that nobody asks for run to when a zone is spread, in plain numbers."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from math import inf
from typing import NamedTuple

from coach.fire.spreading import GREATEST_BITE_SHARE, LEAST_BITE_SHARE, spread_coefficient
from coach.forms import Form
from coach.ledger.working import Runs, Settled, ZoneState
from coach.operations import operation
from coach.operations.shape import CROSS_SIZES, Shape
from coach.recipe.model import Step

#: The coefficient is never reckoned outside this, however far the readings are off (judgement).
_LEAST, _MOST = 0.02, 0.98

_THICKNESSES = ("thickness", "end_thickness")
#: A width and the thickness at the same place.
_PAIRS = (("width", "thickness"), ("end_width", "end_thickness"))


def published_coefficient(step: Step, width_mm: float) -> float | None:
    """The coefficient for a step's bite by the published rule; None where it does not thin by bites.

    The bite is what the recipe says, else the operation's usual share of the width; beyond what is
    published the nearest published bite counts.
    """
    usual = operation(step.operation).BITE_SHARE
    if usual is None or width_mm <= 0.0:
        return None
    share = step.amounts["bite_mm"] / width_mm if "bite_mm" in step.amounts else usual
    share = min(max(share, LEAST_BITE_SHARE), GREATEST_BITE_SHARE)
    return spread_coefficient(share, 1.0)  # as a share, for a product may round beyond what is published


def thickness_names(shape: Shape) -> tuple[str, ...]:
    """The sizes of a shape that are its thickness; of a bar with one cross size, that."""
    found = tuple(name for name in _THICKNESSES if name in shape.dimensions)
    return found or tuple(name for name in CROSS_SIZES if name in shape.dimensions)


def mean_thickness_mm(shape: Shape, sizes_mm: Mapping[str, float]) -> float:
    """The mean of a shape's thicknesses, mm; 0 when it has none."""
    names = thickness_names(shape)
    return sum(sizes_mm[name] for name in names) / len(names) if names else 0.0


def undressed_mm(
    step: Step, shape: Shape, have_mm: Mapping[str, float], sizes_mm: Mapping[str, float], offset: float
) -> dict[str, float]:
    """How wide each end of a zone would run, mm, if its edges were let be while it is thinned to size.

    From the sizes before to those that it leaves, by the shop's own offset from the published coefficient.
    """
    found = {}
    for pair in pairs_of(step, shape, have_mm):
        thinning = have_mm[pair.from_thick] / sizes_mm.get(pair.thick, inf)
        if pair.wide in step.targets and thinning > 1.0:
            found[pair.wide] = have_mm[pair.from_wide] * thinning ** coefficient(pair.published, offset)
    return found


class Pair(NamedTuple):
    """A width and the thickness at the same place, with the sizes that each was before a step."""

    wide: str
    thick: str
    from_wide: str
    from_thick: str
    published: float  # spread coefficient


def pairs_of(step: Step, shape: Shape, have_mm: Mapping[str, float]) -> Iterator[Pair]:
    """Every width that a step, which leaves this shape, can spread as it thins."""
    for wide, thick in _PAIRS:
        from_wide = next((name for name in shape.sources(wide) if name in have_mm), None)
        from_thick = next((name for name in shape.sources(thick) if name in have_mm), None)
        if from_wide is not None and from_thick is not None:
            published = published_coefficient(step, have_mm[from_wide])
            if published is not None:
                yield Pair(wide, thick, from_wide, from_thick, published)


def runs_of(
    step: Step, before: ZoneState, after: ZoneState, form: Form, settled: Collection[Settled]
) -> Runs | None:
    """The sizes that nobody asks for and that run as a spreading step thins the zone; None when none does."""
    todo = operation(step.operation)
    if not todo.RUNS or before.zone not in step.zones:
        return None
    if not any(one.asked and one.dimension in thickness_names(after.shape) for one in settled):
        return None
    have = form.sizes_mm()
    kept = {one.dimension: one.source for one in settled if not one.asked}
    names = tuple(
        (name, kept[name])
        for name in ("length", "width", "end_width")
        if name in kept and name not in after.linked and kept[name] in have
    )
    width_mm = next((have[name] for name in ("width", *CROSS_SIZES) if name in have), 0.0)
    published = published_coefficient(step, width_mm)
    return Runs(names, published) if names and published is not None else None


def coefficient(published: float, offset: float) -> float:
    """The coefficient with what this shop's readings add to the published one."""
    return min(max(published + offset, _LEAST), _MOST)


def run_share(dimension: str, spread: float) -> float:
    """The power of the thinning by which a size grows: widths by s, the length by 1 - s."""
    return 1.0 - spread if dimension == "length" else spread


def run_sizes_mm(
    runs: Runs, offset: float, have_mm: Mapping[str, float], thick_mm: float, thin_mm: float
) -> dict[str, float]:
    """Where the sizes run to, mm, when the mean thickness goes from one figure to a lesser one.

    `offset` is that of the shop's own coefficient from the published one.
    """
    thinning = max(thick_mm / thin_mm, 1.0) if thin_mm > 0.0 else 1.0
    spread = coefficient(runs.published, offset)
    return {name: have_mm[source] * thinning ** run_share(name, spread) for name, source in runs.sizes}
