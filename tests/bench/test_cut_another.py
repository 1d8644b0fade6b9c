"""A small piece that is spoiled is cut from its bar once more, and the rest of the job goes on."""

from __future__ import annotations

import pytest

from coach.bench.losing import LossAsked
from coach.bench.session import Session
from coach.ledger.verdict import PlanState
from coach.quantities import Words
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.bench.jobs import at_step_of, shop

#: The step of the cross-peen hammer in which its steel face is nicked from its bar, 37 ±2 mm long.
NICK = 11
WAY = "cut-another-face"


def nicked_too_short() -> Session:
    job = at_step_of("cross-peen-hammer", NICK)
    job.heat()
    job.read("face.length", "30", insist=True)
    return job


def test_a_face_that_was_cut_too_short_is_cut_once_more_from_its_bar() -> None:
    job = nicked_too_short()
    assert job.standing().verdict is not PlanState.ON_PLAN
    way = next(one for one in job.ways_back() if one.name == WAY)
    assert write(way.title, Shown("mm")).startswith("Cut another face: ")
    assert write(way.title, Shown("mm")).endswith("40 mm × 12 mm")
    heats, steps = job.standing().heats_total, job.standing().steps
    job.take(WAY)
    told = job.standing()
    assert told.heats_total == heats  # those so far stay
    assert told.chance == pytest.approx(way.chance, abs=0.02)
    assert told.steps == steps + 4  # marked out, dressed, barbed, nicked
    assert not told.left_out
    job.done()
    step = job.standing().step
    assert step is not None
    assert step.title == "Again: mark out the steel face"
    assert job.forms_now()["face"].size_mm("length") > 30.0


def test_the_job_goes_on_with_the_new_piece_and_ends_on_plan() -> None:
    job = nicked_too_short()
    job.take(WAY)
    titles: list[str] = []
    while (step := job.standing().step) is not None and len(titles) < 9:
        titles.append(step.title)
        for check in job.standing().checks:
            if check.wanted is not None and check.name in ("face.length", "face.thickness", "face.width"):
                job.read(check.name, f"{check.wanted.limits.nominal:.1f}")
        job.done()
    assert titles[1:5] == [
        "Again: mark out the steel face",
        "Again: dress the steel face",
        "Again: raise the barbs",
        "Again: nick the face from its bar",
    ]
    assert job.standing().verdict is PlanState.ON_PLAN
    assert not job.standing().questioned


def test_a_piece_that_is_welded_on_is_not_cut_anew() -> None:
    job = at_step_of("cross-peen-hammer", 15)
    job.lose(LossAsked("face", "20 g", "burnt"))
    assert WAY not in {one.name for one in job.ways_back()}


def test_struck_out_the_piece_is_what_it_was() -> None:
    job = nicked_too_short()
    before = job.standing()
    job.take(WAY)
    job.strike()
    after = job.standing()
    assert (after.chance, after.steps, after.sizes) == (before.chance, before.steps, before.sizes)


def test_the_recipe_that_was_forged_has_the_new_piece_and_not_the_spoiled_one() -> None:
    job = nicked_too_short()
    steps = len(job.recipe.steps)
    job.take(WAY)
    again = shop().begin(job.forged(), "forged.yaml")
    assert [one.title for one in again.recipe.steps][10] == "Nick the face from its bar"
    assert len(again.recipe.steps) == steps
    assert again.standing().verdict is PlanState.ON_PLAN


def test_the_recipe_that_was_forged_leaves_what_steel_is_left() -> None:
    job = at_step_of("cross-peen-hammer", 15)
    job.lose(LossAsked("face", "14 g", "burnt"))
    job.take("less-steel-face")
    remains_mm = shop().begin(job.forged(), "forged.yaml").recipe.drawing["face"].remains_mm
    assert remains_mm is not None
    assert 4.5 < remains_mm < 6.0


def test_a_change_in_a_line_is_taken_after_a_piece_was_cut_anew() -> None:
    job = nicked_too_short()
    job.take(WAY)
    job.done()
    job.change("heats 13 = 2")
    assert job.recipe.steps[12].heats == 2
    assert job.standing().verdict is PlanState.ON_PLAN


def test_the_face_of_an_adze_is_cut_anew_as_well() -> None:
    job = at_step_of("carpenters-adze", 5)
    job.read("face.length", "22", insist=True)
    assert WAY in {one.name for one in job.ways_back()}


def test_the_body_that_steel_was_welded_to_is_not_cut_anew() -> None:
    job = at_step_of("cross-peen-hammer", 31)
    job.read("poll.hardness", "58")
    job.read("poll.hardness", "58")
    assert not [one.name for one in job.ways_back() if one.name.startswith("cut-another")]


def test_the_step_in_which_it_was_spoiled_is_said_to_be_done_as_it_is() -> None:
    job = nicked_too_short()
    way = next(one for one in job.ways_back() if one.name == WAY)
    told = write(way.changes, Shown("mm"))
    assert told.startswith("4 steps again, from step 12 on, once the step in hand is done as it is; ")
    taken = job.take(WAY).did
    assert isinstance(taken, Words)
    assert write(taken).endswith(": taken. Nothing more is done or measured in the step in hand: end it")
    assert job.standing().checks == (), "nothing is measured of a piece that is set aside"
    job.done()
    step = job.standing().step
    assert step is not None
    assert step.number == 12
    assert [one.name for one in job.standing().checks] == ["face.mark"]
