"""Upset: a section that has gone too small is driven back, for length."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from coach.fire.upsetting import FREE_LENGTHS
from coach.forms import label, said
from coach.ledger.amendment import Amendment, NewHeats, Regained
from coach.ledger.course import Course
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.verdict import SizeState, Verdict
from coach.operations.does import HeatKind
from coach.quantities import Limits, Wanted, Words, mm, run_on, say

#: What is thinner than this for its length folds wherever it is hottest (common practice, no source).
MOST_LENGTHS = 20.0
_HEATS = 2
#: Sizes that go with each other and differ by less than this share are one, as the sides of a square
#: (judgement).
_ALIKE_SHARE = 0.03
_SCATTER_SHARE = 0.02


class Upset(Remedy):
    """Works where the zone's length is free to give what the section gains."""

    NAME = "upset"
    SOUNDNESS = Soundness.WITH_CARE

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every outer size that is under its limits for good, or has gone past at this step."""
        course = situation.course
        if course is None or situation.is_hard:
            return
        under = (size for size in situation.stuck() if size.state is SizeState.UNDER)
        wanted = {(size.zone, size.dimension): size.wanted.limits for size in under}
        for outcome in course.outcomes:
            reading, judged = outcome.mark.reading, outcome.judged
            if judged is None or outcome.limits is None or outcome.questioned:
                continue
            if judged.verdict is Verdict.GONE_PAST and judged.below:
                wanted[(reading.zone, reading.dimension)] = outcome.limits
        for (zone, dimension), limits in wanted.items():
            if not situation.is_bent(zone):
                yield from _driven_up(course, zone, dimension, limits)


def _driven_up(course: Course, zone: str, dimension: str, limits: Limits) -> Iterator[Idea]:
    state = course.now.zones[zone]
    if not state.has_form or state.free != "length" or dimension not in state.shape.dimensions:
        return
    form = course.now.form(zone)
    sizes = form.sizes_mm()
    if any("hole" in name for name in sizes):
        return  # the hole closes before the wall thickens
    section = {name: size for name, size in sizes.items() if name != "length"}
    if dimension not in section or section[dimension] >= limits.nominal:
        return
    is_end = dimension.startswith("end_")
    there = [size for name, size in section.items() if name.startswith("end_") == is_end]
    now_mm, length_mm, thinnest_mm = section[dimension], sizes["length"], min(there)
    if length_mm > MOST_LENGTHS * thinnest_mm:
        return
    # A square stays one: what goes with the size is driven up with it.
    with_it = {
        name
        for name in section
        if state.leader(name) == state.leader(dimension)
        and abs(section[name] - now_mm) < _ALIKE_SHARE * now_mm
    }
    wanted = dict.fromkeys((dimension, *sorted(with_it - {dimension})), limits.nominal)
    after = form.with_sizes(wanted).solved("length", form.volume_mm3())
    shorter = length_mm - after.size_mm("length")
    doubt_mm = 2.0 * _SCATTER_SHARE * after.size_mm("length")  # as a square's section goes with its side
    cautions: list[Words | str] = []
    if length_mm > FREE_LENGTHS * thinnest_mm:
        cautions.append(
            say(
                "{} times as long as thick, and beyond {} it buckles, which no chance counts: "
                "heat only the part to drive up, cool the rest, straighten often",
                f"{length_mm / thinnest_mm:.1f}",
                FREE_LENGTHS,
            )
        )
    if len(state.parts) > 1:
        cautions.append("driving up a welded end can open the weld: look at the line after every heat")
    regained = tuple(Regained(zone, name, size, _SCATTER_SHARE * size) for name, size in wanted.items())
    # A cold step keeps its heats: those that the upsetting takes are told, not put into it.
    cold = course.step.heat_kind is HeatKind.COLD
    planned = course.step.heats if cold else max(course.step.heats, ceil(course.heats)) + _HEATS
    yield Idea(
        about=f"{zone}.{dimension}",
        title=say("Upset the {} back to {:aim} {}", zone, Wanted(limits), said(dimension)),
        changes=say(
            "From {}; the {} shortens by {}.", mm(now_mm), label(zone, "length"), mm(shorter, doubt_mm)
        ),
        amendment=Amendment(regained=regained, heats=(NewHeats(course.step.number, planned),)),
        heats=_HEATS,
        price_mm=shorter,
        caution=run_on(cautions, "; "),
    )
