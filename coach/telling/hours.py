"""The hours of a job, and what is not known of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.quantities import counted
from coach.quantities.words import say
from coach.telling.figures import write_figure, write_span
from coach.telling.words import write

if TYPE_CHECKING:
    from coach.bench.sheet import Sheet
    from coach.quantities.figure import Span
    from coach.telling.writing import Shown


def hours_taken(sheet: Sheet, shown: Shown) -> tuple[str, str]:
    """The hours at the fire and in all, or that they are not known, where it was put down later."""
    hours, heats = sheet.time, sheet.heats
    at_the_fire, in_all = write_figure(hours.at_the_fire, shown), write_figure(hours.in_all, shown)
    if not hours.not_known:
        return at_the_fire, in_all
    if not hours.none_known:
        but = f"without the {counted(hours.not_known, 'step')} whose hours are not known"
        return f"{at_the_fire}, {but}", f"{in_all}, {but}"
    were = "was" if heats.taken == 1 else "were"
    return f"not known: {counted(heats.taken, 'heat')} {were} put down within {at_the_fire}", "not known"


def planned_hours(hours: Span, shown: Shown) -> str:
    """The hours that the planned heats keep a smith at the fire."""
    if hours.low:
        return write_span(hours, shown)
    return write(say("up to {}", hours._replace(low=hours.high)), shown)


def days_words(count: int) -> str:
    """On how many days something was entered."""
    return "on one day" if count == 1 else f"over {count} days"
