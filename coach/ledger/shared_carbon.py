"""What the layers of a welded stack have shared of their carbon, and which carbon hardens then."""

from __future__ import annotations

from typing import Final, NamedTuple

from coach.ledger.layers import layers_of
from coach.ledger.plan import Plan
from coach.metals.grade import grade
from coach.quantities.figure import Figure, Kind
from coach.quantities.words import Words, say
from coach.recipe.model import Step

#: Thinner layers than this, in mm, have about evened out by the time a billet is a bar: at 1100 °C carbon
#: goes √(D·t) = 0.45 mm in half an hour, with D = 1.1e-10 m²/s (computed by `coach.metals.skin`).
_EVEN_UNDER_MM: Final = 1.0
#: How closely the carbon of all of them is told, per cent by mass (our choice).
_TOLD_TO_SHARE: Final = 0.05


class Shared(NamedTuple):
    """The carbon that the layers of a zone have together."""

    layers: int
    carbon_share: float  # per cent by mass

    def words(self, steel: str) -> Words:
        """What is to be known where a steel of the stack is hardened or tempered."""
        return say(
            "Its {} thin layers have shared their carbon in the fire, and have about {} together: what is "
            "told of {} is the most that they come to.",
            self.layers,
            Figure(self.carbon_share, Kind.CONTENT),
            steel,
        )


def shared_carbon(plan: Plan, step: Step) -> Shared | None:
    """What the layers of a step's first layered zone have together; None where they are few and thick."""
    for zone in step.zones:
        piece, stage = plan.recipe.piece_of(zone), plan.by_step[step.number].get(zone)
        count = layers_of(plan.recipe, zone, plan.stages, step.number)
        thick_mm = stage.form_after.sizes_mm().get("thickness") if stage is not None else None
        if count < 2 or thick_mm is None or thick_mm / count >= _EVEN_UNDER_MM:
            continue
        carbons = {metal: grade(metal).carbon_share for metal in piece.shares}
        known = {metal: carbon for metal, carbon in carbons.items() if carbon is not None}
        if len(known) == len(carbons) > 1:
            mean_share = sum(known[metal] * part for metal, part in piece.shares.items())
            return Shared(count, round(mean_share / _TOLD_TO_SHARE) * _TOLD_TO_SHARE)
    return None
