"""What is only of POSIX is asked for nowhere as the coach starts: a stand-in for Windows, which is not tried.

A console of Windows itself, its keys and its colours, is nothing that these tests can open.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

#: Python has none of these on Windows (Python's library reference, "Availability: Unix").
_HIDDEN = ("termios", "tty", "pty", "fcntl", "pwd", "grp", "resource", "syslog")
_HIDDEN_OF_OS = [
    "statvfs",
    "fstatvfs",
    "ttyname",
    "getuid",
    "geteuid",
    "getgid",
    "fork",
    "forkpty",
    "chown",
    "fchown",
    "killpg",
    "getpgid",
    "setsid",
    "openpty",
    "mkfifo",
    "O_NOCTTY",
    "O_NONBLOCK",
    "O_CLOEXEC",
    "O_DIRECTORY",
    "O_NOFOLLOW",
    "sched_getaffinity",
]
_HIDDEN_OF_SIGNAL = [
    "SIGHUP",
    "SIGTSTP",
    "SIGCONT",
    "SIGWINCH",
    "SIGUSR1",
    "SIGQUIT",
    "SIGTTOU",
    "SIGTTIN",
    "pthread_sigmask",
]

# What the libraries themselves ask for here, each has its own for Windows instead.
_HIDE = f"""
import asyncio, os, shutil, signal, subprocess, sys, tempfile
import aiohttp.web, textual.app, textual.drivers.linux_driver, textual_serve.server
for name in {_HIDDEN!r}:
    sys.modules[name] = None
for where, names in ((os, {_HIDDEN_OF_OS!r}), (signal, {_HIDDEN_OF_SIGNAL!r})):
    for name in names:
        if hasattr(where, name):
            delattr(where, name)
"""
_EVERY_MODULE = """
import importlib, pkgutil, coach
for one in pkgutil.walk_packages(coach.__path__, "coach."):
    if one.name != "coach.__main__":
        importlib.import_module(one.name)
print("all there")
"""
_A_DAY = """
from coach.cli import main
for line in ("recipes", "begin first-hook", "read first-hook tip.mark=30.5", "done first-hook", "config",
             "where first-hook", "sheet first-hook --out record.html", "backups", "jobs --json"):
    words = line.split()
    assert main(words) in (0, 1), words
print("all done")
"""


def without_posix(program: str, tmp_path: Path) -> str:
    """Run a program where POSIX is hidden; what it printed."""
    done = subprocess.run(
        [sys.executable, "-c", _HIDE + program],
        cwd=tmp_path,
        env={
            **os.environ,
            "BETWEEN_HEATS_HOME": str(tmp_path / "home"),
            "PYTHONPATH": os.pathsep.join(sys.path),
        },
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_every_module_is_there_without_what_is_only_of_posix(tmp_path: Path) -> None:
    assert "all there" in without_posix(_EVERY_MODULE, tmp_path)


def test_a_job_is_begun_read_and_recorded_without_what_is_only_of_posix(tmp_path: Path) -> None:
    assert "all done" in without_posix(_A_DAY, tmp_path)
    assert (tmp_path / "record.html").exists()
