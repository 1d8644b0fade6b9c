"""A part-forged job in a shop of its own, for opening the bench on."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Mapping
from pathlib import Path

from tests.benchmarks.processes import coach_command

RECIPE = "first-hook"
JOB = "first-hook"
# What a smith would have typed by now: the job begun, a heat taken and the first step done.
TYPED = (("begin", RECIPE), ("heat", JOB), ("done", JOB))


def environ_of_a_shop(home: Path) -> dict[str, str]:
    """The environment in which every folder of the coach stands under this one."""
    return dict(os.environ) | {"BETWEEN_HEATS_HOME": str(home)}


def put_on_the_anvil(environ: Mapping[str, str]) -> list[str]:
    """Begin the job and forge part of it; gives the command that opens it."""
    for words in TYPED:
        subprocess.run(
            [*coach_command(), *words], stdin=subprocess.DEVNULL, capture_output=True, check=True, env=environ
        )
    return [*coach_command(), "open", JOB]
