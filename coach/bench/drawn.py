"""Fires after the temper that no step needs: what they make old, and what is to be seen to after them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from coach.bench.job_state import JobState, StepRecord
from coach.ledger.course import Course
from coach.ledger.fire_after_temper import Undone, hafted_in
from coach.ledger.verdict import Verdict
from coach.operations import Does
from coach.operations.measures import HARDNESS
from coach.recipe.model import Step


class Drawn(NamedTuple):
    """A zone that a fire has drawn, until it is measured or hardened again."""

    entry: int  # of the fire
    zone: str
    step: Step  # in which the fire was
    treated: Step  # the temper that it undid, or the quench
    hafted: bool  # whether a haft was in it
    asks: str  # what would tell how hard it is now: `hardness`, or `file_test`

    @property
    def text(self) -> str:
        """What is to be seen to."""
        by = self.asks.replace("_", " ")
        was = "temper" if self.treated.does(Does.TEMPERS) else "quench"
        burnt = "; fit the haft anew where it burnt" if self.hafted else ""
        return f"in the fire after its {was}: see how hard it is ({by}), or harden and temper it again{burnt}"


def made_old(records: Iterable[StepRecord], undone: Undone) -> list[StepRecord]:
    """The finished steps, with those of their readings made old that a fire since has undone."""
    return [
        record
        if record.course is None or undone.before.isdisjoint(one.mark.entry for one in record.course.outcomes)
        else record._replace(course=_made_old(record.course, undone))
        for record in records
    ]


def _made_old(course: Course, undone: Undone) -> Course:
    outcomes = (one._replace(old=one.old or one.mark.entry in undone.before) for one in course.outcomes)
    return course._replace(outcomes=tuple(outcomes))


def drawn(state: JobState) -> Iterator[Drawn]:
    """Each zone by the last fire it lay in, where nothing tells since how hard it is.

    A hardness does, good or bad, and a file test that passed; only what tells most of it is asked for. What
    is to be hardened again ahead is none.
    """
    fires = state.fires_after()
    if not fires:
        return
    recipe, places = state.plan.recipe, {number: place for place, number in enumerate(state.counted)}
    told: dict[str, int] = {}
    for course in state.courses():
        for one in course.outcomes:
            reading = one.mark.reading
            tells = reading.dimension == HARDNESS or (
                reading.dimension == "file_test" and one.verdict is Verdict.GOOD
            )
            if tells and one.counts and one.verdict is not None:
                told[reading.zone] = max(told.get(reading.zone, -1), places.get(one.mark.entry, -1))
    last = {zone: one for one in fires for zone in one.zones}
    ahead = recipe.steps[len(state.records) :]
    again = [one for one in ahead if one.again and one.does(Does.QUENCHES)]
    for zone, fire in last.items():
        if told.get(zone, -1) < fire.place and not any(zone in one.zones for one in again):
            treated = fire.zones[zone]
            asks = HARDNESS if HARDNESS in treated.targets else "file_test"
            yield Drawn(fire.entry, zone, fire.step, treated, hafted_in(recipe, fire.step), asks)
