"""The remarks of a recipe's text, carried to another text of the same zones and steps."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from coach.recipe.keys import unit_of
from coach.recipe.spelling import Speller
from coach.recipe.tree import read_plain

_STEP = re.compile(r"  - ")
_NAMED = re.compile(r" {2,6}([^\s:#][^:]*):")
_TRAILING = re.compile(r"(?:^|\s)(#.*)$")


class _Spot(NamedTuple):
    """Where a line belongs: a step's number from 0, or a name of a piece or zone."""

    step: int = -1
    name: str = ""


def with_remarks(
    text: str,
    old: str,
    places: Sequence[tuple[str, int] | None],
    notes: Mapping[int, Sequence[str]],
) -> str:
    """A text with the remarks that stood in the files before each of its zones and steps.

    Args:
        text: written anew, a step to a dash and its zones each on a line.
        old: the text whose head and zones it has.
        places: for each step the text that it was in and its place there, spelt out; None for none.
        notes: what is to be told of each step besides, by its number from 1; 0 stands at the end.
    """
    remarks = {old: remarks_of(old)} | {of[0]: remarks_of(of[0]) for of in places if of is not None}
    seen: set[tuple[str, _Spot]] = set()
    found = list(remarks[old].get(_Spot(), ()))
    step = -1
    for line in text.splitlines():
        before: list[str] = []
        if _STEP.match(line):
            step += 1
            of = places[step] if step < len(places) else None
            if of is not None:
                spot = _spot_of(of[0], of[1])
                if (of[0], spot) not in seen:
                    seen.add((of[0], spot))
                    before = list(remarks[of[0]].get(spot, ()))
            before += [f"# note: {note}" for note in notes.get(step + 1, ())]
        elif step < 0 and (name := _NAMED.match(line)):
            before = list(remarks[old].get(_Spot(name=name[1].strip("\"'")), ()))
        indent = line[: len(line) - len(line.lstrip())]
        found += [f"{indent}{one}" for one in before]
        found.append(line)
    found += [f"# note: {note}" for note in notes.get(0, ())]
    return "\n".join(found) + "\n"


def remarks_of(text: str) -> dict[_Spot, list[str]]:
    """The remarks of a text by the step or the zone that they stand at, each on a line of its own.

    A remark alone on its line belongs to what follows it.
    """
    starts = _starts(text)
    found: dict[_Spot, list[str]] = {}
    spot, waiting = _Spot(), list[str]()
    for number, line in enumerate(text.splitlines(), 1):
        alone = line.strip().startswith("#")
        if alone:
            waiting.append(line.strip())
            continue
        if not line.strip():
            continue
        spot = starts.get(number, spot)
        found.setdefault(spot, []).extend(waiting)
        waiting = []
        if (remark := _TRAILING.search(line)) and not _is_text(line, remark.start(1)):
            found[spot].append(remark[1])
    if waiting:
        found.setdefault(spot, []).extend(waiting)
    return {spot: rows for spot, rows in found.items() if rows}


def _is_text(line: str, at: int) -> bool:
    """Whether a sign for a remark stands within quotes."""
    return line[:at].count('"') % 2 == 1 or line[:at].count("'") % 2 == 1


def _starts(text: str) -> dict[int, _Spot]:
    """Where each piece, zone and step begins, by its line."""
    plain = read_plain(text, "")
    found: dict[int, _Spot] = {}
    for path, place in plain.places.keys.items():
        if path[:1] == ("pieces",) and (len(path) == 2 or (len(path) == 4 and path[2] == "zones")):
            found[place[0]] = _Spot(name=str(path[-1]))
        elif len(path) == 1:
            found.setdefault(place[0], _Spot())
    for path, place in plain.places.values.items():
        if len(path) == 2 and path[0] == "steps":
            found[place[0]] = _Spot(step=int(path[1]))
    return found


def _spot_of(text: str, spelt: int) -> _Spot:
    at = step_in_file(text, spelt)
    return _Spot(step=at) if at is not None else _Spot()


def step_in_file(text: str, spelt: int) -> int | None:
    """The step of a file, from 0, that is the one of that number once it is spelt out; None where none is."""
    plain = read_plain(text, "")
    speller = Speller(plain.tree, unit_of(plain.tree))
    speller.spell()
    path = speller.origins.of(("steps", spelt))
    return int(path[1]) if len(path) > 1 else None
