"""Hardened steel that lay without its temper, until a crack was looked for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple, TypeGuard

from coach.bench.fire_clock import seconds_between
from coach.bench.happened import happened_by
from coach.bench.job_state import JobState
from coach.bench.resting import waiting_at
from coach.bench.wrong_bath import CRACK_TEST, LOOK_FOR_A_CRACK
from coach.ledger.verdict import Verdict
from coach.log.body import Body
from coach.log.kinds.done import Done
from coach.log.kinds.fire import BackInFire
from coach.log.kinds.heat import Heat
from coach.log.kinds.reading import Reading
from coach.log.kinds.rested import Rested
from coach.operations import Does, operation
from coach.recipe.model import Step

#: Steel is tempered within so many hours of its quench (confirmed second-hand: a furnace maker's page on
#: tempering furnaces). The trade says at once.
TEMPERED_WITHIN_H: Final = 4.0


class LeftHard(NamedTuple):
    """A zone that lay so."""

    entry: int  # of the rest, or of what was entered first after so many hours
    zone: str
    step: Step  # its quench
    hours: float = 0.0  # it lay for so long by the entries; 0 where only the rest is known

    @property
    def text(self) -> str:
        """What is to be looked at."""
        if self.hours >= TEMPERED_WITHIN_H:
            return f"lay hard for {self.hours:.0f} h without its temper: {LOOK_FOR_A_CRACK}"
        return f"left hard, without its temper, while the job rested: {LOOK_FOR_A_CRACK}"


def left_hard(state: JobState) -> Iterator[LeftHard]:
    """Each by the last such rest, or by the hours from its quench to its temper, where no crack test was made
    since.
    """
    by_hours = {one.zone: one for one in _by_the_hours(state)[0]}
    found = by_hours | {one.zone: one for one in _at_rests(state)}
    for lay in by_hours.values():
        found[lay.zone] = found[lay.zone]._replace(hours=lay.hours)
    places = {number: place for place, number in enumerate(state.counted)}
    for course in state.courses() if found else ():
        for one in course.outcomes:
            zone, dimension = one.mark.reading[:2]
            looked = dimension == CRACK_TEST and one.verdict in (Verdict.GOOD, Verdict.OUT)
            if looked and zone in found and places.get(one.mark.entry, -1) >= places[found[zone].entry]:
                del found[zone]
    yield from found.values()


def _at_rests(state: JobState) -> Iterator[LeftHard]:
    """The zones that were hard at a rest against advice, the latest rest last."""
    steps, finished, begun = state.plan.recipe.steps, 0, False
    for number, entry in state.counted.items():
        if isinstance(entry.body, Done):
            finished, begun = entry.body.step, False
        elif isinstance(entry.body, Heat | Reading):
            begun = begun or entry.body.step == finished + 1
        elif isinstance(entry.body, Rested) and entry.body.forced:
            for zone, step in waiting_at(steps, finished, begun=begun).items():
                if step.does(Does.QUENCHES):
                    yield LeftHard(number, zone, step)


def hard_since(state: JobState) -> str:
    """The moment of the earliest quench that no temper followed yet, ISO 8601 UTC; "" for none."""
    return min((at for at, _ in _by_the_hours(state)[1].values()), default="")


def _by_the_hours(state: JobState) -> tuple[list[LeftHard], dict[str, tuple[str, Step]]]:
    """The zones whose temper, or else the latest entry, came too many hours after their quench.

    With them, by zone, the moment of each quench that no temper followed yet.
    """
    steps = state.plan.recipe.steps
    since: dict[str, tuple[str, Step]] = {}  # by zone, the moment of its quench
    found: dict[str, LeftHard] = {}
    finished, out_at, moments = 0, "", happened_by(state.counted.values())
    for number, entry in state.counted.items():
        body, now = entry.body, moments[number]  # what is entered later was done when that is said
        for zone, (at, step) in since.items():
            hours = seconds_between(at, now) / 3600.0
            if hours >= TEMPERED_WITHIN_H:
                first = found.get(zone, LeftHard(number, zone, step))
                found[zone] = first._replace(hours=hours)
        if _is_heated(body) and 0 < body.step <= len(steps):
            step = steps[body.step - 1]
            for zone in {*step.zones, *step.heated} & since.keys():
                until = operation(since[zone][1].operation).UNSAFE_UNTIL
                if until is not None and step.does(until):
                    del since[zone]
        if isinstance(body, Heat) and body.step == finished + 1:
            out_at = now
        elif isinstance(body, Done):
            finished, step = body.step, steps[body.step - 1]
            if step.does(Does.QUENCHES) and operation(step.operation).UNSAFE_UNTIL is not None:
                since |= dict.fromkeys(step.zones, (out_at or now, step))
            out_at = ""
    return list(found.values()), since


def _is_heated(body: Body) -> TypeGuard[Heat | BackInFire | Reading | Done]:
    """Whether an entry tells that the piece is heated in its step, or was."""
    if isinstance(body, Reading):
        return body.dimension in ("temperature", "soak")
    return isinstance(body, Heat | BackInFire | Done)
