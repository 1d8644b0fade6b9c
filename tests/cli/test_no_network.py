"""Nothing talks to the network, whatever is asked; of the screens `tests.screens.walked` sees to it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.terminal import ROOT

ASKING = """
import sys
from tests.offline import Talked, refuse_the_network
refuse_the_network()
from coach.cli import main
folder = sys.argv[1]
for words in (
    ["--help"], ["recipes"], ["begin", "first-hook"], ["jobs"], ["note", "first-hook", "x"],
    ["heat", "first-hook"], ["where", "first-hook"], ["plan", "first-hook"], ["ways", "first-hook"],
    ["history", "first-hook"], ["export", "first-hook", folder + "/a.jsonl"],
    ["import", folder + "/a.jsonl", "--shop", folder + "/b.sqlite"], ["picture", "first-hook"],
    ["demo", "--no-screen"], ["done", "first-hook", "--help"], ["nonsense"],
):
    print("answered", words, main(words))
"""


def test_no_command_talks_to_the_network(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BETWEEN_HEATS_HOME", str(tmp_path / "home"))
    done = subprocess.run(
        [sys.executable, "-c", ASKING, str(tmp_path)], capture_output=True, text=True, check=False, cwd=ROOT
    )
    assert done.returncode == 0, done.stderr[-2000:]
    assert "['nonsense'] 2" in done.stdout
    answered = [line for line in done.stdout.splitlines() if line.startswith("answered ")]
    assert [line for line in answered if not line.endswith((" 0", " 1", " 2"))] == []


def test_what_would_talk_to_it_is_caught() -> None:
    trying = (
        "from tests.offline import refuse_the_network; refuse_the_network();"
        "import socket; socket.create_connection(('127.0.0.1', 9))"
    )
    done = subprocess.run([sys.executable, "-c", trying], capture_output=True, check=False, cwd=ROOT)
    assert b"Talked" in done.stderr
