"""Metal was lost on the way: what was typed of it, and how the job stands with that much less."""

from __future__ import annotations

from typing import NamedTuple

from coach.bench.entering import EntryFault
from coach.bench.job_state import JobState
from coach.bench.standing import Standing
from coach.bench.stood import Stood
from coach.forms import listed
from coach.ledger.lost import Loss, Lost, loss_of
from coach.log.kinds.metal_lost import CAUSES, MetalLost
from coach.operations.measures import MEASURED
from coach.quantities import Figure, Kind, SizeError, Words, say
from coach.quantities.errors import did_you_mean
from coach.quantities.units import System
from coach.recipe.one_bar import lies_behind

#: Nothing so small is worth an entry (our choice), mm or g.
_LEAST = 0.05

#: What goes off an end by this; what is ground away may be gone anywhere.
_OFF_THE_END = ("burnt", "cut wrong")


class LossAsked(NamedTuple):
    """A loss as it was typed."""

    zone: str
    amount: str  # a length of its end, or a weight
    cause: str = CAUSES[0]
    at_start: bool = False  # of a zone with two free ends: the one that the bar's marks begin at


class MetalGone(NamedTuple):
    """What is lost, and what that does to the job."""

    zone: str
    cause: str
    lost: Figure  # a length of its end, or a weight
    mass: Figure  # of the metal that is gone
    left: Words  # what is left of the zone
    before: Stood
    after: Stood

    @property
    def words(self) -> Words:
        """What is lost."""
        return _title(self.zone, self.lost, self.cause)


class FailedTest(NamedTuple):
    """What a test of the shop would do to the job if it failed."""

    zone: str
    test: str
    then: str  # what is to be done after a failure
    before: Stood
    after: Stood


def losing(state: JobState, asked: LossAsked, system: System) -> tuple[MetalLost, Loss, Figure]:
    """The entry of a loss, what it changes, and how much it is; raises EntryFault and LedgerError."""
    lost, much = _lost(state, asked, system)
    cause, now = _cause(asked.cause), state.now
    if now is None:
        raise EntryFault("The job cannot be reckoned any further as it is: put that right first.")
    loss = loss_of(state.plan, state.course(), now, lost)
    step = state.step.number if state.step is not None else 0
    body = MetalLost(
        title=_title(lost.zone, much, cause),
        changes=say("{} less: {}.", loss.mass, loss.left),
        step=step,
        amendment=loss.amendment,
        zone=lost.zone,
        cause=cause,
    )
    return body, loss, much


def metal_gone(body: MetalLost, loss: Loss, much: Figure, now: Standing, then: Standing) -> MetalGone:
    """What is lost, with how the job stands now and `then`, once it is entered."""
    return MetalGone(body.zone, body.cause, much, loss.mass, loss.left, Stood.of(now), Stood.of(then))


def _title(zone: str, much: Figure, cause: str) -> Words:
    where = "the end of the {}" if much.kind is Kind.LENGTH else "the {}"
    return say(f"{{}} of {where}, {{}}", much, zone, cause)


def _lost(state: JobState, asked: LossAsked, system: System) -> tuple[Lost, Figure]:
    zones = state.plan.recipe.drawing
    zone = asked.zone.strip().replace("_", " ")
    if zone not in zones:
        there = f"the zones of this job are {listed(zones)}."
        raise EntryFault("There is no zone {}: {}", f"{zone[:30]!r}", did_you_mean(zone, zones, there))
    much = _how_much(zone, asked.amount.strip(), system)
    if much.value < _LEAST:
        raise EntryFault("Next to nothing is lost so: type how much, such as 12 mm or 30 g.")
    if much.kind is Kind.LENGTH or _cause(asked.cause) in _OFF_THE_END:
        _check_end_is_free(state, zone)
    if much.kind is Kind.MASS:
        return Lost(zone, mass_g=much.value, off_end=_cause(asked.cause) in _OFF_THE_END), much
    return Lost(zone, length_mm=much.value, at_start=asked.at_start), much


def _check_end_is_free(state: JobState, zone: str) -> None:
    """Raise EntryFault where a zone's piece still lies inside its bar, behind one that is to be cut off."""
    recipe, step = state.plan.recipe, state.step
    if step is None:
        return
    inside = lies_behind(recipe, recipe.piece_of(zone).name, step.number)
    if inside is None:
        return
    first, cut_in = inside
    while (further := lies_behind(recipe, first, step.number)) is not None:
        first = further[0]
    raise EntryFault(
        "The {} lies inside the bar until step {} cuts {} off, so it has no end that can be lost: the end of "
        "the bar is the {} now.",
        *(zone, cut_in, inside[0], recipe.pieces[first].zones[0]),
    )


def _how_much(zone: str, typed: str, system: System) -> Figure:
    for kind in (Kind.LENGTH, Kind.MASS):
        try:
            return Figure(MEASURED[kind].read(typed, system), kind)
        except SizeError:
            continue
    raise EntryFault(
        "What is lost of the {} is no length of its end and no weight: {}; 12 mm or 30 g was expected.",
        *(zone, f"{typed[:30]!r}"),
    )


def _cause(typed: str) -> str:
    cause = " ".join(typed.lower().replace("-", " ").split())
    found = [one for one in CAUSES if one.startswith(cause)] if cause else []
    if len(found) != 1:
        raise EntryFault("What took it? One of {} was expected, not {}.", listed(CAUSES), f"{typed[:30]!r}")
    return found[0]
