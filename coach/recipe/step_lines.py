"""The line of a step: its zone, the sizes that it works to, its heats, and what else its words say."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Final

from coach.forms import said
from coach.metals.quenches import QUENCHES
from coach.operations import Operation
from coach.operations.does import Does, HeatKind, Scope
from coach.quantities import Kind
from coach.recipe import words
from coach.recipe.bar_words import read_over
from coach.recipe.findings import Path
from coach.recipe.line import Line
from coach.recipe.measuring import NUMBER, Size, read_size
from coach.recipe.naming import dimension_of, dimension_pattern, may_taper, name_pattern, named
from coach.recipe.shape_words import read_shape
from coach.recipe.shaped import Shaped
from coach.recipe.spelt import Spelt
from coach.recipe.unknown_names import missing_comma
from coach.recipe.zone_lines import not_understood, put_stations

_KINDS: Final = "|".join(kind for kind in HeatKind if kind is not HeatKind.COLD)
_HEATS: Final = re.compile(rf"(\d{{1,2}}) (?:({_KINDS}) )?heats?(?=\s*(?:,|$)|\s)")
_ODD_HEATS: Final = re.compile(rf"(\S+) (?:(?:{_KINDS}) )?heats?(?=\s*(?:,|$))")
_HEAT_KIND: Final = re.compile(rf"({_KINDS}) heats?(?=\s*(?:,|$))")
_NAMED_HEATS: Final = re.compile(r"heats (?=\S)")
_ONE_NAMED: Final = re.compile(r"(\S+) ([^,+]+?)(?= \+|\s*(?:,|$))")
_PLUS: Final = re.compile(r" \+ ")
_SAME_HEAT: Final = re.compile(r"same heat(?=\s*(?:,|$)|\s)")
_COLD: Final = re.compile(r"cold(?=\s*(?:,|$)|\s)")
_AT: Final = re.compile(r"at (?!least \d|most \d)")
_ALSO_HOT: Final = re.compile(r"also hot ")
_AND: Final = re.compile(r" and ")
_LOSES: Final = re.compile(r"loses ")
_LOSS: Final = re.compile(rf"{NUMBER}(?: (?:g|kg|oz|lb|%|mm|in))(?=\s*(?:,|$)|\s)")
_QUENCH: Final = re.compile(r"quench(?:ed in)? ")
_TO_DRAWING: Final = re.compile(r"to the drawing(?=\s*(?:,|$))")
_AS_IT_IS: Final = re.compile(r"as it is(?=\s*(?:,|$))")
_TURNS: Final = re.compile(r"(?:twisted )?\d+ turns?(?=\s*(?:,|$))")
_ITSELF: Final = re.compile(r" to itself$")
_FREE: Final = re.compile(r" free(?=\s*(?:,|$))")
_TEMPERATURE: Final = re.compile(r"(?=(?:at least |at most |between )?\d)")
_TWICE: Final = "{} of this step: said twice, leave one of them out"
_WORDS: Final = (
    "heats",
    "same heat",
    "cold",
    "at",
    "also hot",
    "loses",
    "quench",
    "to the drawing",
    "free",
    "with",
)


@dataclass(slots=True)
class StepLines:
    """One step as it is being read."""

    todo: Operation
    spelt: Spelt
    zones_of: Mapping[str, tuple[str, ...]]  # by piece
    zones: Collection[str] = ()  # every zone, and what several alike are called together
    shaped: Shaped = field(default_factory=Shaped)
    extras: dict[str, Size] = field(default_factory=dict)
    heated: list[tuple[str, Path]] = field(default_factory=list)
    together: int = 0  # how many of those are named with the first, as what the same is done to
    to_drawing: Path | None = None
    as_it_is: bool = False

    def read(self, lines: Iterable[Line]) -> None:
        """Spell out the lines of a step, the one that names its zone first."""
        for number, line in enumerate(lines):
            if number == 0:
                self._names(line)
                line.next_part()
            while not line.is_read:
                if not self._part(line):
                    not_understood(line, f"of {self.todo.NAME}", (*_WORDS, *self.todo.AMOUNTS))
                line.next_part()
        self._put_aim()
        if self.heated:
            own = [(str(self.spelt.told[key]), None) for key in ("zone", "lay") if key in self.spelt.told]
            rows = [*own, *self.heated]
            for index, (_, place) in enumerate(rows):
                if place is not None:
                    self.spelt.place_of("heated", index, place)
            self.spelt.put("heated", [name for name, _ in rows], None, None)
        if self.together:
            self.spelt.put("together", str(self.together), None, None)

    # ── where ───────────────────────────────────────────────────────────────────────────────────

    def _names(self, line: Line) -> None:
        """The zone or the piece, and what lies on it."""
        spelt, start = self.spelt, line.at
        text = line.take_part()
        if (at := missing_comma(text, self.zones)) is not None:
            line.fault(f"a comma belongs behind {words.echo(text[:at])}", start + at)
            return
        if self.todo.SCOPE is Scope.JOIN and _ITSELF.search(text):
            own = _ITSELF.sub("", text)
            line.fault(f"a zone is welded to itself by weld shut: write weld shut: {own}", start)
            return
        if (beside := self._beside(line, text, start)) is not None:
            text, start = beside
        first, with_, second = text.partition(" with ")
        place = line.place(start)
        if not first:
            line.fault(f"{self.todo.NAME} of what? Write a zone's name behind the colon", start)
            return
        whole = re.fullmatch(r"all of (.+)", first)
        if self.todo.SCOPE is Scope.PIECE:
            spelt.put("piece", whole[1] if whole else first, place, place)
        elif whole:
            self._all_of(line, whole[1], start + len("all of "))
        else:
            self._several(line, first, start)
        if with_:
            at = start + len(first) + len(with_)
            if self.todo.SCOPE is Scope.JOIN:
                spelt.put("lay", second, line.place(at), line.place(at))
            else:
                self._heat_too(line, second, at)

    def _beside(self, line: Line, text: str, start: int) -> tuple[str, int] | None:
        """The zone that is worked, and where it is named, in a line that says what it goes with.

        Pieces that a rivet holds, `arm 1 and arm 2 by rivet`, and what a part is fitted to, `pin to eye`,
        stay as they are.
        """
        if Does.FASTENS in self.todo.DOES and " by " in text:
            joined, by, zone = text.rpartition(" by ")
            at = start + len(joined) + len(by)
            others, other_at, title = joined, start, f"Join {joined} by the {zone}"
            self.spelt.told["holds"] = others.split(" and ")
        elif self.todo.TRIED_ON and " to " in text:
            zone, to, others = text.partition(" to ")
            at, other_at = start, start + len(zone) + len(to)
            title = f"{said(self.todo.NAME).capitalize()} the {zone} to the {others}"
            self.spelt.told["tried_on"] = others.split(" and ")
        else:
            return None
        for name in others.split(" and "):
            if others.split(" and ").count(name) > 1:
                line.fault(f"{words.echo(name)} is named twice: write what it goes together with", other_at)
                break
            if name not in self.zones and name not in self.zones_of:
                known = [*self.zones, *self.zones_of]
                line.fault(f"there is no zone {words.echo(name)}: {words.hint(name, known)}", other_at)
            other_at += len(name) + len(" and ")
        self.spelt.told.setdefault("title", title)
        return zone, at

    def _all_of(self, line: Line, piece: str, at: int) -> None:
        zones = self.zones_of.get(piece)
        if zones is None:
            line.fault(f"there is no piece {words.echo(piece)}: {words.hint(piece, self.zones_of)}", at)
            return
        place = line.place(at)
        self.spelt.put("zone", zones[0], place, place)
        if len(zones) > 1 and self.todo.RESHAPES:
            line.fault(f"{self.todo.NAME} works on one zone: write a step for each of {piece}", at)
        self.heated += [(zone, place) for zone in zones[1:]]
        self.together += len(zones) - 1

    def _several(self, line: Line, text: str, start: int) -> None:
        names = text.split(" and ")
        place = line.place(start)
        self.spelt.put("zone", names[0], place, place)
        if len(names) == 1:
            return
        if self.todo.RESHAPES:
            message = f"{self.todo.NAME} works on one zone: write a step for each, the others under also hot"
            line.fault(message, start + len(names[0]))
            return
        self._heat_too(line, " and ".join(names[1:]), start + len(names[0]) + len(" and "))
        self.together += len(names) - 1

    def _heat_too(self, line: Line, text: str, at: int) -> None:
        for name in text.split(" and "):
            self.heated.append((name, line.place(at)))
            at += len(name) + len(" and ")

    # ── what its parts say ──────────────────────────────────────────────────────────────────────

    def _part(self, line: Line) -> bool:
        at, place = line.at, line.place()

        def put(name: str, value: object, where: Path | None, key: Path | None) -> None:
            self._once(line, name, at)
            self.spelt.put(name, value, where, key)

        if heats := line.take(_HEATS):
            put("heats", heats[1], place, place)
            self._refuse_none(line, heats[1], at)
            if heats[2]:
                put("heat", heats[2], line.place(at + len(heats[1]) + 1), place)
        elif kind := line.take(_HEAT_KIND):
            put("heat", kind[1], place, place)
        elif (odd := line.looks(_ODD_HEATS)) and odd[1] not in ("same", "also"):
            line.at = odd.end()
            put("heats", odd[1], place, place)
        elif line.take(_NAMED_HEATS):
            self._once(line, "heats", at)
            self._named_heats(line, place)
        elif line.take(_SAME_HEAT):
            put("heats", "0", place, place)
        elif line.take(_COLD):
            put("heat", HeatKind.COLD.value, place, place)
        elif line.take(_AT):
            self._at(line, at)
        elif line.take(_ALSO_HOT):
            start = line.at
            self._heat_too(line, line.take_part(), start)
        elif line.take(_LOSES):
            self._once(line, "loses", at)
            self._loses(line, place)
        elif line.take(_QUENCH):
            quench_at = line.place()
            put("quench", _known(line, QUENCHES), quench_at, place)
        elif line.take(_TO_DRAWING):
            self.to_drawing = place
        elif line.take(_AS_IT_IS):
            self.as_it_is = True
        elif turns := line.take(_TURNS):
            message = (
                "turns are counted in the zone's own line; here say how far along one goes, as in turn 40"
            )
            line.fault(message, turns.start())
        elif (name := line.looks(dimension_pattern())) and _FREE.match(line.text, name.end()):
            line.at = _free_end(line, name.end())
            put("free", dimension_of(name["word"]), place, place)
        elif read_shape(line, self.shaped, drawn=False):
            return True
        elif word := line.looks(name_pattern()):
            line.at = word.end()
            self._named(line, word["word"], at, place)
        else:
            return False
        return True

    def _once(self, line: Line, name: str, at: int) -> None:
        """Two that differ would leave it to the reader which one counts."""
        if name in self.spelt.told or name in self.extras:
            line.fault(_TWICE.format(said(name)), at)

    def _named(self, line: Line, word: str, at: int, place: Path) -> None:
        meant = named()[word]
        own = {*self.todo.EXTRAS, *self.todo.AMOUNTS}
        name = f"{meant.name}_height" if f"{meant.name}_height" in own else meant.name
        kind = self.todo.EXTRAS.get(name, meant.kind)
        self._once(line, name, at)
        if meant.is_amount and name not in self.todo.EXTRAS:
            size = read_size(line, Kind.GAP if kind is Kind.LENGTH else kind, limits=False)
            if size:
                self.spelt.put(name, size.text, size.place, place)
            else:
                line.take_part()
            return
        size = read_size(line, kind, ranged=kind is not Kind.LENGTH or not may_taper(name))
        if size is None:
            line.take_part()
        elif name in self.todo.EXTRAS:
            self.extras[name] = size._replace(word_at=place)
        else:
            self.shaped.put(line, name, size._replace(word_at=place), at)
            read_over(line, self.shaped, name)

    def _named_heats(self, line: Line, place: Path) -> None:
        if re.fullmatch(r"\d{1,2}", line.part):
            at = line.at
            self.spelt.put("heats", told := line.take_part(), place, place)
            self._refuse_none(line, told, at)
            return
        row = self.spelt.inside("heats")
        self.spelt.origins.values[row.path] = place
        while found := line.take(_ONE_NAMED):
            start = found.start()
            name_at = line.place(start + len(found[1]) + 1)
            row.put(words.word(found[2]), found[1], line.place(start), name_at)
            if not line.part or not line.take(_PLUS):
                return
        if not row.told or line.part:
            line.fault("heats are a number, as in 3 heats; those of a weld, heats 2 weld + 1 close")
            line.take_part()

    def _refuse_none(self, line: Line, heats: str, at: int) -> None:
        """No heat is work that is cold, or is done in the heat before: a bare 0 does not say which."""
        if int(heats) == 0 and self.todo.HEAT_KIND is not HeatKind.COLD:
            message = (
                "is it cold, or done in the heat before? Write cold or same heat in the place of 0 heats"
            )
            line.fault(message, at)

    def _at(self, line: Line, at: int) -> None:
        """The colour or the temperature of the heat, or the two of them as a key says them."""
        place = line.place()
        if line.looks(_TEMPERATURE):
            self._temperature(line, place, at)
            return
        self._once(line, "colour", at)
        start = line.at
        line.take_part()
        while _is_key(line) and not line.is_read:  # a comma is then part of the colour
            end = line.at
            line.next_part()
            if line.looks(_TEMPERATURE):
                self._temperature(line, line.place(), at)
                self.spelt.put("colour", line.text[start:end].strip(), place, place)
                return
            line.take_part()
        text = line.text[start : line.at].strip()
        if text in ("most", "least"):
            line.fault(f"at {text} stands before its number, as in gap at {text} 0.5", start)
        self.spelt.put("colour", text, place, place)

    def _temperature(self, line: Line, place: Path, at: int) -> None:
        """What the step is held to, where it has limits, or what it is worked at: they may stand together."""
        size = read_size(line, Kind.TEMPERATURE)
        if size is None:
            line.take_part()
            return
        held = size.has_limits and "temperature" in self.todo.EXTRAS
        if "temperature" in (self.extras if held else self.spelt.told):
            line.fault(_TWICE.format("temperature"), at)
        elif held:
            self.extras["temperature"] = size
        else:
            self.spelt.put("temperature", size.text, size.place, place)

    def _loses(self, line: Line, place: Path) -> None:
        start = line.at
        found = line.take(_LOSS)
        if found:
            self.spelt.put("loses", found[0], line.place(start), place)
        else:
            line.fault(f"{words.echo(line.take_part())} needs its unit: write 5 g, 2 % or 3 mm", start)

    # ── what it works to ────────────────────────────────────────────────────────────────────────

    def _put_aim(self) -> None:
        """The sizes asked for; where none are, those of the drawing, if it is a work that makes them."""
        spelt, shaped = self.spelt, self.shaped
        if shaped.form:
            spelt.put("form", shaped.form[0], shaped.form[1], shaped.form[1])
        elif shaped.section and "hole" not in shaped.options:
            spelt.put("section", "flat", shaped.section, shaped.section)
        for name, (choice, place) in shaped.options.items():
            spelt.put(name, choice, place, place)
        if shaped.stations:
            put_stations(shaped, spelt)
        drawn = shaped.says_nothing and not self.as_it_is and self.todo.to_drawing
        drawn = drawn and not (self.todo.FIXES and "loses" in spelt.told)
        if self.to_drawing is not None or drawn:
            spelt.put("to", words.DRAWING, self.to_drawing or self._own_place(), None)
            named_under = "besides"
        else:
            named_under = "to"
        sizes = {**shaped.sizes, **self.extras}
        if not sizes:
            return
        to = spelt.inside(named_under)
        first = next(iter(sizes.values()))
        spelt.origins.values[to.path] = spelt.origins.keys[to.path] = first.named_at
        for name, size in sizes.items():
            to.put(name, size.text, size.place, size.named_at)

    def _own_place(self) -> Path:
        return self.spelt.origins.of((*self.spelt.path, "do"), at_key=True)


def _free_end(line: Line, at: int) -> int:
    found = _FREE.match(line.text, at)
    return found.end() if found else at


def _is_key(line: Line) -> bool:
    """Whether the whole line is what stands under the key `at`."""
    return line.text.startswith("at ")


def _known(line: Line, known: Iterable[str]) -> str:
    """The longest of the known words that stands here, or else the whole part."""
    for one in sorted(known, key=len, reverse=True):
        if found := line.take(re.compile(rf"{re.escape(one)}(?=\s*(?:,|$)|\s)")):
            return found[0]
    return line.take_part()
