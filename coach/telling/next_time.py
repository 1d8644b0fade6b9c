"""What a job cost most, and what to change for the next, as it is told."""

from __future__ import annotations

from collections.abc import Iterator

from coach.bench.edit_for_next import Edit
from coach.bench.next_time import NextTime
from coach.quantities.words import run_on, say
from coach.telling.chance import chance_text
from coach.telling.figures import write_figure
from coach.telling.page import Line, Page, Section, page, section
from coach.telling.words import sentence, write
from coach.telling.writing import Shown


def next_time_page(found: NextTime, shown: Shown) -> Page:
    """Three sentences, each with the edit of the recipe that answers it, shown before it is made."""
    return page(
        next_time_section(found, shown),
        *(
            section(f"For the {cost.of}", _edit(cost.edit, found, shown))
            for cost in found.costs
            if cost.edit is not None
        ),
        *([section("All of them together", _edit(found.together, found, shown))] if found.together else []),
    )


def next_time_section(found: NextTime, shown: Shown) -> Section:
    """The three sentences, each with what to change."""
    heading = "What to do better next time" if found.finished else "What to do better next time, so far"
    return section(heading, (Line(text) for text in _sentences(found, shown)))


def _sentences(found: NextTime, shown: Shown) -> Iterator[str]:
    for cost in found.costs:
        told = write(cost.told, shown)
        if cost.edit is not None:
            change = say("{}, {}", cost.edit.told, cost.beside) if cost.beside else cost.edit.told
            told = write(say("{}. Next time: {}", told, change), shown)
        elif cost.unchanged:
            told = write(say("{}; {}", told, cost.unchanged), shown)
        yield sentence(told, shown)


def _edit(edit: Edit, found: NextTime, shown: Shown) -> Iterator[Line]:
    yield Line("\n".join(edit.diff), as_it_stands=True)
    chances = f"{chance_text(edit.chance_before)} → {chance_text(edit.chance_after)}"
    bars = f"{write_figure(edit.bar_before, shown)} → {write_figure(edit.bar_after, shown)}"
    heats = f"{edit.heats_before} → {edit.heats_after}"
    by = "by the published figures"
    if found.shops_own:
        by = f"by the shop's own figures ({write(run_on(found.shops_own, '; '), shown)})"
    yield Line(f"Chance {chances} {by}, bar {bars}, heats {heats}.")
