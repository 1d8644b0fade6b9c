"""Temper first: what is hard is tempered before a step that would grind it, while that is ahead."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import Again, Amendment
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.weigh_treatment import is_ground_hard
from coach.operations import Does, operation
from coach.quantities import say
from coach.recipe.model import Step


class TemperFirst(Remedy):
    """The temper that comes too late is run before the grinding; that after it does no harm."""

    NAME = "temper first"
    SOUNDNESS = Soundness.SOUND

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One for each zone that is ground hard in a step that nothing is entered in yet."""
        for step in situation.steps_ahead():
            begun = situation.course is not None and step is situation.course.step and situation.course.marks
            temper = _temper_after(situation, step)
            if begun or temper is None or not is_ground_hard(situation.plan, step):
                continue
            yield _idea(step, temper)


def _temper_after(situation: Situation, step: Step) -> Step | None:
    """The temper that a zone of a step gets after it; None where none does."""
    later = situation.plan.recipe.steps[step.number :]
    return next((one for one in later if one.does(Does.TEMPERS) and {*one.zones} & {*step.zones}), None)


def _idea(step: Step, temper: Step) -> Idea:
    anew = operation(temper.operation).AGAIN_HEATS
    heats = temper.heats if anew is None else anew
    return Idea(
        about=temper.zones[0],
        title=say("Temper the {} before it is ground", temper.zones[0]),
        changes=say(
            "Put in before step {}, {}, as step {} has it. A second temper at the same heat does no harm, or "
            "skip it.",
            *(step.number, step.title, temper.number),
        ),
        amendment=Amendment(again=(Again(step.number - 1, temper.number, heats),)),
        heats=heats,
    )
