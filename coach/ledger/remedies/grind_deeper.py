"""Grind deeper: where the stone leaves a skin on the faces, it takes it off them too."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.forms import label
from coach.ledger.amendment import Amendment, Moved, Regained
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.remedies.grind_thinner import length_stays
from coach.ledger.remedies.take_back import by_the_stone
from coach.ledger.skinning import Grinding, Skin, told_upwards_mm
from coach.ledger.zone_forecast import expected_size
from coach.quantities import Limits, aimed, as_words, mm, run_on, say

#: How well a section is ground, and how well what comes off is known (common practice, no source).
_SCATTER_MM: Final = 0.3
_REMOVED_DOUBT_SHARE: Final = 0.1
_WHEELS = as_words("wheels and dust: eyes and lungs covered, the guard in its place")


class GrindDeeper(Remedy):
    """While the drawing allows the section to be so much thinner; the length stays."""

    NAME = "grind deeper"
    SOUNDNESS = Soundness.SOUND
    HELPS = False  # the skin is no part of the metal account

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every steel whose skin the step in hand or one behind does not take off."""
        for skin in situation.short_skins:
            off = skin.grinding or skin.behind
            if off is None or off.dimension == "length" or off.step > situation.next_step:
                continue
            if (idea := _deeper(situation, skin, off)) is not None:
                yield idea


def _deeper(situation: Situation, skin: Skin, off: Grinding) -> Idea | None:
    now, zone, name = situation.now, skin.zone, off.dimension
    if zone not in now.zones or not now.zones[zone].has_form:
        return None
    there = expected_size(now if off is skin.behind else situation.start, zone, name)
    if there is None:
        return None
    more_mm = told_upwards_mm(-off.beyond_mm)
    left_mm = there.value - (0.0 if off is skin.behind else off.ground_mm)
    aim_mm = left_mm - more_mm
    limits = situation.plan.recipe.drawing[zone].limits.get(name)
    if aim_mm <= 0.0 or (limits is not None and aim_mm < limits.low):
        return None
    form = now.form(zone)
    removed_mm3 = form.volume_mm3() - form.with_sizes({name: aim_mm}).volume_mm3()
    if removed_mm3 <= 0.0:
        return None
    aim = aimed(aim_mm, limits or Limits(aim_mm, aim_mm, aim_mm, stated=False))
    how = "Grind" if situation.is_hard_at(zone) else "File or grind"
    return Idea(
        about=f"{zone} {name}",
        title=say("{} the {} to {:aim}", how, label(zone, name), aim),
        changes=say(
            "{} more off it, and the skin of the {} with it; its length stays.", mm(more_mm), skin.steel
        ),
        amendment=Amendment(
            moved=(Moved(zone, -removed_mm3, _REMOVED_DOUBT_SHARE * removed_mm3),),
            regained=(Regained(zone, name, aim_mm, _SCATTER_MM), *length_stays(situation, zone)),
        ),
        price_mm=more_mm,
        caution=run_on(filter(None, (by_the_stone(situation, zone), _WHEELS)), "; "),
    )
