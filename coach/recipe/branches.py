"""What zones are split into: which lie along the bar, and which are cut out of another."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from coach.forms import listed
from coach.quantities import read_share
from coach.recipe import words
from coach.recipe.alike import OnePiece
from coach.recipe.model import Branch, Piece
from coach.recipe.nodes import Node

#: `left 60 %`: a name, and what it has of the metal.
_BRANCH: Final = re.compile(r"(?P<name>.*?)(?:\s+(?P<share>[\d.,]+ ?%))?")
#: Shares written with few digits, such as three of 33.3 %, may be so far from a whole together (our choice).
_SLACK: Final = 0.005
_FEWEST: Final = 2


def own_branch(text: str) -> tuple[str, str]:
    """The name of a branch and what is said of its share, which may be nothing."""
    found = _BRANCH.fullmatch(text.strip())
    assert found is not None
    return words.own_name(found["name"]), found["share"] or ""


@dataclass(slots=True)
class ZonesNow:
    """The zones that there are of each piece while the steps are spelt out, one after the other."""

    branches: dict[str, list[str]] = field(default_factory=dict)  # what a zone is split into
    of: dict[str, tuple[str, ...]] = field(default_factory=dict)  # by piece

    def note(self, zone: str, into: list[object], one: OnePiece) -> list[object]:
        """The branches of a zone by their own names; of several pieces made alike each has its own."""
        zones = one.told.get("zones")
        short = zones if isinstance(zones, dict) else {}
        told = [own_branch(str(text)) for text in into]
        found = [(one.zone_name(name) if name in short else name, share) for name, share in told]
        self.branches[zone] = [name for name, _ in found]
        return [f"{name} {share}".strip() for name, share in found]

    def begin(self, zones_of: Mapping[str, tuple[str, ...]]) -> None:
        """Before the first step, when nothing is split."""
        cut_out = {zone for into in self.branches.values() for zone in into}
        for piece, zones in zones_of.items():
            self.of[piece] = tuple(zone for zone in zones if zone not in cut_out) or zones

    def split(self, zone: str) -> None:
        """From a split on the branches are there in the place of what was split."""
        for piece, zones in self.of.items():
            if zone in zones and zone in self.branches:
                at = zones.index(zone)
                self.of[piece] = (*zones[:at], *self.branches[zone], *zones[at + 1 :])


def with_branches(drawing: Node, pieces: Mapping[str, Piece]) -> dict[str, Piece]:
    """The pieces, each with what its zones are split into, which are not along its bar themselves."""
    return {name: _of_piece(drawing, piece) for name, piece in pieces.items()}


def _of_piece(drawing: Node, piece: Piece) -> Piece:
    branches: dict[str, tuple[Branch, ...]] = {}
    taken: dict[str, str] = {}
    for zone in piece.zones:
        node = drawing.get(zone).get("splits_into")
        if node and (found := _branches(node, zone, piece, taken)):
            branches[zone] = found
            taken |= dict.fromkeys((one.zone for one in found), zone)
    if not branches:
        return piece
    along = tuple(zone for zone in piece.zones if zone not in taken)
    for zone in branches:
        if (wrong := _where_it_is(zone, along)) is not None:
            drawing.get(zone).get("splits_into").fault(wrong)
    return piece._replace(zones=along, branches=branches)


def _where_it_is(zone: str, along: tuple[str, ...]) -> str | None:
    """What is wrong with where a zone lies that is split: only an end opens into branches."""
    if zone not in along:
        return None  # a branch, which is an end wherever it is cut from
    if len(along) == 1:
        return f"nothing holds the branches of {zone} together: give what stays whole a zone of its own"
    if zone not in (along[0], along[-1]):
        at = along.index(zone)
        return (
            f"{zone} lies between {along[at - 1]} and {along[at + 1]}, and only an end of a piece is split: "
            f"put it first or last"
        )
    return None


def _branches(node: Node, zone: str, piece: Piece, taken: Mapping[str, str]) -> tuple[Branch, ...]:
    """The branches of one zone; none, with a finding, where they cannot be told."""
    rows = [(*own_branch(row.text()), row) for row in node.rows()]
    others = [one for one in piece.zones if one != zone]
    sound = True
    for at, (name, _, row) in enumerate(rows):
        wrong = ""
        if not name:
            wrong = "the zones that it is split into belong here, such as left and right"
        elif name == zone:
            wrong = f"{zone} cannot be split into itself"
        elif name not in others:
            wrong = f"{piece.name} has no zone {words.echo(name)}: {words.hint(name, others)}"
        elif name in taken:
            wrong = f"{name} is split from {taken[name]} already: every branch is cut out of one zone"
        elif name in [one for one, _, _ in rows[:at]]:
            wrong = f"{name} stands twice here: name each branch once"
        elif piece.zones.index(name) < piece.zones.index(zone):
            wrong = f"{name} is split from {zone}: write its line below that of {zone}"
        if wrong:
            row.fault(wrong)
            sound = False
    if len(rows) < _FEWEST and sound:
        node.fault(f"a zone is split into two at least: {zone[:20]} into left and right")
        sound = False
    shares = [_share(row, text) for _, text, row in rows]
    if not sound or any(text and share is None for share, (_, text, _) in zip(shares, rows, strict=True)):
        return ()
    parts = _shares(node, [(name, share) for (name, _, _), share in zip(rows, shares, strict=True)])
    return tuple(Branch(name, share) for (name, _, _), share in zip(rows, parts, strict=True))


def _share(row: Node, text: str) -> float | None:
    return row.size(lambda _: read_share(text)) if text else None


def _shares(node: Node, told: list[tuple[str, float | None]]) -> list[float]:
    """Every share: what is not said is shared equally; what does not come to a whole is a finding."""
    said = sum(share for _, share in told if share is not None)
    open_still = [name for name, share in told if share is None]
    if not open_still:
        if abs(said - 1.0) > _SLACK:
            node.fault(
                f"the shares come to {100 * said:.4g} % together, and the metal to 100 %: leave one of them "
                "out, and it has the rest"
            )
        return [(share or 0.0) / said if said else 1.0 / len(told) for _, share in told]
    left = 1.0 - said
    if left <= _SLACK:
        node.fault(
            f"the shares come to {100 * said:.4g} %, and nothing is left for {listed(open_still)}: say less"
        )
        return [1.0 / len(told)] * len(told)
    return [left / len(open_still) if share is None else share for _, share in told]
