"""`coach heat` for a heat that nobody marked when it was taken."""

from __future__ import annotations

from tests.cli.conftest import Coach


def test_a_forgotten_heat_is_entered_for_its_step(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)
    coach("heat", job)
    coach("done", job)
    said = coach("heat", job, "--step", "2")
    assert said.code == 0
    assert said.out.startswith("A heat of step 2, Draw out the tip, is marked: 2 heats by now.")
    assert "a heat of step 2, entered later" in coach("history", job).out


def test_a_heat_of_another_day_names_its_time_and_cannot_be_of_before_the_job(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)
    said = coach("heat", job, "--at", "2001-02-03 14:30")
    assert said.code != 0
    assert "The job had not begun at 2001-02-03 14:30" in said.err
    assert coach("heat", job, "--at", "half two").err.startswith(
        "'half two' is no time: type a time of today"
    )


def test_a_fire_that_is_out_is_out_now(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)
    said = coach("heat", job, "--fire-out", "--step", "2")
    assert said.code == 2
    assert "leave out --fire-out" in said.err
