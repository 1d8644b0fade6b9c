"""Fitting the eye to a haft: one question after another, then what the eye must be; Enter works to it."""

from __future__ import annotations

from collections.abc import Sequence

from coach.bench.answer import Answer
from coach.bench.hafting import USUAL_IN_USE, USUAL_MOISTURE, USUAL_WOOD, HaftAsked
from coach.finish.haft import woods
from coach.screens.asking import AskingScreen, Question
from coach.telling.haft import eye_section
from coach.telling.page import Section

WAY_IN = {"key": "ctrl+t", "words": "Haft", "told": "Fit the eye to a haft that is there", "group": "Write"}
_TURNED = "turned"


class HaftScreen(AskingScreen):
    """Asks for the haft, shows the eye it needs, and works the job to it."""

    NAME = "Fitting a haft"
    HELP_TEXT = """
        A haft that is there already decides the eye. Measure it where it is to fill the eye: along the
        head, then across it. Wood shrinks as it dries, so its moisture now and where it will be used count
        too; Enter on an empty box takes what is usual. A riven haft is measured at a second place.

        At the end the coach says what to drift the eye to and why. Enter lets the job work to it; at the
        bench, Undo takes it back. Esc goes back one question.
    """
    FIRST_TELLS = "Measure the haft with the calliper, dry and clean."
    MUST_BE_TOLD = "Measure it and type the size: the eye cannot be reckoned without."
    ENTERS = ("Work to this eye?", "works to this eye")
    TELLS_AT_END = "Enter works to this eye from now on; Undo at the bench takes it back."

    def title_told(self) -> str:
        return f"A haft for {self.session.recipe.title}"

    @property
    def _riven(self) -> bool:
        return self.told.get("second_length", _TURNED) != _TURNED

    def questions(self) -> Sequence[Question]:
        """The second place is measured whole or not at all."""
        found = [
            Question("length", "Haft, along the head, where it is to fill the eye"),
            Question("width", "Haft, across the head, at the same place"),
            Question(
                "wood", "Its wood: ↑ and ↓ show others", USUAL_WOOD, tuple(wood.name for wood in woods())
            ),
            Question("moisture", "Moisture of the wood now, in per cent", USUAL_MOISTURE),
            Question("in_use", "Moisture where it will be used, in per cent", USUAL_IN_USE),
            Question("second_length", "Riven, not turned? Along the head at a second place", _TURNED),
        ]
        if self._riven:
            found.append(Question("second_width", "Across the head at that second place"))
        return found

    def comes_of_it(self) -> Section:
        return eye_section(self.session.haft(self._haft()), self.shown)

    def entered(self) -> Answer:
        return self.session.fit_haft(self._haft())

    def _haft(self) -> HaftAsked:
        told = self.told
        second = f"{told['second_length']}x{told['second_width']}" if self._riven else ""
        return HaftAsked(
            size=f"{told['length']}x{told['width']}",
            wood=told["wood"],
            moisture=told["moisture"],
            in_use=told["in_use"],
            second=second,
        )
