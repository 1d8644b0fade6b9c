"""The step and the verdict in numerals that are read from two metres, where there is room for them."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.widgets import Digits, Static

from coach.bench.standing import Standing
from coach.ledger.verdict import PlanState
from coach.screens.widgets.step_head import heat_words
from coach.screens.wording import Ink, joined, marked, one_line
from coach.telling.why import chance_text
from coach.telling.writing import Shown


class BigBand(Horizontal):
    """Left the number of the step with its heat, right the chance with the verdict's sign and word."""

    def compose(self) -> ComposeResult:
        yield Digits("", id="band-step")
        yield Static("", id="band-words", markup=False)
        yield Static("", id="band-verdict", markup=False)
        yield Digits("", id="band-chance")

    def show(self, standing: Standing, shown: Shown) -> None:
        """Take what the band says from where the job stands."""
        step = standing.step
        self.query_one("#band-step", Digits).update(str(step.number if step else standing.steps))
        title = step.title if step is not None else "every step is done"
        coming = f" · then {standing.coming[0]}" if standing.coming else ""
        heat = one_line(heat_words(standing, shown))
        words = [one_line(f"of {standing.steps}{coming}"), one_line(title, Ink.STRONG), heat]
        self.query_one("#band-words", Static).update(joined(words))
        self.query_one("#band-verdict", Static).update(marked(standing.verdict, capital=True))
        self.query_one("#band-chance", Digits).update(_digits(chance_text(standing.chance)))
        for verdict in PlanState:
            self.set_class(verdict is standing.verdict, f"-{verdict.replace(' ', '-')}")


def _digits(chance: str) -> str:
    """A chance as the large numerals have it: `98%`, `+99%` for more than that, `-1%` for less.

    >>> _digits("98 %"), _digits("over 99 %"), _digits("under 1 %")
    ('98%', '+99%', '-1%')
    """
    return chance.replace("over ", "+").replace("under ", "-").replace(" ", "")
