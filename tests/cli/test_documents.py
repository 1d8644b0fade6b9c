"""The documents and the code say the same: every verb, option, exit code, and every key of every answer."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coach.cli import reply
from coach.cli.line import verbs
from tests import write_keys
from tests.cli.conftest import Coach

DOCUMENT = (Path(__file__).parents[2] / "docs" / "commands.md").read_text(encoding="utf-8")
KEYS = write_keys.PAGE.read_text(encoding="utf-8")


def section(title: str, document: str = DOCUMENT) -> str:
    found = re.search(rf"^#+ {re.escape(title)}\n(.*?)(?=^#+ |\Z)", document, re.MULTILINE | re.DOTALL)
    assert found is not None, f"the document has no section {title!r}"
    return found[1]


def first_cells(text: str) -> list[str]:
    return re.findall(r"^\| `([^`]+)`", text, re.MULTILINE)


def test_the_page_of_keys_is_written_from_the_answers_as_they_are() -> None:
    assert write_keys.page() == KEYS, "write it anew: python -m tests.write_keys"


def test_every_verb_is_told() -> None:
    told = {cell.split()[1] for cell in first_cells(section("The verbs")) if cell != "coach"}
    assert told == set(verbs())


def test_every_option_is_told(coach: Coach) -> None:
    told = set(re.findall(r"--[a-z-]+", section("What may follow the verbs")))
    for verb in verbs():
        taken = set(re.findall(r"--[a-z-]+", coach(verb, "--help").out)) - {"--help"}
        assert taken <= told


def test_every_exit_code_is_told() -> None:
    told = set(re.findall(r"^\| (\d+) \|", section("Exit codes"), re.MULTILINE))
    codes = {value for name, value in vars(reply).items() if name.isupper() and isinstance(value, int)}
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


def test_the_day_by_commands_can_be_typed_as_it_stands(
    coach: Coach, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import shlex

    from coach.places import bundled_recipes

    text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
    (tmp_path / "my-hook.yaml").write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    fenced = re.search(r"```\n(.*?)```", section("A day by commands"), re.DOTALL)
    assert fenced is not None
    for line in fenced[1].splitlines():
        typed = re.split(r"\s{3,}", line)[0]
        said = coach(*shlex.split(typed)[1:])
        assert said.code == 0, (typed, said.err, said.out)
