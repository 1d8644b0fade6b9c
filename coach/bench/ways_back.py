"""The ways back open to a job as it stands, and how one is entered."""

from __future__ import annotations

import re
from collections.abc import Sequence

from coach.bench.against_metal import against_metal
from coach.bench.begun_with import known_in
from coach.bench.entering import EntryFault
from coach.bench.hard_left import steels_left
from coach.bench.job_state import JobState
from coach.bench.off_bar import left_of_bars
from coach.bench.off_rack import another_bar
from coach.bench.outlook import outlook
from coach.bench.own_tempers import own_curves_of
from coach.bench.rack import RackOfShop
from coach.bench.replay import after
from coach.bench.righting import burnt_zones, failed_tests, left_wrong, wrong_marks
from coach.bench.settled import settled_sizes
from coach.bench.skin import short_skins
from coach.bench.standing import Standing, read_now, standing_of
from coach.ledger.amendment import REMAINS
from coach.ledger.forecast import Forecast
from coach.ledger.remedies import AtRisk, Idea, Offer, Situation, Stands, offers, zones_wrong
from coach.ledger.verdict import ON_PLAN_CHANCE, PlanState, Reason, SizeState
from coach.ledger.zone_forecast import FinishedSize
from coach.log.entries import Entry
from coach.log.kinds.way_back import WayBackTaken
from coach.quantities.words import Words, say

#: A size that is less sure than this to be inside in the end is told with a way back (judgement).
_SURE_ENOUGH = 0.85
#: A chance that is lower by less than this is not seen to be (our choice).
_SEEN = 0.005


def _undecided(standing: Standing) -> frozenset[tuple[str, str]]:
    """The sizes that only follow from others that do not agree, where the verdict asks for one of them."""
    reason = standing.reason
    if not isinstance(reason, Reason) or not reason.measure:
        return frozenset()
    unread = {(one.zone, one.dimension) for one in standing.sizes if not one.measured}
    own = {(reason.zone, reason.dimension)} if not reason.is_read else set[tuple[str, str]]()
    return frozenset(own | {size for size in unread if size[0] == reason.zone})


def offers_of(
    state: JobState, standing: Standing, entries: Sequence[Entry], rack: RackOfShop | None
) -> tuple[Offer, ...]:
    """Every way back, the best first; none when the reckoning has stopped or nothing is wrong.

    Each is told by how the job would stand if it were taken, for the forecast alone knows neither a size that
    is settled, nor a skin, nor a test that failed. `state` and `standing` are what follows from the entries.
    """
    course, rights = state.course(), standing.to_right
    found = state.forecast()
    if found is None or state.start is None:
        return ()
    situation = Situation(
        plan=state.plan,
        start=state.start,
        course=course,
        found=_as_told(found, standing),
        verdict=standing.verdict,
        chance=standing.chance,
        heats_so_far=state.heats_total,
        failed=failed_tests(state, rights),
        own=own_curves_of(state),
        read_in=tuple((one.step, one.outcomes) for one in state.courses()),
        wrong_marks=wrong_marks(state),
        burnt=burnt_zones(state, rights),
        left_wrong=left_wrong(state, rights),
        short_steels=tuple(one for one in steels_left(state) if one.is_short),
        short_skins=short_skins(state),
        unmeasured=_undecided(standing),
        told={size.name: size for size in standing.sizes},
        left_over=left_of_bars(state),
        another_bar=lambda name, length_mm: another_bar(rack, state.plan.recipe.pieces[name], length_mm),
    )

    def if_taken(idea: Idea) -> Stands | None:
        if idea.again:
            anew = outlook(state.first_plan, known_in(state.counted.values()))
            return Stands(anew.chance, anew.verdict, anew.reason, frozenset())
        body = way_back(idea.about, idea, state)
        entry = entries[-1]._replace(number=entries[-1].number + 1, body=body)
        taken = after(state, entry)
        then = standing_of([*entries, entry], taken)
        cannot = then.trouble or entry.number in {left.entry for left in then.left_out}
        cannot = cannot or taken.forecast() is None  # a step ahead cannot make what is then asked of it
        # Nobody gives up what the drawing asks for while the job is on plan, unless that betters it; and
        # nobody at all for less than there was.
        least = standing.chance - (_SEEN if standing.verdict is not PlanState.ON_PLAN else 0.0)
        betters = then.chance > least
        cannot = cannot or (idea.outside and not betters)
        return None if cannot else _stands(taken, then)

    # On the ground of what contradicts the metal nothing is offered: it is measured again.
    against = {zone for zone, _ in against_metal(state, read_now(state))}
    found_ways = offers(situation, _stands(state, standing), if_taken)
    return tuple(
        one
        for one in found_ways
        if not against or not (one.idea.again or one.idea.about.split(".")[0] in against)
    )


def _as_told(found: Forecast, standing: Standing) -> Forecast:
    """How the rest is expected to go, with the sizes as they are told: those that were read, as they were."""
    told = {size.name: size for size in standing.sizes}
    zones = {
        name: zone._replace(sizes=tuple(_rather(size, told.get(size.name, size)) for size in zone.sizes))
        for name, zone in found.zones.items()
    }
    return found._replace(zones=zones)


def _rather(expected: FinishedSize, told: FinishedSize) -> FinishedSize:
    """What is cut off an end goes by the metal; whatever else is offered, by the size as it is told."""
    return told if told.state is not expected.state or not expected.take_up else expected


def _stands(state: JobState, standing: Standing) -> Stands:
    found = state.forecast()
    counted = settled_sizes(state, standing.sizes, read_now(state))
    sizes = [(size.chance, size) for size in standing.sizes if size.dimension != REMAINS]
    if standing.step is not None:
        sizes = [(one.chance, one.size) for one in counted]
    wrong = {size.zone for chance, size in sizes if chance < ON_PLAN_CHANCE}
    wrong |= zones_wrong(found) if found is not None else set()
    refused = {(one.zone, one.dimension) for one in standing.sizes if one.state is not SizeState.GOOD}
    short = frozenset(one.steel for one in steels_left(state) if one.is_short)
    called = standing.chance, standing.verdict, standing.reason
    return Stands(*called, frozenset(wrong), frozenset(refused), _at_risk(standing), short)


def _at_risk(standing: Standing) -> tuple[str, AtRisk] | None:
    """The size that is the least sure to be inside in the end, with its zone; None where all of them are."""
    least = standing.will_pass.least if standing.will_pass is not None else None
    size = next((one for one in standing.sizes if least is not None and one.name == least.name), None)
    if least is None or size is None or least.chance >= _SURE_ENOUGH:
        return None
    return size.zone, AtRisk(size.name, size.label, size.expected, size.wanted, least.chance)


def offer_named(offers: Sequence[Offer], name: str) -> Offer:
    """The offer of that name, or the one whose name begins so and no other's does; raises EntryFault."""
    typed = "-".join(re.findall(r"[^\W_]+", name.lower()))
    found = [offer for offer in offers if offer.way.name == typed]
    if not found and typed:
        found = [offer for offer in offers if offer.way.name.startswith(typed)]
    if len(found) == 1:
        return found[0]
    if not offers:
        raise EntryFault(f"There is no way back {name[:40]!r}: nothing is wrong that one is known for.")
    listed = found or list(offers)
    meant = "More than one way back begins with" if found else "There is no way back"
    there = f"there {'are' if len(listed) > 1 else 'is'} {', '.join(offer.way.name for offer in listed)}"
    raise EntryFault(f"{meant} {name[:40]!r}; {there}.")


def way_back(name: str, idea: Idea, state: JobState) -> WayBackTaken:
    """The entry of a way back that is taken as a job stands."""
    step = state.step.number if state.step is not None else 0
    return WayBackTaken(
        name=name,
        title=idea.title,
        changes=idea.changes,
        caution=idea.caution,
        step=step,
        amendment=idea.amendment,
    )


def taken_told(offer: Offer, state: JobState) -> Words:
    """That a way back is taken; of one that makes the piece in hand anew, that its step ends as it is."""
    anew = {one.zone for one in offer.idea.amendment.cut_anew}
    in_hand = state.step is not None and anew >= {*state.step.zones} and not state.step.again
    told = say("{}: taken", offer.way.title)
    return say("{}. Nothing more is done or measured in the step in hand: end it", told) if in_hand else told


def cut_off_rack(rack: RackOfShop | None, idea: Idea, job: str, entry: int) -> None:
    """Take off a bar of the rack what a way back of a job takes of it, by its entry."""
    if rack is not None and idea.off_rack:
        rack.cut_anew(idea.off_rack, sum(one.length_mm for one in idea.amendment.off_bar), job, entry)
