"""Where a job stands: everything about it on one page, and the few lines that follow an entry."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coach.bench.checks import Check
from coach.bench.in_turn import next_to_read
from coach.bench.standing import FinishedStep, Standing
from coach.forms import label, listed
from coach.ledger.verdict import Verdict
from coach.operations.measures import CENTRE, MARK
from coach.quantities.words import counted
from coach.telling.clock import clock_words
from coach.telling.figures import write_figure, write_wanted
from coach.telling.in_the_end import in_the_end_lines
from coach.telling.learned import learned_section
from coach.telling.page import Line, Page, Section, Tone, page, section
from coach.telling.reading import reading_sentence
from coach.telling.righting import notes_told, rights_table
from coach.telling.sizes import sizes_table, spares_table
from coach.telling.skin import skin_section
from coach.telling.step import hand_lines, step_lines
from coach.telling.why import stands_text
from coach.telling.will_pass import as_made_text, will_pass_text
from coach.telling.words import sentence, write
from coach.telling.writing import Shown

#: So many of the steps to come are named.
_SOON = 5


def standing_page(standing: Standing, shown: Shown) -> Page:
    """Everything about a job at one moment."""
    step = standing.step
    place = "all done" if step is None else f"step {step.number} of {standing.steps}"
    in_hand = section("", hand_lines(standing.by_hand, shown))
    if step is not None:
        so_far = Line(_so_far(standing), "So far")
        clock = write(clock_words(standing.clock), shown) if standing.clock is not None else ""
        drawing = in_the_end_lines(standing, shown)
        asked = {check.label for check in standing.checks}
        told = [
            *step_lines(step, shown, by_hand=standing.by_hand, asked=asked),
            *drawing,
            so_far,
            Line(clock, "Clock"),
        ]
        in_hand = section(f"{step.number}. {step.title}", told)
    why = write(standing.rest_reason, shown)
    again = (Line(reading_sentence(check, shown)) for check in standing.questioned)
    return page(
        section("", [Line(f"{standing.title} ({standing.job}): {standing.state}, {place}")]),
        section("", given_up_lines(standing.given_up)),
        section("To put right", [rights_table(standing.to_right)]),
        section("Noted", notes_told(standing.notes)),
        in_hand,
        section("To measure", (_check_line(check, shown) for check in standing.checks)),
        section("Left out", (Line(sentence(one.words, shown), tone=Tone.BAD) for one in standing.left_out)),
        section("Measure again", again),
        skin_section("Skin", standing.skins, shown),
        section("Spare", [spares_table(standing.spares, shown)]),
        section("The drawing, as it is now expected to come out", [sizes_table(standing.sizes, shown)]),
        learned_section("Learned", standing.learned, shown),
        section("", [Line(stands_text(standing, shown)), *will_pass_line(standing, shown)]),
        coming(standing),
        section("", [Line(sentence(f"Not to be put down now: {why}") if why else "")]),
    )


def given_up_lines(given_up: Sequence[str]) -> list[Line]:
    """That pieces are made no more, where any is given up."""
    if not given_up:
        return []
    return [Line(f"{listed(given_up)}; all that is told is of the others", "Given up")]


def will_pass_line(standing: Standing, shown: Shown) -> list[Line]:
    """That the tool will pass, while there are steps ahead; then that all its sizes are inside, if unsure."""
    if standing.step is None:
        made = as_made_text(standing.will_pass, standing.unread)
        return [Line(sentence(made))] if made else []
    told = will_pass_text(standing.will_pass, shown)
    return [Line(f"Will pass: {told}.")] if told else []


def all_done(steps: int) -> str:
    """That a job of so many steps is through them."""
    return "The one step is done" if steps == 1 else f"All {steps} steps are done"


def bearing(standing: Standing, shown: Shown) -> Section:
    """The few lines that follow an entry: the step in hand, what to measure next, and the verdict."""
    step, stands = standing.step, Line(stands_text(standing, shown))
    if step is None:
        return section("", [Line(f"{all_done(standing.steps)}."), stands])
    heats = heat_text(standing)
    lines = [Line(f"Step {step.number} of {standing.steps}, {step.title}{f': {heats}' if heats else ''}.")]
    following = next_to_read(standing)
    if following is not None:
        lines.append(Line(f"To measure next: {wanted_text(following, shown)} ({following.name})."))
    return section("", [*lines, stands])


def heat_text(standing: Standing) -> str:
    """Which heat of the step it is and what it is for: `heat 1 of 2: weld`; "" where it takes none."""
    step = standing.step
    if step is None or not (step.heats_planned or standing.heats):
        return ""
    if not step.heats_planned:
        return counted(standing.heats, "heat")
    over = standing.heats > step.heats_planned
    told = f"heat {standing.heats}{', planned' if over else ' of'} {step.heats_planned}"
    if standing.heat_name:
        told += f": {standing.heat_name}" if standing.heats else f", first {standing.heat_name}"
    return told


def _so_far(standing: Standing) -> str:
    heat, told = heat_text(standing), standing.heats_told
    before = f"; its end counts {told}, as they were told before" if told is not None else ""
    return f"{heat}, {standing.heats_total} in all{before}" if heat else ""


def wanted_text(check: Check, shown: Shown) -> str:
    """A size and what is wanted of it: `blade width, wanted 50 ±2 mm`."""
    from_end = ", from the end" if check.dimension in (CENTRE, MARK) else ""
    return check.label + from_end + (f", wanted {write_wanted(check.wanted, shown)}" if check.wanted else "")


#: Of a hardness that its step asks no reading of.
_BY_A_TESTER = "; optional, for only a tester reads it"


def _check_line(check: Check, shown: Shown) -> Line:
    if check.reading is not None:
        good = check.verdict in (None, Verdict.GOOD) and check.for_stone is None
        mark = "[?]" if check.is_questioned else "[ ]" if check.reading.old else "[x]" if good else "[!]"
        return Line(reading_sentence(check, shown), mark=mark)
    expected = f"; {write_figure(check.expected, shown)} expected" if check.expected else ""
    how = f"; {check.how}" if check.how else _BY_A_TESTER if check.optional else ""
    return Line(f"{wanted_text(check, shown)}{expected} ({check.name}){how}", mark="[ ]")


def coming(standing: Standing) -> Section:
    """The steps that come."""
    first = len(standing.done) + 2
    lines = [Line(f"{number} {title}") for number, title in enumerate(standing.coming[:_SOON], first)]
    if len(standing.coming) > _SOON:
        lines.append(Line(f"and {len(standing.coming) - _SOON} more", tone=Tone.QUIET))
    return section("Coming", lines)


def behind(standing: Standing) -> Section:
    """The steps that are done, the latest first, each with what its last readings were found to be."""
    return section("Behind", (Line(told, tone=Tone.QUIET, mark="✓") for told in _behind(standing)))


def _behind(standing: Standing) -> Iterator[str]:
    yield from map(done_text, reversed(standing.done))


def done_text(done: FinishedStep, cells: int = 0) -> str:
    """A step that is done with its last readings; in fewer `cells` what is good is not told one by one."""
    heats = f", {counted(done.heats, 'heat')}" if done.heats else ""
    verdicts = [f"{label(one.zone, one.dimension)} {one.verdict}" for one in done.verdicts]
    title = f"{done.number} {done.title}{heats}"
    told = f"{title}: {', '.join(verdicts)}" if verdicts else title
    if not cells or len(told) <= cells:
        return told
    amiss = [
        said for said, one in zip(verdicts, done.verdicts, strict=True) if one.verdict is not Verdict.GOOD
    ]
    return f"{title}: {', '.join(amiss) or 'all good'}"
