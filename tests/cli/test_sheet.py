"""`coach sheet`: told, as JSON, and as Markdown in a file or on standard output."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from markdown_it import MarkdownIt
from PIL import Image

from tests.cli.conftest import Coach


def test_it_tells_the_drawing_against_the_tool_of_a_job_that_is_not_finished(coach: Coach) -> None:
    job = coach.job()
    said = coach("sheet", job)
    assert said.code == 0
    assert "so far, 0 of 9 steps done" in said.out
    assert "The drawing and the tool" in said.out
    assert all(len(line) <= 80 for line in said.out.splitlines())


def test_its_json_has_every_size_with_both_limits_and_what_became_of_it(coach: Coach) -> None:
    job = coach.job()
    sizes = coach("sheet", job, "--json").part("sheet", "sizes")
    assert isinstance(sizes, list)
    first = sizes[0]
    assert (first["name"], first["verdict"], first["came"]) == ("tip.width", "to come", None)
    assert (first["wanted"]["low"], first["wanted"]["high"]) == (7.2, 8.8)
    assert coach("sheet", job, "--json").part("pictures")


def test_its_markdown_is_read_with_its_tables_and_its_picture(coach: Coach, tmp_path: Path) -> None:
    job, file = coach.job(), tmp_path / "hook.md"
    coach("note", job, "a | b | *c*")
    assert coach("sheet", job, "--markdown", str(file)).code == 0
    html = MarkdownIt("commonmark").enable("table").render(file.read_text(encoding="utf-8"))
    assert "<h1>First hook</h1>" in html
    assert html.count("<table>") == html.count("</table>") == 3  # sizes, what it took, steps
    assert "<td>· tip width</td>" in html
    assert "a | b | *c*" in html
    assert '<pre><code class="language-text">' in html


def test_the_same_markdown_goes_to_standard_output(coach: Coach, tmp_path: Path) -> None:
    job, file = coach.job(), tmp_path / "hook.md"
    coach("sheet", job, "--markdown", str(file))
    assert coach("sheet", job, "--markdown", "-").out == file.read_text(encoding="utf-8")


def test_markdown_on_standard_output_is_not_json_as_well(coach: Coach) -> None:
    said = coach("sheet", coach.job(), "--markdown", "-", "--json")
    assert said.code == 2
    assert "leave out --json" in said.err
    assert "Traceback" not in said.err


@pytest.mark.parametrize("ending", ["html", "md", "csv", "json"])
def test_the_record_is_written_as_its_file_ends(coach: Coach, tmp_path: Path, ending: str) -> None:
    job, file = coach.job(), tmp_path / f"hook.{ending}"
    coach("note", job, "=HYPERLINK(1)")
    said = coach("sheet", job, "--out", str(file), "--json")
    assert (said.code, said.values) == (0, {"job": job, "file": str(file)})
    text = file.read_text(encoding="utf-8")
    assert "First hook" in text
    assert "HYPERLINK" in text
    if ending == "json":
        assert json.loads(text) == coach("sheet", job, "--json").values
    if ending == "md":
        assert text == coach("sheet", job, "--markdown", "-").out


def test_a_record_whose_form_nobody_knows_is_refused(coach: Coach, tmp_path: Path) -> None:
    job = coach.job()
    said = coach("sheet", job, "--out", str(tmp_path / "hook.xls"))
    assert said.code == 2
    assert ".csv" in said.err
    said = coach("sheet", job, "--out", str(tmp_path / "hook.md"), "--markdown", "-")
    assert said.code == 2
    assert "leave one of them out" in said.err
    assert list(tmp_path.glob("hook.*")) == []


def test_a_photograph_is_put_down_by_a_file_that_is_there(coach: Coach, tmp_path: Path) -> None:
    job, file = coach.job(), tmp_path / "hook 1.jpg"
    refused = coach("photo", job, str(file))
    assert refused.code == 2
    assert "There is no file" in refused.err
    file.write_bytes(b"\xff\xd8")
    assert coach("photo", job, str(file), "the", "marked", "bar").code == 0
    photographs = coach("sheet", job, "--json").part("sheet", "photographs")
    assert photographs == [{"entry": 2, "step": 1, "file": str(file), "text": "the marked bar"}]
    shown = coach("sheet", job, "--markdown", "-").out.replace("\\", "")
    assert "hook 1.jpg, the marked bar" in shown
    assert str(tmp_path) not in shown


def test_a_photograph_stands_in_the_page_that_is_shown(coach: Coach, tmp_path: Path) -> None:
    job, file = coach.job(), tmp_path / "hook.png"
    Image.new("RGB", (8, 8), (200, 30, 30)).save(file)
    coach("photo", job, str(file), "the", "marked", "bar")
    for ending in ("html", "md", "csv", "json"):
        page = tmp_path / f"record.{ending}"
        assert coach("sheet", job, "--out", str(page)).code == 0
        written = page.read_text(encoding="utf-8")
        assert str(tmp_path) not in written
        assert written.count('<img src="data:image/png;base64,') == (ending == "html")
