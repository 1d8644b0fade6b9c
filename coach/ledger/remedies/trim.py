"""Too much metal: where a take-up dimension comes out over its limit, cut it, or leave it bigger."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot

from coach.forms import Form
from coach.ledger.amendment import Amendment, Moved, NewLimits, Regained, TakenBack
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.remedies.take_back import end_cautions
from coach.ledger.verdict import SizeState
from coach.ledger.working import reshapes
from coach.ledger.zone_forecast import FinishedSize
from coach.operations import operation
from coach.quantities import NOTHING, Limits, as_words, mm, run_on, say

#: How well the section is known where a taper is cut, as a share of it (common practice, no source).
_CUT_SHARE = 0.02
#: How well a cut takes off what it should, as a share of that (common practice, no source).
_CUT_DOUBT_SHARE = 0.1
#: So many standard uncertainties inside a limit 97.7 % are inside (normal distribution) (computed).
_SURELY = 2.0
#: No more than this share of a zone is cut off to be rid of metal: beyond, it is another zone (judgement).
_MOST_CUT_SHARE = 0.5
#: Slices that a zone's end is looked at in (our choice).
_SLICES = 50


_BEND_GOES = as_words("the end is bent: what is cut off is part of the curl or of the bend")


class Trim(Remedy):
    """Good news, once it is known where to put it."""

    NAME = "too much metal"
    HELPS = False

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """Two ideas for every take-up dimension expected over its limit: cut it back, or let it be."""
        # A zone is longer for a section that came out too small: what would bring that back is no surplus.
        spent = {size.zone for size in situation.stuck() if size.state is SizeState.UNDER}
        for zone in situation.found.zones.values():
            if zone.zone in spent:
                continue
            for size in zone.sizes:
                if size.take_up and size.state is SizeState.OVER:
                    yield from _ideas(situation, size)


def _ideas(situation: Situation, size: FinishedSize) -> Iterator[Idea]:
    limits, expected_mm = size.wanted.limits, size.expected.value
    aim_mm = limits.nominal
    left = situation.told.get(size.name, size)
    left = left if left.state is SizeState.OVER else size
    left_mm = left.expected.value
    bigger = Limits(left_mm, limits.low, left_mm + (limits.high - limits.nominal), True)
    yield Idea(
        about=f"leave.{size.name}",
        title=say("Leave the {} at {}", size.label, mm(left_mm)),
        changes=say("{} over what the drawing allows; nothing is cut.", mm(left.off.value)),
        amendment=Amendment(limits=(NewLimits(size.zone, size.dimension, bigger),)),
        price_mm=left.off.value,
        gives=say("{} {}", mm(left.off.value), left.state.value),
        outside=True,
    )
    state = situation.now.zones[size.zone]
    if size.dimension != "length" or state.laid_on is not None or not any(state.bare_ends):
        return
    worn_only = not any(
        reshapes(step, size.zone) and not operation(step.operation).FIXES for step in situation.steps_ahead()
    )
    is_bent = situation.is_bent(size.zone)
    if worn_only and (situation.is_hard or is_bent or len(state.parts) > 1):
        # Each millimetre costs: no more than brings it inside for sure.
        doubt_mm = hypot(size.expected.doubt or 0.0, _CUT_DOUBT_SHARE * size.off.value)
        aim_mm = max(aim_mm, limits.high - _SURELY * doubt_mm)
    over = expected_mm - aim_mm
    volume = over * situation.slope_mm3_mm(size.zone, "length")
    form = situation.now.form(size.zone)
    end, other = form.end_area_mm2("finish"), form.end_area_mm2("start")
    if not state.bare_ends[1]:
        end, other = other, end
    off_mm = _length_of(form, volume, from_finish=state.bare_ends[1])
    if off_mm > _MOST_CUT_SHARE * form.size_mm("length"):
        return
    regained: tuple[Regained, ...] = ()
    if worn_only:
        # What is cut off is what it is too long, and the end is then as thick as it is there.
        share = over / form.size_mm("length")
        off_mm, volume = over, over * (end + 0.5 * (other - end) * share)
        regained = tuple(_ends_at(form, size.zone, share, from_finish=state.bare_ends[1]))
    how = "Grind" if situation.is_hard else "Cut"
    yield Idea(
        about=f"cut.{size.name}",
        title=say("{} {} off the {}'s end now", how, mm(off_mm), size.zone),
        changes=say("The {} then comes out at {}.", size.label, mm(aim_mm)),
        amendment=Amendment(
            moved=(Moved(size.zone, -volume, _CUT_DOUBT_SHARE * volume),),
            regained=regained,
            taken_back=(TakenBack(size.zone, off_mm),) if len(state.parts) > 1 else (),
        ),
        caution=run_on(
            filter(None, (end_cautions(situation, size.zone, off_mm), _BEND_GOES if is_bent else NOTHING)),
            "; ",
        ),
    )


def _length_of(form: Form, volume_mm3: float, *, from_finish: bool) -> float:
    """How much of its end holds a volume, mm, by slices that are straight between; or all of it."""
    length_mm = form.length_mm
    step_mm, left_mm3 = length_mm / _SLICES, volume_mm3
    at = [length_mm - n * step_mm if from_finish else n * step_mm for n in range(_SLICES + 1)]
    areas = [form.section(place).area_mm2 for place in at]
    for number, (one, other) in enumerate(pairwise(areas)):
        held_mm3 = 0.5 * (one + other) * step_mm
        if held_mm3 >= left_mm3:
            return (number + left_mm3 / held_mm3) * step_mm
        left_mm3 -= held_mm3
    return length_mm


def _ends_at(form: Form, zone: str, share: float, *, from_finish: bool) -> Iterator[Regained]:
    """The section where a taper is cut, at a share of its length from that end."""
    sizes = form.sizes_mm()
    for name in sizes:
        far = f"end_{name}"
        if far in sizes:
            cut, kept = (far, name) if from_finish else (name, far)
            size_mm = sizes[cut] + (sizes[kept] - sizes[cut]) * share
            yield Regained(zone, cut, size_mm, _CUT_SHARE * size_mm)
