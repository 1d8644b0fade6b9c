"""A job forged from its first step to its end by a made-up hand, through the bench's own service."""

from __future__ import annotations

from math import inf

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.quantities import Figure, Kind
from coach.telling.figures import write_figure
from coach.telling.writing import Shown
from tests.bench.jobs import shop


def forged(text: str, source: str) -> Session:
    """The job of this recipe, finished: each heat marked, each size asked for read as expected."""
    session = shop().begin(text, source)
    forge_up_to(session)
    return session


def forge_up_to(session: Session, number: int = 0) -> None:
    """Forge a job on until this step is in hand; without one, to its end."""
    while (step := session.standing().step) is not None and step.number != number:
        for _ in range(step.heats_planned):
            session.heat()
        for name in session.recipe.steps[step.number - 1].checks:
            check = next(one for one in session.standing().checks if one.name == name)
            session.read(name, _typed(check, Shown(session.system)))
        assert not session.done_warning(), step.title
        session.done()


def _typed(check: Check, shown: Shown) -> str:
    if check.kind is Kind.TEST:
        return "pass"
    if check.expected is not None and not _barely(check):
        return write_figure(Figure(check.expected.value, check.kind), shown)
    assert check.wanted is not None, f"{check.name}: nothing says what it should be"
    limits = check.wanted.limits
    if check.expected is not None:  # what would come out so near a limit is dressed until the gauge is sure
        return write_figure(Figure(limits.nominal, check.kind), shown)
    well_inside = limits.high / 2 if limits.low == -inf else max(limits.nominal, limits.low)
    return write_figure(Figure(min(well_inside, limits.high), check.kind), shown)


def _barely(check: Check) -> bool:
    """Whether what is expected lies within its limits, but too near one of them for the gauge to tell."""
    if check.wanted is None or check.expected is None or check.kind is not Kind.LENGTH:
        return False
    limits, value = check.wanted.limits, check.expected.value
    near = min(value - limits.low, limits.high - value)
    return 0.0 <= near < min(0.5, 0.2 * (limits.high - limits.low))
