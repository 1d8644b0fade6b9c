"""The eye that a haft which is there asks for."""

from __future__ import annotations

from coach.bench.hafting import EyeForHaft
from coach.forms import listed
from coach.telling.figures import write_figure
from coach.telling.page import Line, Section, Tone, section
from coach.telling.why import stands_text
from coach.telling.words import sentence, write
from coach.telling.writing import Shown


def eye_section(eye: EyeForHaft, shown: Shown) -> Section:
    """What to drift the eye to, why, when to seat the haft, its wedge, and which steps will work to it."""
    kerf = write_figure(eye.kerf_depth, shown)
    return section(
        write(eye.words, shown),
        [
            *(Line(sentence(reason, shown), "Why") for reason in eye.reasons),
            Line(_cheeks(eye, shown), "Cheeks"),
            Line(eye.seat_when, "Then"),
            Line(f"Saw the kerf {kerf} deep, two thirds of the eye's depth.", "Wedge"),
            Line(f"This job cannot work to it. {sentence(eye.cannot, shown)}", "Plan", Tone.BAD)
            if eye.cannot
            else Line(_steps(eye), "Plan"),
            *([Line(stands_text(eye.fitted, shown), "So", Tone.BAD)] if eye.fitted and eye.is_worse else []),
        ],
    )


def _cheeks(eye: EyeForHaft, shown: Shown) -> str:
    if eye.cheek is None:
        return "That leaves none: the eye is no wider across than such a hole."
    told = f"Each comes to {write_figure(eye.cheek, shown)} at the drawn size across"
    if eye.cheek_drawn is None or write_figure(eye.cheek_drawn, shown) == write_figure(eye.cheek, shown):
        return f"{told}."
    return f"{told}, where the drawing has {write_figure(eye.cheek_drawn, shown)}."


def _steps(eye: EyeForHaft) -> str:
    if not eye.steps:
        return "No step ahead drifts the eye to its finished size any more: it is judged by the new one."
    return f"Step{'s' if len(eye.steps) > 1 else ''} {listed(map(str, eye.steps))} will work to it."
