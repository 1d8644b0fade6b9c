"""The two cheeks of an eye: with the hole between them they are the bar across it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import hypot
from typing import NamedTuple

from coach.forms import label
from coach.forms.eyed import Eyed
from coach.ledger.course import Outcome
from coach.ledger.reading import QUESTIONED_BEYOND, ColdReading, Reading, cold_reading
from coach.ledger.verdict import judge
from coach.ledger.working import LedgerError
from coach.ledger.workpiece import Estimate, Workpiece
from coach.operations import Does
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


def in_the_room_there_is(now: Workpiece, step: Step, outcomes: Sequence[Outcome]) -> list[Outcome]:
    """The readings of a step in the order they were typed, each cheek held against width and hole.

    What leaves no room for the other cheek, or does not make up the width with it, is questioned; the same
    reading twice stands, and so does one that was insisted on. Else each is to be half of what there is.
    """
    found: list[Outcome] = []
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
    for at, outcome in enumerate(outcomes):
        reading = outcome.mark.reading
        cheeks = rooms.get(reading.zone) if _read([outcome]) else None
        # The two are read one after the other: the second is held against the first, and no older one is.
        again = cheeks is not None and other_read(reading.zone, reading.dimension, outcomes[at + 1 :])
        against = _against(cheeks, reading, [] if again else found) if cheeks is not None else NOTHING
        stands = outcome.mark.insisted or any(
            one.against and one.mark.reading[:3] == reading[:3] for one in found if one.questioned
        )
        doubted = outcome._replace(questioned=True, judged=None, against=against)
        found.append(doubted if against and not stands else outcome)
    return [_judged(step, rooms.get(one.mark.reading.zone), one, found) for one in found]


def _read(outcomes: Iterable[Outcome]) -> list[Outcome]:
    """The cheeks among the readings of a step that count."""
    apart = (one for one in outcomes if one.counts and one.surprise is None)
    return [one for one in apart if one.mark.reading.dimension in ALIKE]


def other_read(zone: str, dimension: str, outcomes: Iterable[Outcome]) -> ColdReading | None:
    """The other cheek as it was read last, and counts; None where it was not."""
    others = [one for one in _read(outcomes) if one.mark.reading[:2] == (zone, ALIKE[dimension])]
    return cold_reading(others[-1].mark.reading) if others else None


def _against(cheeks: Cheeks, reading: Reading, earlier: Iterable[Outcome]) -> Words:
    """What speaks against a cheek: the width and the hole, and the other cheek; nothing where it can be."""
    cold, other = cold_reading(reading), other_read(reading.zone, reading.dimension, earlier)
    across, hole, room = mm(cheeks.across_mm), mm(cheeks.hole_mm), mm(cheeks.room.value)
    reach = QUESTIONED_BEYOND * hypot(cold.doubt_mm, cheeks.room.doubt)
    if other is None:
        if cold.size_mm - cheeks.room.value <= reach:
            return NOTHING
        return say("a hole of {} leaves {} of the {} across it for both cheeks", hole, room, across)
    both_mm = cold.size_mm + other.size_mm
    if abs(both_mm - cheeks.room.value) <= hypot(reach, QUESTIONED_BEYOND * other.doubt_mm):
        return NOTHING
    if not cheeks.is_known:  # nobody measured it, so that is not blamed on either
        unread, there = label(reading.zone, cheeks.across), mm(cheeks.across_mm)
        made = mm(cheeks.hole_mm + both_mm)
        return say(_BY_DRIFT if cheeks.by_drift else _UNREAD, hole, made, unread, there)
    told = "a hole of {} leaves {} of the {} across it for both cheeks, and with the other cheek it makes {}"
    return say(told, hole, room, across, mm(both_mm))


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
        or _against(cheeks, reading, outcomes)
    ):
        return outcome
    cold = cold_reading(reading)
    doubt_mm = hypot(cold.doubt_mm, 0.5 * cheeks.room.doubt)
    return outcome._replace(judged=judge(cold.size_mm, doubt_mm, cheeks.each, grows=None), limits=cheeks.each)
