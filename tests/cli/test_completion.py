"""`coach completion`: a shell that reads it finishes commands, options, jobs and recipes."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from coach.cli.completing import script
from coach.cli.line import all_commands, verbs
from tests.cli.conftest import Coach

#: Where there is no bash, what it would finish is not asked of it.
BASH = [bash] if (bash := shutil.which("bash")) and sys.platform != "win32" else []


@pytest.mark.parametrize("bash", BASH)
@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        (["coach", "compl"], {"completion"}),
        (["coach", "paper", "--o"], {"--out"}),
        (["coach", "heat", "--un"], {"--units"}),
        (["coach", "begin", "first-h"], {"first-hook"}),
        (["coach", "where", "my-"], {"my-hook"}),
        (["coach", "shop", "ha"], {"hand"}),
        (["coach", "shop", "s"], {"scale", "spread"}),
        (["coach", "shop", "hand", "--leave-out", "my"], {"my-hook"}),
        (["coach", "rack", "lo"], {"long-bar"}),
        (["coach", "begin", "first-hook", "--from-rack", "lo"], {"long-bar"}),
        (["coach", "next-time", "my-hook", "--take", "he"], {"heats"}),
        (["coach", "config", "uns"], {"unset"}),
        (["coach", "where", "my-hook", "--units", ""], {"mm", "in"}),
        (["coach", "paper", "first-hook", "--paper", "l"], {"letter"}),
        (["coach", "config", "set", "second"], {"second_folder"}),
    ],
)
def test_bash_finishes_what_is_typed(
    coach: Coach, tmp_path: Path, bash: str, typed: list[str], wanted: set[str]
) -> None:
    coach("begin", "first-hook", "--name", "my-hook")
    coach("rack", "long-bar", "square 12, long 900, mild steel")
    file, bin_folder = tmp_path / "coach.bash", tmp_path / "bin"
    file.write_text(coach("completion", "bash").out, encoding="utf-8")
    bin_folder.mkdir()
    program = bin_folder / "coach"
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m coach "$@"\n', encoding="utf-8")
    program.chmod(0o755)
    words = " ".join(typed)
    asked = f"source '{file}'; COMP_WORDS=({words}); COMP_CWORD={len(typed) - 1}; _coach;"
    done = subprocess.run(
        [bash, "--norc", "-c", f"{asked} printf '%s\\n' \"${{COMPREPLY[@]}}\""],
        capture_output=True,
        text=True,
        check=False,
        cwd=tmp_path,
        env={
            **os.environ,
            "PATH": f"{bin_folder}:{os.environ['PATH']}",
            "BETWEEN_HEATS_HOME": str(coach.home),
        },
    )
    assert done.stderr == ""
    assert set(done.stdout.split()) == wanted


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_every_command_is_in_it(shell: str) -> None:
    text = script(shell, all_commands())
    assert [verb for verb in verbs() if verb not in text] == []


def test_names_are_those_there_are_and_asking_makes_no_log(coach: Coach) -> None:
    assert coach("completion", "jobs").out == ""
    assert not (coach.home / "data").exists()
    job = coach.job()
    assert coach("completion", "jobs").out.split() == [job]
    assert "first-hook" in coach("completion", "recipes").out.split()


def test_another_shell_is_refused(coach: Coach) -> None:
    said = coach("completion", "csh")
    assert said.code == 2
    assert "bash, zsh, fish" in said.err
