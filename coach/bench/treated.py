"""How the steel was treated: each heat treatment as it was planned and as it was read."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.forms import label
from coach.ledger.course import Course, Outcome
from coach.ledger.weighing import kind_of
from coach.operations import Does
from coach.operations.does import HeatKind
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import Wanted
from coach.quantities.figure import Figure, Kind, celsius
from coach.recipe.model import Step

_OF_IT = (Kind.TEMPERATURE, Kind.TIME, Kind.HARDNESS)


class ReadOfTreatment(NamedTuple):
    """What was read of a treatment last."""

    zone: str
    dimension: str  # `temperature`, `soak`, `hardness`
    size: Figure  # as it was read
    entry: int  # its number in the log

    @property
    def label(self) -> str:
        """As it is spoken of."""
        return label(self.zone, self.dimension)


class Treatment(NamedTuple):
    """One heat treatment that is done or in hand."""

    step: int  # from 1
    title: str
    zones: tuple[str, ...]
    heats: int  # how often it was heated for it
    heats_planned: int  # how often it was to be
    temperature: Figure | None  # as the step says it; `null` where it says none
    colour: str  # the same by its colour; empty where none is said
    quench: str  # what it is quenched in; empty for nothing
    hardness: Wanted | None  # how hard it is to be after it; `null` where the step says none
    read: tuple[ReadOfTreatment, ...]
    again: bool  # whether a way back put it in


def treatments(state: JobState) -> Iterator[Treatment]:
    """Every treatment up to now, in its order."""
    heats = {record.step.number: record.heats for record in state.records}
    for course in state.courses():
        step = course.step
        taken = heats.get(step.number, state.heats)
        if treats(step) and (step.number in heats or taken or course.outcomes):
            hard = step.targets.get("hardness")
            yield Treatment(
                step=step.number,
                title=step.title,
                zones=step.zones,
                heats=taken,
                heats_planned=step.heats,
                temperature=None if step.temperature_c is None else celsius(step.temperature_c),
                colour=step.colour,
                quench=step.quench,
                hardness=None if hard is None else Wanted(hard, Kind.HARDNESS),
                read=tuple(_read(course)),
                again=step.again,
            )


def treats(step: Step) -> bool:
    """Whether a step treats the steel by heat."""
    does = (Does.QUENCHES, Does.TEMPERS, Does.NORMALISES)
    return step.heat_kind is HeatKind.TREATMENT or any(step.does(one) for one in does)


def _read(course: Course) -> Iterator[ReadOfTreatment]:
    last: dict[tuple[str, str], Outcome] = {}
    for outcome in course.outcomes:
        reading = outcome.mark.reading
        is_of_it = reading.dimension not in SHOP_TESTS and kind_of(course.step, reading.dimension) in _OF_IT
        if outcome.counts and is_of_it:
            last[reading.zone, reading.dimension] = outcome
    for (zone, dimension), outcome in last.items():
        size = Figure(outcome.mark.reading.size_mm, kind_of(course.step, dimension))
        yield ReadOfTreatment(zone, dimension, size, outcome.mark.entry)
