"""Cut and weld: what a zone is too long is cut out of it, and its ends are scarfed and welded."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import Amendment, Moved, Regained
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.working import face_loss_mm
from coach.ledger.zone_forecast import FinishedSize
from coach.metals.grade import grade
from coach.operations.does import HeatKind
from coach.quantities import as_words, mm, say

#: Heats of a scarf weld (judgement).
_HEATS = 3
#: How well the length comes out, as a share of what is cut out (judgement).
_DOUBT_SHARE = 0.1
#: A scarf that is thinner than this burns before it welds, mm (common practice, no source).
_LEAST_THICKNESS_MM = 7.0
#: No more than this share of a zone is cut out of it (judgement).
_MOST_SHARE = 0.5
#: What is cut out with less than this is lost in the weld itself, mm (judgement).
_LEAST_CUT_MM = 1.0


class CutAndWeld(Remedy):
    """It takes the length out of the middle, where no end is free, and leaves a weld line there."""

    NAME = "cut and weld"
    SOUNDNESS = Soundness.DOUBTFUL

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every zone between two others that stays too long and is no thin work."""
        if situation.course is None:
            return
        for size in situation.stays_too_long():
            if not any(situation.now.zones[size.zone].bare_ends) and not situation.is_ground(size.zone):
                yield from _cut_out(situation, size)


def _cut_out(situation: Situation, size: FinishedSize) -> Iterator[Idea]:
    zone, form = size.zone, situation.left(size).form(size.zone)
    if any(grade(metal).welding_high_c is None for metal in situation.plan.recipe.piece_of(zone).shares):
        return  # nobody says how hot it is welded
    section = [one for name, one in form.sizes_mm().items() if name != "length"]
    if min(section) < _LEAST_THICKNESS_MM or any("hole" in name for name in form.sizes_mm()):
        return
    length_mm, aim_mm = size.expected.value, size.wanted.limits.nominal
    over_mm = length_mm - aim_mm
    area_mm2 = form.section(0.5 * form.length_mm).area_mm2
    scale_mm3 = (
        _HEATS
        * face_loss_mm(situation.plan.recipe.scale, HeatKind.WELDING)
        * (form.side_surface_mm2() * min(1.0, 3.0 * min(section) / length_mm))
    )
    cut_mm = over_mm - scale_mm3 / area_mm2
    if cut_mm < _LEAST_CUT_MM or over_mm > _MOST_SHARE * length_mm:
        return
    gone_mm3 = over_mm * area_mm2
    idea = Idea(
        about=zone,
        title=say("Cut {} out of the {} and weld it", mm(cut_mm), zone),
        changes=say(
            "Both ends are upset, scarfed and welded, and dressed to the section again; the length then "
            "comes out at {}.",
            mm(aim_mm),
        ),
        amendment=Amendment(
            moved=(Moved(zone, -gone_mm3, _DOUBT_SHARE * gone_mm3),),
            regained=(Regained(zone, "length", aim_mm, _DOUBT_SHARE * over_mm),),
        ),
        heats=_HEATS,
        price_mm=over_mm,
        caution=as_words(
            "a weld line across the zone, where it may carry: bend-test a trial piece, and etch to look for "
            "the line"
        ),
    )
    yield idea.after_measuring(situation.unread([size]))
