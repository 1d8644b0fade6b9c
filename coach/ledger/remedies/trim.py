"""Too much metal: where a take-up dimension comes out over its limit, cut it, or leave it bigger."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot

from coach.forms import Form
from coach.ledger.amendment import Amendment, Moved, NewLimits, NewTarget, Regained, TakenBack
from coach.ledger.lost import between_mm
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.remedies.take_back import end_cautions
from coach.ledger.verdict import SizeState
from coach.ledger.working import reshapes
from coach.ledger.workpiece import Workpiece
from coach.ledger.zone_forecast import FinishedSize
from coach.operations import operation
from coach.quantities import NOTHING, Limits, aimed, as_words, mm, run_on, say

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
    if not situation.wrong_marks:  # those are made anew: left longer, the zone would move all behind it
        yield _left(situation, size, left, bigger)
    state = situation.now.zones[size.zone]
    if size.dimension != "length" or not state.has_form or not any(state.bare_ends):
        return
    worn_only = all(operation(step.operation).FIXES for step in situation.steps_that_shape(size))
    is_bent = situation.is_bent(size.zone)
    # A step in which nothing was done yet has made nothing of it.
    untouched = situation.course is not None and not situation.course.is_begun
    there = situation.start if untouched else situation.left(size) if worn_only else situation.now
    form, at_finish = there.form(size.zone), state.bare_ends[1]
    length_mm = form.size_mm("length")
    doubt_mm = hypot(size.expected.doubt or 0.0, _CUT_DOUBT_SHARE * size.off.value)
    surely_mm = max(aim_mm, limits.high - _SURELY * doubt_mm)
    if worn_only:
        drawn = situation.plan.recipe.drawing[size.zone].limits
        # As they come out in the end: the scale of the heats ahead comes off what is there.
        ends = {one.dimension: one.expected.value for one in situation.found.zones[size.zone].sizes}
        to_come = {name: ends[name] - one_mm for name, one_mm in form.sizes_mm().items() if name in ends}
        nominal, sure = (
            all(
                one.size_mm + to_come.get(one.dimension, 0.0) <= drawn[one.dimension].high
                for one in _ends_at(
                    there, size.zone, (expected_mm - to_mm) / length_mm, from_finish=at_finish
                )
                if one.dimension in drawn
            )
            for to_mm in (aim_mm, surely_mm)
        )
        if (sure and not nominal) or situation.is_hard_at(size.zone) or is_bent or len(state.parts) > 1:
            aim_mm = surely_mm  # each millimetre costs: no more than brings it inside for sure
    over = expected_mm - aim_mm
    regained: tuple[Regained, ...] = ()
    if worn_only:
        # What is cut off is what it is too long, and the end is then as thick as it is there.
        end, other = form.end_area_mm2("finish"), form.end_area_mm2("start")
        if not at_finish:
            end, other = other, end
        share = over / length_mm
        off_mm, volume = over, over * (end + 0.5 * (other - end) * share)
        regained = (
            *_ends_at(there, size.zone, share, from_finish=at_finish),
            Regained(size.zone, "length", aim_mm, _CUT_DOUBT_SHARE * over),
        )
    else:
        # Of what is taken now the fire, the saw and the stone would have taken their share until then.
        left_share = situation.found.zones[size.zone].volume.value / there.volume_mm3(size.zone)
        volume = over * situation.slope_mm3_mm(size.zone, "length") / min(left_share, 1.0)
        off_mm = _length_of(form, volume, from_finish=at_finish)
        if not untouched:
            regained = tuple(_cut_under_way(there, size.zone, off_mm, from_finish=at_finish))
    if off_mm > _MOST_CUT_SHARE * length_mm:
        return
    how = "Grind" if situation.is_hard_at(size.zone) else "Cut"
    told_mm = left_mm - aim_mm if worn_only else off_mm  # from the size as it is told
    cut = Idea(
        about=f"cut.{size.name}",
        title=say("{} {} off the {}'s end now", how, mm(told_mm), size.zone),
        changes=say("The {} then comes out at {:aim}.", size.label, aimed(aim_mm, size.wanted.limits)),
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
    yield cut.after_measuring(situation.unread([size]))


def _left(situation: Situation, size: FinishedSize, left: FinishedSize, bigger: Limits) -> Idea:
    return Idea(
        about=f"leave.{size.name}",
        title=say("Leave the {} at {:aim}", size.label, aimed(left.expected.value, bigger)),
        changes=say("{:hair} over what the drawing allows; nothing is cut.", mm(left.off.value)),
        amendment=Amendment(
            limits=(NewLimits(size.zone, size.dimension, bigger),),
            targets=tuple(_aimed_at_it(situation, size, left.expected.value)),
        ),
        price_mm=left.off.value,
        gives=say("{:hair} {}", mm(left.off.value), left.state.value),
        outside=True,
    )


def _aimed_at_it(situation: Situation, size: FinishedSize, left_mm: float) -> Iterator[NewTarget]:
    """The steps from here on that ask for less of what is left: none works it back."""
    for step in situation.steps_ahead():
        limits = step.targets.get(size.dimension)
        if limits is None or not reshapes(step, size.zone) or operation(step.operation).FIXES:
            continue
        if limits.nominal < left_mm:
            yield NewTarget(
                step.number,
                size.dimension,
                Limits(left_mm, limits.low, left_mm + (limits.high - limits.nominal), True),
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


def _ends_at(now: Workpiece, zone: str, share: float, *, from_finish: bool) -> Iterator[Regained]:
    """The section where a taper is cut, at a share of its length from that end, as it is known there."""
    sizes = now.form(zone).sizes_mm()
    for name in sizes:
        far = f"end_{name}"
        if far in sizes:
            cut, kept = (far, name) if from_finish else (name, far)
            size_mm = sizes[cut] + (sizes[kept] - sizes[cut]) * share
            yield Regained(zone, cut, size_mm, between_mm(now, zone, cut, size_mm, share))


def _cut_under_way(now: Workpiece, zone: str, off_mm: float, *, from_finish: bool) -> Iterator[Regained]:
    """What a cut leaves of an end that is forged further: its section there, and its length."""
    length_mm = now.form(zone).size_mm("length")
    for one in _ends_at(now, zone, off_mm / length_mm, from_finish=from_finish):
        yield one._replace(under_way=True)
    doubt_mm = hypot(_CUT_DOUBT_SHARE * off_mm, now.size(zone, "length").doubt)
    yield Regained(zone, "length", length_mm - off_mm, doubt_mm, under_way=True)
