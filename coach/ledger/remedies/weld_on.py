"""Weld on more: a piece of the same metal is welded to the end that is short."""

from __future__ import annotations

from typing import ClassVar

from coach.ledger.amendment import Amendment, Moved
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness, lacking_mm3
from coach.ledger.working import density_g_mm3, face_loss_mm
from coach.operations.does import HeatKind
from coach.quantities import as_words, grams, say

_HEATS = 3
_DOUBT_SHARE = 0.1


class WeldOn(Remedy):
    """It brings metal back, and a weld line where none was drawn."""

    NAME: ClassVar[str] = "weld on more"
    SOUNDNESS: ClassVar[Soundness] = Soundness.DOUBTFUL

    def ideas(self, situation: Situation) -> list[Idea]:
        """One idea for every short zone that is being forged; before that more bar is the way."""
        return [
            self._on(situation, zone.zone, lacking_mm3(situation, zone, spare))
            for zone, spare in situation.short()
            if situation.now.zones[zone.zone].laid_on is None and situation.is_begun(zone.zone)
        ]

    @staticmethod
    def _on(situation: Situation, zone: str, lacking: float) -> Idea:
        recipe = situation.plan.recipe
        drawing = recipe.drawing[zone]
        need = 1.1 * lacking
        surface = situation.now.form(zone).side_surface_mm2()
        scale = _HEATS * face_loss_mm(recipe.scale, HeatKind.WELDING) * surface
        piece = recipe.pieces[drawing.piece]
        density = density_g_mm3(piece.metal)
        return Idea(
            about=zone,
            title=say("Weld {} more {} on the {}", grams((need + scale) * density), piece.metal, zone),
            changes=say(
                "Scarfed on where it will not be seen to work; {} welding heats scale {} of it away again.",
                _HEATS,
                grams(scale * density),
            ),
            amendment=Amendment(moved=(Moved(zone, need, _DOUBT_SHARE * need),)),
            heats=_HEATS,
            caution=as_words(
                "a weld line across the zone: bend-test a trial piece, and etch to look for the line"
            ),
        )
