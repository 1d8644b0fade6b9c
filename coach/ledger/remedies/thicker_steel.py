"""More steel: what is to be laid on a short zone is taken bigger, while it is not forged yet."""

from __future__ import annotations

from collections.abc import Iterator

from coach.forms import FormError, label, said
from coach.ledger.amendment import Amendment, Moved, NewLimits
from coach.ledger.plan import finished_form
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.quantities import Limits, as_words, mm, say

#: More steel than this share of what is drawn makes another tool, and no weld of it (judgement).
_MOST_SHARE = 1.0


class ThickerSteel(Remedy):
    """The steel makes up what the iron lacks."""

    NAME = "more steel"
    SOUNDNESS = Soundness.WITH_CARE

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every short zone that still has steel to come, not yet forged nor tacked on."""
        for short, lacking in situation.short():
            for step in situation.steps_ahead():
                steel = step.lays
                if steel is None or short.zone not in step.zones:
                    continue
                if not (situation.is_begun(steel) or situation.is_in_the_fire(steel)):
                    yield from _bigger(situation, steel, lacking)


def _bigger(situation: Situation, steel: str, lacking_mm3: float) -> Iterator[Idea]:
    laid = situation.plan.recipe.drawing[steel]
    more = 1.03 * lacking_mm3  # and what the weld takes of it (judgement)
    ready = finished_form(situation.plan.recipe, steel)
    grown = laid.take_up[0] if laid.take_up else laid.shape.usual_free
    try:
        bigger = ready.solved(grown, ready.volume_mm3() + more).size_mm(grown)
    except FormError:
        return
    old = laid.limits[grown]
    by = bigger - old.nominal
    if by < 0.25 or by > _MOST_SHARE * old.nominal:
        return
    new = Limits(old.nominal + by, max(old.low + by, 0.1), old.high + by, True)
    yield Idea(
        about=f"{steel}.{grown}",
        title=say("Make the {} steel {} bigger in its {}", steel, mm(by), said(grown)),
        changes=say(
            "{} {} ready to weld instead of {}; cut that much more of its bar.",
            label(steel, grown).capitalize(),
            mm(bigger),
            mm(old.nominal),
        ),
        amendment=Amendment(limits=(NewLimits(steel, grown, new),), moved=(Moved(steel, more, 0.02 * more),)),
        caution=as_words("more steel on less iron: harder to weld evenly, and stiffer in the quench"),
    )
