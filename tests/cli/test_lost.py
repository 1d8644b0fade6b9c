"""A loss of metal by command: told first, entered with --take, struck out again."""

from __future__ import annotations

from pathlib import Path

from tests.cli.conftest import Coach


def test_a_loss_is_told_and_nothing_is_entered(coach: Coach) -> None:
    job = coach.job()
    told = coach("lost", job, "tip=15")
    assert told.code == 1
    assert told.out.startswith("Lost: 15 mm of the end of the tip, not said how\n")
    assert "Before" in told.out
    assert "With it" in told.out
    told = coach("lost", job, "tip=15", "--json")
    assert told.part("loss", "after", "verdict") == "off plan"
    assert told.part("loss", "lost", "value") == 15.0
    assert coach("where", job, "--json").part("last_entry") == 1


def test_a_loss_that_is_taken_counts_until_it_is_struck_out(coach: Coach) -> None:
    job = coach.job()
    assert coach("lost", job, "tip=15", "--by", "cut wrong", "--take").code == 1
    assert "lost: 15 mm of the end of the tip, cut wrong" in coach("history", job).out
    assert coach("where", job).code == 1
    assert coach("strike", job).code == 0
    assert coach("where", job).code == 0


def test_what_is_no_loss_says_what_to_write(coach: Coach) -> None:
    job = coach.job()
    told = coach("lost", job, "point")
    assert told.code != 0
    assert "'point' is no loss: write ZONE=AMOUNT, such as blade=12 or blade=30g." in told.err


def test_a_cause_beside_its_amount_is_told_where_it_goes(coach: Coach) -> None:
    """At the bench it is typed behind the amount."""
    job = coach.job()
    told = coach("lost", job, "tip=2 burnt")
    assert told.code == 2
    assert "What took it goes with --by: tip=2 --by burnt, and --take enters it." in told.err
    assert "tip=2 --by 'cut wrong'" in coach("lost", job, "tip=2 cut wrong").err


def test_a_loss_goes_with_the_job_to_another_log(coach: Coach, tmp_path: Path) -> None:
    job = coach.job()
    coach("lost", job, "tip=12", "--take")
    carried = str(tmp_path / "carried.jsonl")
    assert coach("export", job, carried).code == 0
    said = coach("import", carried, "--shop", str(tmp_path / "other.sqlite"), "--json")
    assert said.code == 0
    assert said.part("standing") == coach("where", job, "--json").values
