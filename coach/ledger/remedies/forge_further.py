"""Forge further: a size that is still on the way to its target is worked on."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from coach.forms import FormError, label, said
from coach.ledger.amendment import Amendment, NewHeats
from coach.ledger.closed_thicker import closed_thicker
from coach.ledger.course import Course, Outcome, heats_to_go
from coach.ledger.remedies.base import Idea, Remedy, Situation
from coach.ledger.verdict import Verdict
from coach.operations import operation
from coach.quantities import NOTHING, Wanted, Words, as_words, counted, mm, say
from coach.recipe.model import Step

_NO_THICKER = (
    "Measure its {} first: the weld has made it no thicker than the {} it had, and worked on it comes out "
    "about {} there."
)


class ForgeFurther(Remedy):
    """The plainest way: another heat, and another reading."""

    NAME = "forge further"
    HELPS = False

    def ideas(self, situation: Situation) -> Iterator[Idea]:
        """One idea for every size read as more to go."""
        course = situation.course
        if course is None:
            return
        latest: dict[tuple[str, str], Outcome] = {
            (o.mark.reading.zone, o.mark.reading.dimension): o for o in course.outcomes if not o.questioned
        }
        for (zone, dimension), outcome in latest.items():
            limits, surprise = outcome.limits, outcome.surprise
            if outcome.verdict is not Verdict.MORE_TO_GO or limits is None or surprise is None:
                continue
            if outcome.old:  # a heat has worked it since: nobody knows how far it still is
                continue
            left = abs(surprise.cold.size_mm - limits.nominal)
            if operation(course.step.operation).FIXES:
                if dimension in course.step.targets:  # what is cut free too long is offered as that
                    yield _taken_off(course.step, zone, dimension, left, limits.nominal)
                continue
            if dimension == course.now.zones[zone].free:
                of_section = [one for (of, name), one in latest.items() if of == zone and name != dimension]
                if not any(one.verdict is Verdict.MORE_TO_GO for one in of_section):
                    yield _drawn_on(course, zone, dimension, limits.nominal)
                continue  # else it follows when the section is there
            more = max(1, heats_to_go(course, outcome))
            planned = max(course.step.heats, ceil(course.heats) + more)
            if outcome.run_wide:
                yield _dressed_back(course, outcome, left, limits.nominal, planned)
                continue
            yield Idea(
                about=f"{zone}.{dimension}",
                title=say("Forge the {} {} further", label(zone, dimension), mm(left)),
                changes=say(
                    "To {:aim}, about {}; the recipe planned {}.",
                    Wanted(limits),
                    counted(more, "more heat"),
                    course.step.heats,
                ),
                amendment=Amendment(heats=(NewHeats(course.step.number, planned),)),
                heats=planned - course.step.heats,
            )


def _dressed_back(course: Course, outcome: Outcome, left_mm: float, aim_mm: float, planned: int) -> Idea:
    """An edge that has run wide is hammered back on edge: its metal goes into what follows from the rest."""
    zone, dimension = outcome.mark.reading.zone, outcome.mark.reading.dimension
    return Idea(
        about=f"{zone}.{dimension}",
        title=say("Dress the {} back by {}, on edge", label(zone, dimension), mm(left_mm)),
        changes=say(
            "To {}, in this step, while it glows.{} What it thickens by goes back on the flat.",
            mm(aim_mm),
            _gained(course, zone, dimension, aim_mm),
        ),
        amendment=Amendment(heats=(NewHeats(course.step.number, planned),)),
        heats=planned - course.step.heats,
    )


def _gained(course: Course, zone: str, dimension: str, aim_mm: float) -> Words:
    """How much longer a zone gets once a width of it is dressed back; nothing where its metal tells none."""
    state = course.now.zones[zone]
    if not state.has_form or state.free != "length" or dimension not in state.shape.dimensions:
        return NOTHING
    form = course.now.form(zone)
    try:
        after = form.with_sizes({dimension: aim_mm}).solved(state.free, form.volume_mm3())
    except FormError:
        return NOTHING
    gain_mm = after.size_mm(state.free) - form.size_mm(state.free)
    return say(" The {} gets about {} longer by it.", zone, mm(gain_mm)) if gain_mm > 0.0 else NOTHING


def _drawn_on(course: Course, zone: str, dimension: str, aim_mm: float) -> Idea:
    """What the metal makes is not there yet, and of its section nothing was read that is too full."""
    planned = max(course.step.heats, ceil(course.heats) + 1)
    changes = as_words("Its section is fuller than drawn by what is missing: measure that with the heat.")
    if (thick := closed_thicker(course, zone, aim_mm)) is not None:
        drawn, was = mm(round(thick.drawn_mm, 1)), mm(round(thick.was_mm, 1))
        changes = say(_NO_THICKER, said(thick.dimension), was, drawn)
    return Idea(
        about=f"{zone}.{dimension}",
        title=say("Work the {} on until its {} is {}", zone, said(dimension), mm(aim_mm)),
        changes=changes,
        amendment=Amendment(heats=(NewHeats(course.step.number, planned),)),
        heats=planned - course.step.heats,
    )


def _taken_off(step: Step, zone: str, dimension: str, left_mm: float, aim_mm: float) -> Idea:
    """A cut, a grind or a file goes on: that takes no heat."""
    return Idea(
        about=f"{zone}.{dimension}",
        title=say("Take {} more off the {}", mm(left_mm), label(zone, dimension)),
        changes=say("To {}, in this step.", mm(aim_mm)),
        amendment=Amendment(heats=(NewHeats(step.number, step.heats),)),
    )
