"""What each command on a page of docs/ answers, typed again in the order of the page in a new shop."""

from __future__ import annotations

import io
import os
import re
import shlex
import time
from collections.abc import Collection, Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory
from unittest.mock import patch

from coach.cli import main
from coach.cli.codes import BAD_NEWS, GOOD, WRONG
from coach.places import bundled_recipes

_DOCS = Path(__file__).parents[1] / "docs"
PAGE = _DOCS / "commands.md"
#: A page may show what is refused where that is what it is about.
PAGES: dict[Path, tuple[int, ...]] = {PAGE: (GOOD, BAD_NEWS), _DOCS / "first-day.md": (GOOD, BAD_NEWS)}
PAGES |= {_DOCS / "troubleshooting.md": (GOOD, BAD_NEWS, WRONG)}

_BLOCK = re.compile(r"(?<=^```console\n).*?(?=^```$)", re.MULTILINE | re.DOTALL)
_BEGAN = datetime(2026, 3, 14, 8, 30, tzinfo=UTC)
_MISSPELT = ("metal: mild steel", "metal: mild stel")


def page(path: Path = PAGE) -> str:
    """The page with what the commands answer now; of `| head -n N` the first lines."""
    with _a_new_shop():
        return _BLOCK.sub(lambda block: _answered(block[0], PAGES[path]), path.read_text(encoding="utf-8"))


def _answered(block: str, codes: Collection[int]) -> str:
    typed = [line for line in block.splitlines() if line.startswith("$ ")]
    return "".join(f"{line}\n{_answer(line, codes)}" for line in typed)


def _answer(line: str, codes: Collection[int]) -> str:
    command, _, cut = line.removeprefix("$ coach").partition(" | head -n ")
    said = io.StringIO()
    with redirect_stdout(said), redirect_stderr(said):
        code = main(shlex.split(command))
    assert code in codes, (line, said.getvalue())
    lines = said.getvalue().splitlines()
    return "".join(f"{one}\n" for one in (lines[: int(cut)] if cut else lines))


@contextmanager
def _a_new_shop() -> Iterator[None]:
    """A folder of its own with a recipe in it that has a fault, and a clock that goes on by two minutes."""
    tick = count()
    here = Path.cwd()
    environment = {"BETWEEN_HEATS_HOME": "shop", "TZ": "UTC", "COLUMNS": "80"}
    with (
        TemporaryDirectory() as folder,
        patch.dict(os.environ, environment),
        patch("coach.cli.opening.now", lambda: _BEGAN + next(tick) * timedelta(minutes=2)),
    ):
        text = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
        assert _MISSPELT[0] in text
        Path(folder, "my-hook.yaml").write_text(text.replace(*_MISSPELT), encoding="utf-8")
        os.chdir(folder)
        time.tzset()
        try:
            yield
        finally:
            os.chdir(here)
    time.tzset()
