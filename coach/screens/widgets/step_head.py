"""The two lines at the top of the bench: the step in hand, and the heat."""

from __future__ import annotations

from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget

from coach.bench.standing import Standing
from coach.quantities.words import counted
from coach.screens.wording import marked, one_line
from coach.telling.standing import all_done, heat_text
from coach.telling.step import heat_texts
from coach.telling.why import chance_text
from coach.telling.writing import Shown

#: Cells between two texts on a line, and the least of the left one that is worth keeping.
_GAP, _LEAST_LEFT = 2, 10


class StepHead(Widget):
    """Where the job is, left and right on two lines; the left comes first when there is little room."""

    clock = reactive("")
    """What the clock of the heat says now; empty when it does not run."""

    _pairs: tuple[tuple[str, str], tuple[str, str]] = (("", ""), ("", ""))
    _verdict = ""
    _alone = False

    def show(self, standing: Standing, shown: Shown, *, alone: bool = False, ways: int = 0) -> None:
        """Take what the lines say from where the job stands, with so many ways back.

        Where nothing else of the bench is sure to be in sight, `alone`, they tell the verdict and the clock.
        """
        self._alone = alone
        self._verdict = f"{marked(standing.verdict, capital=True).plain} {chance_text(standing.chance)}"
        if ways:
            self._verdict += f" · * {counted(ways, 'way')} back"
        step = standing.step
        if step is None:
            first = (all_done(standing.steps), standing.title)
            second = (heat_words(standing, shown), standing.state.value)
        else:
            zones = ", ".join(step.zones)
            first = (f"Step {step.number} of {standing.steps}: {step.title}", f"{zones} · {standing.title}")
            coming = f"then {standing.coming[0]}" if standing.coming else "the last step"
            second = (heat_words(standing, shown), coming)
        self._pairs = (first, second)
        self.refresh()

    def render(self) -> Content:
        """The two lines at the width there is; one of them where there is no more height."""
        width, height = max(self.content_size.width, 1), max(self.content_size.height, 1)
        (step, job), (heat, coming) = self._pairs
        if self._alone and height == 1:
            return _apart(self.clock or step, self._verdict, width, right_first=True)
        if self._alone:
            below = (self.clock, heat) if self.clock else (heat, coming)
            return Content("\n").join(
                [_apart(step, self._verdict, width, right_first=True), _apart(*below, width)]
            )
        return Content("\n").join([_apart(step, job, width), _apart(heat, coming, width)])


def heat_words(standing: Standing, shown: Shown) -> str:
    """Which heat it is, what it is for, how hot, of how many: "heat 1 of 2 · white · 1204 °C · 3 in all"."""
    in_all = f"{counted(standing.heats_total, 'heat')} in all"
    if standing.step is None:
        return in_all
    heat = heat_texts(standing.step, shown)
    # A temper has its warmth, though no forging heat.
    told = heat_text(standing) or ("" if heat else "no fire needed")
    return " · ".join(part for part in (told, *heat, in_all) if part)


def _apart(left: str, right: str, width: int, *, right_first: bool = False) -> Content:
    """Two texts at the two ends of a line; the first of them is the last to be cut short."""
    first, second = one_line(left), one_line(right)
    if right_first and width - second.cell_length - _GAP >= _LEAST_LEFT:
        first = first.truncate(width - second.cell_length - _GAP, ellipsis=True)
    room = width - first.cell_length - _GAP
    if room < 8:
        return first.truncate(width, ellipsis=True, pad=True)
    second = second.truncate(room, ellipsis=True)
    return Content.assemble(first, " " * (width - first.cell_length - second.cell_length), second)
