"""Job files that were made by hand, sealed as they should be, and such as a wire has spoilt."""

from __future__ import annotations

import contextlib
import json
from functools import cache
from pathlib import Path
from typing import Any

from hypothesis import strategies as st

from tests.fuzz.odd import a_home, changed, mangled, typed
from tests.log.hand_made import job_file

_LINES = (
    ["heat", "first-hook"],
    ["read", "first-hook", "tip.mark=31", "shank.mark=104", "plate.mark=141"],
    ["note", "first-hook", "thin"],
    ["note", "first-hook", "a lap", "--right", "--zone", "tip"],
    ["done", "first-hook", "--heats", "1"],
    ["heat", "first-hook"],
    ["read", "first-hook", "tip.length=70", "--insist"],
    ["back", "first-hook"],
    ["rest", "first-hook", "--insist"],
)


@cache
def _sound() -> str:
    with a_home():
        for words in _LINES:
            typed(words)
        typed(["export", "first-hook", "out.jsonl"])
        return Path("out.jsonl").read_text(encoding="utf-8")


def _bodies() -> list[list[object]]:
    return [[one["kind"], one["body"]] for one in map(json.loads, _sound().splitlines()[1:])]


def _sealed(made: Any) -> str:
    """A job file of whatever was made of the entries."""
    with contextlib.suppress(TypeError, ValueError, KeyError, AttributeError, IndexError):
        (first, began), *others = made
        return job_file(*((kind, body) for kind, body in others), first=first, began=began)
    return json.dumps(made, default=repr)


VALUES = st.deferred(lambda: changed(_bodies()).map(_sealed) | mangled(_sound()))


def check(value: str) -> None:
    """Take it in; what was taken in can be told, and what was not has left nothing."""
    with a_home() as home:
        job = "hand-made" if '"job": "hand-made"' in value else "first-hook"
        typed(["begin", "first-hook", "--name", "other"])
        Path("in.jsonl").write_bytes(value.encode("utf-8", "surrogatepass"))
        shop = f"--shop={home}/apart.sqlite"
        taken = typed(["import", "in.jsonl", shop]) in (0, 1)
        if taken:
            for verb in ("where", "history", "picture", "ways", "sheet", "heat", "export"):
                typed([verb, job, shop])
        assert typed(["jobs"]) == 0
        typed(["jobs", shop])
