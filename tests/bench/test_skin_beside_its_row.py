"""A size that leaves too little for the stone says so in its row, by figures that can be followed."""

from __future__ import annotations

import re

import pytest

from coach.bench.checks import Check
from coach.bench.session import Session
from coach.bench.skin import short_skin
from coach.ledger.verdict import PlanState, Verdict
from coach.telling.reading import reading_sentence
from coach.telling.skin import skin_words
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of

SHOWN = Shown("mm")


def thinned(thickness: str) -> Session:
    """The mattock's blade, its edge forged to 5.2 ±0.8 mm before it is ground to 4 ±1."""
    job = at_step_of("mattock", 10)
    for _ in range(3):
        job.heat()
    job.read("blade.end_thickness", thickness)
    return job


def edge(job: Session) -> Check:
    return next(one for one in job.standing().checks if one.name == "blade.end_thickness")


# By hand: a skin of 0.43 mm and a tenth of sound steel on each of two faces are 1.07 mm; of 5.1 mm the fires
# to come leave some 5.05, and the stone takes 1.05 of it: 0.02 mm short is nothing that can be measured.
@pytest.mark.parametrize("thickness", ["5.1", "5.12", "5.3"])
def test_a_hundredth_less_than_should_be_ground_is_not_too_little(thickness: str) -> None:
    job = thinned(thickness)
    assert job.standing().verdict is PlanState.ON_PLAN
    assert edge(job).is_settled


@pytest.mark.parametrize("thickness", ["5.0", "4.8", "4.6", "4.5"])
def test_row_skin_and_verdict_lack_the_same(thickness: str) -> None:
    job = thinned(thickness)
    standing = job.standing()
    check, skin = edge(job), next(one for one in standing.skins if one.steel == "blade")
    assert standing.verdict is not PlanState.ON_PLAN
    assert check.verdict in (Verdict.GOOD, Verdict.UNSURE)  # by the step's limits
    assert not check.is_settled
    row = re.search(r"wants ([\d.]+) mm more left for the stone", reading_sentence(check, SHOWN))
    head = re.search(
        r"up to ([\d.]+) mm deep on each of 2 faces and only ([\d.]+) mm is ground off the end thickness: "
        r"leave ([\d.]+) mm more for the stone, ([\d.]+) mm in all with a tenth of sound steel on each,",
        write(short_skin(standing.skins), SHOWN),
    )
    told = re.search(r"grinds ([\d.]+) mm off .* and should ([\d.]+) mm", write(skin_words(skin), SHOWN))
    assert row is not None
    assert head is not None
    assert told is not None
    deep, ground, more, should = (float(one) for one in head.groups())
    assert (float(told[1]), float(told[2])) == (ground, should)
    assert float(row[1]) == more
    assert ground + more == pytest.approx(should)  # as a smith adds it up
    assert 2 * (deep + 0.1) == pytest.approx(should, abs=0.1)  # told to the next tenth


def test_a_size_too_thin_for_its_skin_is_said_again_as_its_step_ends() -> None:
    unsettled = thinned("4.8").done().did.unsettled  # type: ignore[union-attr]
    assert "blade.end_thickness" in [one.name for one in unsettled.checks]
