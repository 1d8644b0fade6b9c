"""A recipe's text with one change, its remarks and its layout left as they are wherever that can be."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress

from coach.recipe import writing
from coach.recipe.changing import Job, changed_text
from coach.recipe.faults import RecipeFaults
from coach.recipe.findings import Place
from coach.recipe.fixing import line_starts, path_of_zone, with_allowances
from coach.recipe.reader import read_recipe
from coach.recipe.remarks import step_in_file, with_remarks
from coach.recipe.spelling import spelt_out
from coach.recipe.tree import read_plain

_HEATS = re.compile(r"heats (?P<step>\d+) = (?P<heats>\d+)")
_WRITTEN_HEATS = re.compile(r"\b\d+( heats?)\b|(?<=\bheats: )\d+")
#: The same with the comma that parts them from what stands beside them.
_SAID_HEATS = re.compile(r",[ \t]*\d+ heats?\b|\bheats:[ \t]*\d+[ \t]*(?:,[ \t]*|$)", re.MULTILINE)
#: A size that a step works to, where its own line says it.
_STEP_SIZE = re.compile(r"step (?P<step>\d+) (?P<size>[^.=:]+?) = (?P<to>.+)")
_SIZE = re.compile(r"(?P<zone>[^.=]+?)\.(?P<size>[^=]+?)=(?P<to>.+)")
#: A size as a zone's line has it: a number, and what may be beside it; `5 ±0.5`, `28 +0 -1`, `27 to 29`.
_NUMBER = r"\d+(?:[.,]\d+)?(?: \d+/\d+|/\d+)?"
_WRITTEN_SIZE = re.compile(
    rf"(?:at (?:least|most) )?{_NUMBER}(?: ?(?:±|\+-|\+/-) ?{_NUMBER}| [+-]{_NUMBER} [+-]{_NUMBER})?"
)


def edited(text: str, source: str, line: str) -> str:
    """A recipe's text with a change: a line of `coach change`, or one of two others; ; parts them.

    These are `allowance ZONE = 3 %`, and `step 3 side = 8 ±1` for a size that a step's own line says; where
    that says none, it stays as it is.

    It is changed where it stands. Where that reads otherwise than the same recipe written anew, it is written
    anew, with the remarks at their steps and zones. Raises RecipeFaults or Refusal where it cannot be.
    """
    first, more, others = line.partition("; ")
    if more:
        return edited(edited(text, source, first), source, others)
    anew = _written_anew(text, source, line)
    wanted = read_recipe(anew, source)._replace(text="")
    for tried in _tries(text, anew, source, line):
        try:
            if read_recipe(tried, source)._replace(text="") == wanted:
                return tried
        except RecipeFaults:  # another number was meant
            continue
    return anew


def without_heats(text: str, source: str, number: int) -> str:
    """A recipe's text in which one step leaves its heats to be reckoned; as it is where none are found."""
    found = _step_at(text, source, number)
    if found is None:
        return text
    for tried in _each(text, *found, _SAID_HEATS, lambda _: ""):
        with suppress(RecipeFaults):
            if not read_recipe(tried, source).steps[number - 1].heats_said:
                return tried
    return text


def _step_at(text: str, source: str, number: int) -> tuple[Place, list[Place]] | None:
    """Where a step stands, and where all of them do; None where it is written with others."""
    places = read_plain(text, source).places.values
    at = step_in_file(text, number - 1)
    steps = [place for path, place in places.items() if path[:1] == ("steps",) and len(path) == 2]
    start = places.get(("steps", at)) if at is not None else None
    return None if start is None else (start, steps)


def _written_anew(text: str, source: str, line: str) -> str:
    if found := _STEP_SIZE.fullmatch(line):
        return _step_anew(text, source, found)
    zone, equals, share = line.removeprefix("allowance ").partition(" = ")
    if not line.startswith("allowance ") or not equals:
        return changed_text(text, line, Job(read_recipe(text, source), 0, begun=False))[0]
    spelt = spelt_out(text, source)
    drawing = {name: dict(drawn) for name, drawn in spelt["drawing"].items()}
    drawing[zone]["allowance"] = share
    spelt["drawing"] = drawing
    places = [(text, at) for at in range(len(spelt["steps"]))]
    return with_remarks(writing.write_recipe(spelt), text, [*places], {})


def _step_anew(text: str, source: str, found: re.Match[str]) -> str:
    spelt = spelt_out(text, source)
    steps = [dict(step) for step in spelt["steps"]]
    step, size = steps[int(found["step"]) - 1], found["size"].replace(" ", "_")
    to = step.get("to")
    if not isinstance(to, dict) or size not in to:
        return text
    step["to"] = {**to, size: found["to"]}
    spelt["steps"] = steps
    return with_remarks(writing.write_recipe(spelt), text, [(text, at) for at in range(len(steps))], {})


def _tries(text: str, anew: str, source: str, line: str) -> Iterator[str]:
    """The text with each number changed that may be the one that is meant."""
    plain = read_plain(text, source)
    zone, _, share = line.removeprefix("allowance ").partition(" = ")
    if line.startswith("allowance "):
        yield with_allowances(text, source, {zone: float(share.rstrip(" %")) / 100.0})
    elif found := _HEATS.fullmatch(line):
        number, there_is = found["heats"], _step_at(text, source, int(found["step"]))
        if there_is is not None:
            step, steps = there_is
            heats = f"{number} heat{'' if number == '1' else 's'}"
            yield from _each(text, step, steps, _WRITTEN_HEATS, lambda one: heats if one[1] else number)
            end = text.find("\n", line_starts(text)[step[0] - 1])  # where its line says none
            yield f"{text[:end].rstrip()}, {heats}{text[end:]}" if end >= 0 else text
    elif own := _STEP_SIZE.fullmatch(line):
        yield text  # where it says no such size
        to = own["to"]
        if (there_is := _step_at(text, source, int(own["step"]))) is not None:
            yield from _each(text, *there_is, _WRITTEN_SIZE, lambda _: to)
    elif found := _SIZE.fullmatch(line):
        path = path_of_zone(plain, found["zone"])
        start = plain.places.keys.get(path) if path is not None else None
        if start is not None:
            keys = plain.places.keys.values()
            for tried in _each(text, start, keys, _WRITTEN_SIZE, lambda _: found["to"]):
                yield tried
                yield from _steps_too(text, tried, source, found["to"])
            there, then = (_zone_at(one, source, found["zone"]) for one in (text, anew))
            if there is not None and then is not None:  # a number that stood for two sizes is written out
                yield text[: there.start] + anew[then] + text[there.stop :]


def _steps_too(text: str, tried: str, source: str, to: str) -> Iterator[str]:
    """The same with a step's line changed too that says the size as the drawing did; and with all of them."""
    start = next((at for at, (was, now) in enumerate(zip(text, tried, strict=False)) if was != now), -1)
    written = next((one for one in _WRITTEN_SIZE.finditer(text) if one.start() <= start < one.end()), None)
    places = read_plain(text, source).places.values
    steps = min((place[0] for path, place in places.items() if path[:1] == ("steps",)), default=None)
    if written is None or steps is None:
        return
    moved = line_starts(tried)[steps - 1]
    said = list(re.finditer(rf"(?<![\d.,]){re.escape(written[0])}(?!\d|[.,]\d)", tried[moved:]))
    for some in (*([one] for one in said), said):
        changed = tried
        for one in reversed(some):
            changed = changed[: moved + one.start()] + to + changed[moved + one.end() :]
        yield changed


def _zone_at(text: str, source: str, zone: str) -> slice | None:
    """Where the sizes of a zone stand in a text; None where they are not in one line."""
    plain = read_plain(text, source)
    path = path_of_zone(plain, zone)
    written = plain.places.written.get(path) if path is not None else None
    if written is None:
        return None
    start = line_starts(text)[written.place[0] - 1] + written.place[1] - 1
    return slice(start, start + len(written.raw.rstrip()))


def _each(
    text: str,
    start: Place,
    starts: Iterable[Place],
    pattern: re.Pattern[str],
    write: Callable[[re.Match[str]], str],
) -> Iterator[str]:
    """The text with each of these written otherwise that stands between a place and the next beside it."""
    lines = [*line_starts(text), len(text)]
    indent = start[1]
    ends = [place[0] for place in starts if place[0] > start[0] and place[1] <= indent]
    first, last = lines[start[0] - 1], lines[min([*ends, len(lines)]) - 1]
    for one in pattern.finditer(text, first, last):
        yield text[: one.start()] + write(one) + text[one.end() :]
