"""What was quenched in a bath that its steel does not stand, until a crack was looked for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from coach.bench.job_state import JobState
from coach.bench.until_looked import until_looked
from coach.ledger.course import Course
from coach.ledger.hot_work import steels_of
from coach.ledger.tempered import thickness_mm
from coach.ledger.verdict import Verdict
from coach.metals.baths import may_crack_in
from coach.operations import Does
from coach.recipe.model import Step

CRACK_TEST: Final = "crack_test"
#: What is asked of steel that may have cracked.
LOOK_FOR_A_CRACK: Final = "look for a crack (crack test)"


class WrongBath(NamedTuple):
    """A zone that was quenched so."""

    entry: int  # of its step's end
    zone: str
    step: Step
    steel: str

    @property
    def text(self) -> str:
        """What is to be looked at."""
        return f"quenched in {self.step.quench}, which can crack {self.steel}: {LOOK_FOR_A_CRACK}"


def wrong_baths(state: JobState) -> Iterator[WrongBath]:
    """Each of a finished step whose zone passed no crack test since, or failed one: that tells of itself."""

    def leaves(step: Step, end: int) -> dict[str, WrongBath]:
        if not step.does(Does.QUENCHES):
            return {}
        thick_mm, steels = thickness_mm(state.plan, step), steels_of(state.plan, step)
        steel = next((one.name for one in steels if may_crack_in(step.quench, one, thick_mm)), "")
        return {zone: WrongBath(end, zone, step, steel) for zone in (step.zones if steel else ())}

    return until_looked(state, leaves, looked_for_a_crack)


def looked_for_a_crack(course: Course) -> Iterator[str]:
    """The zones of which a crack test was made in a step, and passed or failed."""
    for outcome in course.outcomes:
        looked = outcome.mark.reading.dimension == CRACK_TEST
        if looked and outcome.counts and outcome.verdict in (Verdict.GOOD, Verdict.OUT):
            yield outcome.mark.reading.zone
