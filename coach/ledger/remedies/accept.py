"""Accept it: a size that cannot be brought back is taken as it is, and what follows is aimed at it."""

from __future__ import annotations

from typing import ClassVar

from coach.ledger.amendment import Amendment, NewLimits, NewTarget
from coach.ledger.remedies.base import Idea, Remedy, Situation, label
from coach.ledger.verdict import SizeState
from coach.ledger.working import reshapes
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities import Limits


class Accept(Remedy):
    """The drawing gives way to the metal, for one size."""

    NAME: ClassVar[str] = "accept"

    def ideas(self, situation: Situation) -> list[Idea]:
        """One idea for every finished size that no step ahead puts right, and one for several of a zone.

        A drift that went too far has widened both mouths: neither alone would be a way out.
        """
        stuck = situation.stuck()
        alone = {(size.zone, size.dimension): _idea(situation, size) for size in stuck}
        zones = dict.fromkeys(size.zone for size in stuck)
        together = [
            _together(zone, [alone[size.zone, size.dimension] for size in stuck if size.zone == zone])
            for zone in zones
            if sum(size.zone == zone for size in stuck) > 1
        ]
        return [*alone.values(), *together]


def _together(zone: str, ideas: list[Idea]) -> Idea:
    titles = [idea.title.removeprefix("Accept the ") for idea in ideas]
    return Idea(
        about=f"{zone} as it is",
        title=f"Accept the {', the '.join(titles[:-1])} and the {titles[-1]}",
        changes=" ".join(f"{title}: {idea.changes}" for title, idea in zip(titles, ideas, strict=True)),
        amendment=Amendment(
            limits=tuple(new for idea in ideas for new in idea.amendment.limits),
            targets=tuple(new for idea in ideas for new in idea.amendment.targets),
        ),
        price_mm=sum(idea.price_mm for idea in ideas),
        outside=True,
    )


def _around(size_mm: float, limits: Limits) -> Limits:
    reach = limits.width / 2.0 if limits.is_two_sided and limits.width > 0.0 else 0.03 * size_mm
    return Limits(size_mm, max(size_mm - reach, 0.5 * size_mm), size_mm + reach, True)


def _idea(situation: Situation, size: FinishedSize) -> Idea:
    off = (
        size.limits.low - size.expected_mm
        if size.state is SizeState.UNDER
        else size.expected_mm - size.limits.high
    )
    targets = tuple(
        NewTarget(step.number, size.dimension, _around(size.expected_mm, step.targets[size.dimension]))
        for step in situation.steps_ahead()
        if size.zone in step.zones
        and size.dimension in step.targets
        and reshapes(step, size.zone)
        and _cannot_reach(situation, step.number, size)
    )
    name = label(size.zone, size.dimension)
    way = "under" if size.state is SizeState.UNDER else "over"
    return Idea(
        about=f"{size.zone}.{size.dimension}",
        title=f"Accept the {name} at {situation.size(size.expected_mm)}",
        changes=(
            f"{situation.size(off)} {way} what the drawing allows; "
            f"{'the steps ahead are' if targets else 'nothing ahead is'} aimed at it"
            f"{'' if targets else ' any more'}."
        ),
        amendment=Amendment(
            limits=(NewLimits(size.zone, size.dimension, _around(size.expected_mm, size.limits)),),
            targets=targets,
        ),
        price_mm=off,
        outside=True,
    )


def _cannot_reach(situation: Situation, number: int, size: FinishedSize) -> bool:
    stage = situation.plan.by_step[number].get(size.zone)
    if stage is None:
        return False
    target = situation.plan.recipe.steps[number - 1].targets[size.dimension]
    return stage.is_past(size.dimension, size.expected_mm, target.nominal)
