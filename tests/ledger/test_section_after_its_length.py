"""A length read on the way, then a section and the length again with no heat marked: the work lay between.

Beside a length as it was, a section as it is would make what nobody has read out to be far too wide.
"""

from __future__ import annotations

import pytest

from coach.ledger.forecast import Forecast
from coach.ledger.plan import Plan
from coach.ledger.working import reshapes
from coach.recipe.model import Step
from tests.ledger.test_more_is_known import (
    NAMES,
    NO_LESS_CHANCE,
    NO_MORE_DOUBT,
    came_to,
    hammered_steps,
    planned,
    readings,
)


def lengths_of(plan: Plan, step: Step) -> list[tuple[str, list[str]]]:
    """Each size that the metal makes and that the step asks for, with what it asks for of its section."""
    found = []
    for zone, stage in plan.by_step[step.number].items():
        sizes = stage.form_after.sizes_mm()
        own = [one for one in step.checks if one.rpartition(".")[0] == zone and reshapes(step, zone)]
        length = f"{zone}.{stage.after.free}"
        section = [one for one in own if one.rpartition(".")[2] in sizes and one != length]
        # A weld moves its length by less than a calliper tells.
        if length in own and section and "weld" not in step.operation:
            found.append((length, section))
    return found


def of_unread(told: Forecast, read: list[str]) -> dict[str, float]:
    """The doubt of each size that nobody has read, mm."""
    return {
        size.name: size.expected.doubt or 0.0
        for zone in told.zones.values()
        for size in zone.sizes
        if size.name not in read
    }


@pytest.mark.parametrize("name", NAMES)
def test_what_nobody_has_read_is_known_no_less_for_a_length_read_on_the_way(name: str) -> None:
    plan, _ = planned(name)
    for step in hammered_steps(plan):
        for length, section in lengths_of(plan, step):
            for beside in section:
                last = readings(plan, step, [length, beside], 1.0, 60)
                without = came_to(name, step, last, finished=False)
                for share in (0.4, 0.7):
                    early = readings(plan, step, [length], share, 10)
                    try:
                        with_it = came_to(name, step, [*early, *last], finished=False)
                    except AssertionError:
                        continue  # what is questioned counts for nothing
                    where = (step.number, length, share, beside)
                    was = of_unread(without, [length, beside])
                    for size, now in of_unread(with_it, [length, beside]).items():
                        assert now <= was[size] * (1.0 + NO_MORE_DOUBT) + 0.01, (where, size, was[size], now)
                    assert with_it.chance >= without.chance - NO_LESS_CHANCE, where


@pytest.mark.parametrize("finished", [False, True])
@pytest.mark.parametrize(
    ("name", "number", "length", "beside"),
    [
        ("cold-chisel", 2, "edge.length", "edge.end_thickness"),
        ("mattock", 9, "blade.length", "blade.end_thickness"),
    ],
)
def test_a_day_in_which_both_came_true_is_no_day_off_plan(
    name: str, number: int, length: str, beside: str, *, finished: bool
) -> None:
    plan, _ = planned(name)
    step = plan.recipe.steps[number - 1]
    marks = [
        *readings(plan, step, [length], 0.6, 10),
        *readings(plan, step, [length, beside], 1.0, 60),
    ]
    assert came_to(name, step, marks, finished=finished).chance > 0.95
