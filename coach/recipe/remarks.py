"""The remarks of a recipe's text, carried to another text of the same zones and steps."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from typing import NamedTuple

from coach.recipe.keys import unit_of
from coach.recipe.spelling import Speller
from coach.recipe.spelt import Origins
from coach.recipe.tree import Plain, read_laid_out
from coach.recipe.words import key as spelt_key

_KEY = re.compile(r"([^\s#:-][^:]*):")
_STEP = re.compile(r"  - ")
_NAMED = re.compile(r" {2,6}([^\s:#][^:]*):")
_TRAILING = re.compile(r"(?:^|\s)(#.*)$")


class _Spot(NamedTuple):
    """Where a line belongs: a step's number from 0, a piece or zone by name, or a key of the recipe."""

    step: int = -1
    name: str = ""
    key: str = ""


class _File(NamedTuple):
    """A recipe's text, taken apart once."""

    remarks: dict[_Spot, list[str]]
    origins: Origins  # where each step of it, spelt out, was written

    @classmethod
    def of(cls, text: str) -> _File:
        plain = read_laid_out(text, "")
        return cls(_remarks_of(text, plain), _origins_of(plain))


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
    texts = {old, *(of[0] for of in places if of is not None)}
    files = {one: _File.of(one) for one in texts}  # each taken apart once, however many steps it has
    remarks = files[old].remarks
    seen: set[tuple[str, _Spot]] = set()
    keys = {one[1] for line in text.splitlines() if (one := _KEY.match(line))}
    # What belongs to a key that is written no more stands at the head.
    gone = (rows for spot, rows in remarks.items() if _is_of_none(spot, keys))
    found = [one for rows in gone for one in rows]
    named = {spot.name: rows for spot, rows in remarks.items() if spot.name}
    section, step = "", -1
    for line in text.splitlines():
        before: list[str] = []
        if one := _KEY.match(line):
            section = one[1]
            before = list(remarks.get(_Spot(key=section), ()))
        elif section == "steps" and _STEP.match(line):
            step += 1
            of = places[step] if step < len(places) else None
            if of is not None:
                spot = _spot_of(files[of[0]].origins, of[1])
                if (of[0], spot) not in seen:
                    seen.add((of[0], spot))
                    before = list(files[of[0]].remarks.get(spot, ()))
            before += [f"# note: {note}" for note in notes.get(step + 1, ())]
        elif section == "pieces" and (name := _NAMED.match(line)):
            before = list(named.pop(_of_which(name[1].strip("\"'"), named), ()))
        indent = line[: len(line) - len(line.lstrip())]
        found += [f"{indent}{one}" for one in before]
        found.append(line)
    found += [f"# note: {note}" for note in notes.get(0, ())]
    return "\n".join(found) + "\n"


def _is_of_none(spot: _Spot, keys: Collection[str]) -> bool:
    """Whether a remark is of the whole recipe, and of none of these keys of it."""
    return spot.step < 0 and not spot.name and spot.key not in keys


def _of_which(written: str, named: Collection[str]) -> str:
    """The name that a written one goes back to: of several pieces of one, `arm 1` and `arm 1 jaw`."""
    ends = (one for one in named if re.fullmatch(rf"{re.escape(one)} \d+|.* \d+ {re.escape(one)}", written))
    return written if written in named else next(ends, written)


def _remarks_of(text: str, plain: Plain) -> dict[_Spot, list[str]]:
    """The remarks of a text by the step or the zone that they stand at, each on a line of its own.

    A remark alone on its line belongs to what follows it.
    """
    starts = _starts(plain)
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


def _starts(plain: Plain) -> dict[int, _Spot]:
    """Where each piece, zone and step begins, by its line."""
    first_line = min(place[0] for place in plain.places.keys.values())
    found: dict[int, _Spot] = {}
    for path, place in plain.places.keys.items():
        if path[:1] == ("pieces",) and (len(path) == 2 or (len(path) == 4 and path[2] == "zones")):
            found[place[0]] = _Spot(name=str(path[-1]))
        elif len(path) == 1:
            found.setdefault(
                place[0], _Spot() if place[0] <= first_line else _Spot(key=spelt_key(str(path[0])))
            )
    for path, place in plain.places.values.items():
        if len(path) == 2 and path[0] == "steps":
            found[place[0]] = _Spot(step=int(path[1]))
    return found


def _spot_of(origins: Origins, spelt: int) -> _Spot:
    at = _step_of(origins, spelt)
    return _Spot(step=at) if at is not None else _Spot()


def step_in_file(text: str, spelt: int) -> int | None:
    """The step of a file, from 0, that is the one of that number once it is spelt out; None where none is."""
    return _step_of(_origins_of(read_laid_out(text, "")), spelt)


def _step_of(origins: Origins, spelt: int) -> int | None:
    path = origins.of(("steps", spelt))
    return int(path[1]) if len(path) > 1 else None


def _origins_of(plain: Plain) -> Origins:
    speller = Speller(plain.tree, unit_of(plain.tree))
    speller.spell()
    return speller.origins
