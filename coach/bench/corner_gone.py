"""A corner that is gone where no hammer comes to any more: it is seen on the tool until it is ground."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from coach.bench.happened import moment_of
from coach.bench.job_state import JobState
from coach.log.kinds.metal_lost import MetalLost
from coach.operations import operation
from coach.quantities import NOTHING, Words, mm, run_on, say
from coach.recipe.model import Step

_TOLD = "a corner of it is gone"


def corners_gone(state: JobState) -> Iterator[tuple[int, str, str, int, str]]:
    """The losses of a corner that no step since has forged in or will forge in.

    Each with the number of its entry, what is told of it, its zone, the step then in hand, and when.
    """
    for entry in state.counted.values():
        body = entry.body
        if isinstance(body, MetalLost) and body.corner_end_mm is not None and not _is_forged_in(state, body):
            yield entry.number, _TOLD, body.zone, body.step, moment_of(entry)


def _is_forged_in(state: JobState, body: MetalLost) -> bool:
    return any(
        body.zone in step.zones and _forges(step)
        for step in state.plan.recipe.steps
        if step.number >= body.step > 0
    )


def _forges(step: Step) -> bool:
    """Whether a step moves the metal of its zone under the hammer."""
    work = operation(step.operation)
    return step.heats > 0 and work.RESHAPES and not work.FIXES


def worry_of_corner(state: JobState, listed: Mapping[int, Words]) -> Words:
    """The first such corner of what is listed, by its entries, with what takes it out.

    (common practice, no source)
    """
    number = next((one for one, *_ in corners_gone(state) if one in listed), 0)
    lost = state.counted[number].body if number else None
    if not isinstance(lost, MetalLost):
        return NOTHING
    cure = say(
        "Grind the end back by {}, or that side by {}, kept cool, and enter that as ground away; or draw it "
        "so and mark it as put right.",
        *(mm(lost.corner_side_mm or 0.0), mm(lost.corner_end_mm or 0.0)),
    )
    return run_on((listed[number], cure), ". ")
