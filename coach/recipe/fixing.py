"""Writes allowances into the text of a recipe, its remarks and its layout left as they are."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from coach.recipe.findings import Path, Place
from coach.recipe.tree import Plain, read_plain

_ALLOWANCE = re.compile(r"(allowance:? +)[\d.,]+ ?%")


class _Edit(NamedTuple):
    """A stretch of the text and what is to stand there."""

    start: int
    end: int
    text: str


def with_allowances(text: str, source: str, shares: Mapping[str, float]) -> str:
    """The text of a recipe with these allowances, by the zone; of several made alike the most of theirs.

    Raises RecipeFaults where the text cannot be taken apart.
    """
    plain = read_plain(text, source)
    starts = line_starts(text)
    most: dict[Path, float] = {}
    for zone, share in shares.items():
        path = path_of_zone(plain, zone)
        if path is not None:
            most[path] = max(share, most.get(path, 0.0))
    edits = [
        _edit(text, starts, plain, path, f"{share * 100:.1f}".rstrip("0").rstrip("."))
        for path, share in most.items()
    ]
    for edit in sorted(edits, reverse=True):
        text = text[: edit.start] + edit.text + text[edit.end :]
    return text


def line_starts(text: str) -> list[int]:
    """Where each line of a text begins in it, from 0."""
    return [0, *(found.end() for found in re.finditer("\n", text))]


def path_of_zone(plain: Plain, zone: str) -> Path | None:
    """Where a zone's sizes stand; None where they do not."""
    pieces = plain.tree.get("pieces")
    for name, piece in pieces.items() if isinstance(pieces, dict) else ():
        if not isinstance(piece, dict):
            continue
        one = re.match(
            rf"{re.escape(name)}(?: \d+)?(?: |$)", zone
        )  # `arm 2 jaw` is the jaw of one of two arms
        own = zone[one.end() :] if one else zone
        zones = piece.get("zones")
        for found in (zone, own):
            if isinstance(zones, dict) and found in zones:
                return ("pieces", name, "zones", found)
        if one and not own and "size" in piece:
            return ("pieces", name, "size")
    return None


def _edit(text: str, starts: list[int], plain: Plain, path: Path, share: str) -> _Edit:
    """The edit that makes a zone say an allowance."""
    written = plain.places.written.get(path)
    if written is not None:  # one line
        start = _offset(starts, written.place)
        end = start + len(written.raw.rstrip())
        if found := _ALLOWANCE.search(text, start, end):
            return _Edit(found.start(), found.end(), f"{found[1]}{share} %")
        at = end - 1 if written.raw[:1] in ("'", '"') else end
        return _Edit(at, at, f", allowance {share} %")
    rows = [(key, one) for key, one in plain.places.written.items() if key[: len(path)] == path]
    own = next((one for key, one in rows if key[-1] == "allowance"), None)
    if own is not None:
        start = _offset(starts, own.place)
        return _Edit(start, start + len(own.raw.rstrip()), f"{share} %")
    last_key, last = max(rows, key=lambda row: row[1].place)
    column = plain.places.keys[last_key][1]
    end = _offset(starts, last.place) + len(last.raw.rstrip())
    if "\n" not in text[_offset(starts, plain.places.keys[path]) : end]:  # in { }
        return _Edit(end, end, f", allowance: {share} %")
    line_end = text.find("\n", end)
    at = len(text) if line_end < 0 else line_end
    return _Edit(at, at, f"\n{' ' * (column - 1)}allowance: {share} %")


def _offset(starts: list[int], place: Place) -> int:
    return starts[place[0] - 1] + place[1] - 1
