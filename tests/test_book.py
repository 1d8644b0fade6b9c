"""The newcomer's book: one word for each thing, links that lead somewhere, and the newest version."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coach import __version__
from coach.cli.line import verbs

DOCS = Path(__file__).parents[1] / "docs"
BOOK = [DOCS / f"{name}.md" for name in ("first-day", "glossary", "troubleshooting", "limits", "changelog")]
PAGES = [*BOOK, DOCS / "commands.md", DOCS / "data.md"]
GLOSSARY = re.findall(r"^\| ([^|]+) \| ([^|]+) \|$", (DOCS / "glossary.md").read_text("utf-8"), re.MULTILINE)
#: What the house has another word for.
OTHER_WORDS = {
    "remedy": "way back",
    "way out": "way back",
    "diary": "log",
    "mind": "caution",
    "watch": "tight",
}


def anchor(title: str) -> str:
    return re.sub(r"[^\w\- ]", "", title.lower()).replace(" ", "-")


@pytest.mark.parametrize("page", BOOK, ids=lambda page: page.stem)
def test_every_link_leads_somewhere(page: Path) -> None:
    for target, place in re.findall(r"\]\(([^)#\s]*)(?:#([^)\s]+))?\)", page.read_text("utf-8")):
        led = page.parent / target if target else page
        assert led.is_file(), target
        if place:
            titles = re.findall(r"^#+ (.+)$", led.read_text("utf-8"), re.MULTILINE)
            assert place in {anchor(title) for title in titles}, place


def test_the_glossary_has_each_word_once_in_its_order_and_none_that_has_another_here() -> None:
    words = [word for word, _ in GLOSSARY if word not in ("word", "---")]
    assert len(words) > 40
    assert words == sorted(set(words))
    assert not {*words} & OTHER_WORDS.keys()
    assert {*OTHER_WORDS.values()} <= {*words}


def test_the_newest_of_the_changelog_is_this_version() -> None:
    versions = re.findall(r"^## (\d[\w.]*)", (DOCS / "changelog.md").read_text("utf-8"), re.MULTILINE)
    assert versions[0] == __version__


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_every_command_that_is_named_is_there(page: Path) -> None:
    named = re.findall(r"`coach ([a-z][a-z-]+)", page.read_text("utf-8"))
    assert [verb for verb in named if verb not in verbs()] == []


def test_the_book_can_be_found_from_the_readme() -> None:
    readme = (DOCS.parent / "README.md").read_text("utf-8")
    assert [page.name for page in BOOK if f"docs/{page.name}" not in readme] == []
