"""Metal was lost on the way: what was typed of it, and how the job stands with that much less."""

from __future__ import annotations

import re
from typing import NamedTuple

from coach.bench.by_hand import ByHand
from coach.bench.entering import EntryFault
from coach.bench.job_state import JobState
from coach.bench.standing import Standing
from coach.bench.stood import Stood
from coach.forms import listed
from coach.ledger.lost import Loss, Lost, loss_of
from coach.log.kinds.metal_lost import CAUSES, MetalLost
from coach.operations.measures import MEASURED
from coach.quantities import NOTHING, Figure, Kind, SizeError, Words, say
from coach.quantities.errors import did_you_mean
from coach.quantities.units import System
from coach.recipe.one_bar import cut_off_in, is_handle, lies_behind

#: Nothing so small is worth an entry (our choice), mm or g.
_LEAST = 0.05

#: What stands between the two sizes of a corner.
_BY = re.compile(r"\s*[x×*]\s*", re.IGNORECASE)

#: What goes off an end by this; what is ground away may be gone anywhere.
_OFF_THE_END = ("burnt", "cut wrong")


class LossAsked(NamedTuple):
    """A loss as it was typed."""

    zone: str
    amount: str  # a length of its end, a weight, or a corner: "corner 12 x 8", along the end and the side
    cause: str = CAUSES[0]
    at_start: bool = False  # of a zone with two free ends: the one that the bar's marks begin at


class HowMuch(NamedTuple):
    """How much is lost."""

    much: Figure  # a length, or a weight
    along_side: Figure | None = None  # of a corner, of which the length is that along the end


class MetalGone(NamedTuple):
    """What is lost, and what that does to the job."""

    zone: str
    cause: str
    lost: Figure  # a length of its end, or a weight; of a corner how far along the end
    mass: Figure  # of the metal that is gone
    left: Words  # what is left of the zone
    before: Stood
    after: Stood
    along_side: Figure | None = None  # of a corner: how far along the side; else None
    by_hand: tuple[ByHand, ...] = ()  # what is to be done for what is told after it to come true

    @property
    def words(self) -> Words:
        """What is lost."""
        return _title(self.zone, HowMuch(self.lost, self.along_side), self.cause)


class FailedTest(NamedTuple):
    """What a test of the shop would do to the job if it failed."""

    zone: str
    test: str
    then: str  # what is to be done after a failure
    before: Stood
    after: Stood


def losing(state: JobState, asked: LossAsked, system: System) -> tuple[MetalLost, Loss, HowMuch]:
    """The entry of a loss, what it changes, and how much it is; raises EntryFault and LedgerError."""
    lost, much = _lost(state, asked, system)
    cause, now = _cause(asked.cause), state.now
    if now is None:
        raise EntryFault("The job cannot be reckoned any further as it is: put that right first.")
    loss = loss_of(state.plan, state.course(), now, lost)
    step = state.step.number if state.step is not None else 0
    along_end_mm, along_side_mm = lost.corner_mm or (None, None)
    body = MetalLost(
        title=_title(lost.zone, much, cause),
        changes=say("{} less: {}.", loss.mass, loss.left),
        step=step,
        amendment=loss.amendment,
        zone=lost.zone,
        cause=cause,
        corner_end_mm=along_end_mm,
        corner_side_mm=along_side_mm,
    )
    return body, loss, much


def metal_gone(body: MetalLost, loss: Loss, lost: HowMuch, now: Standing, then: Standing) -> MetalGone:
    """What is lost, with how the job stands now and `then`, once it is entered."""
    stood, (much, side) = (Stood.of(now), Stood.of(then)), lost
    gone = MetalGone(body.zone, body.cause, much, loss.mass, loss.left, *stood, along_side=side)
    return gone._replace(by_hand=tuple(one for one in then.by_hand if one not in now.by_hand))


def _title(zone: str, lost: HowMuch, cause: str) -> Words:
    if lost.along_side is not None:
        told, (much, side) = "a corner of the {}, {} along its end and {} along the side, {}", lost
        return say(told, zone, much, side or NOTHING, cause)
    where = "the end of the {}" if lost.much.kind is Kind.LENGTH else "the {}"
    return say(f"{{}} of {where}, {{}}", lost.much, zone, cause)


def _lost(state: JobState, asked: LossAsked, system: System) -> tuple[Lost, HowMuch]:
    zones = state.plan.recipe.drawing
    zone = asked.zone.strip().replace("_", " ")
    if zone not in zones:
        there = f"the zones of this job are {listed(zones)}."
        raise EntryFault("There is no zone {}: {}", f"{zone[:30]!r}", did_you_mean(zone, zones, there))
    if (corner := _corner(zone, asked.amount.strip(), system)) is not None:
        _check_end_is_free(state, zone)
        assert corner.along_side is not None
        both = corner.much.value, corner.along_side.value
        return Lost(zone, at_start=asked.at_start, corner_mm=both), corner
    much = _how_much(zone, asked.amount.strip(), system)
    if much.value < _LEAST:
        raise EntryFault("Next to nothing is lost so: type how much, such as 12 mm or 30 g.")
    if much.kind is Kind.LENGTH or _cause(asked.cause) in _OFF_THE_END:
        _check_end_is_free(state, zone)
    if much.kind is Kind.MASS:
        return Lost(zone, mass_g=much.value, off_end=_cause(asked.cause) in _OFF_THE_END), HowMuch(much)
    return Lost(zone, length_mm=much.value, at_start=asked.at_start), HowMuch(much)


def _check_end_is_free(state: JobState, zone: str) -> None:
    """Raise EntryFault where an end is none yet: on its own bar still, or behind another piece on it."""
    recipe, step = state.plan.recipe, state.step
    if step is None:
        return
    piece = recipe.piece_of(zone)
    own_cut = cut_off_in(recipe, piece.name)
    is_its_end = zone == piece.zones[-1] != piece.zones[0]
    if is_its_end and own_cut is not None and own_cut > step.number and is_handle(recipe, piece.name):
        at_once = (
            "end this step: that one is next"
            if own_cut == step.number + 1
            else f"do that step next (`next {own_cut}`)"
        )
        raise EntryFault(
            f"The {{}} hangs on its bar until step {{}} cuts it off, so it has no end that can be lost. "
            f"Where it came off there, {at_once}, and read in it how long the {{}} is.",
            *(zone, own_cut, zone),
        )
    inside = lies_behind(recipe, piece.name, step.number)
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


def _corner(zone: str, typed: str, system: System) -> HowMuch | None:
    """A corner that is gone, as a triangle; None where it is none that was typed."""
    word, _, rest = typed.partition(" ")
    if word.lower() != "corner":
        return None
    read = MEASURED[Kind.LENGTH].read
    try:
        along_end, along_side = (Figure(read(one, system), Kind.LENGTH) for one in _BY.split(rest.strip()))
    except (SizeError, ValueError):
        raise EntryFault(
            "How big the corner of the {} is, {} does not say: type how far along the end and how far along "
            "the side, such as corner 12 x 8.",
            *(zone, f"{typed[:30]!r}"),
        ) from None
    return HowMuch(along_end, along_side)


def _how_much(zone: str, typed: str, system: System) -> Figure:
    for kind in (Kind.LENGTH, Kind.MASS):
        try:
            return Figure(MEASURED[kind].read(typed, system), kind)
        except SizeError:
            continue
    raise EntryFault(
        "What is lost of the {} is no length of its end and no weight: {}; 12 mm or 30 g was expected, or "
        "of a corner how far along end and side: corner 12 x 8.",
        *(zone, f"{typed[:30]!r}"),
    )


def _cause(typed: str) -> str:
    cause = " ".join(typed.lower().replace("-", " ").split())
    found = [one for one in CAUSES if one.startswith(cause)] if cause else []
    if len(found) != 1:
        raise EntryFault("What took it? One of {} was expected, not {}.", listed(CAUSES), f"{typed[:30]!r}")
    return found[0]
