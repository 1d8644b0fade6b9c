"""What a step can leave of a size at all: a reading beyond it is no reading of it."""

from __future__ import annotations

from collections.abc import Mapping
from math import exp, hypot, isinf, log, pi, sqrt
from typing import NamedTuple

from coach.forms import FormError
from coach.ledger.branching import CUT_ACROSS, slit_of, source_of
from coach.ledger.hand import cut_scatter_mm
from coach.ledger.nominal import Stage
from coach.ledger.reading import (
    QUESTIONED_BEYOND,
    ColdReading,
    Reading,
    Surprise,
)
from coach.ledger.working import reshapes, targets_of
from coach.ledger.workpiece import Estimate, Workpiece, size_name, volume_slope
from coach.operations import Does, operation
from coach.quantities import COVERAGE, Limits
from coach.recipe.model import Step

#: No one stroke takes a size so far past the limits it is worked to, as a share of it (common practice, no
#: source).
_FAR_PAST_SHARE = 0.15
#: Nobody cuts to less than this share of what was to be left; a slip of the eye is likelier (judgement).
_CUT_TO_SHARE = 0.6
#: How much more a round is across than the side of the square that has its area (elementary geometry, from
#: memory).
_ROUND_OF_SQUARE = 2.0 / sqrt(pi)


class Bound(NamedTuple):
    """A size beyond which no reading can be true, if what was read before is."""

    size_mm: float
    doubt_mm: float  # standard uncertainty
    is_least: bool  # whether it is the least possible; else the most
    in_section: bool = False  # whether that is so as long as its section keeps what the step works to
    of_metal: bool = False  # whether it is of the size that the metal settles: there may be less of that


def bound_passed(
    start: Workpiece,
    now: Workpiece,
    stage: Stage | None,
    reading: Reading,
    cold: ColdReading,
    believed: Mapping[str, float],
) -> Bound | None:
    """The bound that a reading, `cold` on cold metal, lies beyond; None where it may be true.

    `start` is everything before the step and `now` as it is believed to be just before the reading; `stage`
    is the zone's way through the step, None where it has none; `believed` are the sizes that were read in it.
    """
    if stage is not None and stage.step.parts:
        return past_the_whole(start, stage.step, reading, cold, believed)
    before = bound_before(start, now, stage, reading, cold)
    if stage is None or before or not _works(stage):
        return before
    return _of_the_metal(now, stage, reading, cold, believed)


def bound_before(
    start: Workpiece, now: Workpiece, stage: Stage | None, reading: Reading, cold: ColdReading
) -> Bound | None:
    """The bound that a reading lies beyond by what its size was before the step; None where none is."""
    if stage is None or not _works(stage):
        return None
    return _before_the_step(start, now, stage, reading, cold)


def _works(stage: Stage) -> bool:
    return reshapes(stage.step, stage.zone) and not operation(stage.step.operation).FIXES


def past_the_whole(
    start: Workpiece, step: Step, reading: Reading, cold: ColdReading, read_mm: Mapping[str, float]
) -> Bound | None:
    """What is left for a branch across what it is split from, beside the others as they were read in it.

    A cut makes nothing wider: a branch has no more than the whole less what the others have.
    """
    zone, dimension = reading[:2]
    if zone not in step.parts or dimension not in CUT_ACROSS:
        return None
    whole = start.size(step.zones[0], source_of(start.zones[step.zones[0]].shape, dimension))
    names = [size_name(one, dimension) for one in step.parts if one != zone]
    others_mm = [read_mm[name] for name in names if name in read_mm]
    left_mm = whole.value - slit_of(step) - sum(others_mm)
    doubt_mm = hypot(whole.doubt, cold.doubt_mm * sqrt(len(others_mm)))  # they were read as this one was
    if cold.size_mm - left_mm <= QUESTIONED_BEYOND * hypot(doubt_mm, cold.doubt_mm):
        return None
    return Bound(max(0.0, left_mm), doubt_mm, is_least=False)


def _before_the_step(
    start: Workpiece, now: Workpiece, stage: Stage, reading: Reading, cold: ColdReading
) -> Bound | None:
    """What the size was before it was worked: hammered further that way it is never back beyond that.

    But the one that the metal settles is where the others push it: a drift drives the cheeks of an eye out
    that has not got any longer.
    """
    dimension = reading.dimension
    have = stage.form_before.sizes_mm()
    aim_mm = stage.form_after.sizes_mm().get(dimension)
    source = stage.after.shape.worked_from(dimension, aim_mm, have) if aim_mm is not None else None
    if aim_mm is None or source is None or dimension in stage.dressed or "hole" in dimension:
        return None
    asked = dimension in stage.step.targets or dimension == stage.after.free
    was = start.size(stage.zone, source)
    if not asked or aim_mm == have[source]:
        return None
    if dimension == stage.after.free and not _works_its_section(stage, have):
        return None  # it only follows what else is done, as a twist draws it in
    grows = aim_mm > have[source]
    if not grows and source.endswith("side") and dimension.endswith("diameter"):
        was = was._replace(value=was.value * _ROUND_OF_SQUARE)
    if "width" in dimension and not grows:
        return None  # it runs wide before it is dressed back
    if (of_metal := dimension == stage.after.free) and (made := _made_as_wanted(now, stage)):
        was = (min if grows else max)(was, made, key=lambda one: one.value)
    reach = QUESTIONED_BEYOND * hypot(was.doubt, cold.doubt_mm)
    beyond = was.value - cold.size_mm if grows else cold.size_mm - was.value
    return Bound(was.value, was.doubt, is_least=grows, of_metal=of_metal) if beyond > reach else None


def _made_as_wanted(now: Workpiece, stage: Stage) -> Estimate | None:
    """What its metal makes of a zone in its section as that is, or as far as the step works it.

    A section that is believed to have gone past that drives it no further: what it has too much of one way
    it may lack in what nobody has read.
    """
    zone, free, targets = stage.zone, stage.after.free, targets_of(stage.step, stage.zone)
    sizes, doubts_mm = {}, {}
    for name in stage.after.shape.dimensions:
        if name == free:
            continue
        leader = stage.after.leader(name)
        own, limits = size_name(zone, name), stage.step.targets.get(leader)
        sizes[name], doubts_mm[name] = now.belief.mean(own), now.belief.doubt(own)
        if limits is not None and leader in targets:
            led = now.belief.mean(size_name(zone, leader))
            sizes[name] += (min(led, limits.high) if leader in stage.grows else max(led, limits.low)) - led
            # Of one that nobody has read, as of one that a hand works to its limits.
            doubts_mm[name] = min(doubts_mm[name], (limits.high - limits.low) / (2.0 * COVERAGE))
    metal = now.volume(zone)
    try:
        form = stage.after.shape.draft({**sizes, free: 1.0}).solved(free, metal.value)
    except FormError:
        return None
    section = (doubt_mm * volume_slope(form, name) for name, doubt_mm in doubts_mm.items())
    return Estimate(form.size_mm(free), hypot(metal.doubt, *section) / volume_slope(form, free), {})


def _works_its_section(stage: Stage, have_mm: Mapping[str, float]) -> bool:
    targets, worked_from = stage.step.targets.items(), stage.after.shape.worked_from
    section = (name for name, limits in targets if worked_from(name, limits.nominal, have_mm) is not None)
    return any(not stage.leaves(name) for name in section if name != stage.after.free)


def _of_the_metal(
    now: Workpiece, stage: Stage, reading: Reading, cold: ColdReading, believed: Mapping[str, float]
) -> Bound | None:
    """What the zone's metal makes of the size that it settles, once its section is what the step works to.

    A section that was read counts as it was read: one that has gone past makes more of it. Of one that was
    not every size is at the limit that makes most of it.
    """
    free, zone = stage.after.free, stage.zone
    if reading.dimension != free or stage.leaves(free):
        return None
    belief, asked = now.belief, targets_of(stage.step, zone)
    grows = stage.changes_mm(free) > 0.0
    sizes, extreme, variance = {}, {}, 0.0
    for name in stage.after.shape.dimensions:
        if name == free:
            continue
        own, leader = size_name(zone, name), stage.after.leader(name)
        sizes[name] = extreme[name] = belief.mean(own)
        if leader in asked and size_name(zone, leader) not in believed:
            limits, led = stage.step.targets[leader], belief.mean(size_name(zone, leader))
            limit_mm = limits.low if grows else limits.high
            if isinf(limit_mm):
                return None
            sizes[name] += limits.nominal - led
            extreme[name] += limit_mm - led
        else:
            variance += (belief.doubt(own) * volume_slope(stage.form_after, name)) ** 2
    draft, metal = stage.after.shape.draft, now.volume(zone)
    try:
        form = draft({**sizes, free: 1.0}).solved(free, metal.value)
        most = draft({**extreme, free: 1.0}).solved(free, metal.value)
    except FormError:
        return None
    # Half the section makes twice the length: the doubt is a share of it, as often above as below.
    out_mm, sign = now.zones[zone].stands_out_mm if grows else 0.0, 1.0 if grows else -1.0
    made_mm = form.size_mm(free) + out_mm
    doubt_mm = hypot(variance**0.5, metal.doubt) / volume_slope(form, free)
    in_limits = log((most.size_mm(free) + out_mm) / made_mm)
    reach = hypot(in_limits, QUESTIONED_BEYOND * hypot(doubt_mm, cold.doubt_mm) / made_mm)
    if sign * log(cold.size_mm / made_mm) <= reach:
        return None
    most_mm = made_mm * exp(sign * hypot(in_limits, QUESTIONED_BEYOND * doubt_mm / made_mm))
    return Bound(most_mm, doubt_mm, is_least=not grows, in_section=True)


def is_far_past(stage: Stage, reading: Reading, cold: ColdReading) -> bool:
    """Whether a size is so far beyond the limits of the step that a slip of the eye is likelier."""
    limits = stage.step.targets.get(reading.dimension)
    if limits is None or not stage.is_past(reading.dimension, cold.size_mm, limits.nominal):
        return False
    beyond_mm = max(limits.low - cold.size_mm, cold.size_mm - limits.high)
    return beyond_mm > _FAR_PAST_SHARE * limits.nominal


def takes_off(stage: Stage, dimension: str) -> bool:
    """Whether the step brings a size to where it is by taking metal away: by its target, or by its cut."""
    step = stage.step
    if stage.zone not in step.zones or not operation(step.operation).FIXES:
        return False
    return dimension in step.targets or (step.does(Does.CUTS_FREE) and dimension == stage.after.free)


def is_cut_as_wanted(limits: Limits, size_mm: float) -> bool:
    """Whether a length is what a cut may leave: of what only has to be enough, about where it is aimed."""
    reach_mm = QUESTIONED_BEYOND * cut_scatter_mm(limits, size_mm)
    return limits.contains(size_mm) and (limits.is_two_sided or size_mm <= limits.nominal + reach_mm)


def is_cut_there(
    start: Workpiece, stage: Stage | None, reading: Reading, surprise: Surprise, limits: Limits | None
) -> bool:
    """Whether a cut may simply have gone where it was read: where it is wanted, short of that or beyond it.

    A piece lies on its bar, or is as long as it was drawn, until it is cut: it is cut where the smith cuts.
    """
    if stage is None or not stage.step.does(Does.CUTS_FREE) or not takes_off(stage, reading.dimension):
        return False
    size_mm = surprise.cold.size_mm
    if limits is not None and is_cut_as_wanted(limits, size_mm):
        return True
    there = start.size(stage.zone, reading.dimension)
    most_mm = there.value + QUESTIONED_BEYOND * hypot(there.doubt, surprise.cold.doubt_mm)
    return _CUT_TO_SHARE * surprise.expected.value <= size_mm < max(surprise.expected.value, most_mm)
