"""PDF: laid out on the paper that was named, its text there to be read; or what is missing, in a sentence."""

from __future__ import annotations

import io
import sys
from base64 import b64encode
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from coach.bench.paper import recipe_sheet
from coach.ledger.looking_back import look_back
from coach.places import bundled_recipes
from coach.recipe.reader import read_recipe_file
from coach.sheets.job_sheet import job_sheet_html
from coach.sheets.pdf import NoPdf, pdf
from coach.telling.words import write
from coach.telling.writing import Shown

# ISO 216:2007: A4 is 210 × 297 mm; ANSI/ASME Y14.1: Letter is 8.5 × 11 in (both from memory).
# In points, 72 to the inch:
SIZES = {"A4": (595.3, 841.9), "letter": (612.0, 792.0)}


def made_here(html: str, paper: str) -> tuple[bytes, str]:
    """The PDF, or why there is none."""
    try:
        return pdf(html, paper), ""
    except NoPdf as error:
        return b"", write(error.words)


@pytest.mark.parametrize("paper", SIZES)
def test_the_text_of_a_sheet_can_be_read_in_it_on_either_paper(paper: str) -> None:
    plan = look_back(read_recipe_file(bundled_recipes() / "first-hook.yaml"))
    html = job_sheet_html(recipe_sheet(plan), plan, Shown())
    made, why = made_here(html, paper)
    if not made:  # on a system that has no Pango
        assert "Pango" in why
        return
    pages = PdfReader(io.BytesIO(made)).pages
    assert 3 <= len(pages) <= 7
    for page in pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(
            SIZES[paper], abs=0.5
        )
    told = " ".join(" ".join(page.extract_text() for page in pages).split())
    for step in plan.recipe.steps:
        assert f"{step.number}. {step.title}" in told
    assert "30.6 mm" in told


def test_a_picture_that_stands_in_the_page_stands_in_it_and_nothing_is_fetched(tmp_path: Path) -> None:
    file, held = tmp_path / "hook.png", io.BytesIO()
    Image.new("RGB", (8, 8), (200, 30, 30)).save(held, "png")
    file.write_bytes(held.getvalue())
    within = f"data:image/png;base64,{b64encode(held.getvalue()).decode()}"
    for source, pictures in ((within, 1), (file.as_uri(), 0)):
        made, why = made_here(f'<p>hook<img src="{source}" alt=""/></p>', "A4")
        if not made:  # on a system that has no Pango
            assert "Pango" in why
            return
        assert len(PdfReader(io.BytesIO(made)).pages[0].images) == pictures


def test_without_the_extra_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    with pytest.raises(NoPdf) as told:
        pdf("<p>hook</p>", "A4")
    assert "pip install 'between-heats[pdf]'" in write(told.value.words)
    assert ".html" in write(told.value.words)
