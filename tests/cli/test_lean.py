"""A command loads what it needs and no more, so that it answers at once."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.conftest import Coach

COSTLY = {"asyncio", "pint", "pydantic", "rich", "textual", "yaml"}
RUN = """
import contextlib, io, sys
from coach.cli import main
with contextlib.redirect_stdout(io.StringIO()):
    code = main(sys.argv[1:])
print(code, *sorted({name.partition(".")[0] for name in sys.modules}))
"""


def loaded_by(*words: str) -> set[str]:
    """The libraries that one command loads, in a process of its own."""
    done = subprocess.run(
        [sys.executable, "-c", RUN, *words],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[2],
        env=dict(os.environ),
    )
    code, *names = done.stdout.split()
    assert code == "0", done.stderr
    return set(names)


@pytest.mark.parametrize("verb", ["where", "heat", "done", "history", "resume", "jobs"])
def test_a_job_under_way_needs_no_recipe_reader_and_no_screen(coach: Coach, verb: str) -> None:
    job = coach.job()
    if verb == "heat":  # marks are made cold
        coach("done", job)
    words = (verb,) if verb == "jobs" else (verb, job)
    assert loaded_by(*words) & COSTLY == set()


def test_a_reading_in_the_jobs_own_units_needs_no_library_of_units(coach: Coach) -> None:
    job = coach.job()
    assert loaded_by("read", job, "tip.length=32") & COSTLY == set()


def test_help_needs_nothing_costly(coach: Coach) -> None:
    assert loaded_by("--help") & (COSTLY | {"sqlite3", "platformdirs"}) == set()


def test_a_plan_needs_the_recipe_reader_and_no_screen(coach: Coach) -> None:
    assert loaded_by("plan", "first-hook") & COSTLY <= {"asyncio", "pydantic", "yaml"}
