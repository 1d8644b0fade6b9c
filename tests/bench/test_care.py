"""What holds all day is said once: as the job begins, and before its first fire is lit."""

from __future__ import annotations

from pathlib import Path

from coach.bench.resting import Care
from coach.bench.session import Session
from coach.operations.hazards import Moment
from tests.bench import jobs
from tests.screens.stage import PEG

ADZE = Path(__file__).parents[2] / "recipes" / "carpenters-adze.yaml"


def begun(path: Path) -> Session:
    return jobs.shop().begin(path.read_text(encoding="utf-8"), path.name)


def test_a_job_that_begins_cold_tells_of_the_fire_when_it_comes_to_it() -> None:
    session = begun(ADZE)
    assert [bool(step.heats) for step in session.recipe.steps[:2]] == [False, True]
    assert [one.moment for one in session.begun().care] == [Moment.BEGIN]
    assert [one.moment for one in session.done().care] == [Moment.FIRST_FIRE]
    assert session.done().care == ()


def test_a_job_whose_first_step_is_hot_tells_of_both_at_once() -> None:
    session = jobs.shop().begin(PEG, "peg.yaml")
    assert session.recipe.steps[0].heats
    assert [one.moment for one in session.begun().care] == [Moment.BEGIN, Moment.FIRST_FIRE]
    assert session.done().care == ()


def test_who_goes_back_and_on_again_is_not_told_twice() -> None:
    session = begun(ADZE)
    session.done()
    session.back()
    assert session.done().care == ()


def test_faces_are_oiled_for_the_rest_until_they_are_tacked_and_not_after() -> None:
    session = begun(ADZE)
    for _ in range(6):
        session.done()
    assert session.recipe.steps[6].operation == "tack"
    assert Care.OIL in session.care_at_rest(), "the faces are fitted, and open"
    session.heat()
    assert Care.OIL not in session.care_at_rest(), "oil would run into the flux"
    session.done()
    assert Care.OIL not in session.care_at_rest(), "nothing can clean it out of a tacked joint"


def test_annealed_steel_is_left_in_its_ash_over_the_rest() -> None:
    # Annealed steel cools slowly, in ash, in lime or in the fire itself (common practice, no source).
    session = jobs.at_step_of("cold-chisel", 7)
    assert session.recipe.steps[6].operation == "anneal"
    assert Care.COOL in session.care_at_rest(), "normalised, it cools in still air"
    session.heat()
    assert Care.BURIED in session.care_at_rest()
    assert Care.COOL not in session.care_at_rest()
    session.done()
    assert Care.BURIED in session.care_at_rest(), "it lies there until morning"
    assert Care.COOL not in session.care_at_rest()


def test_what_lies_in_the_fire_is_to_be_taken_out_of_it_before_the_rest() -> None:
    session = jobs.at_step_of("cold-chisel", 2)  # the first that is worked hot
    assert Care.IN_FIRE not in session.care_at_rest()
    session.fire()
    assert session.care_at_rest()[:2] == (Care.IN_FIRE, Care.COOL)
    session.heat()
    assert Care.IN_FIRE not in session.care_at_rest()
    assert Care.COOL in session.care_at_rest()
