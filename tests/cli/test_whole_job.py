"""A whole job forged by commands alone, stopped half-way and taken up in another process."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tests.cli.conftest import Coach

Type = Callable[..., Any]


def forge(typed: Type, job: str, until: int | None = None) -> None:
    """Go through the steps as the coach tells them: heat, measure what is asked, done."""
    while True:
        standing = typed("where", job)
        step = standing["step"]
        if step is None or step["number"] == until:
            return
        for _ in range(step["heats_planned"]):
            typed("heat", job)
        for check in typed("where", job)["checks"]:
            aim = check["wanted"]["nominal"] if check["wanted"] else None
            size = check["expected"]["value"] if check["expected"] is not None else aim
            typed("read", job, f"{check['name']}={size:.2f}{'°' if check['kind'] == 'angle' else ' mm'}")
        typed("done", job)


def test_a_hook_is_forged_by_commands_stopped_and_taken_up_in_another_process(coach: Coach) -> None:
    def here(*words: str) -> Any:
        said = coach(*words, "--json")
        assert said.code == 0, (words, said.out, said.err)
        return said.values

    def elsewhere(*words: str) -> Any:
        done = subprocess.run(
            [sys.executable, "-m", "coach", *words, "--json"],
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            encoding="utf-8",
            check=False,
            cwd=Path(__file__).parents[2],
            env=dict(os.environ),
        )
        assert done.returncode == 0, (words, done.stdout, done.stderr)
        return json.loads(done.stdout)

    job = here("begin", "first-hook")["job"]
    forge(here, job, until=5)
    here("note", job, "the curl is tight")
    here("rest", job)
    left = here("where", job)

    taken_up = elsewhere("resume", job)["standing"]
    for key in ("step", "checks", "sizes", "spares", "chance", "notes", "done"):
        assert taken_up[key] == left[key]
    elsewhere("heat", job)

    forge(here, job)
    finished = here("where", job)
    assert finished["state"] == "finished"
    assert finished["verdict"] == "on plan"
    assert [size["state"] for size in finished["sizes"]] == ["good"] * len(finished["sizes"])
    assert len(finished["done"]) == finished["steps"]
    (listed,) = here("jobs")["jobs"]
    assert listed["state"] == "finished"
    assert coach("heat", job).code == 2
