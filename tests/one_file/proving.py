"""Runs one proof in a copy of the repository: what a proof may call, before its own text."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import NamedTuple


class Said(NamedTuple):
    """What a command said."""

    code: int
    out: str
    err: str

    @property
    def values(self) -> object:
        """Its answer in JSON."""
        return json.loads(self.out)


def coach(*words: str, expect: int | None = None) -> Said:
    """Run a command in a process of its own; any code but 3, or the one expected, is well."""
    done = subprocess.run(
        [sys.executable, "-m", "coach", *words], capture_output=True, text=True, encoding="utf-8", check=False
    )
    said = Said(done.returncode, done.stdout, done.stderr)
    assert said.code in ((0, 1) if expect is None else (expect,)), said
    return said


def recipe(text: str) -> None:
    """Keep a recipe as new.yaml in this folder."""
    Path("new.yaml").write_text(text, encoding="utf-8")


def figure(told: dict[str, float]) -> float:
    """The value of a figure in JSON."""
    return told["value"]


def page(name: str) -> str:
    """A file that is made from the code, as it is made now."""
    from tests.write_pages import PAGES

    [text] = [make() for path, make in PAGES.items() if path.as_posix().endswith(name)]
    return text
