"""Costly libraries stay unloaded until they are used.

Each row names code to run in a fresh interpreter and what must not have been loaded when it ends. A part
that may load one of the costly libraries takes it out of the row's set, and says so there.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

COSTLY = frozenset(
    {"asyncio", "pint", "platformdirs", "pydantic", "rich", "sqlite3", "textual", "yaml"},
)

# The command ends by SystemExit in one form and by returning in the other: both are its ordinary end.
SHOW_VERSION = """
import contextlib, io
from coach.cli import main
with contextlib.suppress(SystemExit), contextlib.redirect_stdout(io.StringIO()):
    main(["--version"])
"""

ROWS = [
    pytest.param("import coach", COSTLY, id="import coach"),
    pytest.param("import coach.places", COSTLY, id="import coach.places"),
    pytest.param("import coach.cli", COSTLY, id="import coach.cli"),
    pytest.param(SHOW_VERSION, COSTLY, id="coach --version"),
]


# A job begun from a recipe's text, in a process of its own that reads it and so needs yaml.
BEGIN_A_JOB = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from coach.bench.shop import Shop
from coach.places import bundled_recipes
recipe = bundled_recipes() / "first-hook.yaml"
with Shop(Path(sys.argv[1]), lambda: datetime(2026, 3, 2, 8, tzinfo=UTC)) as shop:
    shop.begin(recipe.read_text(encoding="utf-8"), recipe.name)
"""
# It is opened by what the recipe was frozen to, so that nothing of its file is read again.
OPEN_IT = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from coach.bench.shop import Shop
from coach.telling.summary import summary
from coach.telling.writing import (Shown)
with Shop(Path(sys.argv[1]), lambda: datetime(2026, 3, 3, 8, tzinfo=UTC)) as shop:
    session = shop.open("first-hook")
    session.standing()
    summary(session.standing(), session.first_to_measure(), Shown(session.system))
"""
NOT_TO_OPEN = frozenset({"asyncio", "pint", "pydantic", "rich", "textual", "yaml"})


def modules_loaded_by(code: str, *words: str) -> set[str]:
    """The names of the modules that a fresh interpreter has loaded once it has run this code."""
    report = "\nimport json, sys\nprint(json.dumps(sorted(sys.modules)))"
    done = subprocess.run(
        [sys.executable, "-c", code + report, *words], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    return set(json.loads(done.stdout.splitlines()[-1]))


def top_level_modules_loaded_by(code: str, *words: str) -> set[str]:
    """The names of the libraries among them."""
    return {name.partition(".")[0] for name in modules_loaded_by(code, *words)}


@pytest.mark.parametrize(("code", "unwanted"), ROWS)
def test_costly_libraries_stay_unloaded(code: str, unwanted: frozenset[str]) -> None:
    assert top_level_modules_loaded_by(code) & unwanted == set()


def test_a_job_is_opened_without_what_only_reads_recipes_converts_units_or_draws_screens(
    tmp_path: Path,
) -> None:
    log = str(tmp_path / "shop.sqlite")
    assert top_level_modules_loaded_by(BEGIN_A_JOB, log) & {"pydantic", "yaml"} == {"yaml"}
    assert top_level_modules_loaded_by(OPEN_IT, log) & NOT_TO_OPEN == set()


DO = """
import contextlib, io, sys
from coach.cli import main
with contextlib.suppress(SystemExit), contextlib.redirect_stdout(io.StringIO()):
    main(sys.argv[1:])
"""


@pytest.mark.parametrize("line", ["plan carpenters-adze", "check carpenters-adze", "plan first-hook --in"])
def test_a_sound_recipe_is_told_without_what_only_words_faults(line: str) -> None:
    assert top_level_modules_loaded_by(DO, *line.split()) & {"pint", "pydantic"} == set()


@pytest.mark.parametrize("command", ["plan", "check"])
def test_a_command_waits_for_no_library_that_it_wants_one_line_of(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    monkeypatch.setenv("BETWEEN_HEATS_HOME", str(tmp_path))  # what finds the usual folders loads its own
    loaded = top_level_modules_loaded_by(DO, command, "carpenters-adze")
    assert loaded & {"statistics", "random", "lzma", "bz2"} == set()


def test_a_check_loads_nothing_of_what_tells_how_each_step_is_done() -> None:
    loaded = modules_loaded_by(DO, "check", "carpenters-adze")
    assert loaded & {"coach.bench.step", "coach.bench.steel", "coach.bench.time_at_heat"} == set()


def test_a_plan_loads_nothing_of_what_tells_of_a_job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BETWEEN_HEATS_HOME", str(tmp_path))  # so that nothing told before is told again
    loaded = modules_loaded_by(DO, "plan", "carpenters-adze")
    assert "coach.bench.planned" in loaded
    of_a_job = {"coach.bench.job_state", "coach.bench.replay", "coach.bench.standing", "coach.bench.by_hand"}
    assert {name for name in loaded if name.startswith("coach.log")} | (loaded & of_a_job) == set()


def test_jobs_are_listed_without_the_bench_when_nothing_is_remembered(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BETWEEN_HEATS_HOME", str(tmp_path))
    modules_loaded_by(DO, "begin", "first-hook")
    shutil.rmtree(tmp_path / "cache", ignore_errors=True)
    loaded = modules_loaded_by(DO, "jobs")
    assert "coach.bench.beginnings" in loaded
    unwanted = {"coach.bench.shop", "coach.bench.session", "coach.bench.replay", "coach.ledger.forecast"}
    assert loaded & unwanted == set()


def test_the_help_loads_no_command_and_no_question() -> None:
    loaded = modules_loaded_by(DO, "--help")
    below = ("coach.cli.commands.", "coach.reckoner.", "coach.ledger", "coach.bench")
    assert {name for name in loaded if name.startswith(below)} - {"coach.reckoner.asking"} == set()


@pytest.mark.parametrize("option", ["--help", "--version"])
def test_what_the_coach_tells_of_itself_needs_no_reader_of_command_lines(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, option: str
) -> None:
    monkeypatch.setenv("BETWEEN_HEATS_HOME", str(tmp_path))
    modules_loaded_by(DO, option)
    loaded = modules_loaded_by(DO, option)
    assert loaded & {"argparse", "dataclasses", "coach.cli.line", "coach.quantities"} == set()


def test_what_a_command_held_is_not_looked_through_for_rubbish_as_it_ends() -> None:
    code = "import gc, sys\nfrom coach.cli import main\nmain()\nprint(gc.get_freeze_count(), file=sys.stderr)"
    done = subprocess.run(
        [sys.executable, "-c", code, "plan", "first-hook"], capture_output=True, text=True, check=True
    )
    assert int(done.stderr) > 1000


@pytest.mark.parametrize("line", ["where first-hook", "where first-hook --json", "jobs", "jobs --json"])
def test_what_is_remembered_is_told_without_the_ledger(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, line: str
) -> None:
    monkeypatch.setenv("BETWEEN_HEATS_HOME", str(tmp_path))
    modules_loaded_by(DO, "begin", "first-hook")
    modules_loaded_by(DO, *line.split())
    loaded = modules_loaded_by(DO, *line.split())
    assert {
        name for name in loaded if name.startswith(("coach.ledger", "coach.fire", "coach.screens"))
    } == set()
    assert loaded & {"pint", "pydantic", "yaml", "textual", "rich"} == set()
    assert sum(name.partition(".")[0] == "coach" for name in loaded) <= 70


def test_the_guard_sees_a_library_that_is_loaded() -> None:
    assert "yaml" in top_level_modules_loaded_by("import yaml")
