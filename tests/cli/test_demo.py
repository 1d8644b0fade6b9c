"""The demonstration: a part-forged job worth looking at, that touches nothing of the smith's own."""

from __future__ import annotations

import json
import tempfile
from pathlib import Path
from typing import Any

import pytest

from coach.places import bundled_recipes
from tests.cli.conftest import Coach
from tests.half_forged import half_forged


def demo(coach: Coach, *words: str) -> Any:
    said = coach("demo", "--json", *words)
    assert (said.code, said.err) == (0, "")
    return said.values


def test_the_job_is_forged_about_half_way_and_within_a_step(coach: Coach) -> None:
    standing = demo(coach)
    assert 0.4 < standing["step"]["number"] / standing["steps"] < 0.8
    assert 0 < standing["heats"] < standing["step"]["heats_planned"]
    assert standing["next_check"] is not None


def test_one_size_is_thin_one_step_took_a_heat_too_many_and_something_is_noted(coach: Coach) -> None:
    standing = demo(coach)
    verdicts = [check["verdict"] for check in standing["checks"] if check["reading"]]
    assert verdicts[-1] != "good"
    assert set(verdicts[:-1]) <= {"good", "unsure"}
    assert not any(one["reading"] and one["reading"]["questioned"] for one in standing["checks"])
    assert len(standing["notes"]) == 1
    planned = {step.number: step.heats for step in _steps()}
    assert sum(done["heats"] - planned[done["number"]] for done in standing["done"]) == 1


def _steps() -> Any:
    from coach.recipe.reader import read_recipe_file

    return read_recipe_file(bundled_recipes() / "carpenters-adze.yaml").steps


def test_it_is_the_same_every_time(coach: Coach) -> None:
    assert demo(coach) == demo(coach)


def test_it_leaves_the_shop_and_the_temporary_folder_as_they_were(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    scratch = tmp_path / "scratch"
    scratch.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(scratch))
    demo(coach)
    assert list(scratch.iterdir()) == []
    assert not coach.home.exists()


def test_a_log_that_is_kept_is_gone_on_with(coach: Coach, tmp_path: Path) -> None:
    folder = tmp_path / "new" / "demo"
    standing = demo(coach, "--where", str(folder))
    coach("heat", standing["job"], "--shop", str(folder / "demo.sqlite"))
    assert demo(coach, "--where", str(folder))["heats"] == standing["heats"] + 1


def test_a_file_where_the_folder_should_be_is_refused(coach: Coach, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("", encoding="utf-8")
    said = coach("demo", "--no-screen", "--where", str(tmp_path / "taken"))
    assert said.code == 2
    assert "taken" in said.err


@pytest.mark.parametrize("path", sorted(bundled_recipes().glob("*.yaml")), ids=lambda path: path.stem)
def test_any_bundled_recipe_can_be_forged_half_way(path: Path) -> None:
    text = half_forged(path.read_text(encoding="utf-8"), path.name)
    kinds = {json.loads(line).get("kind") for line in text.splitlines()}
    assert kinds >= {"began", "reading", "done", "note"}
