"""What is believed of the metal that runs as a zone is thinned, and what a measured heat says of it."""

from __future__ import annotations

from math import hypot, log
from typing import NamedTuple

from coach.fire.spreading import MeasuredSpread, measured_coefficient
from coach.forms import Form
from coach.ledger.belief import Belief, Change
from coach.ledger.reading import ColdReading, Reading, cold_reading
from coach.ledger.running import (
    coefficient,
    pairs_of,
    run_share,
    run_sizes_mm,
    thickness_names,
)
from coach.ledger.verdict import Judged, Verdict
from coach.ledger.working import Runs, ZoneState
from coach.ledger.workpiece import SCALE, SPREAD, Workpiece, size_name
from coach.quantities import Figure, mm
from coach.recipe.model import Step

#: Below this share of thinning, or at a width that has not grown, a heat says nothing of the spread
#: (judgement).
LEAST_THINNING = 1.05
#: From heat to heat the bite and the dressing of the edges differ (common practice, no source).
HEAT_SCATTER = 0.05
#: Where metal runs to differs by this share from what any one coefficient says (common practice, no source).
_RUN_SCATTER_SHARE = 0.01


class MeasuredHeat(NamedTuple):
    """How far a zone ran in a heat that was measured half way."""

    zone: str
    width_before: Figure
    width: Figure
    thickness_before: Figure
    thickness: Figure


class Taught(NamedTuple):
    """How far one reading moved what is believed of the shop."""

    scale: float = 0.0  # the scale factor
    spread: float = 0.0  # the spread coefficient
    heat: MeasuredHeat | None = None  # the one that it measured, where it completed one


UNTAUGHT = Taught()


def before_name(zone: str, dimension: str) -> str:
    """The belief's name for a size as it was before the zone was spread; until the zone's next step."""
    return f"{zone} {dimension} before spreading"


def with_before(workpiece: Workpiece, zone: str, runs: Runs, form: Form) -> Workpiece:
    """The workpiece that still knows, while the spreading goes on, what the zone was before it."""
    before = {name: workpiece.size(zone, source, form) for name, source in runs.sizes}
    names = thickness_names(workpiece.zones[zone].shape)
    thicknesses = (workpiece.size(zone, name, form) for name in names)
    before["thickness"] = workpiece.summed(thicknesses, 1.0 / len(names))
    changes = {before_name(zone, name): Change(one.value, one.slopes) for name, one in before.items()}
    return workpiece._replace(belief=workpiece.belief.predict(changes))


def names_before(workpiece: Workpiece, zone: str) -> list[str]:
    """What the belief still holds of a zone from before it was spread."""
    runs = workpiece.zones[zone].runs
    if runs is None:
        return []
    return [before_name(zone, name) for name in (*(name for name, _ in runs.sizes), "thickness")]


def ran(belief: Belief, state: ZoneState) -> Belief:
    """The sizes that run brought to where the thickness, as it is now believed, takes them."""
    runs = state.runs
    if runs is None:
        return belief
    zone = state.zone
    thicknesses = [size_name(zone, name) for name in thickness_names(state.shape)]
    thin = sum(belief.mean(name) for name in thicknesses) / len(thicknesses)
    thick = belief.mean(before_name(zone, "thickness"))
    offset = belief.mean(SPREAD)
    have = {source: belief.mean(before_name(zone, name)) for name, source in runs.sizes}
    sizes = run_sizes_mm(runs, offset, have, thick, thin)
    spread = coefficient(runs.published, offset)
    runs_on = thick > thin
    bends = runs_on and spread == runs.published + offset
    changes = {}
    for name, source in runs.sizes:
        size = sizes[name]
        slopes = {before_name(zone, name): size / have[source]}
        if runs_on:
            share = run_share(name, spread)
            slopes[before_name(zone, "thickness")] = size * share / thick
            slopes |= dict.fromkeys(thicknesses, -size * share / thin / len(thicknesses))
        if bends:
            slopes[SPREAD] = size * log(thick / thin) * (-1.0 if name == "length" else 1.0)
        changes[size_name(zone, name)] = Change(size, slopes, (_RUN_SCATTER_SHARE * size) ** 2)
    return belief.predict(changes)


class Learner:
    """Follows the readings of one step; the first heat in which a zone's spread is measured is its lesson."""

    def __init__(self, start: Workpiece, step: Step) -> None:
        self._start = start
        self._step = step
        self._read: dict[str, dict[str, ColdReading]] = {}  # of this heat, by zone and dimension
        self._at_size: set[tuple[str, str]] = set()
        self._taught: set[str] = set()

    def heat(self) -> None:
        """After a heat nothing is where it was read."""
        self._read.clear()
        self._at_size.clear()

    def read(
        self, before: Workpiece, now: Workpiece, reading: Reading, judged: Judged | None
    ) -> tuple[Workpiece, Taught]:
        """Take in what a believed reading says of the spread: `before` it was taken in, and `now` with it."""
        heat = None
        if (lesson := self._lesson(now, reading, judged)) is not None:
            heat, own, published = lesson
            self._taught.add(reading.zone)
            surprise = own.value - published - now.belief.mean(SPREAD)
            belief = now.belief.update({SPREAD: 1.0}, surprise, hypot(own.doubt, HEAT_SCATTER) ** 2)
            now = now._replace(belief=belief)
        scale, spread = (now.belief.mean(name) - before.belief.mean(name) for name in (SCALE, SPREAD))
        return now, Taught(scale, spread, heat)

    def _lesson(
        self, now: Workpiece, reading: Reading, judged: Judged | None
    ) -> tuple[MeasuredHeat, MeasuredSpread, float] | None:
        """What the readings of this heat say of the coefficient, and what is published.

        None unless a width and its thickness are among them.

        Only a heat on its way: once the thickness is where the step wants it, an edge whose width is asked
        for has been dressed back.
        """
        zone, dimension = reading.zone, reading.dimension
        if zone not in self._step.zones:
            return None
        state = now.zones[zone]
        if not state.has_form or dimension not in state.shape.dimensions:
            return None
        self._read.setdefault(zone, {})[dimension] = cold_reading(reading)
        self._at_size.discard((zone, dimension))
        if judged is not None and judged.verdict in (Verdict.GOOD, Verdict.UNSURE):
            self._at_size.add((zone, dimension))
        if zone in self._taught or state.runs is not None:
            return None
        read, have = self._read[zone], self._start.form(zone).sizes_mm()
        for wide, thick, from_wide, from_thick, published in pairs_of(self._step, state.shape, have):
            if wide not in read or thick not in read:
                continue
            widths = (have[from_wide], read[wide].size_mm)
            thicknesses = (have[from_thick], read[thick].size_mm)
            dressed = (zone, thick) in self._at_size and wide in self._step.targets
            thinned = thicknesses[0] >= LEAST_THINNING * thicknesses[1]
            if dressed or not thinned or widths[1] <= widths[0]:
                continue
            wide_doubts = self._start.size(zone, from_wide).doubt, read[wide].doubt_mm
            thick_doubts = self._start.size(zone, from_thick).doubt, read[thick].doubt_mm
            own = measured_coefficient(*widths, *thicknesses, doubts_mm=(*wide_doubts, *thick_doubts))
            return MeasuredHeat(zone, *map(mm, (*widths, *thicknesses))), own, published
        return None
