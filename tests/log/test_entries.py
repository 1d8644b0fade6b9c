"""An entry is written one way only, and any change to it is noticed."""

from __future__ import annotations

import json
from types import MappingProxyType

import pytest

from coach.log.entries import (
    DEEPEST_NESTING,
    Entry,
    canonical_json,
    chained_digest,
    make_entry,
    numbers_of,
    read_chain,
)
from coach.log.kinds.way_back import WayBackTaken
from coach.log.limits import OutOfLimits
from tests.log.bodies import BEGAN, HEAT, READING, WAY_BACK

AT = "2026-11-25T09:30:00Z"


def row(entry: Entry, body_json: str) -> tuple[object, object, object, object, object, object]:
    return (entry.number, entry.at, entry.kind, body_json, entry.previous, entry.digest)


def three_rows() -> list[tuple[object, object, object, object, object, object]]:
    rows = []
    previous = ""
    for number, body in enumerate((BEGAN, HEAT, READING), start=1):
        entry, body_json = make_entry("axe", number, AT, body, previous)
        rows.append(row(entry, body_json))
        previous = entry.digest
    return rows


def test_the_digest_is_the_sha_256_of_the_parts_as_one_json_list() -> None:
    # printf '%s' '["", "broad axe", 1, "2026-11-25T09:30:00Z", "began", "{\"zone\":\"poll é\"}"]' | sha256sum
    # (GNU coreutils 9.1)
    expected = "44b9d16f5e747f187eb555bd3be9cc714f7bd3fcb8f650ce25a9fbba0711d88a"
    assert chained_digest("", "broad axe", 1, AT, "began", '{"zone":"poll é"}') == expected


def test_parts_cannot_run_into_one_another() -> None:
    assert chained_digest("", "axe", 1, AT, "ab", "c") != chained_digest("", "axe", 1, AT, "a", "bc")
    assert chained_digest("", 'a", "b', 1, AT, "x", "") != chained_digest("", "a", 1, AT, 'b", "x', "")


def test_the_order_of_names_makes_no_difference() -> None:
    assert canonical_json({"b": 1, "a": [1.5, None, True]}) == '{"a":[1.5,null,true],"b":1}'
    assert canonical_json({"a": (1.5, None, True), "b": 1}) == '{"a":[1.5,null,true],"b":1}'
    assert canonical_json(MappingProxyType({"é": MappingProxyType({})})) == '{"é":{}}'


@pytest.mark.parametrize(
    ("body", "reason"),
    [
        ({"x": float("nan")}, "not JSON compliant"),
        ({"x": [float("inf")]}, "not JSON compliant"),
        ({"x": {1: "one"}}, "a name in it is not text"),
        ({"x": b"bytes"}, "neither text nor number"),
        ({"x": "half of a pair \ud83d"}, "a broken character"),
    ],
)
def test_what_json_cannot_hold_is_refused_with_a_reason(body: dict[str, object], reason: str) -> None:
    with pytest.raises(ValueError, match=reason):
        canonical_json(body)


def test_endless_nesting_is_refused() -> None:
    body: dict[str, object] = {}
    for _ in range(DEEPEST_NESTING + 1):
        body = {"in": body}
    with pytest.raises(ValueError, match="nested too deep"):
        canonical_json(body)


@pytest.mark.parametrize(
    "at",
    [
        "",
        "2026-11-25",
        "2026-11-25T09:30:00",
        "2026-11-25T09:30:00+01:00",
        "2026-11-25 09:30:00Z",
        "2026-02-30T09:30:00Z",
        "2026-11-25T25:30:00Z",
        "0001-01-01T00:00:00Z",
        "9999-12-31T23:59:59Z",
        "２026-11-25T09:30:00Z",
    ],
)
def test_a_moment_that_is_not_utc_or_not_in_the_calendar_is_refused(at: str) -> None:
    with pytest.raises(ValueError, match="moment"):
        make_entry("axe", 1, at, BEGAN, "")


@pytest.mark.parametrize("at", [AT, "2026-11-25T09:30:00+00:00", "2026-11-25T09:30:00.125Z"])
def test_a_moment_may_be_finer_than_a_second(at: str) -> None:
    assert make_entry("axe", 1, at, BEGAN, "")[0].at == at


@pytest.mark.parametrize(
    "name", ["", "  ", " axe", "axe\n", "a\tb", "a\x00b", "\udcff", "../axe", "-axe", "broad axe", "x" * 61]
)
def test_a_name_that_could_not_be_typed_again_is_refused(name: str) -> None:
    with pytest.raises(ValueError, match="name"):
        make_entry(name, 1, AT, BEGAN, "")


def test_a_sound_chain_has_no_faults() -> None:
    chain = read_chain("axe", three_rows(), 1, "")
    assert [entry.kind for entry in chain.sound] == ["began", "heat", "reading"]
    assert chain.faults == ()


def test_a_changed_part_is_found_and_what_precedes_it_kept() -> None:
    for part, other in enumerate([2, "2026-11-26T09:30:00Z", "note", '{"step":3}', "0" * 64, "0" * 64]):
        rows = three_rows()
        changed = list(rows[1])
        changed[part] = other if part else 7
        rows[1] = (changed[0], changed[1], changed[2], changed[3], changed[4], changed[5])
        chain = read_chain("axe", rows, 1, "")
        assert [entry.number for entry in chain.sound] == [1]
        assert chain.faults[0][0] == 2


def test_a_missing_entry_is_named() -> None:
    rows = three_rows()
    assert read_chain("axe", [rows[0], rows[2]], 1, "").faults == ((2, "is missing"),)


def test_an_entry_of_another_job_does_not_pass() -> None:
    assert read_chain("adze", three_rows(), 1, "").faults[0] == (1, "is not as it was written")


def test_an_entry_sealed_to_something_else_does_not_follow() -> None:
    rows = three_rows()
    stranger, body_json = make_entry("axe", 2, AT, HEAT, "f" * 64)
    chain = read_chain("axe", [rows[0], row(stranger, body_json)], 1, "")
    assert chain.faults == ((2, "does not follow the entry before it"),)


def test_a_body_that_is_no_object_is_a_fault_though_its_seal_is_whole() -> None:
    digest = chained_digest("", "axe", 1, AT, "began", "[1]")
    assert read_chain("axe", [(1, AT, "began", "[1]", "", digest)], 1, "").faults == (
        (1, "does not hold a JSON object"),
    )


def test_a_part_that_is_no_text_is_a_fault() -> None:
    rows = three_rows()
    rows[1] = (2, AT, b"heat", "{}", "", "")
    assert read_chain("axe", rows, 1, "").faults == ((2, "is not in a form that can be read"),)


def test_entries_are_told_by_their_numbers() -> None:
    entries = read_chain("axe", three_rows(), 1, "").sound
    assert numbers_of(()) == "no entries"
    assert numbers_of(entries[1:2]) == "entry 2"
    assert numbers_of(entries) == "entries 1 to 3"


def test_words_with_figures_come_back_from_an_entry_as_they_went_in() -> None:
    kept = WAY_BACK.to_json()
    assert kept["title"] == "Weld a piece on"
    figure = {"value": 12.0, "kind": "LENGTH", "doubt": 0.5}
    assert kept["changes"] == ["The {} gets {} longer.", "blade", figure]
    assert WayBackTaken.from_json(json.loads(json.dumps(kept))) == WAY_BACK


@pytest.mark.parametrize(
    "held",
    [
        ["{} and {}", "one"],
        ["{} longer", {"value": "12", "kind": "LENGTH", "doubt": None}],
        ["{} longer", {"value": 12.0, "kind": "FATHOM", "doubt": None}],
        ["{", "blade"],
        [3],
        7,
        [],
    ],
)
def test_words_that_no_entry_can_hold_are_refused(held: object) -> None:
    with pytest.raises(OutOfLimits, match="title of a way back"):
        WayBackTaken.from_json({**WAY_BACK.to_json(), "title": held})


def test_a_clock_before_all_moments_is_named_as_what_to_look_at() -> None:
    with pytest.raises(ValueError, match="look at this computer's clock"):
        make_entry("axe", 1, "1969-01-02T00:00:00Z", BEGAN, "")
