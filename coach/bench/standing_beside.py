"""What was read of a size before its latest reading: what still stands, and what told no more."""

from __future__ import annotations

from itertools import takewhile
from typing import Final, NamedTuple

from coach.ledger.course import Course, HeatMark, Outcome, ReadingMark
from coach.ledger.reading import cold_reading
from coach.ledger.verdict import Verdict
from coach.operations import Does, operation
from coach.quantities.figure import Figure, Kind

#: A mean no further off the latest reading than this is not told apart from it, mm (our choice).
_NO_OTHER_MM: Final = 0.05

_TOO_FAR: Final = (Verdict.GONE_PAST, Verdict.PAST_STEP, Verdict.OUT)
_TEMPERATURE: Final = "temperature"


class MeanRead(NamedTuple):
    """What readings of one size that agree come to together."""

    size: Figure  # their mean, cold
    of: int  # how many they are


def mean_read(outcome: Outcome) -> MeanRead | None:
    """The mean of a reading and those that agree with it, with nothing done between; None of one.

    None too where the latest reading says the same, and where its gauge cannot settle the size.
    """
    whole = outcome.together
    if whole is None or whole.scattered or not outcome.counts or outcome.surprise is None:
        return None
    if outcome.judged is None or outcome.judged.too_coarse:
        return None
    own = cold_reading(outcome.mark.reading)
    if abs(whole.mean_mm - own.size_mm) < _NO_OTHER_MM:
        return None
    return MeanRead(Figure(whole.mean_mm, Kind.LENGTH, outcome.surprise.cold.doubt_mm), len(whole.of))


def outvoted_by(outcome: Outcome, course: Course) -> tuple[Figure, ...]:
    """The readings of the same size, cold, that it and those that agree with it outvote."""
    if not outcome.counts:
        return ()
    places = {mark.entry: at for at, mark in enumerate(course.marks)}
    size, own = outcome.mark.reading[:2], places[outcome.mark.entry]
    found = []
    for one in course.outcomes:
        at = places[one.mark.entry]
        between = course.marks[min(at, own) : max(at, own)]
        if one.outvoted and one.mark.reading[:2] == size and all(isinstance(m, ReadingMark) for m in between):
            found.append((at, Figure(cold_reading(one.mark.reading).size_mm, Kind.LENGTH)))
    return tuple(figure for _, figure in sorted(found, key=lambda one: one[0]))


def scattered_over(outcome: Outcome) -> tuple[Figure, ...]:
    """The readings of a size, cold, of which no two agree, the least first; none where some do."""
    if outcome.together is None or not outcome.together.scattered or not outcome.counts:
        return ()
    sizes = sorted(cold_reading(one.reading).size_mm for one in outcome.together.of)
    return tuple(Figure(size_mm, Kind.LENGTH) for size_mm in sizes)


def stood_before(outcome: Outcome, course: Course) -> Outcome | None:
    """The reading of the same size or test that counts while a later one is questioned; None without one.

    So does a heat of hardening or tempering that was surely out, behind which comes one in doubt.
    """
    if outcome.old:
        return None
    size = outcome.mark.reading[:2]
    earlier = [one for one in course.outcomes if one.mark.reading[:2] == size and one.counts]
    if outcome.questioned:
        return earlier[-1] if earlier else None
    treats = course.step.does(Does.QUENCHES) or course.step.does(Does.TEMPERS)
    if not treats or outcome.mark.reading.dimension != _TEMPERATURE:
        return None
    before = takewhile(lambda one: one.mark.entry != outcome.mark.entry, earlier)
    sure = [one for one in before if one.verdict is not Verdict.UNSURE]
    return sure[-1] if sure and leaves_in_doubt(outcome, sure[-1], course) else None


def leaves_in_doubt(outcome: Outcome, before: Outcome | None, course: Course) -> bool:
    """Whether a reading in doubt comes behind a sure one of the same heat that was out: that is so still."""
    if before is None or outcome.verdict is not Verdict.UNSURE or before.verdict is not Verdict.OUT:
        return False
    places = {mark.entry: at for at, mark in enumerate(course.marks)}
    between = course.marks[places[before.mark.entry] : places[outcome.mark.entry]]
    return not any(isinstance(one, HeatMark) for one in between)


def standing_beside(outcome: Outcome, course: Course, kind: Kind) -> Figure | None:
    """What that reading is of a size, cold; None of a test, and without one."""
    earlier = stood_before(outcome, course) if kind is not Kind.TEST else None
    if earlier is None:
        return None
    read_mm = earlier.mark.reading.size_mm
    return Figure(read_mm if earlier.surprise is None else earlier.surprise.cold.size_mm, kind)


def outweighed(outcome: Outcome, course: Course) -> Figure | None:
    """The reading before this one that counts no more for it; None without one.

    What a hammer took too far since may be either slip or blow: that is not told.
    """
    if outcome.surprise is None or not outcome.counts:
        return None
    if outcome.verdict in _TOO_FAR and not operation(course.step.operation).FIXES:
        return None
    entry, size = outcome.mark.entry, outcome.mark.reading[:2]
    before = [one for one in course.outcomes if one.mark.entry < entry and one.mark.reading[:2] == size]
    last = before[-1] if before else None
    if last is None or last.surprise is None or last.old or last.outvoted:
        return None
    if last.mark.entry not in course.doubted:
        return None
    return Figure(last.surprise.cold.size_mm, Kind.LENGTH)


def is_unsure_again(outcome: Outcome, course: Course) -> bool:
    """Whether the same gauge left a size unsure before, cold as now, and no heat has worked it since."""
    reading, entry = outcome.mark.reading, outcome.mark.entry
    if outcome.verdict is not Verdict.UNSURE or reading.hot_c is not None or scattered_over(outcome):
        return False
    return any(
        one.verdict is Verdict.UNSURE and one.counts and one.mark.reading.hot_c is None
        for one in course.outcomes
        if one.mark.entry < entry
        and one.mark.reading[:2] == reading[:2]
        and one.mark.reading.gauge == reading.gauge
    )
