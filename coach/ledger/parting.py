"""A zone that is split while the job is under way: what is believed of it goes to its branches."""

from __future__ import annotations

from collections.abc import Mapping

from coach.ledger.belief import Change
from coach.ledger.branching import CUT_ACROSS, cut_doubt_mm, slit_of, source_of
from coach.ledger.working import starting_state
from coach.ledger.workpiece import Estimate, Workpiece, size_name, volume_name
from coach.recipe.model import Recipe, Step


def _cut_name(number: int) -> str:
    return f"cut {number} of a split"


def parted(recipe: Recipe, workpiece: Workpiece, step: Step) -> Workpiece:
    """A zone in its branches: each has its share; what a crooked cut gives one, its neighbour lacks."""
    zone, slit_mm = step.zones[0], slit_of(step)
    whole, branches = workpiece.zones[zone], recipe.piece_of(zone).branches[zone]
    form, volume = workpiece.form(zone), workpiece.volume(zone)
    sizes = {name: workpiece.size(zone, name, form) for name in whole.shape.dimensions}
    wide_mm = sizes[source_of(whole.shape, "width")].value
    area_mm2 = volume.value / wide_mm  # of one cut, along the bar
    doubt_mm = cut_doubt_mm(wide_mm)
    cuts = {_cut_name(at): Change(0.0, variance=doubt_mm**2) for at in range(1, len(branches))}
    belief = workpiece.belief.predict(cuts)
    changes: dict[str, Change] = {}
    zones = dict(workpiece.zones)
    for at, branch in enumerate(branches):
        beside = {_cut_name(at + 1): 1.0, _cut_name(at): -1.0}
        beside = {name: by for name, by in beside.items() if name in cuts}
        state = starting_state(recipe, branch.zone)
        zones[branch.zone] = state._replace(known=whole.known, marked=whole.marked)
        metal = {name: branch.share * slope for name, slope in volume.slopes.items()}
        changes[volume_name(branch.zone)] = Change(
            branch.share * volume.value, {**metal, **{name: by * area_mm2 for name, by in beside.items()}}
        )
        for name in state.shape.dimensions:
            if name != state.free:
                size = sizes[source_of(whole.shape, name)]
                across = name in CUT_ACROSS
                changes[size_name(branch.zone, name)] = (
                    _cut(size, branch.share, slit_mm, beside) if across else (Change(size.value, size.slopes))
                )
    gone = [volume_name(part) for part in whole.parts]
    gone += [size_name(zone, name) for name in whole.shape.dimensions if name != whole.free]
    zones[zone] = whole._replace(parted=tuple(one.zone for one in branches), parts=(), runs=None)
    belief = belief.predict(changes, dropped=[*gone, *cuts])
    return workpiece._replace(zones=zones, belief=belief)


def _cut(size: Estimate, share: float, slit_mm: float, beside: Mapping[str, float]) -> Change:
    slopes = {name: share * slope for name, slope in size.slopes.items()}
    return Change(share * (size.value - slit_mm), {**slopes, **beside})
