"""Blows that were counted, from the command line: with the heat, or with what ends it."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from tests.cli.conftest import Coach


def test_they_are_said_with_the_heat_with_the_fire_and_with_the_end_of_the_step(coach: Coach) -> None:
    job = coach.job()
    coach("done", job)
    assert "40 blows in the heat of step 2." in coach("heat", job, "--blows", "40").out
    coach("heat", job)
    assert "38 blows in the last heat of step 2." in coach("fire", job, "--blows", "38").out
    coach("heat", job)
    assert "1 blow in the last heat of step 2." in coach("done", job, "--blows", "1").out
    steps = coach("sheet", job, "--json").part("sheet", "heats", "steps")
    assert isinstance(steps, list)
    assert [(one["blows"], one["blows_of"]) for one in steps][:3] == [(0, 0), (79, 3), (0, 0)]


@pytest.mark.parametrize("command", ["fire", "done"])
def test_without_a_heat_nothing_is_entered(coach: Coach, command: str) -> None:
    job = coach.job()
    entries = coach("where", job, "--json").part("last_entry")
    said = coach(command, job, "--blows", "40")
    assert said.code == 2
    assert "No heat is marked that these blows were struck in: mark the heat first." in said.err
    assert coach("where", job, "--json").part("last_entry") == entries


@pytest.mark.parametrize("blows", ["0", "2001", "x", "-4", "4.5"])
def test_what_is_no_count_enters_no_heat_either(coach: Coach, blows: str) -> None:
    job = coach.job()
    coach("done", job)
    entries = coach("where", job, "--json").part("last_entry")
    assert coach("heat", job, f"--blows={blows}").code == 2
    assert coach("where", job, "--json").part("last_entry") == entries


def test_the_table_for_a_spreadsheet_has_them_as_numbers(coach: Coach, tmp_path: Path) -> None:
    job, table = coach.job(), tmp_path / "record.csv"
    coach("done", job)
    coach("heat", job, "--blows", "40")
    coach("heat", job)
    coach("done", job)
    assert coach("sheet", job, "--out", str(table)).code == 0
    with table.open(encoding="utf-8-sig", newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["taken (blows)"]]
    assert [(row["taken (blows)"], row["blows in (heats)"], row["taken (heats)"]) for row in rows] == [
        ("40", "1", "2")
    ]
    assert any("40 in 1 heat" in cell for cell in rows[0].values())
