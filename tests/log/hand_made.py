"""Job files made by hand: sealed as they should be, whatever their entries hold."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping

from coach.log.entries import chained_digest
from tests.log.bodies import BEGAN

AT = "2026-11-25T09:30:00Z"
Made = tuple[str, object]
"""The kind of an entry and its body, as JSON's values."""


def job_file(
    *made: Made, job: str = "hand-made", at: str = AT, began: object = None, first: str = "began"
) -> str:
    """A whole job file: a beginning, and these entries."""
    bodies = [(first, BEGAN.to_json() if began is None else began), *made]
    lines = []
    previous = ""
    for number, (kind, body) in enumerate(bodies, start=1):
        body_json = json.dumps(body, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
        digest = chained_digest(previous, job, number, at, kind, body_json)
        lines.append(
            {
                "number": number,
                "at": at,
                "kind": kind,
                "body": body,
                "previous": previous,
                "digest": digest,
            }
        )
        previous = digest
    head = {
        "format": "between-heats job",
        "version": 1,
        "job": job,
        "entries": len(lines),
        "ends": previous,
    }
    return "".join(json.dumps(line, ensure_ascii=False) + "\n" for line in [head, *lines])


def rows(
    made: Iterable[Made], job: str, at: str = AT, began: object = None
) -> list[tuple[str, int, str, str, str, str, str]]:
    """The same as rows of the log's table, for an entry that got past the gate long ago."""
    found = []
    lines = job_file(*made, job=job, at=at, began=began).split("\n")[1:-1]
    for entry in map(json.loads, lines):
        body_json = json.dumps(entry["body"], ensure_ascii=False, sort_keys=True, separators=(",", ":"))
        found.append((job, entry["number"], at, entry["kind"], body_json, entry["previous"], entry["digest"]))
    return found


def without(held: Mapping[str, object], name: str) -> dict[str, object]:
    """A body that lacks one of its names."""
    return {key: value for key, value in held.items() if key != name}
