"""Grind more: where the skin is deeper than what is ground off it, more of it is left for the stone."""

from __future__ import annotations

from math import ceil
from typing import ClassVar

from coach.forms import said
from coach.ledger.amendment import Amendment, NewLoss, NewTarget
from coach.ledger.remedies.base import Idea, Remedy, ShortSkin, Situation
from coach.ledger.working import reshapes
from coach.quantities import Limits

#: Grinding is told and measured no finer than this, in mm.
_GRAIN_MM = 0.1


class GrindMore(Remedy):
    """A length is ground deeper; a thickness is left greater by the last forging before the stone."""

    NAME: ClassVar[str] = "grind more"
    HELPS: ClassVar[bool] = False  # the skin is no part of the metal account

    def ideas(self, situation: Situation) -> list[Idea]:
        """One idea for every steel whose skin goes deeper than the stone does."""
        found = []
        for skin in situation.short_skins:
            said_to_lose = situation.plan.recipe.steps[skin.step - 1].loses.length_mm
            one = _deeper if skin.dimension == "length" and said_to_lose else _left_thicker
            idea = one(situation, skin)
            if idea is not None:
                found.append(idea)
        return found


def _more_mm(skin: ShortSkin) -> float:
    """How much is lacking, to the next grain up."""
    return _GRAIN_MM * ceil((skin.needed_mm - skin.ground_mm) / _GRAIN_MM - 1e-6)


def _deeper(situation: Situation, skin: ShortSkin) -> Idea | None:
    more_mm = _more_mm(skin)
    new_mm = skin.ground_mm + more_mm
    return Idea(
        about=f"{skin.zone} {skin.dimension}",
        title=f"Grind {situation.size(more_mm)} more off the {skin.zone} length",
        changes=(
            f"Step {skin.step} takes {situation.size(new_mm)} off it instead of "
            f"{situation.size(skin.ground_mm)}, and the skin of the {skin.steel} with it."
        ),
        amendment=Amendment(losses=(NewLoss(skin.step, new_mm),)),
        price_mm=more_mm,
    )


def _left_thicker(situation: Situation, skin: ShortSkin) -> Idea | None:
    """The last step ahead that forges the size leaves it so much greater; none where all are behind."""
    forging = [
        step
        for step in situation.steps_ahead()
        if step.number < skin.step and skin.dimension in step.targets and reshapes(step, skin.zone)
    ]
    if not forging:
        return None
    step, more_mm = forging[-1], _more_mm(skin)
    was = step.targets[skin.dimension]
    new = Limits(was.nominal + more_mm, was.low + more_mm, was.high + more_mm, was.stated)
    return Idea(
        about=f"{skin.zone} {skin.dimension}",
        title=f"Leave {situation.size(more_mm)} more on the {skin.zone} {said(skin.dimension)} for the stone",
        changes=(
            f"Step {step.number} forges it to {situation.size(new.nominal)} instead of "
            f"{situation.size(was.nominal)}; step {skin.step} grinds off that and the {skin.steel}'s skin."
        ),
        amendment=Amendment(targets=(NewTarget(step.number, skin.dimension, new),)),
        price_mm=more_mm,
    )
