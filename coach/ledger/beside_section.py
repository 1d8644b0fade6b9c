"""The verdict of a reading beside what was found of its section: a length hangs on that."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from math import hypot
from typing import Final, NamedTuple

from coach.ledger.in_cleft import by_steel_mm
from coach.ledger.nominal import Stage
from coach.ledger.plan import Plan
from coach.ledger.possible import takes_off
from coach.ledger.reading import ColdReading, Reading
from coach.ledger.verdict import Judged, Verdict, judge
from coach.ledger.wanting import (
    enough_at_the_end,
    final_limits,
    is_drawn_out,
    is_past_only_here,
    no_less_than_drawn,
    no_more_than,
    works_ahead,
)
from coach.ledger.working import ZoneState, reshapes
from coach.operations import Does, operation
from coach.quantities import Limits
from coach.recipe.model import Step


class Beside(NamedTuple):
    """What was found of the section of a zone since the last heat."""

    found: Sequence[Verdict]
    asked: int  # how many sizes of it the step works to
    is_of_metal: bool = False  # whether the reading is of the size that the metal makes
    unformed_mm: float = 0.0  # how doubtful the length is besides, for steel that may stand out of its cleft

    def judged(
        self,
        plan: Plan,
        step: Step,
        reading: Reading,
        cold: ColdReading,
        limits: Limits,
        *,
        grows: bool | None,
        dressed: bool,
    ) -> tuple[Judged, Limits]:
        """A verdict, and the limits it goes by: those of a length hang on what was read of its section.

        What is out for steel that may not stand out of its cleft at all is not surely so, and no gauge tells.
        """
        judged, held = self._judged(plan, step, reading, cold, limits, grows=grows, dressed=dressed)
        if not (self.unformed_mm and judged.verdict is Verdict.OUT and judged.below):
            return judged, held
        cold = cold._replace(chance_mm=hypot(cold.chance_mm, self.unformed_mm))
        perhaps, _ = self._judged(plan, step, reading, cold, limits, grows=grows, dressed=dressed)
        if perhaps.verdict in (Verdict.UNSURE, Verdict.MORE_TO_GO):  # which of the two no gauge tells either
            judged = judged._replace(verdict=Verdict.UNSURE, too_coarse=True)
        return judged, held

    def _judged(
        self,
        plan: Plan,
        step: Step,
        reading: Reading,
        cold: ColdReading,
        limits: Limits,
        *,
        grows: bool | None,
        dressed: bool,
    ) -> tuple[Judged, Limits]:
        stage = plan.by_step[step.number].get(reading.zone)
        ahead = works_ahead(plan, step, reading.zone, reading.dimension)
        looked_at = grows is None and ahead and not reshapes(step, reading.zone)
        if looked_at and not self.is_of_metal:  # which no step ahead adds to: what is short of it stays short
            # Only looked at here: a step ahead takes it further.
            grows, dressed = reading.dimension in ahead[0].grows, reading.dimension in ahead[0].dressed
        if grows is None and stage and takes_off(stage, reading.dimension) and cold.size_mm > limits.high:
            grows = False  # the rest of it comes off still
        judged = judge(cold.size_mm, cold.doubt_mm, limits, grows=grows, dressed=dressed)
        if judged.verdict is Verdict.MORE_TO_GO and stage and _lacks_section(stage, reading, cold, limits):
            judged = judged._replace(verdict=Verdict.GONE_PAST)
        if judged.verdict is Verdict.GONE_PAST and is_past_only_here(
            plan, step, reading.zone, reading.dimension, cold.size_mm
        ):
            return judged._replace(verdict=Verdict.PAST_STEP), limits
        if stage is None or not is_drawn_out(stage, reading.dimension):
            return judged, limits
        settled = len(self.found) == self.asked and {*self.found} <= {Verdict.GOOD, Verdict.UNSURE}
        if stage.shrinks(reading.dimension) and not settled and cold.size_mm > limits.high:
            return judge(cold.size_mm, cold.doubt_mm, limits, grows=False), limits  # the section takes it up
        final = final_limits(plan, stage)
        over = final or no_more_than(plan, stage, limits)
        if cold.size_mm > over.high and not stage.shrinks(reading.dimension):  # more work makes it longer
            return judge(cold.size_mm, cold.doubt_mm, over, grows=None), over
        if not stage.shrinks(reading.dimension):  # nor is more aimed at than may be
            limits = _no_further(limits, over.high)
        if not self.found:  # whatever the section has come to by now
            asked = reading.dimension in step.targets
            then = None if asked else enough_at_the_end(plan, stage)
            wanted_then = limits if then is None else _no_further(then, over.high)
            wanted_then = no_less_than_drawn(plan, stage, wanted_then)
            short = cold.size_mm < wanted_then.nominal
            return judge(cold.size_mm, cold.doubt_mm, wanted_then, grows=True if short else None), wanted_then
        if final is not None and settled:
            in_the_end = judge(cold.size_mm, cold.doubt_mm, final, grows=None)
            if in_the_end.verdict is Verdict.OUT and in_the_end.below and judged.verdict is not Verdict.OUT:
                in_the_end = in_the_end._replace(verdict=Verdict.MORE_TO_GO)  # the metal for it is there
            return in_the_end, final
        short = judged.below and judged.verdict is Verdict.UNSURE
        if judged.verdict is Verdict.OUT and judged.below and len(self.found) < self.asked:
            judged = judged._replace(verdict=Verdict.MORE_TO_GO)  # what was not read may be full still
            short = True
        if (judged.verdict is Verdict.GOOD or short) and Verdict.MORE_TO_GO not in self.found:
            drawn = no_less_than_drawn(plan, stage, limits)
            return judge(cold.size_mm, cold.doubt_mm, drawn, grows=True), drawn  # enough metal is not all
        return judged, limits

    def of_work(
        self, plan: Plan, step: Step, reading: Reading, cold: ColdReading, limits: Limits, judged: Judged
    ) -> Judged:
        """What a verdict says of the work done: a length short of the drawing may have it before it still.

        By its section alone one that is too short for it would be further on than a longer one that suits it.
        """
        stage, sure = plan.by_step[step.number].get(reading.zone), judged.verdict is Verdict.GOOD
        if stage is None or sure or not judged.below or not self.found or Verdict.MORE_TO_GO in self.found:
            return judged
        if not is_drawn_out(stage, reading.dimension):
            return judged
        if len(self.found) == self.asked and final_limits(plan, stage) is not None:
            return judged  # by the drawing already
        drawn = no_less_than_drawn(plan, stage, limits)
        return judge(cold.size_mm, cold.doubt_mm, drawn, grows=True)


def beside_found(
    found: Mapping[str, Verdict], asked: Collection[str], there: ZoneState, reading: Reading
) -> Beside:
    """What was `found` since the last heat of the section of a reading's zone, by name in the belief."""
    sections = [name for name in asked if name.rsplit(".", 1)[0] == reading.zone]
    verdicts = [found[name] for name in sections if name in found]
    is_of_metal = reading.dimension == there.free
    return Beside(verdicts, len(sections), is_of_metal, by_steel_mm(there, reading.dimension))


#: The section of a bar that was not measured may be so much fuller than it is said to be (judgement).
_FULLER_SHARE: Final = 0.05
_OTHER: Final = {"width": "thickness", "thickness": "width"}


def _lacks_section(stage: Stage, reading: Reading, cold: ColdReading, limits: Limits) -> bool:
    """Whether a side is so far below its aim that no blow brings it there: the section has not the area.

    A hammer moves metal from one side to the other and along, and gathers none (elementary geometry). The
    other side is taken as it was before the step.
    """
    step, todo = stage.step, operation(stage.step.operation)
    other = _OTHER.get(reading.dimension)
    if other is None or reading.zone not in step.zones or todo.GATHERS or todo.FIXES or stage.laid_mm3:
        return False
    have, aim = stage.form_before.sizes_mm(), step.targets.get(other)
    if not step.does(Does.HAMMERS_A_SECTION) or aim is None or aim.low <= 0.0:
        return False
    if stage.after.shape.stations:
        return False  # it is not as wide as that where it is as thick
    other_mm = have.get(other, have.get("side", 0.0))
    return 0.0 < cold.size_mm * other_mm * (1.0 + _FULLER_SHARE) < limits.low * aim.low


def _no_further(limits: Limits, most_mm: float) -> Limits:
    """Limits that aim at no more than that."""
    if limits.nominal <= most_mm:
        return limits
    return Limits(most_mm, min(limits.low, most_mm), max(limits.high, most_mm), limits.stated)
