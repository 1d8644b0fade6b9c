"""`coach paper`: a recipe or a job written to a file, and what is refused in one sentence."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from tests.cli.conftest import Coach


def test_a_recipe_is_written_as_one_page(coach: Coach, tmp_path: Path) -> None:
    file = tmp_path / "hook.html"
    said = coach("paper", "first-hook", "--out", str(file), "--json")
    assert (said.code, said.err) == (0, "")
    assert said.values == {"recipe": "first-hook", "job": "", "file": str(file), "steps": 9}
    html = file.read_text(encoding="utf-8")
    assert html.startswith("<!DOCTYPE html>")
    assert html.count('<div class="step">') == 9


def test_a_job_is_written_with_what_is_left_of_it(coach: Coach, tmp_path: Path) -> None:
    job, file = coach.job(), tmp_path / "hook.html"
    coach("done", job)
    assert coach("paper", "--job", job, "--out", str(file), "--json").part("steps") == 8
    html = file.read_text(encoding="utf-8")
    assert f"Job <b>{job}</b>" in html
    assert "<h3>1. " not in html
    assert "<h3>2. " in html


def test_units_are_those_asked_for(coach: Coach, tmp_path: Path) -> None:
    file = tmp_path / "hook.html"
    coach("paper", "first-hook", "--out", str(file), "--units", "in")
    assert "1 7/32 in" in file.read_text(encoding="utf-8")


def test_a_file_that_is_there_is_kept_unless_told(coach: Coach, tmp_path: Path) -> None:
    file = tmp_path / "hook.html"
    file.write_text("mine", encoding="utf-8")
    assert coach("paper", "first-hook", "--out", str(file)).code == 2
    assert file.read_text(encoding="utf-8") == "mine"
    assert coach("paper", "first-hook", "--out", str(file), "--force").code == 0


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--out", "hook.html"), "Name a recipe"),
        (("first-hook", "--job", "hook", "--out", "hook.html"), "not both"),
        (("first-hook", "--out", "hook.doc"), "neither .html nor .pdf"),
        (("first-hook", "--out", "hook.html", "--paper", "a4"), "--paper is for a PDF"),
        (("first-hook", "--out", "hook.pdf", "--paper", "a3"), "type a4 or letter"),
        (("no-such-thing", "--out", "hook.html"), "no-such-thing"),
        (("--job", "no-such-job", "--out", "hook.html"), "no-such-job"),
    ],
)
def test_what_cannot_be_is_told_in_a_sentence(coach: Coach, words: tuple[str, ...], told: str) -> None:
    said = coach("paper", *words)
    assert said.code == 2
    assert told in " ".join(said.err.split())
    assert "Traceback" not in said.err


def test_without_the_extra_a_pdf_is_refused_and_nothing_is_written(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    file = tmp_path / "hook.pdf"
    said = coach("paper", "first-hook", "--out", str(file))
    assert said.code == 2
    assert "between-heats[pdf]" in " ".join(said.err.split())
    assert not file.exists()
