"""A plan that is told again is always the plan of what the file and the smith's own grades hold now."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from coach.bench import planned
from coach.cli import recipe_again
from coach.places import bundled_recipes, grade_folder
from tests.cli.conftest import Coach, Said

ASKED = [[], ["--json"], ["--units", "in"], ["--in"], ["--mm"], ["--bar", "square 12"], ["--json", "--in"]]
OWN = """name = "C45"
carbon = [0.55, 0.60]
"""


@pytest.fixture
def hook(tmp_path: Path) -> Path:
    return Path(shutil.copy(bundled_recipes() / "first-hook.yaml", tmp_path / "hook.yaml"))


def told(coach: Coach, file: Path) -> list[Said]:
    return [coach("plan", str(file), *words) for words in ASKED]


def told_anew(coach: Coach, file: Path) -> list[Said]:
    shutil.rmtree(coach.home / "cache", ignore_errors=True)
    return told(coach, file)


def test_it_is_told_again_as_it_was_reckoned(coach: Coach, hook: Path) -> None:
    assert told_anew(coach, hook) == told(coach, hook)
    assert (
        len({one.out for one in told(coach, hook)}) == len(ASKED) - 2
    )  # mm is its own, in both its spellings


def test_it_is_told_again_without_reckoning(
    coach: Coach, hook: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = told_anew(coach, hook)

    def refuse(*_: object) -> planned.Planned:
        raise AssertionError("the recipe was reckoned")

    monkeypatch.setattr(planned, "planned_tool", refuse)
    assert told(coach, hook) == before


def test_whatever_is_changed_in_the_file_is_told(coach: Coach, hook: Path) -> None:
    told(coach, hook)
    written, at = hook.read_text(encoding="utf-8"), hook.stat()
    seen = set()
    changes = [
        ("First hook", "Second hook"),
        ("hammer of", "hammer under"),
        ("steps:", "steps:\n  - saw: nothing\n"),
    ]
    for old, new in [("", ""), *changes, ("", "")]:
        assert old in written
        hook.write_text(written.replace(old, new, 1) if old else written, encoding="utf-8")
        os.utime(hook, ns=(at.st_atime_ns, at.st_mtime_ns))  # nor is its moment believed
        first, again = told(coach, hook), told(coach, hook)
        assert first == again == told_anew(coach, hook)
        seen.add((first[0].out, first[0].err))
    assert len(seen) == len(changes) + 1


def test_a_grade_of_the_smiths_own_is_seen_at_once(coach: Coach, hook: Path) -> None:
    before = told(coach, hook)
    folder = grade_folder()
    folder.mkdir(parents=True)
    own = folder / "c45.toml"
    own.write_text(OWN, encoding="utf-8")
    with_it = told(coach, hook)
    assert with_it == told_anew(coach, hook)
    own.unlink()
    assert told(coach, hook) == before


def test_a_file_that_is_written_while_it_is_read_is_not_remembered(
    coach: Coach, hook: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    written = hook.read_text(encoding="utf-8")
    other = written.replace("recipe:", "recipe: Another", 1)
    digest, asked = recipe_again._digest, 0

    def written_in_between(path: Path) -> str:
        nonlocal asked
        if path != hook:
            return digest(path)
        asked += 1
        found = digest(path)
        if asked == 1:  # what is read after this is the other text
            hook.write_text(other, encoding="utf-8")
        return found

    with monkeypatch.context() as patched:
        patched.setattr(recipe_again, "_digest", written_in_between)
        assert "Another" in coach("plan", str(hook)).out
    hook.write_text(written, encoding="utf-8")
    assert "Another" not in coach("plan", str(hook)).out


def test_a_file_that_is_gone_is_told_as_that(coach: Coach, hook: Path) -> None:
    assert coach("plan", str(hook)).code == 0
    hook.unlink()
    said = coach("plan", str(hook))
    assert said.code != 0
    assert not said.out
