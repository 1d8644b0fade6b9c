"""The heats of a weld that a way back asks for, as heats of the step in hand."""

from __future__ import annotations

from math import ceil

from coach.ledger.amendment import WELDING_HEATS, NewHeats
from coach.ledger.remedies.base import Situation
from coach.ledger.working import face_loss_mm


def welding_heats(situation: Situation, zone: str) -> tuple[tuple[NewHeats, ...], float]:
    """The heats that are marked for it, and the scale off each face that the account takes for them, mm.

    They are marked as heats of the step, and pay their scale then. A step that does not heat the zone has
    none: there the weld's scale is reckoned with what is welded on.
    """
    course = situation.course
    if course is None or not course.step.heats or zone not in course.step.heated:
        return (), 0.0
    step = course.step
    loss_mm = face_loss_mm(situation.plan.recipe.scale, step.heat_kind, step.temperature_c)
    planned = max(step.heats, ceil(course.heats)) + WELDING_HEATS
    return (NewHeats(step.number, planned),), WELDING_HEATS * loss_mm
