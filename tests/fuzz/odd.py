"""Odd texts and values, and what is otherwise in order with a piece of it changed."""

from __future__ import annotations

import contextlib
import copy
import io
import os
import tempfile
from collections.abc import Iterator, Sequence
from typing import Any

from hypothesis import strategies as st

from coach.cli import main
from coach.places import HOME_VARIABLE
from tests.hostile import ORDERS

WORDS = (
    "",
    " ",
    "-",
    "--",
    "-rf",
    "~root",
    "../../escaped",
    "/dev/null",
    "x" * 300,
    "nan",
    "inf",
    "-1",
    "0",
    "1e999",
    "1_000",
    "٣",
    "½",
    "1 1/0",
    "1/2/3 in",
    "9" * 400,
    "5 ft 3 in",
    "31,5",
    "3 ±",
    "± 3",
    "null",
    "\x00",
    "\ud800",
    "\u2028",
    "İ",
    "{",
    "*a",
    "&a",
    "!!python/name:os.system",
    ORDERS,
)
TEXTS = st.sampled_from(WORDS) | st.text(max_size=30)
NUMBERS = st.integers(-3, 300) | st.integers() | st.floats() | st.sampled_from([10**9, -5, 1e308, 10**400])
VALUES: st.SearchStrategy[object] = st.recursive(
    st.none() | st.booleans() | NUMBERS | TEXTS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(TEXTS, inner, max_size=3),
    max_leaves=4,
)


def places(tree: Any) -> Iterator[tuple[Any, Any]]:
    """Every place within a tree of values: the list or object that holds it, and by what name."""
    items = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    for name, inner in items:
        yield tree, name
        yield from places(inner)


@st.composite
def changed(draw: st.DrawFn, tree: Any, most: int = 3) -> Any:
    """The same tree of values with some of it replaced, taken out, or put in twice."""
    new = copy.deepcopy(tree)
    for _ in range(draw(st.integers(1, most))):
        there = list(places(new))
        if not there:
            return new
        holder, name = draw(st.sampled_from(there))
        way = draw(st.integers(0, 4))
        if way == 0:
            del holder[name]
        elif way == 1 and isinstance(holder, list):
            holder.insert(name, copy.deepcopy(holder[name]))
        elif way == 2 and isinstance(holder, dict):
            holder[draw(TEXTS)] = holder.pop(name)
        else:
            holder[name] = draw(VALUES)
    return new


@st.composite
def mangled(draw: st.DrawFn, text: str) -> str:
    """The same text with some of its lines or pieces changed."""
    lines = text.split("\n")
    for _ in range(draw(st.integers(1, 3))):
        at = draw(st.integers(0, len(lines) - 1))
        line = lines[at]
        way = draw(st.integers(0, 4))
        if way == 0:
            del lines[at]
        elif way == 1:
            lines.insert(at, line)
        elif way == 2:
            lines[at] = " " * draw(st.integers(0, 6)) + line.lstrip()
        else:
            start, end = sorted((draw(st.integers(0, len(line))), draw(st.integers(0, len(line)))))
            lines[at] = line[:start] + draw(TEXTS) + line[end:]
        lines = lines or [""]
    return "\n".join(lines)


class Typed(Exception):
    """What the coach made of a line that it should not have."""


def typed(words: Sequence[str]) -> int:
    """Type a command; its exit code, or a failure where it failed or sent an order to the terminal."""
    out, err = io.StringIO(), io.StringIO()
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            code = main(list(words))
    except BaseException as error:
        raise Typed(f"{words!r} came out as {error!r}") from error
    said = out.getvalue() + err.getvalue()
    if code not in (0, 1, 2) or "coach failed" in said or "\x1b" in said or "\x07" in said:
        raise Typed(f"{words!r} gave {code}: {said[-2000:]}")
    return code


@contextlib.contextmanager
def a_home() -> Iterator[str]:
    """A shop of its own with one job, in an empty folder that is worked in."""
    before, folder = os.environ.get(HOME_VARIABLE), os.getcwd()
    with tempfile.TemporaryDirectory() as home:
        os.environ[HOME_VARIABLE] = os.path.join(home, "home")
        os.mkdir(os.path.join(home, "here"))
        os.chdir(os.path.join(home, "here"))
        try:
            typed(["begin", "first-hook"])
            yield home
        finally:
            os.chdir(folder)
            os.environ.pop(HOME_VARIABLE)
            if before is not None:
                os.environ[HOME_VARIABLE] = before
