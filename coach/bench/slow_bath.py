"""What was quenched in a bath too slow for its steel where it is thick, until a file or a hardness told."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.bench.until_looked import until_looked
from coach.ledger.course import Course
from coach.ledger.hot_work import steels_of
from coach.ledger.own_curves import FILE_TEST, HARDNESS
from coach.ledger.tempered import thickest_mm
from coach.metals.baths import FIERCENESS, is_fiercer
from coach.metals.grade_file import Grade
from coach.metals.tempering_table import like_a_bar_from_mm
from coach.operations import Does
from coach.recipe.model import Step


class SlowBath(NamedTuple):
    """A zone that was quenched so."""

    entry: int  # of its step's end
    zone: str
    step: Step
    steel: str

    @property
    def text(self) -> str:
        """What is to be looked at."""
        how = "leaves {} soft where it is thick: try a file there, on a spot ground clean (file test)"
        return f"quenched in {self.step.quench}, which {how.format(self.steel)}"


def slow_baths(state: JobState) -> Iterator[SlowBath]:
    """Each of a finished step in a milder bath than its steel's own, and that no file and no hardness told of
    since; air apart, of which its step tells.
    """

    def leaves(step: Step, end: int) -> dict[str, SlowBath | None]:
        if not step.does(Does.QUENCHES):
            return {}
        thick_mm = thickest_mm(state.plan, step)
        steel = next((one for one in steels_of(state.plan, step) if _is_slow(step, one, thick_mm)), None)
        return {zone: SlowBath(end, zone, step, steel.name) if steel else None for zone in step.zones}

    return until_looked(state, leaves, _told_of)


def _told_of(course: Course) -> Iterator[str]:
    """The zones that a file or a hardness tells of in a step."""
    for outcome in course.outcomes:
        if outcome.counts and outcome.mark.reading.dimension in (FILE_TEST, HARDNESS):
            yield outcome.mark.reading.zone


def _is_slow(step: Step, metal: Grade, thick_mm: float | None) -> bool:
    """Whether a bath is milder than a steel's own, and too mild for it so thick."""
    own = metal.quench.medium if metal.quench is not None else ""
    if own not in FIERCENESS or step.quench not in FIERCENESS or step.quench == "air":
        return False
    soft_mm = like_a_bar_from_mm(metal.name, step.quench)
    is_thick = soft_mm is not None and thick_mm is not None and thick_mm >= soft_mm
    return is_fiercer(own, step.quench) and is_thick
