"""`coach fire` for a piece that went in the fire earlier, as the paper of the day says."""

from __future__ import annotations

from tests.cli.conftest import Coach


def test_a_fire_of_paper_is_entered_for_its_hour(coach: Coach) -> None:
    job = coach.job()
    coach("begun", job, "2001-02-03 8:00")
    coach("done", job, "--at", "2001-02-03 8:30")
    said = coach("fire", job, "--at", "2001-02-03 8:40")
    assert said.out.startswith("In the fire at 2001-02-03 8:40, at step 2, Draw out the tip")
    assert coach("heat", job, "--at", "2001-02-03 8:52").code == 0
    told = " ".join(coach("history", job).out.split())
    assert "in the fire at step 2, at 2001-02-03 08:40, entered later" in told


def test_a_fire_of_another_day_cannot_be_of_before_the_job(coach: Coach) -> None:
    job = coach.job()
    said = coach("fire", job, "--at", "2001-02-03 14:30")
    assert said.code != 0
    assert "The job had not begun at 2001-02-03 14:30" in said.err
    assert coach("fire", job, "--at", "half two").err.startswith("'half two' is no time")
