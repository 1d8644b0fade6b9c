"""Where the coach's own files live on this computer."""

from __future__ import annotations

from pathlib import Path

import platformdirs
import pytest

from coach import places


def test_one_variable_moves_every_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("BETWEEN_HEATS_HOME", str(tmp_path))
    folders = {places.data_folder(), places.config_folder(), places.log_folder()}
    assert len(folders) == 3
    assert {folder.parent for folder in folders} == {tmp_path}
    assert places.shop_file().parent == places.data_folder()


def test_an_empty_variable_counts_as_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BETWEEN_HEATS_HOME", " ")
    assert places.data_folder() == Path(platformdirs.user_data_dir("between-heats", appauthor=False))


def test_a_relative_home_starts_from_the_working_folder(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("BETWEEN_HEATS_HOME", "trial")
    assert places.data_folder() == tmp_path / "trial" / "data"


def test_naming_a_folder_does_not_make_it(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("BETWEEN_HEATS_HOME", str(tmp_path / "trial"))
    places.shop_file()
    places.config_folder()
    places.log_folder()
    assert list(tmp_path.iterdir()) == []


def test_a_checkout_keeps_its_recipes_beside_the_package() -> None:
    assert places.bundled_recipes() == Path(places.__file__).resolve().parents[1] / "recipes"


def test_an_installed_package_keeps_its_recipes_inside_it(tmp_path: Path) -> None:
    inside = tmp_path / "coach" / "bundled_recipes"
    inside.mkdir(parents=True)
    (tmp_path / "recipes").mkdir()
    assert places._recipes_of(tmp_path / "coach") == inside


def test_lost_recipes_are_told_plainly(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError, match="install between-heats again"):
        places._recipes_of(tmp_path / "coach")


def test_the_smith_s_own_recipes_are_looked_for_before_those_that_come_with_the_coach(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("BETWEEN_HEATS_HOME", str(tmp_path))
    assert places.recipe_folders() == (tmp_path / "config" / "recipes", places.bundled_recipes())
