"""What holds for every question put to the reckoner, whatever it is about."""

from __future__ import annotations

import json
from collections.abc import Iterable

import pytest

from tests.cli.conftest import Coach


def assert_answered(coach: Coach, words: Iterable[str], units: str) -> None:
    """It is answered, in lines that fit a terminal, and no log is begun for it."""
    said = coach("--units", units, *words)
    assert (said.code, said.err) == (0, "")
    assert max(map(len, said.out.splitlines())) <= 80
    assert not coach.home.exists()


def figures(found: object) -> list[object]:
    """Every number of an answer."""
    if isinstance(found, dict):
        return [item for part in found.values() for item in figures(part)]
    if isinstance(found, list):
        return [item for part in found for item in figures(part)]
    return [found] if isinstance(found, int | float) else []


def assert_metric_in_json(coach: Coach, words: Iterable[str]) -> None:
    """Its figures in JSON are the same whatever units are shown."""
    mm, inches = (coach(*words, "--units", units, "--json").values for units in ("mm", "in"))
    assert list(mm) == list(inches)
    assert figures(mm) == pytest.approx(figures(inches), rel=1e-9)


def assert_refused(coach: Coach, words: Iterable[str], telling: Iterable[str]) -> None:
    """It is refused in one sentence that has these words, and in JSON as an error."""
    said = coach(*words)
    assert (said.code, said.out) == (2, "")
    assert len(said.err.splitlines()) == 1
    for word in telling:
        assert word in said.err
    also = coach(*words, "--json")
    assert also.code == 2
    assert set(json.loads(also.out)) == {"error"}


def assert_sourced(coach: Coach, verb: str, source: str, marks: Iterable[str]) -> None:
    """Its help says that it tells an estimate, from what, and how far that is confirmed: any of the marks."""
    words = " ".join(coach(verb, "--help").out.split())
    assert "An estimate." in words
    assert source in words
    assert any(mark in words for mark in marks)
