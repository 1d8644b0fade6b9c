"""What something that happened does to a job: metal lost, a test that failed."""

from __future__ import annotations

from coach.bench.losing import FailedTest, MetalGone
from coach.bench.stood import Stood
from coach.forms import label
from coach.telling.figures import write_figure
from coach.telling.page import Line, Section, Tone, section
from coach.telling.step import hand_lines
from coach.telling.why import stands_text
from coach.telling.words import sentence, write
from coach.telling.writing import Shown


def loss_section(gone: MetalGone, shown: Shown) -> Section:
    """What is lost, what is left, and how the job stands before and after."""
    how = "±" if gone.mass.doubt else ""
    told = f"{write_figure(gone.mass, shown, how=how)} of metal. {sentence(gone.left, shown)}"
    stood = gone.before, gone.after
    by_hand = tuple(hand_lines(gone.by_hand, shown))
    return _told(f"Lost: {write(gone.words, shown)}", told, "That is", stood, shown, by_hand)


def failed_section(failed: FailedTest, shown: Shown) -> Section:
    """A test that failed, what is to be done about it, and how the job stands before and after."""
    heading = f"{label(failed.zone, failed.test).capitalize()}: failed"
    return _told(heading, sentence(failed.then), "Then", (failed.before, failed.after), shown)


def _told(
    heading: str, told: str, what: str, stood: tuple[Stood, Stood], shown: Shown, then: tuple[Line, ...] = ()
) -> Section:
    before, after = stood
    bad = Tone.BAD if list(type(after.verdict)).index(after.verdict) else Tone.PLAIN
    return section(
        heading,
        [
            Line(told, what),
            Line(stands_text(before, shown), "Before"),
            Line(stands_text(after, shown), "With it", bad),
            *then,
        ],
    )
