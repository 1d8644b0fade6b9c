"""A quench that is not to be made any more: its heat was too hot, and a later step quenches in its place."""

from __future__ import annotations

from coach.ledger.course import Course
from coach.ledger.sent_back import is_read_of_quenched
from coach.ledger.verdict import Verdict
from coach.operations import Does
from coach.recipe.model import Recipe, Step

_TEMPERATURE, _SOAK = "temperature", "soak"


def quenched_instead(recipe: Recipe, course: Course) -> Step | None:
    """The step that was put in to quench in place of the one in hand; None where that is still to be made.

    Once anything is read that is read of quenched steel alone it was made, whatever it should have been.
    """
    step = course.step
    if not step.does(Does.QUENCHES):
        return None
    read = [one for one in course.outcomes if not one.questioned]
    hot = any(
        one.verdict is Verdict.OUT and one.mark.reading.dimension in (_TEMPERATURE, _SOAK) for one in read
    )
    if not hot or any(is_read_of_quenched(one.mark.reading.dimension) for one in read):
        return None
    later = recipe.steps[step.number :]
    return next(
        (one for one in later if one.again and one.does(Does.QUENCHES) and one.zones == step.zones), None
    )
