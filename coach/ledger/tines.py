"""The two tines of a bar that was split: they are one bar, so either tells the other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import hypot
from typing import Final

from coach.ledger.cheeks import in_the_room_there_is
from coach.ledger.course import Outcome
from coach.ledger.nominal import Stage
from coach.ledger.reading import QUESTIONED_BEYOND, ColdReading, Reading, cold_reading
from coach.ledger.workpiece import Workpiece
from coach.operations import Does
from coach.operations.measures import OTHER_TINE, TINE
from coach.operations.shape import Shape
from coach.quantities import NOTHING, Words, mm, say
from coach.recipe.model import Step

_BOTH: Final = "both tines are of a bar of {}, and with the other one it makes {}"
_FORK: Final = "fork"
#: What two tines may lack of the bar besides its scale, or have over it where the chisel drew them, as a
#: share of its width: standard uncertainty (judgement).
_DRAWN_SHARE = 0.015


def splits_alike(shape: Shape, step: Step, zone: str) -> bool:
    """Whether a step splits a zone, of this shape by then, into two tines that are to be alike."""
    return shape.kind == _FORK and step.does(Does.PARTS) and zone in step.zones


def _is_tine(now: Workpiece, step: Step, reading: Reading) -> bool:
    state = now.zones.get(reading.zone)
    is_one = reading.dimension in (TINE, OTHER_TINE) and state is not None and state.has_form
    return is_one and splits_alike(now.zones[reading.zone].shape, step, reading.zone)


def beside_the_middle_mm(now: Workpiece, step: Step, reading: Reading) -> float:
    """How much less one tine tells of both: it may be anything up to the bar, and the other one the rest, mm.

    Both together are as wide as the bar was, which is known.
    """
    return 2.0 * now.size(reading.zone, TINE).value if _is_tine(now, step, reading) else 0.0


def of_one_bar(
    start: Workpiece,
    now: Workpiece,
    step: Step,
    stages: Mapping[str, Stage],
    outcomes: Sequence[Outcome],
) -> list[Outcome]:
    """The readings of a step in the order they were typed: cheeks and tines held against their bar.

    What does not make up the bar with the other tine is questioned; the same reading twice stands, and so
    does one that was insisted on.
    """
    found: list[Outcome] = []
    for at, one in enumerate(in_the_room_there_is(start, now, step, stages, outcomes)):
        reading = one.mark.reading
        if not (one.counts and _is_tine(now, step, reading)):
            found.append(one)
            continue
        # The two are read one after the other: the second is held against the first, and no older one is.
        again = other_tine_read(reading, outcomes[at + 1 :]) is not None
        other = None if again else other_tine_read(reading, found)
        against = _against(start, reading, other)
        stands = one.mark.insisted or any(
            before.against and before.mark.reading[:3] == reading[:3] for before in found if before.questioned
        )
        doubted = one._replace(questioned=True, judged=None, against=against)
        found.append(doubted if against and not stands else one)
    return [_beside_the_other(now, step, one, found) for one in found]


def other_tine_read(reading: Reading, outcomes: Iterable[Outcome]) -> ColdReading | None:
    """The other tine as it was read last, and counts; None where it was not."""
    name = OTHER_TINE if reading.dimension == TINE else TINE
    others = [one for one in outcomes if one.counts and one.mark.reading[:2] == (reading.zone, name)]
    return cold_reading(others[-1].mark.reading) if others else None


def _beside_the_other(now: Workpiece, step: Step, one: Outcome, outcomes: Sequence[Outcome]) -> Outcome:
    if not (one.counts and _is_tine(now, step, one.mark.reading)):
        return one
    other = other_tine_read(one.mark.reading, outcomes)
    return one._replace(other_mm=other.size_mm) if other is not None else one


def _against(start: Workpiece, reading: Reading, other: ColdReading | None) -> Words:
    """What speaks against a tine: the bar that was split, and the other tine where that was read."""
    cold, wide_mm = cold_reading(reading), _wide_mm(start, reading.zone)
    both_mm = cold.size_mm + (other.size_mm if other is not None else 0.0)
    doubt_mm = hypot(cold.doubt_mm, other.doubt_mm if other is not None else 0.0, _DRAWN_SHARE * wide_mm)
    if both_mm - wide_mm > QUESTIONED_BEYOND * doubt_mm:
        if other is None:
            return say("the bar that was split is {} wide", mm(wide_mm))
        return say(_BOTH, mm(wide_mm), mm(both_mm))
    if other is None or wide_mm - both_mm <= QUESTIONED_BEYOND * doubt_mm:
        return NOTHING
    return say(_BOTH, mm(wide_mm), mm(both_mm))


def _wide_mm(start: Workpiece, zone: str) -> float:
    wide = [point[0] for point in start.form(zone).section(0.0).outline]
    return max(wide) - min(wide)
