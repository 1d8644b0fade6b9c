"""A smith's own grades are found in their folder, and a job keeps to those that it was begun with."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from coach.bench.shop import Shop
from coach.metals import look_in
from coach.metals.grade import grade, keep_to
from coach.metals.grade_file import template_text
from coach.recipe.faults import RecipeFaults
from coach.telling.words import write
from tests.bench.jobs import shop

OWN = template_text("Mill file").replace("value = 7850", "value = 7900")
BAR = """\
recipe: Bar
pieces:
  bar:
    metal: mill file
    bar: square 20
    size: square 20, long 100
steps:
  - inspect: bar
"""


@pytest.fixture
def folder(tmp_path: Path) -> Iterator[Path]:
    own = tmp_path / "grades"
    own.mkdir()
    look_in(own)
    yield own
    look_in()
    keep_to({})


def mass_g(at: Shop, job: str) -> float:
    return at.open(job).plan.finished_mass.value


def test_a_grade_in_the_smith_s_own_folder_is_a_grade_like_any_other(folder: Path) -> None:
    with pytest.raises(RecipeFaults, match="mill file"):
        shop().begin(BAR, "bar.yaml")
    (folder / "mill-file.toml").write_text(OWN, encoding="utf-8")
    look_in(folder)
    assert shop().begin(BAR, "bar.yaml").plan.finished_mass.value == pytest.approx(20 * 20 * 100 * 7.9e-3)


def test_a_job_keeps_to_the_grade_it_was_begun_with(folder: Path, tmp_path: Path) -> None:
    file = folder / "mill-file.toml"
    file.write_text(OWN, encoding="utf-8")
    with shop(tmp_path / "shop.sqlite") as at:
        job = at.begin(BAR, "bar.yaml").job
    file.write_text(OWN.replace("7900", "7700"), encoding="utf-8")
    look_in(folder)
    with shop(tmp_path / "shop.sqlite") as at:
        assert mass_g(at, job) == pytest.approx(316.0)
        newer = at.begin(BAR, "bar.yaml").job
        assert mass_g(at, newer) == pytest.approx(308.0)
        assert mass_g(at, job) == pytest.approx(316.0)
    file.unlink()
    look_in(folder)
    with shop(tmp_path / "shop.sqlite") as at:
        assert mass_g(at, job) == pytest.approx(316.0), "though its file is gone"


def test_a_folder_that_is_not_there_is_no_trouble(tmp_path: Path) -> None:
    look_in(tmp_path / "nowhere")
    try:
        assert grade("C45").name == "C45"
    finally:
        look_in()


def test_of_a_grade_without_forging_heats_nothing_is_guessed_and_what_is_taken_is_said(folder: Path) -> None:
    (folder / "mill-file.toml").write_text(OWN, encoding="utf-8")
    look_in(folder)
    hot = BAR.replace("  - inspect: bar", "  - straighten: bar, 1 heat, at 1000 °C")
    to_do = shop().begin(hot, "bar.yaml").standing().step
    assert to_do is not None
    told = " ".join(map(write, to_do.advice))
    assert "No forging heat is known for Mill file" in told
    assert "What is told here is that of carbon steel" in told
    assert "cracks" not in told
