"""The piece step by step: the solids that each step leaves, planned or as a job made them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from types import MappingProxyType
from typing import NamedTuple

from coach.bench.job_state import JobState
from coach.forms import Form
from coach.ledger.plan import Plan
from coach.ledger.working import LedgerError, reshapes
from coach.ledger.workpiece import Workpiece, at_stock
from coach.recipe.model import Step


class FormsAfter(NamedTuple):
    """The solids of the zones as a step left them."""

    step: int  # its number; 0 for the marked bar
    title: str
    zones: tuple[str, ...]  # that the step works on
    forms: Mapping[str, Form]
    long_doubt_mm: Mapping[str, float] = MappingProxyType({})  # of each piece's length; as planned without


def forms_by_step(state: JobState) -> Iterator[FormsAfter]:
    """As a job made them so far; steps that reshape nothing are left out."""
    yield _bar(state.first_plan)
    for record in state.records:
        if record.course is not None and _shapes(record.step):
            now = record.course.now
            yield _after(record.step, forms_of(now))._replace(long_doubt_mm=_long_doubts(now))


def forms_planned(plan: Plan) -> Iterator[FormsAfter]:
    """As a plan makes them, everything going as it says."""
    first = _bar(plan)
    yield first
    forms = dict(first.forms)
    for step in plan.recipe.steps:
        stages = plan.by_step[step.number]
        forms |= {zone: stage.form_after for zone, stage in stages.items()}
        for gone in step.zones if step.parts else ():
            forms.pop(gone, None)
        if step.lays is not None:
            forms.pop(step.lays, None)
        if _shapes(step):
            yield _after(step, dict(forms))


def forms_of(piece: Workpiece) -> dict[str, Form]:
    """The solid of every zone that has one of its own."""
    found: dict[str, Form] = {}
    for zone, state in piece.zones.items():
        if state.has_form:
            with suppress(LedgerError):
                found[zone] = piece.form(zone)
    return found


def _long_doubts(now: Workpiece) -> dict[str, float]:
    """How well the length of each piece is known, that of its zones together, mm."""
    found: dict[str, float] = {}
    for piece in {state.piece for state in now.zones.values()}:
        zones = (z for z, one in now.zones.items() if one.piece == piece and one.has_form)
        long = [zone for zone in zones if "length" in now.zones[zone].shape.dimensions]
        with suppress(LedgerError):
            found[piece] = now.summed(now.size(zone, "length") for zone in long).doubt if long else 0.0
    return found


def _bar(plan: Plan) -> FormsAfter:
    return FormsAfter(0, "the marked bar", (), forms_of(at_stock(plan)))


def _after(step: Step, forms: Mapping[str, Form]) -> FormsAfter:
    return FormsAfter(step.number, step.title, step.parts or step.zones, forms)


def _shapes(step: Step) -> bool:
    return any(reshapes(step, zone) for zone in step.zones)
