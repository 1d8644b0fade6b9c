"""What is wrong with a line that is of several pieces made alike: told once, by their name in the file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from coach.quantities.words import Words
from coach.recipe.alike import Alike
from coach.recipe.findings import Findings, Slip


def told_once(slips: Iterable[Slip], tree: Mapping[str, object]) -> Iterator[Slip]:
    """The first of those that say the same in one place but for which of the pieces it is."""
    families = Alike.of(tree, Findings()).families
    names = {row[name]: name for name, rows in families.items() for row in rows if len(rows) > 1}
    kept: dict[tuple[object, bool, Words], list[Slip]] = {}
    for slip in slips:
        alike = _named(slip.message, names)
        kept.setdefault((slip.path, slip.at_key, alike), []).append(slip)
    for (_, _, alike), same in kept.items():
        yield same[0]._replace(message=alike) if len({one.message for one in same}) > 1 else same[0]


def _named(words: Words, names: Mapping[str, str]) -> Words:
    """Words with the name of each piece and zone as it stands in the file."""

    def inside(text: str) -> str:
        for own in sorted(names, key=len, reverse=True):
            text = text.replace(own, names[own])
        return text

    parts = (
        _named(one, names) if isinstance(one, Words) else inside(one) if isinstance(one, str) else one
        for one in words.parts
    )
    return Words(inside(words.template), tuple(parts))
