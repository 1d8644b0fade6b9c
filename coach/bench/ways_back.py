"""The remedies open to a job as it stands, and how one is entered."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from coach.bench.entering import EntryFault
from coach.bench.righting import failed_tests
from coach.bench.skin_view import short_skins
from coach.bench.standing import RemedyView, RightView
from coach.ledger.amendment import frozen
from coach.telling.reasons import reason_text
from coach.telling.words import write

if TYPE_CHECKING:
    from coach.bench.replay import JobState
    from coach.ledger.remedies import Offer
    from coach.quantities import Shown


def offers_of(state: JobState, rights: Sequence[RightView]) -> tuple[Offer, ...]:
    """Every remedy, the best first; none when the reckoning has stopped or nothing is wrong."""
    from coach.ledger.remedies import Situation, offers

    course = state.course()
    found = state.forecast(course)
    if found is None or state.start is None:
        return ()
    step = state.step
    return offers(
        Situation(
            plan=state.plan,
            first_plan=state.first_plan,
            start=state.start,
            course=course,
            marks=tuple(state.marks),
            found=found,
            next_step=step.number if step is not None else len(state.plan.recipe.steps) + 1,
            heats_so_far=state.heats_total,
            failed=failed_tests(state, course, rights),
            short_skins=short_skins(state, found),
        )
    )


def offer_named(offers: Sequence[Offer], name: str) -> Offer:
    """The offer of that name, or the one whose name begins so and no other's does; raises EntryFault."""
    typed = "-".join(re.findall(r"[^\W_]+", name.lower()))
    found = [offer for offer in offers if offer.name == typed]
    if not found and typed:
        found = [offer for offer in offers if offer.name.startswith(typed)]
    if len(found) == 1:
        return found[0]
    if not offers:
        raise EntryFault(f"There is no remedy {name[:40]!r}: nothing is wrong that a way out is known of.")
    listed = found or list(offers)
    meant = "More than one remedy begins with" if found else "There is no remedy"
    there = f"there {'are' if len(listed) > 1 else 'is'} {', '.join(offer.name for offer in listed)}"
    raise EntryFault(f"{meant} {name[:40]!r}; {there}.")


def remedy_view(offer: Offer, shown: Shown) -> RemedyView:
    """An offer as both ways in show it."""
    return RemedyView(
        name=offer.name,
        title=write(offer.title, shown),
        changes=write(offer.changes, shown),
        heats=offer.heats,
        price=offer.price.value,
        sound=offer.soundness.value,
        caution=write(offer.caution, shown),
        chance=offer.chance,
        verdict=offer.state.value,
        reason=reason_text(offer.reason, shown),
        again=offer.again,
    )


def body_of(offer: Offer, step: int, shown: Shown) -> dict[str, object]:
    """What the entry of a remedy holds."""
    return {
        "name": offer.name,
        "title": write(offer.title, shown),
        "changes": write(offer.changes, shown),
        "step": step,
        "amendment": frozen(offer.amendment),
    }
