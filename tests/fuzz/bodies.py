"""Entries of a log that somebody has made by hand: sealed as they should be, whatever their bodies hold."""

from __future__ import annotations

import contextlib
import copy
import io
import json
import os
import re
import shutil
import signal
import sqlite3
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing
from functools import cache
from pathlib import Path
from types import FrameType
from typing import Any

from hypothesis import strategies as st

from coach.cli import main
from coach.log.carry import FORMAT, VERSION
from coach.log.entries import chained_digest
from coach.places import HOME_VARIABLE, bundled_recipes
from tests.fuzz.odd import VALUES as ODD
from tests.fuzz.odd import a_home, places, typed

JOB, OTHER = "odd", "other"
#: How long a command may take at most before it hangs, s (our choice; the machine may be busy).
_PATIENCE_S = 60.0
#: A job with an entry of nearly every kind; others put themselves behind them.
_LINES: tuple[tuple[str, ...], ...] = (
    ("begin", "own.yaml", "--name", JOB),
    ("read", JOB, "tip.mark=20", "shank.mark=104", "plate.mark=141", "--insist"),
    ("take", JOB, "move-metal-tip-mark"),
    ("note", JOB, "thin"),
    ("note", JOB, "a lap", "--right", "--zone", "tip"),
    ("right", JOB, "7"),
    ("correct", JOB, "2", "29"),
    ("done", JOB, "--heats", "0"),
    ("fire", JOB),
    ("heat", JOB),
    ("read", JOB, "tip.width=8", "tip.length=80", "--insist"),
    ("lost", JOB, "tip=12", "--by", "burnt", "--take"),
    ("strike", JOB, "12"),
    ("aside", JOB),
    ("resume", JOB),
    ("done", JOB, "--heats", "2"),
    ("amend", JOB, "own.yaml", "--take"),
    ("rest", JOB, "--insist"),
    ("resume", JOB),
    ("back", JOB),
)
_RAW = "\ue000{}\ue001"
#: What no JSON value of Python's is: it stands for itself in the text of a body.
RAW: Mapping[str, str] = {
    "401 digits": "1" + "0" * 400,
    "minus 401 digits": "-1" + "0" * 400,
    "5000 digits": "7" * 5000,
    "nan": "NaN",
    "inf": "Infinity",
    "minus inf": "-Infinity",
    "too large": "1e999",
    "minus nothing": "-0",
    "minus nothing at all": "-0.0",
    "nearly none": "5e-324",
    "the largest": "1.7976931348623157e308",
    "deep": "[" * 900 + "]" * 900,
    "deeper": "[" * 200_000 + "]" * 200_000,
    "deep words": '["{}",' * 900 + '"x"' + "]" * 900,
    "some words": '["{}",' * 200 + '"x"' + "]" * 200,
    "twice": '{"step":1,"step":[]}',
    "half a character": '"\\ud800"',
    "an order": '"\\u001b]52;c;aGk=\\u0007"',
    "a nothing": '"\\u0000"',
    "a figure": '["{:±}",{"value":1e308,"kind":"LENGTH","doubt":1e308}]',
    "a figure without measure": '["{}",{"value":%s,"kind":"LENGTH","doubt":null}]' % ("9" * 401),
    "a figure less than sure": '["{:±}",{"value":1,"kind":"LENGTH","doubt":-1}]',
    "a figure of a list": '["{}",{"value":1,"kind":[],"doubt":null}]',
    "a figure told at length": '["{:1000000000}",{"value":1,"kind":"LENGTH","doubt":0}]',
    "a figure told oddly": '["{:q}",{"value":1,"kind":"TEST","doubt":0}]',
    "a text told as a figure": '["{:±}","x"]',
    "a whole number told as a figure": '["{:~}",%s]' % ("9" * 401),
    "a thin figure": '["{:±}",{"value":5e-324,"kind":"VOLUME","doubt":5e-324}]',
}
_ODD = ODD | st.sampled_from([_RAW.format(name) for name in RAW])
#: Its recipe is text that holds JSON: changed inside as well.
_INSIDE = ("recipe",)
#: One that is told the job by name, and what of the rest of the log.
OF_THE_JOB = (
    ("where", JOB),
    ("where", JOB, "--json"),
    ("history", JOB),
    ("history", JOB, "--spare"),
    ("sheet", JOB),
    ("ways", JOB),
    ("picture", JOB),
    ("plan", JOB),
    ("recipe-of", JOB),
    ("export", JOB, "-"),
    ("heat", JOB),
    ("note", JOB, "told as ever"),
    ("back", JOB),
)
OF_THE_LOG = (
    ("jobs",),
    ("jobs", "--json"),
    ("check-log",),
    ("restore", "--look"),
    ("backups",),
    ("backups", "--now"),
)

Row = tuple[str, str, Any]
"""The moment of an entry, its kind and its body."""


@cache
def base() -> tuple[tuple[Row, ...], bytes, str]:
    """The entries of the real job, the log with the other one alone, and what that one is told as."""
    with a_home():
        recipe = (bundled_recipes() / "first-hook.yaml").read_text(encoding="utf-8")
        Path("own.yaml").write_text(recipe, encoding="utf-8")
        for words in _LINES:
            if words[0] == "amend":
                Path("own.yaml").write_text(recipe.replace("long 110 ±10", "long 112 ±10"), encoding="utf-8")
            assert typed(words) in (0, 1), words
        path = _log()
        with closing(sqlite3.connect(path)) as held:
            rows = held.execute("SELECT at, kind, body FROM entries WHERE job = ? ORDER BY number", (JOB,))
            entries = tuple((at, kind, json.loads(body)) for at, kind, body in rows)
    with a_home():
        typed(["begin", "cold-chisel", "--name", OTHER])
        typed(["note", OTHER, "the bar leans"])
        return entries, _log().read_bytes(), told(["where", OTHER])


def _log() -> Path:
    return Path(os.environ[HOME_VARIABLE]) / "data" / "shop.sqlite"


def told(words: Sequence[str]) -> str:
    """What is said to a command."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        assert main(list(words)) in (0, 1)
    return out.getvalue()


@st.composite
def _spoilt(draw: st.DrawFn) -> list[Row]:
    """The entries with one to three values of their bodies replaced."""
    entries = [list(row) for row in copy.deepcopy(base()[0])]
    for _ in range(draw(st.integers(1, 2))):
        entry = draw(st.sampled_from(entries))
        inside = [name for name in _INSIDE if isinstance(entry[2], dict) and name in entry[2]]
        if inside and draw(st.sampled_from([True, False])):
            tree = json.loads(entry[2][inside[0]]) if isinstance(entry[2][inside[0]], str) else None
            if isinstance(tree, dict):
                _changed(draw, tree)
                entry[2][inside[0]] = as_text(tree)
                continue
        _changed(draw, entry)
    return [tuple(row) for row in entries]


def _changed(draw: st.DrawFn, tree: Any) -> None:
    within = tree[2] if isinstance(tree, list) else tree
    found = list(places(within)) or [(tree, 2)]
    holder, name = draw(st.sampled_from(found))
    way = draw(st.integers(0, 9))
    if way == 0 and holder is not tree:
        del holder[name]
    elif way == 1 and isinstance(holder, dict):
        holder[draw(st.text(max_size=5))] = draw(_ODD)
    elif way == 2 and isinstance(tree, list):
        tree[2] = draw(_ODD)
    else:
        holder[name] = draw(_ODD)


VALUES = st.deferred(_spoilt)


def as_text(value: object) -> str:
    """The value as JSON, with what no value of Python's is in its place."""
    text = _json(value)
    return re.sub('"\ue000([^\ue001"]*)\ue001"', lambda found: RAW[found[1]], text)


def _json(value: object) -> str:
    before = _digits(0)
    try:
        return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    except TypeError:
        return repr(value)
    finally:
        _digits(before)


def _digits(most: int) -> int:
    import sys

    before = sys.get_int_max_str_digits()
    sys.set_int_max_str_digits(most)
    return before


def sealed(entries: Sequence[Row]) -> Iterator[tuple[str, int, str, str, str, str, str]]:
    """Rows of a log's table."""
    previous = ""
    for number, (at, kind, body) in enumerate(entries, 1):
        text = as_text(body).encode("utf-8", "replace").decode()
        digest = chained_digest(previous, JOB, number, at, kind, text)
        yield JOB, number, at, kind, text, previous, digest
        previous = digest


def job_file(rows: Sequence[tuple[str, int, str, str, str, str, str]]) -> str:
    """The same as a file to be carried in."""
    head = {"format": FORMAT, "version": VERSION, "job": JOB, "entries": len(rows), "ends": rows[-1][-1]}
    lines = [json.dumps(head)]
    for _, number, at, kind, text, previous, digest in rows:
        parts = json.dumps({"number": number, "at": at, "kind": kind, "previous": previous, "digest": digest})
        lines.append(f'{parts[:-1]}, "body": {text}}}')
    return "\n".join(lines) + "\n"


def raw(name: str) -> str:
    """What stands in a body for one of RAW."""
    return _RAW.format(name)


def paths(tree: object, at: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """The way to every place within a tree of values."""
    items = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    for name, inner in items:
        yield (*at, name)
        yield from paths(inner, (*at, name))


class Hung(BaseException):
    """A command that does not come to an end."""


def _hung(_: int, frame: FrameType | None) -> None:
    raise Hung(f"at {frame}")


def in_time(words: Sequence[str]) -> int:
    """The same as `typed`, but not for ever."""
    before = signal.signal(signal.SIGALRM, _hung)
    signal.setitimer(signal.ITIMER_REAL, _PATIENCE_S)
    try:
        return typed(words)
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def check(value: Sequence[Row]) -> None:
    """Every command answers or refuses in a sentence, and the other job is told as it was."""
    _, bare, before = base()
    rows = list(sealed(value))
    with an_empty_home():
        path = _log()
        path.parent.mkdir(parents=True)
        path.write_bytes(bare)
        with closing(sqlite3.connect(path, isolation_level=None)) as held:
            held.executemany(
                "INSERT INTO entries (job, number, at, kind, body, previous, digest)"
                " VALUES (?, ?, ?, ?, ?, ?, ?)",
                rows,
            )
        for words in (*OF_THE_LOG, *OF_THE_JOB, *OF_THE_LOG[:3]):
            in_time(words)
        assert JOB in told(["jobs"])
        assert told(["where", OTHER]) == before
        Path("in.jsonl").write_text(job_file(rows), encoding="utf-8")
        shop = f"--shop={Path.cwd()}/apart.sqlite"
        if in_time(["import", "in.jsonl", shop]) in (0, 1):
            in_time(["where", JOB, shop])


@contextlib.contextmanager
def an_empty_home() -> Iterator[None]:
    """A home with nothing in it, in an empty folder that is worked in."""
    before, folder = os.environ.get(HOME_VARIABLE), os.getcwd()
    home = tempfile.mkdtemp()
    os.environ[HOME_VARIABLE] = os.path.join(home, "home")
    os.mkdir(os.path.join(home, "here"))
    os.chdir(os.path.join(home, "here"))
    try:
        yield
    finally:
        os.chdir(folder)
        os.environ.pop(HOME_VARIABLE)
        if before is not None:
            os.environ[HOME_VARIABLE] = before
        shutil.rmtree(home)
