"""The documents and the code say the same: every verb, option, exit code, and every key of every answer."""

from __future__ import annotations

import re

import pytest

from coach.cli import codes as exit_codes
from coach.cli.line import verbs
from tests import write_arguments, write_keys, write_shown
from tests.cli.conftest import Coach

DOCUMENT = write_shown.PAGE.read_text(encoding="utf-8")
ARGUMENTS = write_arguments.PAGE.read_text(encoding="utf-8")
KEYS = write_keys.PAGE.read_text(encoding="utf-8")


def section(title: str, document: str = DOCUMENT) -> str:
    found = re.search(rf"^#+ {re.escape(title)}\n(.*?)(?=^#+ |\Z)", document, re.MULTILINE | re.DOTALL)
    assert found is not None, f"the document has no section {title!r}"
    return found[1]


def first_cells(text: str) -> list[str]:
    return re.findall(r"^\| `([^`]+)`", text, re.MULTILINE)


def test_every_command_is_told_with_all_that_may_follow_it(coach: Coach) -> None:
    for verb in verbs():
        own = section(f"coach {verb}", ARGUMENTS) + section("The commands")
        taken = set(re.findall(r"--[a-z-]+", coach(verb, "--help").out)) - {"--help"}
        assert taken <= set(re.findall(r"--[a-z-]+", own))


def test_every_exit_code_is_told() -> None:
    told = set(re.findall(r"^\| (\d+) \|", section("Exit codes"), re.MULTILINE))
    codes = {value for name, value in vars(exit_codes).items() if name.isupper() and isinstance(value, int)}
    assert told == {str(code) for code in codes}


@pytest.mark.parametrize("document", [DOCUMENT, KEYS], ids=["commands", "keys"])
def test_links_within_a_document_lead_somewhere(document: str) -> None:
    anchors = {title.lower().replace(" ", "-") for title in re.findall(r"^#+ (.+)$", document, re.MULTILINE)}
    assert set(re.findall(r"\]\(#([^)]+)\)", document)) <= anchors


def test_the_objects_that_commands_answer_with_have_the_keys_told(coach: Coach) -> None:
    job = coach.job()
    for words in (("heat", job), ("jobs",), ("recipes",), ("check", "first-hook"), ("history", job)):
        row = re.search(rf"^\| `{words[0]}` \| \[[^]]+\]\(#([^)]+)\)", KEYS, re.MULTILINE)
        assert row is not None
        heading = row[1].replace("-", " ").capitalize()
        assert list(coach(*words, "--json").values) == first_cells(section(heading, KEYS))
