"""Recipe files that somebody has changed."""

from __future__ import annotations

from pathlib import Path

import yaml
from hypothesis import strategies as st

from coach.places import bundled_recipes
from tests.fuzz.odd import a_home, changed, mangled, typed

_TEXTS = {path.stem: path.read_text(encoding="utf-8") for path in sorted(bundled_recipes().glob("*.yaml"))}


def _dumped(tree: object) -> str:
    try:
        return yaml.safe_dump(tree, allow_unicode=True, sort_keys=False)
    except yaml.YAMLError:
        return repr(tree)


_OF_ONE = [
    *(mangled(text) for text in _TEXTS.values()),
    *(changed(yaml.safe_load(text)).map(_dumped) for text in _TEXTS.values()),
]
VALUES = st.one_of(_OF_ONE)


def check(value: str) -> None:
    """Check it, plan it, and begin a job from it; a job that was begun can be told."""
    with a_home():
        Path("own.yaml").write_bytes(value.encode("utf-8", "surrogatepass"))
        sound = typed(["check", "own.yaml"]) == 0
        typed(["plan", "own.yaml"])
        if typed(["begin", "own.yaml", "--name", "own"]) in (0, 1):
            for verb in ("heat", "done", "where", "picture", "ways", "sheet", "history"):
                typed([verb, "own"])
        else:
            assert not sound
