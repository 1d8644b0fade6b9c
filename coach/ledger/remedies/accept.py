"""Accept it: a size that cannot be brought back is taken as it is, and what follows is aimed at it."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import Amendment, NewLimits, NewTarget
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.verdict import SizeState
from coach.ledger.working import reshapes
from coach.ledger.zone_forecast import FinishedSize
from coach.quantities import NOTHING, Limits, Wanted, Words, as_words, mm, run_on, say

#: Smaller or bigger by more than this it is no longer the tool that was drawn (common practice, no source).
LEAST_SHARE, MOST_SHARE = 0.6, 1.7


class Accept(Remedy):
    """The drawing gives way to the metal, for one size."""

    NAME = "accept"

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every finished size that no step ahead puts right, and one for several of a zone.

        A drift that went too far has widened both mouths: neither alone would be a way back.
        """
        by_zone: dict[str, list[tuple[Words, Idea]]] = {}
        for size in situation.stuck():
            if not LEAST_SHARE <= size.expected.value / size.wanted.limits.nominal <= MOST_SHARE:
                continue
            limits = _around(size.expected.value, size.wanted.limits)
            sized = say("{} at {:aim}", size.label, Wanted(limits))
            idea = _idea(situation, size, sized)
            by_zone.setdefault(size.zone, []).append((sized, idea))
            yield idea
        for zone, found in by_zone.items():
            if len(found) > 1:
                yield _together(situation, zone, found)


def _together(situation: Situation, zone: str, found: list[tuple[Words, Idea]]) -> Idea:
    ideas = [idea for _, idea in found]
    *others, last = [sized for sized, _ in found]
    return Idea(
        about=f"{zone} as it is",
        title=say("Accept the {} and the {}", run_on(others, ", the "), last),
        changes=run_on(say("{}: {}", sized, idea.changes) for sized, idea in found),
        amendment=Amendment(
            limits=tuple(new for idea in ideas for new in idea.amendment.limits),
            targets=tuple(new for idea in ideas for new in idea.amendment.targets),
        ),
        price_mm=sum(idea.price_mm for idea in ideas),
        gives=run_on((idea.gives for idea in ideas), " and "),
        caution=_narrows(situation, zone),
        outside=True,
    )


def _of_eye(size: FinishedSize) -> Words:
    """What a haft then asks for."""
    if "hole" not in size.dimension:
        return NOTHING
    if size.state is SizeState.OVER:
        return as_words(
            "a haft for the drawing is loose in it, and a loose head flies off: it needs a thicker one"
        )
    return as_words("the haft is shaved down to it")


def _narrows(situation: Situation, zone: str) -> Words:
    """Said of an eye that was to widen towards its far mouth, for the wedge, and does not any more."""
    sizes = {size.dimension: size for size in situation.found.zones[zone].sizes}
    for name, near in sizes.items():
        far = sizes.get(f"far_{name}")
        if far is None or far.wanted.limits.nominal <= near.wanted.limits.nominal:
            continue
        if far.expected.value <= near.expected.value:
            return as_words(
                "the eye no longer widens towards its far mouth, and the haft cannot be wedged to stay: open "
                "the far mouth on the drift before anything else"
            )
    return NOTHING


def _around(size_mm: float, limits: Limits) -> Limits:
    # Where there is no width to go by, as far as hand work of that size strays (judgement).
    reach = limits.width / 2.0 if limits.is_two_sided and limits.width > 0.0 else 0.03 * size_mm
    return Limits(size_mm, max(size_mm - reach, 0.5 * size_mm), size_mm + reach, True)


def _longer(situation: Situation, size: FinishedSize) -> list[FinishedSize]:
    """The sizes of the zone that run over because this one is too small: they are accepted with it."""
    if size.state is not SizeState.UNDER or "hole" in size.dimension:
        return []
    return [
        one for one in situation.found.zones[size.zone].sizes if one.take_up and one.state is SizeState.OVER
    ]


def _up_to(size: FinishedSize) -> Limits:
    """The limits of a size with what it is expected to be in them, by its doubt, and nothing above that."""
    expected_mm, doubt_mm = size.expected.value, size.expected.doubt or 0.0
    return Limits(expected_mm, size.wanted.limits.low, expected_mm + 2.0 * doubt_mm, True)


def _idea(situation: Situation, size: FinishedSize, sized: Words) -> Idea:
    targets = tuple(
        NewTarget(step.number, size.dimension, _around(size.expected.value, target))
        for step in situation.steps_ahead()
        if reshapes(step, size.zone)
        and (target := step.targets.get(size.dimension)) is not None
        and (stage := situation.plan.by_step[step.number].get(size.zone)) is not None
        and stage.is_past(size.dimension, size.expected.value, target.nominal)
    )
    longer = _longer(situation, size)
    # What a step works to goes with what the drawing asks for: else the bench would still call it out.
    let_go = tuple(
        NewTarget(step.number, one.dimension, _up_to(one))
        for one in longer
        for step in situation.steps_ahead()
        if size.zone in step.zones
        and (target := step.targets.get(one.dimension)) is not None
        and target.high < one.expected.value
    )
    runs = (
        run_on(
            say(
                "; the {} then comes out at {} in the end, {:hair} over the drawing, and is let go too",
                one.label,
                mm(one.expected.value),
                mm(one.off.value),
            )
            for one in longer
        )
        if longer
        else NOTHING
    )
    aimed = "the steps ahead are aimed at it" if targets else "nothing ahead is aimed at it any more"
    return Idea(
        about=size.name,
        title=say("Accept the {}", sized),
        changes=say(
            "{:hair} {} what the drawing allows; {}{}.", mm(size.off.value), size.state.value, aimed, runs
        ),
        amendment=Amendment(
            limits=(
                NewLimits(size.zone, size.dimension, _around(size.expected.value, size.wanted.limits)),
                *(NewLimits(one.zone, one.dimension, _up_to(one)) for one in longer),
            ),
            targets=(*targets, *let_go),
        ),
        price_mm=size.off.value + sum(one.off.value for one in longer),
        gives=run_on(
            (say("{:hair} {}", mm(one.off.value), one.state.value) for one in (size, *longer)), " and "
        ),
        caution=run_on(filter(None, (_of_eye(size), _narrows(situation, size.zone))), "; "),
        outside=True,
    )
