"""A section that was read twice with no heat between: the length beside it tells which of them is odd."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence, Set
from itertools import chain, combinations, groupby
from math import log
from typing import Final, Protocol

from coach.ledger.between import is_worked
from coach.ledger.course import Mark, Outcome, ReadingMark
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.read_again import ReadAgain, agree, read_again
from coach.ledger.reading import cold_reading
from coach.ledger.workpiece import Workpiece
from coach.operations.measures import MARK, MASS, SLUG
from coach.recipe.model import Step

#: A length speaks against one of two sections where it is so many times as likely beside the other; against
#: one that is beyond what the step works to, unless it is so many times as likely beside that (judgement).
_LIKELIER: Final = 4.0

#: What a step's readings are told as, with some entries set aside.
_Tried = Callable[[ReadAgain, frozenset[int]], Sequence[Outcome]]


class Taken(Protocol):
    """A step with its marks taken in."""

    outcomes: list[Outcome]
    impossible: dict[int, bool]


class Taking(Protocol):
    """Take a step's marks in, with the entries that are doubted, and those that show no work."""

    def __call__(self, again: ReadAgain, *, doubted: frozenset[int], ignored: frozenset[int] = ...) -> Taken:
        """The step as far as it went."""


def readings_of(
    plan: Plan, start: Workpiece, step: Step, marks: Sequence[Mark], take: Taking, doubted: frozenset[int]
) -> ReadAgain:
    """What a step's readings come to where one was read more than once; `doubted` are entries that do not."""
    again = read_again(plan, start, step, marks)
    if again.unsettled:
        known = take(again, doubted=doubted | again.outvoted.keys())
        again = read_again(plan, start, step, marks, known.impossible)

    def taken(some: ReadAgain, aside: frozenset[int]) -> Sequence[Outcome]:
        aside |= doubted | some.outvoted.keys()
        return take(some, doubted=aside, ignored=aside).outcomes

    return _beside_its_length(plan, step, again, taken)


def _beside_its_length(plan: Plan, step: Step, again: ReadAgain, taken: _Tried) -> ReadAgain:
    """What a step's readings come to, with each section that its length and another reading speak against.

    A length says by its metal how thick it is. Where a section was read as two sizes that do not agree, and
    the length goes with one of them alone, the other is outvoted, if no work explains it: one before the
    length that fits only what was read after that, one that went back, and one that went past what the step
    allows. That one is believed once it is read again or stood by, as a slip of the gauge is likelier than
    so many blows too many in one heat (judgement).
    """
    for zone, lengths, sections in list(_read_beside(plan, step, again.marks)):
        known = {one.entry for one in (*lengths, *chain.from_iterable(sections))}
        for readings in sections:
            found = _odd_one(plan.by_step[step.number][zone], again, lengths, readings, known, taken)
            if found is not None:
                again = again._replace(outvoted={**again.outvoted, found[0]: found[1]})
    return again


def _read_beside(
    plan: Plan, step: Step, marks: Sequence[Mark]
) -> Iterator[tuple[str, list[ReadingMark], list[list[ReadingMark]]]]:
    """Of each zone between two heats its lengths that agree, and each section that was read as two sizes."""
    for is_read, some in groupby(marks, key=lambda mark: isinstance(mark, ReadingMark)):
        readings = [mark for mark in some if isinstance(mark, ReadingMark)] if is_read else []
        for zone in dict.fromkeys(mark.reading.zone for mark in readings):
            stage = plan.by_step[step.number].get(zone)
            own = [mark for mark in readings if mark.reading.zone == zone and is_worked(step, mark.reading)]
            if stage is None or not stage.after.has_form:
                continue
            by_size: dict[str, list[ReadingMark]] = {}
            for mark in own:
                by_size.setdefault(mark.reading.dimension, []).append(mark)
            lengths = by_size.pop(stage.after.free, [])
            sections = [
                each
                for dimension, each in by_size.items()
                if dimension in stage.after.shape.dimensions
                and dimension not in (MARK, MASS, SLUG)
                and not all(agree(*pair) for pair in combinations(each, 2))
            ]
            if lengths and sections and all(agree(*pair) for pair in combinations(lengths, 2)):
                yield zone, lengths, sections


def _odd_one(
    stage: Stage,
    again: ReadAgain,
    lengths: Sequence[ReadingMark],
    readings: Sequence[ReadingMark],
    known: Set[int],
    taken: _Tried,
) -> tuple[int, int] | None:
    """The entry of the reading that is outvoted, and of one that speaks against it; None where none is."""
    counted = [one for one in readings if one.entry not in again.outvoted]
    if len(counted) != 2:  # the readings of a size that agree are one by now
        return None
    for odd, other in (counted, counted[::-1]):
        if odd.insisted or odd.entry in again.together or agree(odd, other):
            continue
        alone, fits = (taken(again, frozenset({one.entry})) for one in (other, odd))
        if _is_against(fits, known - {odd.entry}):
            continue
        better = _off(alone, lengths) ** 2 - _off(fits, lengths) ** 2
        likelier = (
            1.0 / _LIKELIER if _is_past(stage, odd, alone) and not _is_past(stage, other, fits) else _LIKELIER
        )
        is_against = _is_against(alone, known - {other.entry}) or better > 2.0 * log(likelier)
        if is_against and not _is_work(stage, odd, other, lengths, alone):
            return odd.entry, other.entry
        if better > 0.0 and _is_read_before(lengths, odd, other, again):
            return odd.entry, other.entry
    return None


def _is_read_before(
    lengths: Sequence[ReadingMark], odd: ReadingMark, other: ReadingMark, again: ReadAgain
) -> bool:
    """Whether a length was read before the later section, which stands for several that agree.

    Work between the two would have left it as it was with the first: where it goes better with the later,
    three readings say the same and one does not.
    """
    before = odd.entry < other.entry and any(one.entry < other.entry for one in lengths)
    return before and other.entry in again.together and not again.together[other.entry].scattered


def _off(outcomes: Sequence[Outcome], lengths: Sequence[ReadingMark]) -> float:
    """How far the lengths are from what their section makes them, in standard uncertainties."""
    entries = {one.entry for one in lengths}
    found = [one.surprise for one in outcomes if one.mark.entry in entries and one.surprise is not None]
    return max((abs(one.standardised) for one in found), default=0.0)


def _is_against(outcomes: Sequence[Outcome], entries: Collection[int]) -> bool:
    return any(one.questioned for one in outcomes if one.mark.entry in entries)


def _is_work(
    stage: Stage,
    odd: ReadingMark,
    other: ReadingMark,
    lengths: Sequence[ReadingMark],
    outcomes: Sequence[Outcome],
) -> bool:
    """Whether work between the two readings explains both, with the length as it goes with the `other`."""
    by_mm = cold_reading(other.reading).size_mm - cold_reading(odd.reading).size_mm
    grows = odd.reading.dimension in stage.grows
    if odd.entry < other.entry:
        return grows == (by_mm > 0.0) and all(one.entry > other.entry for one in lengths)
    return grows == (by_mm < 0.0) and not _is_past(stage, odd, outcomes)


def _is_past(stage: Stage, odd: ReadingMark, outcomes: Sequence[Outcome]) -> bool:
    """Whether a section was read beyond the far limit of what the step works it to."""
    grows = odd.reading.dimension in stage.grows
    judged = next((one.judged for one in outcomes if one.mark.entry == odd.entry), None)
    return judged is not None and judged.beyond_mm > 0.0 and judged.below != grows
