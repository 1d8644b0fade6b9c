"""Weld on more steel: a plate of the same steel is welded over what was lost of a face."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import WELDING_HEATS, Amendment, Moved
from coach.ledger.plan import finished_form
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.remedies.welding_heats import welding_heats
from coach.ledger.working import density_g_mm3, face_loss_mm
from coach.metals.grade import grade
from coach.operations.does import HeatKind
from coach.quantities import as_words, grams, mm, say

#: How far its metal is in doubt, as a share (judgement).
_DOUBT_SHARE = 0.1
#: So much more than lacks is welded on, for its weld is dressed (judgement), mm.
_MORE_MM = 0.5


class WeldOnSteel(Remedy):
    """It brings the steel back, before anything is hard."""

    NAME = "weld on steel"
    SOUNDNESS = Soundness.DOUBTFUL

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every plate of which too little will be left, while its zone may still be welded."""
        if situation.is_hard:
            return  # welding heats would undo the quench
        recipe = situation.plan.recipe
        for short in situation.short_steels:
            metal = recipe.piece_of(short.steel).metal
            if situation.now.zones[short.steel].within is None:
                continue  # it is not welded there yet
            if short.dimension != "thickness" or grade(metal).welding_high_c is None:
                continue
            form = finished_form(recipe, short.steel)
            area_mm2 = form.volume_mm3() / form.size_mm("thickness")
            scale_mm = WELDING_HEATS * face_loss_mm(recipe.scale, HeatKind.WELDING)
            lacking_mm = short.remains.value - short.left.value + _MORE_MM
            heats, paid_mm = welding_heats(situation, short.zone)
            gained_mm3 = (lacking_mm + paid_mm) * area_mm2
            density = density_g_mm3(metal)
            yield Idea(
                about=short.steel,
                title=say(
                    "Weld {} more {} over the {}",
                    grams((lacking_mm + scale_mm) * area_mm2 * density),
                    metal,
                    short.steel,
                ),
                changes=say(
                    "A plate {} thick, as long and as wide as the {}; {} welding heats scale {} of it away "
                    "again.",
                    *(mm(lacking_mm + scale_mm), short.steel, WELDING_HEATS, mm(scale_mm)),
                ),
                amendment=Amendment(
                    heats=heats, moved=(Moved(short.steel, gained_mm3, _DOUBT_SHARE * gained_mm3),)
                ),
                heats=WELDING_HEATS,
                caution=as_words(
                    "a second weld line under the face: no more heat than that steel bears, and ring it after"
                ),
            )
