"""Pieces that are made alike: as another one, or several of one."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Final

from coach.recipe import words
from coach.recipe.findings import Findings, Path

MOST_MADE = 12
"""The most pieces of one kind (our choice)."""


#: A bar that is what another piece came to, or the same one as that piece's, next to it.
SHARED_BAR: Final = re.compile(r"(?P<how>from|beside) (?P<name>[^,]*[^,\s])")


@dataclass(frozen=True, slots=True)
class OnePiece:
    """A piece as it is made: what its own entry says and what it has from the one that it is like."""

    name: str  # as the rest of the house knows it
    written: str  # its entry in the file
    told: Mapping[str, object]
    owners: Mapping[str, str]  # which entry says what, by key, and by zone behind a dot
    has_twins: bool = False
    beside: str = ""  # the first of several made of one entry, whose bar it shares; empty for that one
    bar_of: str = (
        ""  # where several are made of the piece that its entry takes it from: the one it is taken from
    )

    def zone_name(self, zone: str | None) -> str:
        """A zone's name: with its piece's before it where others have one of the same name."""
        if zone is None:
            return self.name
        return f"{self.name} {zone}" if self.has_twins else zone

    def from_path(self, key: str, zone: str | None = None) -> Path:
        """The entry of the file that says this of it."""
        owner = self.owners.get(key if zone is None else f"zones.{zone}", self.written)
        return ("pieces", owner)


@dataclass(slots=True)
class Alike:
    """All pieces, and which of them a name in a step means."""

    pieces: list[OnePiece] = field(default_factory=list)
    families: dict[str, list[dict[str, str]]] = field(default_factory=dict)  # by name: for each twin, its own
    zones_of: dict[str, tuple[str, ...]] = field(default_factory=dict)
    firsts: dict[str, str] = field(default_factory=dict)  # by the same names: what the pieces are called
    of_one_bar: set[str] = field(default_factory=set)  # the names of those of which several share a bar

    @classmethod
    def of(cls, tree: Mapping[str, object], findings: Findings) -> Alike:
        """The pieces of a recipe, as many as are made."""
        made = cls()
        pieces = tree.get("pieces")
        if not isinstance(pieces, dict):
            return made
        entries = {name: told for name, told in pieces.items() if isinstance(told, dict)}
        of_all = _how_many(tree.get("make"), ("make",), findings)
        kin: dict[str, list[str]] = {}
        for name, told in entries.items():
            like = told.get("like")
            first = words.own_name(like) if isinstance(like, str) else name
            if first not in entries or (first == name and like is not None) or "like" in entries[first]:
                hint = words.hint(
                    first, [one for one in entries if one != name and "like" not in entries[one]]
                )
                findings.add(
                    ("pieces", name, "like"), f"there is no piece {words.echo(first)} to be like: {hint}"
                )
                first = name
            kin.setdefault(first, []).append(name)
        for first, names in kin.items():
            made._family(first, names, entries, of_all, findings)
        made._refuse_shared_names(list(kin), entries, findings)
        made._share_out_bars()
        return made

    def _share_out_bars(self) -> None:
        """Which of several bars each piece is taken from, where its entry names what they are made of."""
        mine: dict[str, list[int]] = {}
        for at, one in enumerate(self.pieces):
            bar = one.told.get("bar")
            shared = SHARED_BAR.match(bar) if isinstance(bar, str) else None
            if shared is None:
                continue
            name = shared["name"]
            several = self.firsts.get(name) == name
            bars = [row[name] for row in self.families[name]] if several else [name]
            if shared["how"] == "beside":
                self.pieces[at] = replace(one, bar_of=bars[0], beside=bars[0] if one.beside else "")
            else:
                mine.setdefault(one.written, []).append(at)
                self.pieces[at] = replace(one, bar_of=bars[0])
                self._of_own_bars(mine[one.written], bars)

    def _of_own_bars(self, places: list[int], bars: list[str]) -> None:
        """Share bars out among the pieces of one entry, as many of each where that goes up."""
        each, over = divmod(len(places), len(bars))
        for number, at in enumerate(places if each and not over else ()):
            first = number - number % each
            beside = "" if first == number else self.pieces[places[first]].name
            self.pieces[at] = replace(self.pieces[at], bar_of=bars[number // each], beside=beside)

    def _refuse_shared_names(
        self, firsts: list[str], entries: Mapping[str, dict[str, object]], findings: Findings
    ) -> None:
        """A zone of one piece that has the name of another's, where several are made of either of them.

        Of pieces that are made once the reader of the pieces says so.
        """
        homes: dict[str, str] = {}
        for first in firsts:
            zones = entries[first].get("zones")
            for zone in zones if isinstance(zones, dict) else ():
                home = homes.setdefault(zone, first)
                if home != first and (home in self.families or first in self.families):
                    message = f"{words.echo(zone)} is already a zone of {home}: {words.OWN_NAME}"
                    findings.add(("pieces", first, "zones", zone), message, at_key=True)

    def _family(
        self,
        first: str,
        names: list[str],
        entries: Mapping[str, dict[str, object]],
        of_all: int,
        findings: Findings,
    ) -> None:
        twins: list[OnePiece] = []
        for name in names:
            told, owners = _with_first(entries, first, name, findings)
            count = of_all * _how_many(told.get("make"), ("pieces", name, "make"), findings)
            for number in range(1, count + 1):
                own = name if count == 1 else f"{name} {number}"
                beside = f"{name} 1" if number > 1 else ""
                twins.append(OnePiece(own, name, told, owners, beside=beside))
        has_twins = len(twins) > 1
        twins = [replace(one, has_twins=has_twins) for one in twins]
        self.pieces += twins
        rows: list[dict[str, str]] = []
        for one in twins:
            zones = one.told.get("zones")
            short = {zone: one.zone_name(zone) for zone in zones} if isinstance(zones, dict) else {}
            self.zones_of[one.name] = tuple(short.values()) or (one.name,)
            rows.append({**short, first: one.name})
        if has_twins:
            self.of_one_bar |= {first} if any(one.beside for one in twins) else set()
            for name in rows[0]:
                self.families[name] = rows
                self.firsts[name] = first
        for name in names if of_all > 1 else ():
            self._of_each_tool([one for one in twins if one.written == name], of_all)

    def _of_each_tool(self, twins: list[OnePiece], tools: int) -> None:
        """What `arm 2` is of a tool that has two, where several are made of it: the second of each."""
        each = len(twins) // tools
        for number in range(each if each > 1 else 0):
            mine = twins[number::each]
            called = mine[0].name
            rows: list[dict[str, str]] = []
            for one in mine:
                zones = one.told.get("zones")
                names = zones if isinstance(zones, dict) else ()
                own = {f"{called} {zone}": one.zone_name(zone) for zone in names}
                rows.append({**own, called: one.name})
            for name in rows[0]:
                self.families[name] = rows
                self.firsts[name] = called

    def family(self, text: str) -> str:
        """What the pieces are called together that a step's name means; nothing where it means one."""
        return self.firsts.get(_first_named(text), "")

    def is_last_zone(self, text: str, zones_of: Mapping[str, tuple[str, ...]]) -> bool:
        """Whether the name of several means what lies at the far end of their bars, or all of each.

        `zones_of` is what lies along each piece's bar.
        """
        name = _first_named(text)
        row = self.families[name][0]
        return name == self.firsts[name] or row[name] == zones_of[row[self.firsts[name]]][-1]

    def which(self, text: str, who: int) -> str | None:
        """The name of the piece that is meant where a name means several; None where it means one."""
        name = _first_named(text)
        return self.families[name][who][self.firsts[name]] if name in self.families else None

    def zones_by_piece(self, zones_of: Mapping[str, tuple[str, ...]], who: int) -> dict[str, tuple[str, ...]]:
        """The zones of each piece, and under the name of several made alike those of the one meant."""
        found = dict(zones_of)
        for first in dict.fromkeys(self.firsts.values()):
            rows = self.families[first]
            found[first] = found[rows[who if who < len(rows) else 0][first]]
        return found

    def choose(self, told: dict[str, object], who: int) -> None:
        """Put the name of the one meant in the place of the name of all of them."""
        for key in ("zone", "piece", "lay"):
            if (name := told.get(key)) in self.families:
                told[key] = self.families[str(name)][who][str(name)]
        heated = told.get("heated")
        if isinstance(heated, list):
            told["heated"] = [
                self.families[name][who].get(name, name) if name in self.families else name for name in heated
            ]

    def drawn_before(self, one: OnePiece, drawn: Mapping[str, object]) -> dict[str, object]:
        """The zones drawn so far by the names that a zone of a piece calls them, its own before others'."""
        found = {name: drawn[rows[0][name]] for name, rows in self.families.items() if rows[0][name] in drawn}
        own = {row[self.firsts[name]]: row for name, rows in self.families.items() for row in rows}
        mine = own.get(one.name, {})
        return {**drawn, **found, **{name: drawn[zone] for name, zone in mine.items() if zone in drawn}}

    def measured(self, check: object, text: str, who: int) -> list[object]:
        """What is to be measured, with the zone of the piece that a step works or of each that is meant."""
        zone, dot, size = check.rpartition(".") if isinstance(check, str) else ("", "", "")
        return [f"{one}.{size}" for one in self.all_of([zone], text, who)] if dot else [check]

    def all_of(self, names: object, text: str, who: int) -> list[str]:
        """Names with those of several alike told one by one, or the one that goes with what a step works."""
        found: list[str] = []
        for name in names if isinstance(names, list) else ():
            rows = self.families.get(name)
            if rows is None:
                found.append(name)
            elif _first_named(text) in self.families and who < len(rows):
                found.append(rows[who][name])
            else:
                found += [row[name] for row in rows]
        return found

    def heat_of(self, zone: str) -> tuple[object, Path] | None:
        """The usual heat of the piece that a zone is of, and where it is said."""
        for one in self.pieces:
            if "at" in one.told and zone in self.zones_of[one.name]:
                return one.told["at"], (*one.from_path("at"), "at")
        return None


def _first_named(text: str) -> str:
    """The zone or piece that the line of a step begins with."""
    return re.split(",| and | with | to ", text.removeprefix("all of "))[0].strip()


def _with_first(
    entries: Mapping[str, dict[str, object]], first: str, name: str, findings: Findings
) -> tuple[dict[str, object], dict[str, str]]:
    """What is said of a piece, its own words before those of the one that it is like."""
    own = {key: value for key, value in entries[name].items() if key != "like"}
    if name == first:
        return own, {}
    base = {key: value for key, value in entries[first].items() if key not in ("make", "given_up")}
    owners = {key: first for key in base if key not in own}
    told = {**base, **own}
    theirs, mine = base.get("zones"), own.get("zones")
    if isinstance(theirs, dict):
        for zone in mine if isinstance(mine, dict) else ():
            if zone not in theirs:
                hint = words.hint(zone, theirs)
                message = f"{first} has no zone {words.echo(zone)} to be said anew: {hint}"
                findings.add(("pieces", name, "zones", zone), message, at_key=True)
        told["zones"] = {**theirs, **(mine if isinstance(mine, dict) else {})}
        owners |= {f"zones.{zone}": first for zone in theirs if not (isinstance(mine, dict) and zone in mine)}
    return told, owners


def _how_many(told: object, path: Path, findings: Findings) -> int:
    if told is None:
        return 1
    if isinstance(told, str) and re.fullmatch("[1-9][0-9]?", told) and int(told) <= MOST_MADE:
        return int(told)
    findings.add(path, f"how many are to be made, as a whole number from 1 to {MOST_MADE}, belongs here")
    return 2  # several: the steps name them one by one
