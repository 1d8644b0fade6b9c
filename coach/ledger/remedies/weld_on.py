"""Weld on more: a piece of the same metal is welded to the end that is short."""

from __future__ import annotations

from collections.abc import Iterator

from coach.ledger.amendment import WELDING_HEATS, Amendment, Moved
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.remedies.welding_heats import welding_heats
from coach.ledger.steel_at_end import shortened_steels
from coach.ledger.working import density_g_mm3, face_loss_mm
from coach.operations.does import HeatKind
from coach.quantities import as_words, grams, say

#: How far the metal of a weld is in doubt, as a share (judgement).
_DOUBT_SHARE = 0.1


class WeldOn(Remedy):
    """It brings metal back, and a weld line where none was drawn."""

    NAME = "weld on more"
    SOUNDNESS = Soundness.DOUBTFUL

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every short zone that is being forged; before that more bar is the way."""
        if situation.is_hard:
            return  # welding heats would undo the quench
        recipe, now = situation.plan.recipe, situation.now
        for short, lacking in situation.short():
            zone = short.zone
            if not now.zones[zone].has_form or not situation.is_begun(zone):
                continue
            if shortened_steels(situation.plan, now, zone):
                continue  # the steel reaches that end: more iron beyond it would be an edge of iron
            need = 1.1 * lacking  # a tenth is lost at the weld (judgement)
            surface = now.form(zone).side_surface_mm2()
            scale = WELDING_HEATS * face_loss_mm(recipe.scale, HeatKind.WELDING) * surface
            metal = recipe.piece_of(zone).metal
            density = density_g_mm3(metal)
            mass = grams((need + scale) * density, 0.5 * _DOUBT_SHARE * (need + scale) * density)
            heats, paid_mm = welding_heats(situation, zone)
            yield Idea(
                about=zone,
                title=say("Weld {} more {} on the {}", mass, metal, zone),
                changes=say(
                    "Scarfed on where it will not be seen to work; {} welding heats scale {} of it away "
                    "again.",
                    WELDING_HEATS,
                    grams(scale * density),
                ),
                amendment=Amendment(
                    moved=(Moved(zone, need + paid_mm * surface, _DOUBT_SHARE * need),), heats=heats
                ),
                heats=WELDING_HEATS,
                caution=as_words(
                    "a weld line across the zone: bend-test a trial piece, and etch to look for the line"
                ),
            )
