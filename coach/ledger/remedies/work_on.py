"""Work on: a section that a step behind left short of where it works to gets another heat of that work."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from coach.forms import FormError, said
from coach.ledger.amendment import Amendment, Regained
from coach.ledger.hand import scatter_mm
from coach.ledger.nominal import Stage
from coach.ledger.remedies.base import Idea, Remedy, Situation, Soundness
from coach.ledger.remedies.draw_again import more_heats
from coach.ledger.verdict import SizeState
from coach.ledger.working import reshapes
from coach.ledger.zone_forecast import FinishedSize
from coach.operations import operation
from coach.quantities import NOTHING, as_words, run_on, say

_MORE_HEATS: Final = 2  # as for an end that is drawn again (common practice, no source)
_STEEL: Final = as_words("the steel in it is worked as well: keep to its own forging heat")


class WorkOn(Remedy):
    """The step was ended too soon: what its hammer has not got through is still there to be worked."""

    NAME = "work on"
    SOUNDNESS = Soundness.SOUND

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every zone with a size that its last step was to make bigger, and none ahead does."""
        if situation.is_hard or situation.course is None:
            return
        for zone in dict.fromkeys(size.zone for size in situation.stuck()):
            state, stage = situation.now.zones[zone], _last_worked(situation, zone)
            if stage is None or not state.has_form or state.shape != stage.after.shape:
                continue
            if situation.is_ground(zone) or situation.is_bent(zone):
                continue
            left = [size for size in situation.stuck() if size.zone == zone and _is_left_short(stage, size)]
            # What is only too thick is drawn again.
            if all(size.state is SizeState.OVER for size in left):
                continue
            wanted = {size.dimension: size.wanted.limits.nominal for size in left}
            form = situation.now.form(zone)
            try:
                form.with_sizes(wanted).solved(state.free, form.volume_mm3())
            except FormError:
                continue
            limits = situation.plan.recipe.drawing[zone].limits
            to_sizes = (say("{} to {:aim}", said(size.dimension), size.wanted) for size in left)
            yield Idea(
                about=zone,
                title=say("Work the {} on: {}", zone, run_on(to_sizes, ", ")),
                changes=say(
                    "As in step {}, {}, which was ended before it was there.",
                    *(stage.step.number, stage.step.title),
                ),
                amendment=Amendment(
                    regained=tuple(
                        Regained(zone, name, size_mm, scatter_mm(limits[name], size_mm))
                        for name, size_mm in wanted.items()
                    ),
                    heats=more_heats(situation.course.step),
                ),
                heats=_MORE_HEATS,
                caution=_STEEL if len(state.parts) > 1 else NOTHING,
            )


def _last_worked(situation: Situation, zone: str) -> Stage | None:
    """The last step behind that works the zone hot, but none that takes metal away."""
    stages = [one for one in situation.plan.stages.get(zone, ()) if one.step.number < situation.next_step]
    hot = (one for one in stages if one.step.heats and reshapes(one.step, zone))
    return next((one for one in reversed([*hot]) if not operation(one.step.operation).FIXES), None)


def _is_left_short(stage: Stage, size: FinishedSize) -> bool:
    """Whether a size is beyond its limits on the side that the step works from."""
    dimension = size.dimension
    if dimension not in stage.step.targets or dimension == stage.after.free or "hole" in dimension:
        return False
    grows = dimension in stage.grows
    return size.state is (SizeState.UNDER if grows else SizeState.OVER)
