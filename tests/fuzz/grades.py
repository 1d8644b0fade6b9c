"""Grade files of the smith's own that somebody has changed."""

from __future__ import annotations

import os
from pathlib import Path

from hypothesis import strategies as st

import coach.metals
from coach.places import HOME_VARIABLE, bundled_recipes
from tests.fuzz.odd import a_home, mangled, typed

_FILES = sorted((Path(coach.metals.__file__).parent / "grades").glob("*.toml"))
VALUES = st.one_of([mangled(path.read_text(encoding="utf-8")) for path in _FILES[::3]])


def check(value: str) -> None:
    """A job that was begun before is told as ever; what needs the file is answered or refused."""
    with a_home():
        folder = Path(os.environ[HOME_VARIABLE]) / "config" / "grades"
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "own.toml").write_bytes(value.encode("utf-8", "surrogatepass"))
        name = value.partition('name = "')[2].partition('"')[0]
        recipe = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
        Path("own.yaml").write_bytes(recipe.replace("mild steel", name).encode("utf-8", "surrogatepass"))
        for words in (["check", "own.yaml"], ["plan", "own.yaml"], ["steel"], ["steel", name]):
            typed(words)
        if typed(["begin", "own.yaml", "--name", "own"]) in (0, 1):
            typed(["where", "own"])
        typed(["note", "first-hook", "it is told as ever"])
        typed(["jobs"])
