"""What was read of the branches of a split: together they are no wider than what they were cut from."""

from __future__ import annotations

from collections.abc import Mapping

from coach.ledger.branching import source_of
from coach.ledger.course import Course, Outcome
from coach.ledger.possible import past_the_whole
from coach.ledger.reading import cold_reading
from coach.ledger.workpiece import size_name
from coach.quantities import NOTHING, Words, mm, say


def beside_branches(course: Course) -> Course:
    """The step with each branch held against the others as they were read last, and what speaks against it.

    One that was too wide beside another is so no more once that one was read anew, and is less.
    """
    if not course.step.parts:
        return course
    read_mm = {
        size_name(*one.mark.reading[:2]): one.surprise.cold.size_mm
        for one in course.outcomes
        if one.counts and one.surprise is not None
    }
    return course._replace(outcomes=tuple(_beside(course, one, read_mm) for one in course.outcomes))


def _beside(course: Course, outcome: Outcome, read_mm: Mapping[str, float]) -> Outcome:
    """One that its step could not leave, against the others as they are."""
    if outcome.bound is None:
        return outcome
    reading = outcome.mark.reading
    bound = past_the_whole(course.start, course.step, reading, cold_reading(reading), read_mm)
    against = _too_wide(course, outcome, read_mm) if bound is not None and outcome.questioned else NOTHING
    return outcome._replace(bound=bound, against=against)


def _too_wide(course: Course, outcome: Outcome, read_mm: Mapping[str, float]) -> Words:
    reading, step, start = outcome.mark.reading, course.step, course.start
    whole = step.zones[0]
    wide = mm(start.size(whole, source_of(start.zones[whole].shape, reading.dimension)).value)
    alone = past_the_whole(start, step, reading, cold_reading(reading), {})
    if alone is not None:
        return say("the {} it is cut from is only {} wide", whole, wide)
    others = [one for one in step.parts if size_name(one, reading.dimension) in read_mm]
    others = [one for one in others if one != reading.zone]
    other_mm = sum(read_mm[size_name(one, reading.dimension)] for one in others)
    told = "with the {}'s {} that is more than the {} that the {} is wide"
    return say(told, " and ".join(others), mm(other_mm), wide, whole)
