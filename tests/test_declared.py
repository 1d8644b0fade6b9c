"""What a module says of itself at its top is read without importing it."""

from __future__ import annotations

import sys
from importlib import import_module
from pathlib import Path

import pytest

from coach.cli.line import verbs
from coach.declared import declared

COMMANDS = Path(__file__).parents[1] / "coach" / "cli" / "commands"


def test_a_value_is_read_wherever_it_ends(tmp_path: Path) -> None:
    path = tmp_path / "one.py"
    path.write_text('A = "said"\nB: dict[str, int] = {\n    "x": 1,\n}\nC = open("nothing")\nD = ("a" "b")\n')
    assert declared(path, "A", "B", "C", "D", "E") == {"A": "said", "B": {"x": 1}, "D": "ab"}


@pytest.mark.parametrize("verb", verbs())
def test_a_commands_summary_is_read_as_it_is(verb: str) -> None:
    path = next(COMMANDS.glob(f"{verb}*.py"), None)
    if path is not None:
        name = f"coach.cli.commands.{path.stem}"
        assert declared(path, "SUMMARY") == {"SUMMARY": import_module(name).SUMMARY}
        assert name in sys.modules
