"""What the bench reads sizes with: the gauge that is chosen, and the scales."""

from __future__ import annotations

from coach.operations.gauges import GAUGES, by_gauge
from coach.operations.measures import MASS
from coach.screens.bench_drawn import PagedScreen


class GaugedScreen(PagedScreen):
    """The part of the bench in which the gauge is chosen."""

    def action_gauge(self) -> None:
        """Go on to the next gauge, to the end of the step; past the last one the step's own counts again."""
        self.let_question_go()
        step, names, now = self.session.standing().step, [None, *GAUGES], self.gauge_chosen
        of_step = step.gauge if step is not None else ""
        at = names.index(now) + 1
        if now is None and names[at] == of_step:  # that is what is read with already
            at += 1
        gauge = names[at % len(names)]
        self.coach.choose(self.coach.choices._replace(gauge=gauge, gauge_of=self.in_hand))
        by = by_gauge(gauge) if gauge is not None else "with the gauge that the step names"
        here = f", {by_gauge(of_step)}" if gauge is None and of_step else ""
        sizes = "Sizes of this step" if step is not None else "Sizes"
        self.tell(f"{sizes} are now read {by}{here}.")
        self.fill()

    def action_weigh(self) -> None:
        """Let the box take what the scales say, unless something stands in it."""
        self.let_question_go()
        if self._box.mode == "size" and not self._box.value:
            self._box.value = f"{MASS}="
            self._box.cursor_position = len(self._box.value)
        self.tell("Type what the scales say, such as mass=108 g, then Enter.")
