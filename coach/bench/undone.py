"""What is to be looked at: of steel a wrong bath, another quench, a fire after its temper; a doubted size."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from coach.bench.drawn import drawn
from coach.bench.ground_hard import ground_hard
from coach.bench.job_state import JobState
from coach.bench.left_hard import left_hard
from coach.bench.left_on_bar import left_on_bar
from coach.bench.left_questioned import left_questioned
from coach.bench.slow_bath import slow_baths
from coach.bench.wrong_bath import CRACK_TEST, LOOK_FOR_A_CRACK, wrong_baths
from coach.ledger.course import Course
from coach.ledger.own_curves import FILE_TEST
from coach.ledger.quenched_again import quenched_again
from coach.recipe.model import Step


class ToLookAt(NamedTuple):
    """Something that was done to a zone, or read of it, until it is looked at."""

    entry: int  # by which it was
    text: str  # what it was, and what is to be looked at
    zone: str
    step: Step
    grave: bool  # whether no job is on plan before it was


def to_look_at(state: JobState) -> Iterator[ToLookAt]:
    """Each of them, the graver before the others."""
    for fire in drawn(state):
        yield ToLookAt(fire.entry, fire.text, fire.zone, fire.step, grave=True)
    for bath in wrong_baths(state):
        if bath.entry in state.counted:
            yield ToLookAt(bath.entry, bath.text, bath.zone, bath.step, grave=True)
    for left in left_hard(state):
        yield ToLookAt(left.entry, left.text, left.zone, left.step, grave=True)
    for ground in ground_hard(state):
        yield ToLookAt(ground.entry, ground.text, ground.zone, ground.step, grave=True)
    for slow in slow_baths(state):
        if slow.entry in state.counted:
            yield ToLookAt(slow.entry, slow.text, slow.zone, slow.step, grave=True)
    for read in left_questioned(state):
        yield ToLookAt(read.entry, read.text, read.zone, read.step, grave=True)
    for one in left_on_bar(state):
        yield ToLookAt(one.entry, one.text, "", one.step, grave=False)
    text = f"heated for a second quench: {LOOK_FOR_A_CRACK}"
    for course in state.courses():
        again = quenched_again(course)
        if again is not None and not again.looked:
            yield ToLookAt(again.entry, text, course.step.zones[0], course.step, grave=False)


def asked_for(state: JobState, course: Course) -> Iterator[str]:
    """The checks that a step is asked for by it, besides its own."""
    if quenched_again(course) is not None:
        yield f"{course.step.zones[0]}.{CRACK_TEST}"
    zones = [*(one.zone for one in wrong_baths(state)), *(one.zone for one in left_hard(state))]
    zones += (one.zone for one in ground_hard(state))
    yield from (f"{zone}.{CRACK_TEST}" for zone in dict.fromkeys(zones))
    yield from (f"{one.zone}.{FILE_TEST}" for one in slow_baths(state))
    for fire in drawn(state):
        if course.step.number >= fire.treated.number:
            yield f"{fire.zone}.{fire.asks}"
