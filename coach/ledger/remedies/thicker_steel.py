"""More steel: what is to be laid on a short zone is taken bigger, while it is not forged yet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from coach.forms import FormError, label, said
from coach.ledger.amendment import Amendment, Moved, NewLimits, NewTarget
from coach.ledger.plan import finished_form
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.quantities import Limits, as_words, mm, say
from coach.recipe.model import Step

#: More steel than this share of what is drawn makes another tool, and no weld of it (judgement).
_MOST_SHARE = 1.0
#: A plate that covers the end of a bar is as big as that to about this share (judgement).
_AS_BIG_SHARE = 0.1


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
                    yield from _bigger(situation, step, steel, lacking)


def _bigger(situation: Situation, weld: Step, steel: str, lacking_mm3: float) -> Iterator[Idea]:
    laid = situation.plan.recipe.drawing[steel]
    more = 1.03 * lacking_mm3  # and what the weld takes of it (judgement)
    ready = finished_form(situation.plan.recipe, steel)
    grown = laid.take_up[0] if laid.take_up else laid.shape.usual_free
    try:
        bigger = ready.solved(grown, ready.volume_mm3() + more).size_mm(grown)
        is_plate = _covers_an_end(situation, weld, ready.sizes_mm(), grown)
        is_plate = is_plate or _stands_out(situation, weld, grown, bigger)
        if is_plate:
            grown = "thickness"
            bigger = ready.solved(grown, ready.volume_mm3() + more).size_mm(grown)
    except FormError:
        return
    old = laid.limits[grown]
    if bigger - old.nominal > _MOST_SHARE * old.nominal:
        return
    if is_plate:  # no thicker than its bar is
        bigger = min(bigger, situation.plan.bar_of(steel).sizes_mm().get("thickness", bigger))
        more = ready.with_sizes({grown: bigger}).volume_mm3() - ready.volume_mm3()
    by = bigger - old.nominal
    if by < 0.25:
        return
    # None of them is done, for nothing of the steel is begun.
    dressed = [one for one in situation.plan.as_written.steps if steel in one.zones and grown in one.targets]
    new = Limits(old.nominal + by, max(old.low + by, 0.1), old.high + by, True)
    yield Idea(
        about=f"{steel}.{grown}",
        title=say("Make the {} steel {} bigger in its {}", steel, mm(by), said(grown)),
        changes=say(
            "{} {} ready to weld instead of {}; {}.",
            label(steel, grown).capitalize(),
            mm(bigger),
            mm(old.nominal),
            "leave it so much thicker" if is_plate else "cut that much more of its bar",
        ),
        amendment=Amendment(
            limits=(NewLimits(steel, grown, new),),
            targets=tuple(NewTarget(one.number, grown, one.targets[grown].moved(by)) for one in dressed),
            moved=(Moved(steel, more, 0.02 * more),),
        ),
        caution=as_words("more steel on less iron: harder to weld evenly, and stiffer in the quench"),
    )


def _stands_out(situation: Situation, weld: Step, grown: str, size_mm: float) -> bool:
    """Whether a plate so long would stand out beyond the end of what it is laid on, as that will be then."""
    then = situation.found.after.get(weld.number - 1, situation.now)
    zone = weld.zones[0]
    if "inset_mm" in weld.amounts or grown != "length" or not then.zones[zone].has_form:
        return False
    has = then.form(zone).sizes_mm()
    return "length" in has and size_mm > (1.0 + _AS_BIG_SHARE) * has["length"]


def _covers_an_end(situation: Situation, weld: Step, plate_mm: Mapping[str, float], grown: str) -> bool:
    """Whether a plate is as long and as wide as the section of its zone: longer, it stands out beside it."""
    stage = situation.plan.by_step[weld.number].get(weld.zones[0])
    if "inset_mm" in weld.amounts or stage is None or grown != "length" or "thickness" not in plate_mm:
        return False
    has = stage.form_before.sizes_mm()
    round_mm = has.get("side", has.get("diameter", 0.0))
    section = sorted((has.get("width", round_mm), has.get("thickness", round_mm)))
    plate = sorted((plate_mm[grown], plate_mm.get("width", 0.0)))
    return all(abs(mine - its) <= _AS_BIG_SHARE * its for mine, its in zip(plate, section, strict=True))
