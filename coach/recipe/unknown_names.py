"""Names in a step that no zone and no piece has, where the step itself cannot be read on."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from typing import Final

from coach.quantities.words import as_words
from coach.recipe import words
from coach.recipe.findings import Offset, Path, Slip

#: What stands between two names.
_BETWEEN: Final = re.compile(r" (?:and|with|to|by) ")
_ALL_OF: Final = re.compile(r"all of ")


#: What follows a zone behind a comma.
_FOLLOWS: Final = re.compile(
    r"\s*;| (?=\d+ (?:heats?|treatment|x) |\d+ heats?$|at \d|cold\b|same heat\b"
    r"|[a-z]+ (?:at (?:most|least) )?\d)"
)


def missing_comma(text: str, zones: Collection[str]) -> int | None:
    """Where a comma is missing behind the zone that a line begins with; None where none is."""
    for zone in zones:
        if text.startswith(zone) and text not in zones and _FOLLOWS.match(text, len(zone)):
            return len(zone)
    return None


def unknown_names(
    text: str, path: Path, zones: Collection[str], zones_of: Mapping[str, tuple[str, ...]]
) -> Iterator[Slip]:
    """Those in the first part of a step's line; none where no zone is known at all."""
    first, at = text.partition(",")[0], 0
    if (comma := missing_comma(first, zones)) is not None:  # told by itself
        first = first[:comma]
    known = [*dict.fromkeys((*zones, *zones_of))]
    for name in _BETWEEN.split(first):
        start = first.index(name, at)
        at = start + len(name)
        whole = _ALL_OF.match(name)
        own = name[whole.end() :] if whole else name
        if zones and own.strip() and own != "itself" and words.own_name(own) not in known:
            message = f"there is no zone {words.echo(own)}: {words.hint(own, known)}"
            yield Slip((*path, Offset(at - len(own))), as_words(message))
