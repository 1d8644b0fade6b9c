"""`coach next-time`: told, shown as an edit, and written only where that is said."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Coach


def worked(coach: Coach) -> str:
    """A hook whose first step at the fire took more heats than planned."""
    job = coach.job()
    coach("done", job)
    for _ in range(5):
        coach("heat", job)
    for _ in range(8):
        coach("done", job)
    return job


def test_it_tells_and_shows_and_writes_nothing(coach: Coach, tmp_path: Path) -> None:
    job = worked(coach)
    said = coach("next-time", job)
    assert said.code == 0
    assert "What to do better next time" in said.out
    assert "plan 5 heats" in " ".join(said.out.split())
    assert "For the heats" in said.out
    assert "by the published figures" in " ".join(said.out.split())
    assert list(tmp_path.glob("*.yaml")) == []


def test_what_is_taken_is_written_as_a_recipe_that_can_be_begun(coach: Coach, tmp_path: Path) -> None:
    job, file = worked(coach), tmp_path / "hook.yaml"
    said = coach("next-time", job, "--take", "heats", "--out", str(file), "--json")
    assert said.code == 0
    assert said.part("taken") == ["heats"]
    assert coach("check", str(file)).code == 0
    steps = coach("plan", str(file), "--json").part("steps")
    assert isinstance(steps, list)
    assert steps[1]["step"]["heats_planned"] == 5


def test_a_job_begun_from_another_length_of_its_bar_keeps_the_remarks_of_its_recipe(
    coach: Coach, tmp_path: Path
) -> None:
    """Of the file as it was, the bar that was there is changed and what is taken, and nothing else."""
    begun = coach("begin", "cold-chisel", "--bar", "hexagon 19, long 300", "--json")
    job, file = str(begun.values["job"]), tmp_path / "chisel.yaml"
    coach("done", job)
    for _ in range(6):
        coach("heat", job)
    for _ in range(11):
        coach("done", job)
    assert coach("next-time", job, "--take", "heats", "--out", str(file)).code == 0
    assert coach("check", str(file)).code == 0
    path = Path(__file__).parents[2] / "recipes" / "cold-chisel.yaml"
    was_lines, lines = (one.read_text(encoding="utf-8").splitlines() for one in (path, file))
    assert len(was_lines) == len(lines)
    changed = [(a.strip(), b.strip()) for a, b in zip(was_lines, lines, strict=True) if a != b]
    assert changed[0] == ("bar: hexagon 19, long 500", "bar: hexagon 19, long 300 mm")
    assert len(changed) == 2
    assert "6 heats" in changed[1][1]


def test_a_job_begun_from_another_section_of_its_rack_keeps_the_recipe_as_it_stands(
    coach: Coach, tmp_path: Path
) -> None:
    """The bar, the heats that are reckoned anew from its section, and what is taken: no other line moves."""
    assert coach("rack", "offcut", "square 12, long 400, mild steel").code == 0
    begun = coach("begin", "first-hook", "--from-rack", "hook=offcut", "--json")
    job, file = str(begun.values["job"]), tmp_path / "hook.yaml"
    coach("done", job)
    for _ in range(7):
        coach("heat", job)
    for _ in range(8):
        coach("done", job)
    assert coach("next-time", job, "--take", "heats", "--out", str(file)).code == 0
    assert coach("check", str(file)).code == 0
    path = Path(__file__).parents[2] / "recipes" / "first-hook.yaml"
    was_lines, lines = (one.read_text(encoding="utf-8").splitlines() for one in (path, file))
    assert len(was_lines) == len(lines)
    changed = [(a.strip(), b.strip()) for a, b in zip(was_lines, lines, strict=True) if a != b]
    assert changed == [
        (
            "bar: square 10  # any length of bar that can be held by its cold end",
            "bar: square 12 mm, long 400 mm  # any length of bar that can be held by its cold end",
        ),
        ("- taper: tip, 3 heats", "- taper: tip, 7 heats"),
        ("- draw: shank, square 8 ±0.8, 2 heats", "- draw: shank, square 8 ±0.8"),
    ]


def test_all_that_is_offered_can_be_taken(coach: Coach, tmp_path: Path) -> None:
    job, file = worked(coach), tmp_path / "hook.yaml"
    costs = coach("next-time", job, "--json").part("costs")
    assert isinstance(costs, list)
    offered = [cost["of"] for cost in costs if cost["edit"] is not None]
    said = coach("next-time", job, "--take", "all", "--out", str(file), "--json")
    assert said.code == 0
    assert said.part("taken") == offered
    assert coach("check", str(file)).code == 0


def test_the_sheet_of_a_finished_job_has_the_three_sentences(coach: Coach) -> None:
    job = worked(coach)
    assert "What to do better next time" in coach("sheet", job).out
    assert "What to do better next time" not in coach("sheet", coach.job()).out
    costs = coach("next-time", job, "--json").part("costs")
    assert coach("sheet", job, "--json").part("next_time", "costs") == costs
    assert coach("sheet", coach.job(), "--json").part("next_time") is None


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--take", "heats"), "go together"),
        (("--take", "time", "--out", "x.yaml"), "type metal, heats, chance, or several such as metal,heats"),
        (("--take", " ", "--out", "x.yaml"), "type metal, heats, chance"),
    ],
)
def test_what_cannot_be_is_told_in_a_sentence(coach: Coach, words: tuple[str, ...], told: str) -> None:
    said = coach("next-time", coach.job(), *words)
    assert said.code == 2
    assert told in " ".join(said.err.split())
