"""A length that is stood by against its section says nothing of the metal of zones that lie as they did."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

import pytest

from coach.bench.session import Session
from coach.telling.why import stands_text
from coach.telling.writing import Shown
from tests.bench.jobs import shop

RECIPES = Path(__file__).parents[2] / "recipes"


class Case(NamedTuple):
    """A job as far as the step in which a length is stood by."""

    marks: Mapping[str, float]
    steps: int  # that are ended before
    heats: int  # of the step
    section: Mapping[str, float]
    length: str
    made_mm: float  # what the metal makes of it in that section: area of the bar x its length over section
    beside: tuple[str, ...]  # what was not worked in the step, nor read


CASES = {
    # 12.5 mm square, 111 mm of it, less 2 % of scale: 17 000 mm³ over 8.1 x 8.1 = 260 mm.
    "meat-fork": Case(
        {"end": 32.0, "stem": 143.0, "tail": 172.0},
        *(7, 2, {"stem.side": 8.1}, "stem.length", 260.0),
        ("tine.length", "hook.length", "tail.length"),
    ),
    # 10 mm square, 72.4 mm of it, less 2 % of scale: 7095 mm³ over 8 x 8 = 111 mm.
    "first-hook": Case(
        {"tip": 30.6, "shank": 103.0, "eye": 139.5},
        *(2, 2, {"shank.side": 8.0}, "shank.length", 111.0),
        ("tip.length", "plate.length"),
    ),
    # 40 mm square, 20.5 mm of it, less 2 % of scale: 32 140 mm³ over 34 x 34 = 27.8 mm.
    "carpenters-adze": Case(
        {"poll": 20.5, "eye": 63.3, "blade": 105.0, "bit": 119.5},
        *(1, 2, {"poll.side": 34.0}, "poll.length", 27.8),
        ("blade.length", "bit.length"),
    ),
}


def begun(name: str) -> Session:
    case = CASES[name]
    job = shop().begin((RECIPES / f"{name}.yaml").read_text(encoding="utf-8"), f"{name}.yaml", None)
    for zone, at_mm in case.marks.items():
        if any(check.name == f"{zone}.mark" for check in job.standing().checks):
            job.read(f"{zone}.mark", f"{at_mm}")
    for _ in range(case.steps):
        job.done()
    for _ in range(case.heats):
        job.heat()
    for size, mm in case.section.items():
        job.read(size, f"{mm}")
    return job


def spare_mm(job: Session) -> dict[str, float]:
    return {f"{one.zone}.{one.dimension}": one.spare.value for one in job.standing().spares}


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("share", [0.55, 0.75, 1.4])
def test_a_length_stood_by_leaves_the_others_what_they_had(name: str, share: float) -> None:
    case, job = CASES[name], begun(name)
    had = spare_mm(job)
    job.read(case.length, f"{share * case.made_mm:.1f}", insist=True)
    has = spare_mm(job)
    for one in case.beside:
        # The fire that is learned takes more or less of it: less than a fifth of its spare (judgement).
        assert has[one] == pytest.approx(had[one], rel=0.2, abs=0.5)
    told = stands_text(job.standing(), Shown())
    assert "cannot hold" not in told
