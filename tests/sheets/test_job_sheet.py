"""The job sheet: whole in itself, well formed, and with every figure as the plan tells it."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from coach.bench.paper import JobSheet, recipe_sheet
from coach.ledger.looking_back import look_back
from coach.ledger.plan import Plan
from coach.places import bundled_recipes
from coach.recipe.reader import read_recipe, read_recipe_file
from coach.sheets.job_sheet import job_sheet_html
from coach.telling.figures import write_figure, write_wanted
from coach.telling.writing import Shown
from tests.recipes.texts import HAMMER

SHELF = sorted(bundled_recipes().glob("*.yaml"))
SYSTEMS = [Shown("mm"), Shown("in")]
XHTML = "{http://www.w3.org/1999/xhtml}"


def sheet_of(path: Path) -> tuple[JobSheet, Plan]:
    plan = look_back(read_recipe_file(path))
    return recipe_sheet(plan), plan


def root_of(html: str) -> ElementTree.Element:
    return ElementTree.fromstring(html.partition("\n")[2])


def words_of(element: ElementTree.Element) -> str:
    return " ".join(" ".join(element.itertext()).split())


@pytest.mark.parametrize("shown", SYSTEMS, ids=lambda shown: shown.system)
@pytest.mark.parametrize("recipe", SHELF, ids=lambda path: path.stem)
def test_it_has_every_step_and_every_figure_of_the_plan(recipe: Path, shown: Shown) -> None:
    sheet, plan = sheet_of(recipe)
    root = root_of(job_sheet_html(sheet, plan, shown))
    steps = [one for one in root.iter(f"{XHTML}div") if one.get("class") == "step"]
    assert [words_of(one.find(f"{XHTML}h3") or one) for one in steps]
    told = words_of(root)
    for one, block in zip(sheet.steps, steps, strict=True):
        step, words = one.planned.step, words_of(block)
        assert words.startswith(f"{step.number}. {' '.join(step.title.split())}")
        for caution in step.cautions:
            assert " ".join(caution.split()) in words
        for target in step.targets:
            assert write_wanted(target.wanted, shown) in words
        for size in one.to_read:
            assert size.name in words
            assert size.wanted is None or size.how or write_wanted(size.wanted, shown) in words
        assert "Done at" in words, "a day from paper keeps its hours"
        boxes = [span for span in block.iter(f"{XHTML}span") if span.get("class") == "box"]
        assert len(boxes) == 3 * sum(not size.how for size in one.to_read)
        squares = [span for span in block.iter(f"{XHTML}span") if span.get("class") == "tick"]
        assert len(squares) == step.heats_planned + 3 * sum(bool(size.how) for size in one.to_read)
    for piece in sheet.plan.pieces:
        for mark in piece.marks:
            assert write_figure(mark.at, shown) in told
    for finished in sheet.plan.sizes:
        assert write_wanted(finished.wanted, shown) in told


def test_inches_are_told_in_fractions() -> None:
    sheet, plan = sheet_of(bundled_recipes() / "first-hook.yaml")
    told = words_of(root_of(job_sheet_html(sheet, plan, Shown("in"))))
    assert "1 7/32 in" in told  # the mark at 30.6 mm: 30.6 / 25.4 · 32 = 38.55 thirty-seconds
    root = root_of(job_sheet_html(sheet, plan, Shown("in")))
    wanted = [words_of(one) for one in root.iter(f"{XHTML}td") if one.get("class") == "wanted"]
    assert wanted
    assert not any("mm" in one for one in wanted)


@pytest.mark.parametrize("recipe", SHELF, ids=lambda path: path.stem)
def test_it_fetches_nothing_and_runs_nothing(recipe: Path) -> None:
    sheet, plan = sheet_of(recipe)
    html = job_sheet_html(sheet, plan, Shown())
    root = root_of(html)
    names = {one.tag.rpartition("}")[2] for one in root.iter()}
    assert not names & {"script", "link", "img", "iframe", "object", "image", "use", "a"}
    assert not any(
        name.startswith("on") or name in ("src", "href") for one in root.iter() for name in one.attrib
    )
    addresses = set(re.findall(r"https?://[^\s\"')]+", html))
    assert addresses <= {"http://www.w3.org/1999/xhtml", "http://www.w3.org/2000/svg"}
    assert "url(" not in html
    assert "@import" not in html


def test_what_a_recipe_says_is_never_a_tag() -> None:
    bad = "<script>alert(1)</script> & \"'"
    text = HAMMER.replace("recipe: Riveter's hammer", f"recipe: {bad}".replace(" & \"'", " and"))
    assert text != HAMMER
    plan = look_back(read_recipe(text, "bad.yaml"))
    html = job_sheet_html(recipe_sheet(plan), plan, Shown())
    assert "<script" not in html
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in html
    root_of(html)
