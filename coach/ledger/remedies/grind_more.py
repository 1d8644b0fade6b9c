"""Grind more: where the skin is deeper than what is ground off it, more of it is left for the stone."""

from __future__ import annotations

from collections.abc import Iterator

from coach.forms import label
from coach.ledger.amendment import Amendment, NewLoss, NewTarget
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.skinning import GRAIN_MM, Grinding, Skin, told_upwards_mm
from coach.ledger.working import reshapes
from coach.quantities import mm, say
from coach.recipe.model import Step


class GrindMore(Remedy):
    """A length is ground deeper; a thickness is left greater by the last forging before the stone."""

    NAME = "grind more"
    HELPS = False  # the skin is no part of the metal account

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every steel whose skin goes deeper than the stone does."""
        for skin in situation.short_skins:
            off = skin.grinding
            if off is None:
                continue
            more_mm = told_upwards_mm(-off.beyond_mm)
            if off.dimension == "length" and situation.plan.recipe.steps[off.step - 1].loses.length_mm:
                yield _deeper(skin, off, more_mm)
                continue
            # The last step ahead that forges the size leaves it so much greater, if any still does.
            forging = [
                step
                for step in situation.steps_ahead()
                if step.number < off.step and off.dimension in step.targets and reshapes(step, skin.zone)
            ]
            if forging and not _is_thinner(situation, forging[-1], skin.zone, off.dimension, more_mm):
                yield _left_thicker(forging[-1], skin, off, more_mm)


def _is_thinner(situation: Situation, step: Step, zone: str, dimension: str, more_mm: float) -> bool:
    """Whether the size was read below what the step in hand would now leave: no hammer thickens it."""
    course = situation.course
    if course is None or step.number != course.step.number:
        return False
    read = course.last(zone, dimension)
    if read is None or read.questioned or read.surprise is None:
        return False
    return read.surprise.cold.size_mm < step.targets[dimension].nominal + more_mm - GRAIN_MM


def _deeper(skin: Skin, off: Grinding, more_mm: float) -> Idea:
    new_mm = off.ground_mm + more_mm
    return Idea(
        about=f"{skin.zone} {off.dimension}",
        title=say("Grind {} more off the {} length", mm(more_mm), skin.zone),
        changes=say(
            "Step {} takes {} off it instead of {}, and the skin of the {} with it.",
            off.step,
            mm(new_mm),
            mm(off.ground_mm),
            skin.steel,
        ),
        amendment=Amendment(losses=(NewLoss(off.step, new_mm),)),
        price_mm=more_mm,
    )


def _left_thicker(step: Step, skin: Skin, off: Grinding, more_mm: float) -> Idea:
    was = step.targets[off.dimension]
    new = was.moved(more_mm)
    return Idea(
        about=f"{skin.zone} {off.dimension}",
        title=say("Leave {} more on the {} for the stone", mm(more_mm), label(skin.zone, off.dimension)),
        changes=say(
            "Step {} forges it to {} instead of {}; step {} grinds off that and the {}'s skin.",
            step.number,
            mm(new.nominal),
            mm(was.nominal),
            off.step,
            skin.steel,
        ),
        amendment=Amendment(targets=(NewTarget(step.number, off.dimension, new),)),
        price_mm=more_mm,
    )
