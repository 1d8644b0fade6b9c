"""What a step's end leaves as it is: outside of the drawing, or never measured."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import takewhile

from coach.bench.checks import Check
from coach.bench.job_state import JobState
from coach.bench.settled import laid_on
from coach.ledger.course import AmendmentMark, HeatMark
from coach.ledger.finishing import finished_now
from coach.ledger.half_way import half_way
from coach.ledger.verdict import ON_PLAN_CHANCE, Verdict
from coach.ledger.workpiece import Workpiece
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities import COVERAGE, NOTHING, Figure, Limits, Words, say


def ends_outside(
    state: JobState, checks: Iterable[Check], sizes: Iterable[FinishedSize]
) -> tuple[dict[str, Words], dict[str, Words], tuple[str, ...]]:
    """Sizes with more to go that no step ahead works, and that are outside of the drawing as they were read.

    By their names, each as `shank length ends at 96 mm, 4 mm under the 100 mm the drawing allows, and no
    step ahead works it`; and apart from them those that count as inside all the same, by `sizes`, as they
    come out: what nobody measured of a section counts as worked, and the length with it. Last the names of
    those outside that are too near their limit to be sure of.
    """
    told, course = {size.name: size for size in sizes}, state.course()
    ended = None if course is None else finished_now(state.plan, course).now
    drawing, steps = state.plan.recipe.drawing, state.plan.recipe.steps
    ahead = [state.plan.by_step[step.number] for step in steps[len(state.records) + 1 :]]
    found, counted, seem = {}, {}, []
    for check in checks:
        limits = drawing[check.zone].limits.get(check.dimension) if check.zone in drawing else None
        if limits is None or check.reading is None or check.verdict is not Verdict.MORE_TO_GO:
            continue
        if any(check.zone in one and one[check.zone].works(check.dimension) for one in ahead):
            continue
        read = check.reading.cold
        off = max(limits.low - read.value, read.value - limits.high)
        if off <= 0.0:
            continue
        size = told.get(check.name)
        if (
            size is not None
            and size.take_up
            and ended is not None
            and _ends_inside(ended, check, read, limits)
        ):
            counted[check.name] = say(
                "{} was {} when it was read and counts as worked on, to {:~}: else read its section",
                *(check.label, read._replace(doubt=None), size.expected),
            )
            continue
        below = read.value < limits.low
        allowed = limits.low if below else limits.high
        if not (surely := off > COVERAGE * (read.doubt or 0.0)):
            seem.append(check.name)
        found[check.name] = say(
            "{} ends at {}, {}{:hair} {} the {} the drawing allows, and no step ahead works it",
            *(check.label, read._replace(doubt=None), "" if surely else "it seems ", Figure(off, check.kind)),
            *("under" if below else "over", Figure(allowed, check.kind)),
        )
    return found, counted, tuple(seem)


def _ends_inside(ended: Workpiece, check: Check, read: Figure, limits: Limits) -> bool:
    """Whether a size that was read outside of its limits counts as inside once its step is finished.

    It was worked on, then: what its gauge cannot tell from what was read still is that.
    """
    if not ended.zones[check.zone].has_form:
        return False
    size = ended.size(check.zone, check.dimension).value
    return limits.low <= size <= limits.high and abs(size - read.value) > (read.doubt or 0.0)


def ends_unworked(state: JobState) -> Words:
    """That a step ends with fewer heats than planned, and none since metal was lost of what nobody measured.

    What was lost goes by the heats that were marked, and what is left counts as worked to its size: both at
    once is seldom so.
    """
    course = state.course()
    if course is None or not 0.0 < course.heats < course.step.heats:
        return NOTHING
    since = takewhile(lambda mark: not isinstance(mark, HeatMark), reversed(course.marks))
    lost = [mark.amendment for mark in since if isinstance(mark, AmendmentMark) and mark.is_loss]
    zones = dict.fromkeys(zone for one in lost for zone, _ in one.changed_sizes(course.now))
    zone = next((zone for zone in zones if half_way(state.plan, course, zone) is not None), None)
    if zone is None:
        return NOTHING
    return say(
        "heats marked: {} of {}, none of them since metal of the {} was lost. What was not measured of it "
        "counts as worked to its size all the same: measure it, or go back to this step",
        *(round(course.heats), course.step.heats, zone),
    )


def ends_unread(
    state: JobState, sizes: Iterable[FinishedSize], checks: Iterable[Check]
) -> tuple[FinishedSize, ...]:
    """The sizes that nobody has measured, not surely inside, where the step's end makes them count.

    From the beginning of the last step on a size that no step ahead works counts in full. `checks` are those
    that the step asks for itself. What is the least sure comes first.
    """
    ahead = state.plan.recipe.steps[len(state.records) + 1 :]
    if len(ahead) > 1:
        return ()
    asked, laid = {check.name for check in checks}, laid_on(state)
    stages = [state.plan.by_step[step.number] for step in ahead]
    found = [
        size
        for size in sizes
        if not (size.measured or size.name in asked or size.zone in laid or size.chance >= ON_PLAN_CHANCE)
        and not any(size.zone in one and one[size.zone].works(size.dimension) for one in stages)
    ]
    return tuple(sorted(found, key=lambda size: size.chance))
