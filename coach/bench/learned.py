"""What a job's readings have taught of the shop: its fire's scale and its spread, each with the reason."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from coach.bench.replay import JobState
from coach.bench.sentences import kind_of
from coach.bench.standing import LearnedView
from coach.fire.spreading import spread_coefficient
from coach.forms import label
from coach.ledger.course import Course, Outcome
from coach.ledger.learning import UNTAUGHT
from coach.ledger.running import coefficient
from coach.ledger.verdict import GUARD_FACTOR
from coach.ledger.workpiece import SCALE, SPREAD, Workpiece
from coach.quantities import Figure, Shown, write_length
from coach.recipe.model import Step
from coach.telling.figures import write_figure

#: A reading that moved the factor, or the coefficient, by less than this has taught nothing worth naming.
_WORTH_NAMING = 0.02
#: The bite, as a share of the width, that the spread coefficient is told for.
_TOLD_AT_BITE = 0.5


class _Teacher(NamedTuple):
    """A reading that taught something, and in which step."""

    outcome: Outcome
    step: Step


def learned_views(state: JobState, course: Course | None, shown: Shown) -> tuple[LearnedView, ...]:
    """The scale factor and the spread coefficient as believed now; empty when nothing is reckoned."""
    now = course.now if course is not None else state.start
    if now is None:
        return ()
    courses = [record.course for record in state.records if record.course is not None]
    if course is not None:
        courses.append(course)
    teachers = [_Teacher(o, c.step) for c in courses for o in c.outcomes if o.taught is not UNTAUGHT]
    return (_scale(now, teachers, shown), _spread(now, teachers, shown))


def _scale(now: Workpiece, teachers: Iterable[_Teacher], shown: Shown) -> LearnedView:
    factor, doubt = now.scale_factor(), now.belief.doubt(SCALE)
    told = [one for one in teachers if abs(one.outcome.taught.scale) >= _WORTH_NAMING]
    if told:
        most = max(told, key=lambda one: abs(one.outcome.taught.scale))
        entry = most.outcome.mark.entry
        rest = f", and {len(told) - 1} more" if len(told) > 1 else ""
        way = "up" if most.outcome.taught.scale > 0.0 else "down"
        reason = f"{_reading(most, shown)} took it {way} most{rest}"
    else:
        entry, reason = None, "no reading has told otherwise yet"
    return LearnedView(
        name="scale",
        value=factor,
        doubt=doubt,
        published=1.0,
        text=f"scale {factor:.2f} × reckoned (±{GUARD_FACTOR * doubt:.2f})",
        reason=reason,
        entry=entry,
    )


def _spread(now: Workpiece, teachers: Iterable[_Teacher], shown: Shown) -> LearnedView:
    published = spread_coefficient(_TOLD_AT_BITE, 1.0)
    value, doubt = coefficient(published, now.belief.mean(SPREAD)), now.belief.doubt(SPREAD)
    told = [one for one in teachers if abs(one.outcome.taught.spread) >= _WORTH_NAMING]
    if told:
        most = max(told, key=lambda one: abs(one.outcome.taught.spread))
        entry = most.outcome.mark.entry
        lesson = most.outcome.taught.lesson
        if lesson is None:
            reason = f"{_reading(most, shown)} says how far it ran"
        else:
            wide, thick = (
                f"{write_length(before, shown, unit=False)} to {write_length(after, shown)}"
                for before, after in (lesson.width_mm, lesson.thickness_mm)
            )
            reason = (
                f"{lesson.zone} ran from {wide} wide as it went from {thick} thick, step {most.step.number}"
            )
        if len(told) > 1:
            reason += f", and {len(told) - 1} more"
    else:
        entry, reason = None, "no heat has been measured yet, thickness and width, half way"
    return LearnedView(
        name="spread",
        value=value,
        doubt=doubt,
        published=published,
        text=f"spread {value:.2f} (book {published:.2f}, ±{GUARD_FACTOR * doubt:.2f})",
        reason=reason,
        entry=entry,
    )


def _reading(teacher: _Teacher, shown: Shown) -> str:
    """One reading in a few words: "poll length 35.2 mm, step 9"."""
    reading = teacher.outcome.mark.reading
    surprise = teacher.outcome.surprise
    size = surprise.cold.size_mm if surprise is not None else reading.size_mm
    told = write_figure(Figure(size, kind_of(teacher.step, reading.dimension)), shown, "=")
    return f"{label(reading.zone, reading.dimension)} {told}, step {teacher.step.number},"
