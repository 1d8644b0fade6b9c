"""Accept it: a size that cannot be brought back is taken as it is, and what follows is aimed at it."""

from __future__ import annotations

from typing import ClassVar

from coach.forms import label
from coach.ledger.amendment import Amendment, NewLimits, NewTarget
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.working import reshapes
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities import Limits, Words, mm, run_on, say


class Accept(Remedy):
    """The drawing gives way to the metal, for one size."""

    NAME: ClassVar[str] = "accept"

    def ideas(self, situation: Situation) -> list[Idea]:
        """One idea for every finished size that no step ahead puts right, and one for several of a zone.

        A drift that went too far has widened both mouths: neither alone would be a way back.
        """
        stuck = situation.stuck()
        zones = dict.fromkeys(size.zone for size in stuck)
        by_zone = [[size for size in stuck if size.zone == zone] for zone in zones]
        return [
            *(_idea(situation, size) for size in stuck),
            *(_together(situation, sizes) for sizes in by_zone if len(sizes) > 1),
        ]


def _together(situation: Situation, sizes: list[FinishedSize]) -> Idea:
    ideas = [_idea(situation, size) for size in sizes]
    *others, last = [_sized(size) for size in sizes]
    return Idea(
        about=f"{sizes[0].zone} as it is",
        title=say("Accept the {} and the {}", run_on(others, ", the "), last),
        changes=run_on(
            say("{}: {}", _sized(size), idea.changes) for size, idea in zip(sizes, ideas, strict=True)
        ),
        amendment=Amendment(
            limits=tuple(new for idea in ideas for new in idea.amendment.limits),
            targets=tuple(new for idea in ideas for new in idea.amendment.targets),
        ),
        price_mm=sum(idea.price_mm for idea in ideas),
        outside=True,
    )


def _sized(size: FinishedSize) -> Words:
    return say("{} at {}", label(size.zone, size.dimension), mm(size.expected_mm))


def _around(size_mm: float, limits: Limits) -> Limits:
    reach = limits.width / 2.0 if limits.is_two_sided and limits.width > 0.0 else 0.03 * size_mm
    return Limits(size_mm, max(size_mm - reach, 0.5 * size_mm), size_mm + reach, True)


def _idea(situation: Situation, size: FinishedSize) -> Idea:
    targets = tuple(
        NewTarget(step.number, size.dimension, _around(size.expected_mm, step.targets[size.dimension]))
        for step in situation.steps_ahead()
        if size.zone in step.zones
        and size.dimension in step.targets
        and reshapes(step, size.zone)
        and _cannot_reach(situation, step.number, size)
    )
    aimed = "the steps ahead are aimed at it" if targets else "nothing ahead is aimed at it any more"
    return Idea(
        about=f"{size.zone}.{size.dimension}",
        title=say("Accept the {}", _sized(size)),
        changes=say("{} {} what the drawing allows; {}.", mm(size.off_mm), size.state.value, aimed),
        amendment=Amendment(
            limits=(NewLimits(size.zone, size.dimension, _around(size.expected_mm, size.limits)),),
            targets=targets,
        ),
        price_mm=size.off_mm,
        outside=True,
    )


def _cannot_reach(situation: Situation, number: int, size: FinishedSize) -> bool:
    stage = situation.plan.by_step[number].get(size.zone)
    if stage is None:
        return False
    target = situation.plan.recipe.steps[number - 1].targets[size.dimension]
    return stage.is_past(size.dimension, size.expected_mm, target.nominal)
