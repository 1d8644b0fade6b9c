"""What a reading means for the size that it is of."""

from __future__ import annotations

from typing import NamedTuple

from coach.bench.gauged import BY_GAUGES
from coach.bench.standing_beside import is_unsure_again
from coach.ledger.course import Course, Outcome, heats_to_go
from coach.ledger.reading import settles_cold
from coach.ledger.verdict import Verdict
from coach.operations import operation
from coach.operations.gauges import BY_EYE
from coach.quantities import Figure, Wanted
from coach.quantities.figure import Kind, as_change


class Judgement(NamedTuple):
    """What a reading means for the size that it is of."""

    verdict: Verdict
    wanted: Wanted  # what it was held against
    beyond: Figure  # how far it is outside the nearer limit; 0 inside
    to_go: Figure  # how far it is from what is aimed at
    below: bool  # whether it lies on the low side
    too_coarse: bool  # whether no reading by this gauge could settle it
    coarse_before: bool  # whether an earlier reading of the job was told that of the same gauge
    run_wide: bool  # whether it has spread too far and is to be dressed back
    taken_off: bool  # whether the step takes metal off for it, rather than hammers
    heats: int  # about so many more heats; 0 where that cannot be told
    by_eye: bool  # whether the step asks for no gauge, and none was taken: an eye is all there is
    cold_tells: bool = False  # whether the same gauge could settle it on cold metal, and not on hot
    soaked: Wanted | None = None  # what is wanted of the soak that `wanted`, for a run of colours, stands for
    mean: Figure | None = None  # of a hardness: of it and those before it, where it is judged by their mean
    mean_of: int = 1  # of how many; 1 where it is judged alone
    unsure_again: bool = False  # whether the same gauge told no more of it before, with no heat between
    outdone_by: Figure | None = None  # an earlier reading of the treatment that was more, and counts


def judgement_of(
    outcome: Outcome, course: Course, cold: Figure, kind: Kind, coarse: set[str]
) -> Judgement | None:
    """What a reading that counts means, cold so much; None where nothing is wanted of its size.

    `coarse` are the gauges that were told before to be too coarse for it.
    """
    judged, limits = outcome.judged, outcome.limits
    if judged is None or limits is None:
        return None
    held = Wanted(limits, kind)
    return Judgement(
        verdict=judged.verdict,
        wanted=held,
        beyond=as_change(Figure(judged.beyond_mm, kind)._replace(doubt=cold.doubt)),
        to_go=as_change(cold._replace(value=abs(cold.value - held.limits.nominal))),
        below=judged.below,
        too_coarse=judged.too_coarse,
        coarse_before=judged.too_coarse and outcome.mark.reading.gauge in coarse,
        run_wide=outcome.run_wide,
        taken_off=operation(course.step.operation).FIXES,
        heats=heats_to_go(course, outcome) if judged.verdict is Verdict.MORE_TO_GO else 0,
        by_eye=kind is not Kind.TEST and outcome.mark.reading.gauge == course.step.gauge == BY_EYE,
        cold_tells=judged.too_coarse and settles_cold(outcome.mark.reading, limits),
        soaked=Wanted(outcome.soaked, kind) if outcome.soaked is not None else None,
        mean=Figure(round(outcome.mean_hrc, 1), kind) if outcome.mean_of > 1 else None,
        mean_of=outcome.mean_of,
        unsure_again=kind in BY_GAUGES and is_unsure_again(outcome, course),
        outdone_by=None if outcome.outdone_by is None else Figure(outcome.outdone_by.size_mm, kind),
    )
