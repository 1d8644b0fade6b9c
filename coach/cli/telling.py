"""Where a job stands, as lines of plain text."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.cli.page import headed, named, paragraph, set_page, table
from coach.quantities import Shown
from coach.telling.clock import clock_words
from coach.telling.figures import write_figure, write_wanted
from coach.telling.learned import learned_section
from coach.telling.page import Line, Section, page, section
from coach.telling.reading import reading_sentence
from coach.telling.sizes import sizes_table, spares_table
from coach.telling.skin import skin_section
from coach.telling.step import step_lines
from coach.telling.words import write

if TYPE_CHECKING:
    from coach.bench.checks import Check
    from coach.bench.standing import Standing


def is_bad_news(standing: Standing) -> bool:
    """Whether a job stands so that a script should stop and call the smith."""
    return (
        standing.verdict == "off plan"
        or bool(standing.trouble)
        or any(check.is_questioned or check.is_beyond for check in standing.checks)
    )


def bearing(standing: Standing) -> list[str]:
    """The few lines that follow an entry: the step in hand, what to measure next, and the verdict."""
    step, shown = standing.step, Shown(standing.units)
    if step is None:
        lines = [f"All {standing.steps} steps are done."]
    else:
        heats = _heats(standing)
        lines = paragraph(
            f"Step {step.number} of {standing.steps}, {step.title}{f': {heats}' if heats else ''}."
        )
        wanted = next((check for check in standing.checks if check.name == standing.next_check), None)
        if wanted is not None:
            lines += paragraph(f"To measure next: {wanted.label}{_wanted(wanted, shown)} ({wanted.name}).")
    return [*lines, *_verdict(standing)]


def standing_lines(standing: Standing) -> list[str]:
    """Everything about a job at one moment."""
    shown = Shown(standing.units)
    place = "all done" if standing.step is None else f"step {standing.step.number} of {standing.steps}"
    lines = paragraph(f"{standing.title} ({standing.job}): {standing.state}, {place}")
    if standing.step is not None:
        step = standing.step
        told = [*step_lines(step, shown), Line(_heats(standing), "So far")]
        lines += _page(section(f"{step.number}. {step.title}", told))
    if standing.clock is not None:
        lines += named("  Clock", write(clock_words(standing.clock)))
    lines += headed("To measure", [line for check in standing.checks for line in _check(check, shown)])
    lines += headed(
        "Measure again",
        [line for check in standing.questioned for line in paragraph(reading_sentence(check, shown), "  ")],
    )
    lines += _page(skin_section("Skin", standing.skins, shown))
    drawn = (
        section("Spare", [spares_table(standing.spares, shown)]),
        section("The drawing, as it is now expected to come out", [sizes_table(standing.sizes, shown)]),
    )
    lines += ["", *set_page(page(*drawn))]
    lines += _page(learned_section("Learned", standing.learned, shown))
    lines += ["", *_verdict(standing)]
    lines += headed(
        "To put right",
        table((str(one.entry), f"step {one.step}", one.zone, one.text) for one in standing.to_right),
    )
    lines += headed("Noted", table((f"step {note.step}", note.text) for note in standing.notes))
    lines += headed("Coming", [line for title in standing.coming[:3] for line in paragraph(title, "  ")])
    if standing.rest_reason:
        lines += ["", *paragraph(f"Not to be put down now: {standing.rest_reason}")]
    return lines


def _page(part: Section) -> list[str]:
    """A part of a page with a blank line before it; nothing when it is empty."""
    return ["", *set_page(page(part))] if part.body else []


def _heats(standing: Standing) -> str:
    step = standing.step
    if step is None or not (step.heats_planned or standing.heats):
        return ""
    total = f", {standing.heats_total} in all"
    if standing.heat_name:
        total = f", {standing.heat_name}{total}"
    if standing.heats > step.heats_planned:
        return f"heat {standing.heats}, {step.heats_planned} planned{total}"
    return f"heat {standing.heats} of {step.heats_planned}{total}"


def _wanted(check: Check, shown: Shown) -> str:
    return f", wanted {write_wanted(check.wanted, shown)}" if check.wanted is not None else ""


def _check(check: Check, shown: Shown) -> list[str]:
    if check.reading is None:
        expected = f"; {write_figure(check.expected, shown)} expected" if check.expected else ""
        how = f"; {check.how}" if check.how else ""
        told = f"{check.label}{_wanted(check, shown)}{expected} ({check.name}){how}"
        return paragraph(told, "      ", "  [ ] ")
    mark = "[?]" if check.reading.questioned else "[x]" if check.verdict in (None, "good") else "[!]"
    return paragraph(reading_sentence(check, shown), "      ", f"  {mark} ")


def _verdict(standing: Standing) -> list[str]:
    told = standing.verdict.capitalize()
    return paragraph(f"{told}: {standing.reason}" if standing.reason else f"{told}.")
