"""The remedies open to a job as it stands, and how one is entered."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.bench.standing import RemedyView
from coach.ledger.amendment import frozen

if TYPE_CHECKING:
    from coach.bench.replay import JobState
    from coach.ledger.remedies import Offer
    from coach.quantities import Shown


def offers_of(state: JobState, shown: Shown) -> tuple[Offer, ...]:
    """Every remedy, the best first; none when the reckoning has stopped or nothing is wrong."""
    from coach.ledger.remedies import Situation, offers

    course = state.course()
    found = state.forecast(course, shown)
    if found is None or state.start is None:
        return ()
    step = state.step
    return offers(
        Situation(
            plan=state.plan,
            start=state.start,
            course=course,
            marks=tuple(state.marks),
            found=found,
            next_step=step.number if step is not None else len(state.plan.recipe.steps) + 1,
            heats_so_far=state.heats_total,
            shown=shown,
        )
    )


def remedy_view(offer: Offer) -> RemedyView:
    """An offer as both ways in show it."""
    return RemedyView(
        name=offer.name,
        title=offer.title,
        changes=offer.changes,
        heats=offer.heats,
        price=offer.price_mm,
        sound=offer.sound,
        caution=offer.caution,
        chance=offer.chance,
        verdict=offer.standing.value,
        reason=offer.reason,
        again=offer.again,
    )


def body_of(offer: Offer, step: int) -> dict[str, object]:
    """What the entry of a remedy holds."""
    return {
        "name": offer.name,
        "title": offer.title,
        "changes": offer.changes,
        "step": step,
        "amendment": frozen(offer.amendment),
    }
