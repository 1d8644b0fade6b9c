"""Whatever an entry holds that a hand has sealed: its job is damaged or told, and no other is touched."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from coach.log.entries import FIRST_PREVIOUS, canonical_json, read_chain
from coach.telling.words import write
from coach.telling.writing import Shown
from tests.fuzz import bodies


@pytest.fixture(scope="module", autouse=True)
def _base() -> None:
    """The job is begun before the first is tried: it takes a while."""
    bodies.base()


def with_size(raw: str) -> list[bodies.Row]:
    """The real job with its first reading's size so."""
    entries = list(bodies.base()[0])
    at, kind, body = entries[1]
    assert kind == "reading"
    entries[1] = at, kind, {**body, "size": bodies.raw(raw)}
    return entries


@pytest.mark.parametrize("raw", ["401 digits", "5000 digits", "nan"])
def test_a_size_beyond_all_numbers_is_damage_of_its_job_alone(raw: str) -> None:
    bodies.check(with_size(raw))
    rows = [row[1:] for row in bodies.sealed(with_size(raw))]
    assert [number for number, _ in read_chain(bodies.JOB, rows, 1, FIRST_PREVIOUS).faults] == [2]


def _places() -> st.SearchStrategy[tuple[int, tuple[Any, ...], str]]:
    found = [(at, ()) for at in range(len(bodies.base()[0]))]
    found += [(at, path) for at, row in enumerate(bodies.base()[0]) for path in bodies.paths(row[2])]
    return st.tuples(st.sampled_from(found), st.sampled_from([*bodies.RAW])).map(
        lambda two: (*two[0], two[1])
    )


@settings(max_examples=300, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.deferred(_places))
def test_no_value_at_any_place_stops_the_reading_of_a_job(value: tuple[int, tuple[Any, ...], str]) -> None:
    at, path, raw = value
    entries = list(bodies.base()[0])[: at + 1]
    moment, kind, body = json.loads(json.dumps(entries[at]))
    holder: Any = {"body": body}
    *way, name = ("body", *path)
    inner = holder
    for step in way:
        inner = inner[step]
    inner[name] = bodies.raw(raw)
    entries[at] = moment, kind, holder["body"]
    chain = read_chain(bodies.JOB, [row[1:] for row in bodies.sealed(entries)], 1, FIRST_PREVIOUS)
    if not chain.faults:
        made = chain.sound[-1].body
        for shown in (Shown("mm"), Shown("in")):
            write(made.words(), shown)
        canonical_json(made.to_json())


@settings(
    max_examples=4,
    deadline=None,
    phases=[Phase.generate],
    suppress_health_check=list(HealthCheck),
    database=None,
)
@given(bodies.VALUES)
def test_no_command_fails_over_what_an_entry_holds(value: list[bodies.Row]) -> None:
    bodies.check(value)
