"""A shop of its own for every test, and the command line as a smith or a script meets it."""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

import pytest

from coach.cli import main


@dataclass(frozen=True, slots=True)
class Said:
    """What one command gave back."""

    code: int
    out: str
    err: str

    @property
    def values(self) -> dict[str, object]:
        """The answer as JSON."""
        found = json.loads(self.out)
        assert isinstance(found, dict)
        return found

    def part(self, *keys: str) -> object:
        """One value within the JSON answer."""
        found: object = self.values
        for key in keys:
            assert isinstance(found, dict)
            found = found[key]
        return found


class Coach:
    """Types commands at the coach."""

    def __init__(self, capsys: pytest.CaptureFixture[str], home: Path) -> None:
        self._capsys = capsys
        self.home = home

    def __call__(self, *words: str) -> Said:
        """Type one command; what it says on both streams, and its exit code."""
        self._capsys.readouterr()
        code = main(words)
        out, err = self._capsys.readouterr()
        return Said(code, out, err)

    def job(self, recipe: str = "first-hook") -> str:
        """Begin a job; its name."""
        said = self("begin", recipe, "--json")
        assert said.code in (0, 1), said.err  # 1 where it is off plan as it begins
        return str(said.values["job"])


@pytest.fixture
def coach(capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Coach:
    home = tmp_path / "home"
    monkeypatch.setenv("BETWEEN_HEATS_HOME", str(home))
    return Coach(capsys, home)
