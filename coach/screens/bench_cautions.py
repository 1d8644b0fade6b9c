"""Which cautions of a step the bench tells at a moment: each where its hurt is near, so that it is read.

The step in full, the plan and the commands tell all of them, and so does the bench at a treatment.
"""

from __future__ import annotations

from collections.abc import Iterator

from coach.bench.checks import Check
from coach.bench.standing import Standing
from coach.bench.step import StepToDo
from coach.operations import Does, operation
from coach.operations.does import HeatKind
from coach.operations.hazards import of_black_metal, of_tests_alone


def cautions_now(standing: Standing, chosen: Check | None) -> Iterator[str]:
    """The cautions that hold now.

    What a test can hurt by is told while that test is asked for. That metal is hot which looks cold is told
    in the first step of a job that takes heats, and from then on once the last planned heat of a step is out:
    from there on the metal goes black, and hands come to it. A step of heat treatment tells all it has from
    its beginning, for there nobody has a hand free to read on.
    """
    step = standing.step
    if step is None:
        return
    asked = {chosen.dimension} if chosen is not None else set()
    others = {one.dimension for one in standing.checks} - asked
    goes_black = standing.heats >= step.heats_planned or standing.heats_total == standing.heats
    if treats(step):
        yield from step.cautions
        return
    for caution in step.cautions:
        tests = of_tests_alone().get(caution, frozenset())
        if tests & others and not tests & asked:
            continue
        if caution != of_black_metal() or goes_black:
            yield caution


def treats(step: StepToDo) -> bool:
    """Whether a step is one of heat treatment."""
    return step.heat_kind is HeatKind.TREATMENT or Does.TEMPERS in operation(step.operation).DOES
