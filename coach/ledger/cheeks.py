"""The two cheeks of an eye: with the hole between them they are the bar across it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import hypot
from typing import NamedTuple

from coach.forms import label
from coach.forms.eyed import Eyed
from coach.ledger.course import Outcome
from coach.ledger.nominal import Stage
from coach.ledger.possible import bound_passed
from coach.ledger.reading import (
    QUESTIONED_BEYOND,
    ColdReading,
    Reading,
    bear_each_other_out,
    cold_reading,
)
from coach.ledger.verdict import judge
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import Estimate, Workpiece, size_name
from coach.operations import Does
from coach.operations.gauges import GAUGES
from coach.operations.measures import ALIKE, MEASURED, with_margin
from coach.quantities import COVERAGE, NOTHING, Kind, Limits, Words, mm, say
from coach.recipe.model import Step

#: A cheek is measured anywhere between the mouths of its hole: of what is spread evenly over a width the
#: standard deviation is 1/√12 of that (JCGM 100:2008 §4.3.7, from memory).
_EVEN_SHARE = 12.0**-0.5
_HOLE = "hole_width"
_UNREAD = (
    "with a hole of {} both cheeks make {} across, and {}, which was not measured, is held to be {}: read "
    "that, it decides"
)
_BY_DRIFT = (
    "with a hole of {}, as the drift makes it, both cheeks make {} across, and {} is held to be {}: read "
    "that and the hole, they decide"
)
_TOO_NARROW = (
    "with a hole of {} both cheeks make {} across, and this step cannot make that less than {}: "
    "read {}, it decides"
)
_TOO_WIDE = _TOO_NARROW.replace("less", "more")
_MARGIN = MEASURED[Kind.LENGTH].margin


class Cheeks(NamedTuple):
    """What is left of the bar across an eye for its two cheeks."""

    room: Estimate  # both together, mm
    across_mm: float
    hole_mm: float
    across: str = ""  # what is across it: `width`, or `thickness`
    by_drift: bool = False  # whether the hole is as wide as its drift, and was not measured

    @property
    def is_known(self) -> bool:
        """Whether there is so much room for both, as surely as the two are to be alike."""
        return COVERAGE * 0.5 * self.room.doubt <= self.each.high - self.each.nominal

    @property
    def each(self) -> Limits:
        """What is wanted of either: half of it, within the margin of a bare size."""
        half_mm = 0.5 * self.room.value
        return with_margin(Limits(half_mm, half_mm, half_mm, stated=False), _MARGIN)

    def other_of(self, cold: ColdReading) -> Estimate:
        """What the other cheek then is, mm."""
        return Estimate(self.room.value - cold.size_mm, hypot(self.room.doubt, cold.doubt_mm), {})


def cheeks_of(now: Workpiece, zone: str) -> Cheeks | None:
    """What the width across an eye and its hole, as believed, leave for the cheeks.

    None where there is no eye, or the two are known less well than the cheeks are to be alike.
    """
    found = left_for_cheeks(now, zone)
    return found if found is not None and found.is_known else None


def across_of(form: Eyed) -> str:
    """The size of an eye across its hole: that of the hole and both cheeks."""
    return "width" if form.through == "thickness" else "thickness"


def even_mm(form: Eyed) -> float:
    """How surely a cheek is measured at the middle of a hole that flares: its standard uncertainty, mm."""
    return _EVEN_SHARE * abs(form.far_hole_width_mm - form.hole_width_mm)


def left_for_cheeks(now: Workpiece, zone: str) -> Cheeks | None:
    """What is left of the bar for the cheeks, however well that is known; None where there is no eye."""
    state = now.zones.get(zone)
    if state is None or not state.has_form:
        return None
    try:
        form = now.form(zone)
    except LedgerError:
        return None
    if not isinstance(form, Eyed):
        return None
    across = now.size(zone, across_of(form), form)
    mouths = [now.size(zone, _HOLE, form)]
    if even_mm(form) and "far_hole_width" in state.shape.own_dimensions:
        mouths.append(now.size(zone, "far_hole_width", form))
    less_hole = now.summed(mouths, -1.0 / len(mouths))
    room = now.summed([across, less_hole])
    room = room._replace(doubt=hypot(room.doubt, even_mm(form)))
    return Cheeks(room, across.value, -less_hole.value, across_of(form)) if room.value > 0.0 else None


def in_the_room_there_is(
    start: Workpiece,
    now: Workpiece,
    step: Step,
    stages: Mapping[str, Stage],
    outcomes: Sequence[Outcome],
) -> list[Outcome]:
    """The readings of a step in the order they were typed, each cheek held against width and hole.

    What leaves no room for the other cheek is questioned, and so are both where they do not make up the
    width: nothing says which of them is wrong, least of all the order they were typed in. The same reading
    twice stands, and so does one that was insisted on. Else each is to be half of what there is.
    """
    holed = {one.mark.reading.zone for one in outcomes if one.counts and one.mark.reading.dimension == _HOLE}
    drifted = {*step.zones} if _HOLE in step.targets and not step.does(Does.PUNCHES) else set[str]()
    rooms = {zone: left_for_cheeks(now, zone) for zone in {one.mark.reading.zone for one in _read(outcomes)}}
    # What is known less well speaks against cheeks only where their hole was read too, or a drift makes it.
    by_drift = drifted - holed  # as wide as the drift is, which goes through it
    rooms = {
        zone: one._replace(by_drift=zone in by_drift)
        if one and (one.is_known or zone in holed | by_drift)
        else None
        for zone, one in rooms.items()
    }
    found = [_unless_it_stands(one, _too_thick(rooms, one), outcomes) for one in outcomes]
    for zone, cheeks in rooms.items():
        pair = {one.mark.reading.dimension: one for one in _read(found) if one.mark.reading.zone == zone}
        if cheeks is None or len(pair) < len(ALIKE):
            continue
        against = _against_both(cheeks, [cold_reading(one.mark.reading) for one in pair.values()], zone)
        stage, believed = stages.get(zone), believed_of(outcomes)
        against = against or _too_narrow(cheeks, start, now, stage, [*pair.values()], believed)
        entries = {one.mark.entry for one in pair.values()}
        found = [
            _unless_it_stands(one, against, outcomes) if one.mark.entry in entries else one for one in found
        ]
    return [_judged(step, rooms.get(one.mark.reading.zone), one, found) for one in found]


def _unless_it_stands(outcome: Outcome, against: Words, outcomes: Sequence[Outcome]) -> Outcome:
    """A cheek questioned for what speaks against it, unless it was insisted on, or read alike twice."""
    if not against or outcome.mark.insisted:
        return outcome
    reading = outcome.mark.reading
    alike = (one for one in _read(outcomes) if one.mark.reading[:2] == reading[:2])
    own = cold_reading(reading)
    near = [one for one in alike if bear_each_other_out(cold_reading(one.mark.reading), own, odd=True)]
    if len(near) > 1:
        return outcome
    return outcome._replace(questioned=True, judged=None, against=against)


def believed_of(outcomes: Iterable[Outcome]) -> dict[str, float]:
    """The sizes that were read in a step and count, in mm, by name; what was weighed or tried is no size."""
    read = (one.mark.reading for one in outcomes if one.counts)
    sizes = (one for one in read if one.then is not None or one.gauge in GAUGES)
    return {size_name(*one[:2]): cold_reading(one).size_mm for one in sizes}


def _read(outcomes: Iterable[Outcome]) -> list[Outcome]:
    """The cheeks among the readings of a step that count."""
    apart = (one for one in outcomes if one.counts and one.surprise is None)
    return [one for one in apart if one.mark.reading.dimension in ALIKE]


def other_read(zone: str, dimension: str, outcomes: Iterable[Outcome]) -> ColdReading | None:
    """The other cheek as it was read last, and counts; None where it was not."""
    others = [one for one in _read(outcomes) if one.mark.reading[:2] == (zone, ALIKE[dimension])]
    return cold_reading(others[-1].mark.reading) if others else None


def _too_thick(rooms: Mapping[str, Cheeks | None], outcome: Outcome) -> Words:
    """What speaks against a cheek by itself: that width and hole leave less for both; else nothing."""
    cheeks = rooms.get(outcome.mark.reading.zone) if _read([outcome]) else None
    if cheeks is None:
        return NOTHING
    cold = cold_reading(outcome.mark.reading)
    if cold.size_mm - cheeks.room.value <= QUESTIONED_BEYOND * hypot(cold.doubt_mm, cheeks.room.doubt):
        return NOTHING
    across, hole, room = mm(cheeks.across_mm), mm(cheeks.hole_mm), mm(cheeks.room.value)
    return say("a hole of {} leaves {} of the {} across it for both cheeks", hole, room, across)


def _against_both(cheeks: Cheeks, colds: Sequence[ColdReading], zone: str) -> Words:
    """What speaks against both cheeks: that with the hole they do not make up the width; else nothing."""
    across, hole, room = mm(cheeks.across_mm), mm(cheeks.hole_mm), mm(cheeks.room.value)
    both_mm = sum(cold.size_mm for cold in colds)
    reach_mm = QUESTIONED_BEYOND * hypot(cheeks.room.doubt, *(cold.doubt_mm for cold in colds))
    if abs(both_mm - cheeks.room.value) <= reach_mm:
        return NOTHING
    if not cheeks.is_known:  # nobody measured it, so that is not blamed on either
        told = _BY_DRIFT if cheeks.by_drift else _UNREAD
        return say(told, hole, mm(cheeks.hole_mm + both_mm), label(zone, cheeks.across), across)
    told = "a hole of {} leaves {} of the {} across it for both cheeks, and with the other cheek it makes {}"
    return say(told, hole, room, across, mm(both_mm))


def _too_narrow(
    cheeks: Cheeks,
    start: Workpiece,
    now: Workpiece,
    stage: Stage | None,
    pair: Sequence[Outcome],
    believed: Mapping[str, float],
) -> Words:
    """What speaks against both cheeks, unmeasured across: that no work of the step can leave that."""
    first = pair[0].mark.reading
    if cheeks.is_known or size_name(first.zone, cheeks.across) in believed:
        return NOTHING
    colds = [cold_reading(one.mark.reading) for one in pair]
    made_mm = cheeks.hole_mm + sum(cold.size_mm for cold in colds)
    across = Reading(first.zone, cheeks.across, made_mm, first.gauge, then=first.then)
    # Read with one gauge: what it is out by is in each of them.
    made = ColdReading(
        made_mm, hypot(*(cold.chance_mm for cold in colds)), sum(cold.bias_mm for cold in colds)
    )
    bound = bound_passed(start, now, stage, across, made, believed)
    if bound is None:
        return NOTHING
    told = _TOO_NARROW if bound.is_least else _TOO_WIDE
    return say(told, mm(cheeks.hole_mm), mm(made_mm), mm(bound.size_mm), label(first.zone, cheeks.across))


def _judged(step: Step, cheeks: Cheeks | None, outcome: Outcome, outcomes: Sequence[Outcome]) -> Outcome:
    """A cheek against half of the room there is; by the two of them alone where they were stood by."""
    reading = outcome.mark.reading
    if not _read([outcome]):
        return outcome
    other = other_read(reading.zone, reading.dimension, outcomes)
    outcome = outcome._replace(other_mm=other.size_mm if other is not None else None)
    if (
        cheeks is None
        or not cheeks.is_known
        or reading.dimension in step.targets
        or _too_thick({reading.zone: cheeks}, outcome)
        or (other is not None and _against_both(cheeks, [cold_reading(reading), other], reading.zone))
    ):
        return outcome
    cold = cold_reading(reading)
    doubt_mm = hypot(cold.doubt_mm, 0.5 * cheeks.room.doubt)
    return outcome._replace(judged=judge(cold.size_mm, doubt_mm, cheeks.each, grows=None), limits=cheeks.each)
