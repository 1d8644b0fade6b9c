"""Bends, gaps, cheeks, marks: what is out or left short of its aim, apart from the metal account."""

from __future__ import annotations

from collections.abc import Iterable

from coach.bench.heat_treated import OF_TREATMENT
from coach.bench.job_state import JobState
from coach.bench.marked_before import as_marked_then
from coach.bench.off_middle import drawn_ahead, is_tine_of_split
from coach.ledger.course import AmendmentMark, Course, Outcome
from coach.ledger.left_over import left_over
from coach.ledger.plan import Plan
from coach.ledger.verdict import Verdict
from coach.ledger.working import reshapes
from coach.operations import Does, operation
from coach.operations.measures import ALIKE, BOW, MARK, WIND
from coach.quantities import Kind
from coach.recipe.model import Step

#: What a size apart from the metal is: the radius of a bend, a gap, an angle.
_APART = (Kind.LENGTH, Kind.GAP, Kind.ANGLE)


def left_wrong_in(state: JobState) -> Iterable[tuple[Outcome, Step, bool]]:
    """Bends, gaps and other such sizes that are out, or that a finished step left short of its aim.

    What shapes the zone anew, or joins it, makes others of them; so does another normalising of its heat.
    """
    latest: dict[tuple[str, str], tuple[Outcome, Step]] = {}
    for course in state.courses():
        step = course.step
        if course.is_begun or step.number <= len(state.records):
            latest = {name: one for name, one in latest.items() if not _is_made_anew(state.plan, step, *name)}
        for mark in course.marks:  # what was made anew since is no more where it was read
            for size in mark.amendment.changed_sizes(course.now) if isinstance(mark, AmendmentMark) else ():
                latest.pop(size, None)
        for typed in course.outcomes:
            outcome = as_marked_then(state, course, typed) or typed
            reading = outcome.mark.reading
            kind = operation(step.operation).kind_of(reading.dimension)
            apart = outcome.surprise is None or reading.dimension == MARK
            told = kind in _APART or reading.dimension in operation(step.operation).AFTER_OUT
            if is_tine_of_split(step, outcome):
                tine = outcome._replace(judged=drawn_ahead(state, step, outcome))
                latest[reading.zone, reading.dimension] = tine, step
            elif apart and told and outcome.counts:
                if (other := ALIKE.get(reading.dimension)) is not None and outcome.other_mm is None:
                    latest.pop((reading.zone, other), None)  # by width and hole this one tells of it
                latest[reading.zone, reading.dimension] = outcome, step
    for outcome, step in latest.values():
        finished = step.number <= len(state.records)
        judged = left_over(step, outcome) if finished else outcome.judged
        if judged is not None and judged.verdict is Verdict.OUT:
            yield outcome, step, False


def cheeks_off_the_middle(state: JobState, course: Course) -> tuple[str, ...]:
    """The cheeks that are not alike yet, by name, as far as a step works them: it asks for both again."""
    step = course.step
    extras = operation(step.operation).EXTRAS
    wrong = {one.mark.reading[:2] for one, _, _ in left_wrong_in(state)}
    zones = {zone for zone, dimension in wrong if dimension in ALIKE and zone in step.zones}
    return tuple(f"{zone}.{name}" for zone in sorted(zones) for name in ALIKE if name in extras)


def cheeks_together(state: JobState) -> dict[int, float]:
    """The places of cheeks on a list, by their entries: the thin one first, whichever was typed first."""
    eyes: dict[tuple[int, str], list[Outcome]] = {}
    for outcome, step, _ in left_wrong_in(state):
        if outcome.mark.reading.dimension in ALIKE:
            eyes.setdefault((step.number, outcome.mark.reading.zone), []).append(outcome)
    places: dict[int, float] = {}
    for pair in eyes.values():
        first = min(one.mark.entry for one in pair)
        thin_first = sorted(pair, key=lambda one: one.judged is None or not one.judged.below)
        places |= {one.mark.entry: first + 0.5 * at for at, one in enumerate(thin_first)}
    return places


def _is_made_anew(plan: Plan, step: Step, zone: str, dimension: str) -> bool:
    """Whether a step makes another size of what was read.

    A hole off the middle stays there by itself, and a bow or a wind till it is hammered.
    """
    if dimension in (BOW, WIND) and operation(step.operation).FIXES:
        return False  # neither saw nor stone turns a bar's line back
    if dimension in ALIKE and (stage := plan.by_step[step.number].get(zone)) is not None:
        return not any("hole" in name for name in stage.after.shape.dimensions)
    normalised = step.does(Does.NORMALISES) and zone in step.zones and dimension in OF_TREATMENT
    return normalised or reshapes(step, zone)
