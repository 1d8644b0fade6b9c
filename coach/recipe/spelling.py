"""Spells a recipe out: from the short lines of the file to a tree with every size under a name of its own."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Final

from coach.operations import Operation
from coach.operations.does import Does, HeatKind, Scope
from coach.recipe import words
from coach.recipe.alike import SHARED_BAR, Alike, OnePiece
from coach.recipe.branches import ZonesNow
from coach.recipe.findings import AT_KEY, Findings, Path
from coach.recipe.keys import JOIN, unit_of
from coach.recipe.line import Line
from coach.recipe.measuring import read_size
from coach.recipe.spelt import Origins, Spelt
from coach.recipe.step_lines import StepLines
from coach.recipe.step_rows import Drawn, StepRow, operation_words, read_row, refuse_done_for_all, turns
from coach.recipe.unknown_names import unknown_names
from coach.recipe.zone_lines import no_form, spell_bar, spell_zone

#: Keys of the file's head that are spelt as they stand.
HEAD: Final = ("units", "forge", "summary", "time", "tools", "scale", "marks")
#: A length in a unit that no size of a recipe is written in.
_STRANGE_UNIT: Final = re.compile(r"[\d.,/]+ ?(?:cm|m|dm|yd|inch|inches)")
#: A layer whose section stands behind its metal without a comma.
_METAL_AND_SECTION: Final = re.compile(r"(.*\S) \d[^ ]* (?:x|×|by) \d")
#: What is fluxed as usual.
_FLUXED: Final = frozenset({Does.JOINS, Does.CLOSES})
#: Keys of a step that are spelt as they stand.
ADVICE: Final = ("how", "watch", "caution", "title", "keep", "flux", "gauge", "check", "rest")


@dataclass(slots=True)
class Speller:
    """Spells one recipe."""

    tree: Mapping[str, object]
    unit: str
    findings: Findings = field(default_factory=Findings)
    origins: Origins = field(default_factory=Origins)
    forms: dict[str, object] = field(default_factory=dict)  # the drawn one of each zone
    zones_now: ZonesNow = field(default_factory=ZonesNow)

    def spell(self) -> dict[str, object]:
        """The recipe spelt out; what cannot be read of it is a finding, at its path in the file."""
        told: dict[str, object] = {}
        if "recipe" in self.tree:
            told["title"] = self.tree["recipe"]
            self.origins.values[("title",)] = ("recipe",)
        for name in HEAD:
            if name in self.tree:
                told[name] = self.tree[name]
                self._as_written((name,), self.tree[name])
        self._margin(told)
        self._usual_lengths()
        alike = Alike.of(self.tree, self.findings)
        if isinstance(self.tree.get("pieces"), dict):
            told["pieces"], told["drawing"] = self._pieces(alike)
            self.zones_now.begin(alike.zones_of)
        self.origins.values[("pieces",)] = self.origins.values[("drawing",)] = ("pieces",)
        self.origins.values[("steps",)] = ("steps",)
        if "steps" in self.tree:
            told["steps"] = self._steps(alike)
        return told

    def _margin(self, told: dict[str, object]) -> None:
        usual = self.tree.get("usual")
        if isinstance(usual, dict) and "margin" in usual:
            told["margin"] = usual["margin"]
            self.origins.values[("margin",)] = ("usual", "margin")

    def _usual_lengths(self) -> None:
        """What holds for every step is written in the units that its sizes are."""
        usual = self.tree.get("usual")
        for name in ("kerf", "skin"):
            value = usual.get(name) if isinstance(usual, dict) else None
            if isinstance(value, str) and _STRANGE_UNIT.fullmatch(value.strip()):
                read_size(Line.of(value, ("usual", name), self.findings, self.unit))

    def _as_written(self, path: Path, value: object, origin: Path | None = None) -> None:
        """Note that a value stands in the file under the path it is spelt at."""
        here = path if origin is None else origin
        self.origins.values[path] = self.origins.keys[path] = here
        inside = (
            value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
        )
        for name, one in inside:
            self._as_written((*path, name), one, (*here, name))

    # ── pieces ──────────────────────────────────────────────────────────────────────────────────

    def _pieces(self, alike: Alike) -> tuple[dict[str, object], dict[str, object]]:
        pieces, drawing = (
            Spelt(("pieces",), self.origins, self.findings),
            Spelt(("drawing",), self.origins, self.findings),
        )
        for one in alike.pieces:
            path = ("pieces", one.written)
            spelt = pieces.inside(one.name)
            self.origins.values[spelt.path] = self.origins.keys[spelt.path] = path
            self._begins_as(one, spelt)
            if "zones" in one.told and "size" in one.told:
                self.findings.add(
                    (*path, "size"), "a piece with zones has no size of its own: leave one of them out"
                )
            zones = one.told.get("zones")
            rows = zones if isinstance(zones, dict) else {None: one.told.get("size")}
            names: list[object] = []
            for zone, written in rows.items():
                base = one.from_path("zones", zone) if zone is not None else one.from_path("size")
                place = (*base, "zones", zone) if zone is not None else (*base, "size")
                name = one.zone_name(zone)
                spelt.place_of("zones", len(names), place)
                names.append(name)
                others = alike.drawn_before(one, drawing.told)
                self._zone(drawing, name, others, written, place, at_key=zone is not None)
                drawn = drawing.told[name]
                self.forms[name] = drawn.get("form") if isinstance(drawn, dict) else None
                if isinstance(drawn, dict) and isinstance(into := drawn.get("splits_into"), list):
                    drawn["splits_into"] = self.zones_now.note(name, into, one)
            if zones is not None:
                spelt.put("zones", names, (*path, "zones"), None)
        return pieces.told, drawing.told

    def _begins_as(self, one: OnePiece, spelt: Spelt) -> None:
        """What a piece begins as: a bar of a metal, a stack, or what another piece's bar has to give."""
        path, told = ("pieces", one.written), one.told
        if "given_up" in told:
            spelt.put("given_up", told["given_up"], (*one.from_path("given_up"), "given_up"), None)
        bar = told.get("bar")
        shared = SHARED_BAR.match(bar) if isinstance(bar, str) else None
        # What it is like says its metal, and nothing of that is to be left out.
        if shared and one.owners.get("metal", one.written) != one.written:
            told = {name: said for name, said in told.items() if name != "metal"}
        for name, what in (("metal", "such as mild steel"), ("bar", "such as square 20")):
            if name in told and "stack" in told:
                message = f"a stack says the {name} of each layer: leave {name} out"
                self.findings.add((*one.from_path(name), name), message, at_key=True)
            elif name == "metal" and name in told and shared:
                message = f"the metal is that of {shared['name']}: leave it out"
                self.findings.add((*one.from_path(name), name), message, at_key=True)
            elif name not in told and "stack" not in told and not (name == "metal" and shared):
                self.findings.add(path, f"{name} is missing: add {name}:, {what}")
        if one.beside:
            spelt.inside("stock").put("beside", one.beside, path, path)
            return
        if "metal" in told:
            spelt.put("metal", told["metal"], (*one.from_path("metal"), "metal"), None)
        if "stack" in told:
            self._stack(told["stack"], (*one.from_path("stack"), "stack"), spelt)
        elif "bar" in told:
            self._bar(told["bar"], one.bar_of, (*one.from_path("bar"), "bar"), spelt)

    def _bar(self, written: object, bar_of: str, place: Path, spelt: Spelt) -> None:
        bar = spelt.inside("stock")
        self.origins.values[bar.path] = place
        if isinstance(written, str):
            line = Line.of(written, place, self.findings, self.unit)
            if shared := line.take(SHARED_BAR):
                name_at = line.place(shared.start("name"))
                bar.put(shared["how"], bar_of or shared["name"], name_at, name_at)
                line.next_part()
            spell_bar([line], bar)
        if self._is_wrong_at(place) or not isinstance(written, str):
            spelt.told["stock"] = ""  # nothing more is reckoned from it

    def _stack(self, written: object, place: Path, spelt: Spelt) -> None:
        """The layers of a stack, each a metal and the section of its bar."""
        rows: list[object] = []
        for number, told in enumerate(written if isinstance(written, list) else [written]):
            layer = Spelt((*spelt.path, "stack", number), self.origins, self.findings)
            here = (*place, number) if isinstance(written, list) else place
            self.origins.values[layer.path] = here
            if isinstance(told, str):
                line = Line.of(told, here, self.findings, self.unit)
                metal = line.take_part()
                if section := _METAL_AND_SECTION.match(metal):
                    line.fault(f"a comma belongs behind {words.echo(section[1])}", section.end(1))
                layer.put("metal", metal, line.place(0), None)
                line.next_part()
                spell_bar([line], layer)
            rows.append("" if self._is_wrong_at(here) else layer.told)
        spelt.put("stack", rows, place, place)

    def _zone(
        self,
        drawing: Spelt,
        name: str,
        others: Mapping[str, object],
        written: object,
        place: Path,
        *,
        at_key: bool,
    ) -> None:
        zone = drawing.inside(name)
        self.origins.values[zone.path] = place
        self.origins.keys[zone.path] = place
        lines = self._lines(written, place)
        if written is None:
            self.findings.add(
                place[:-1], "its finished size is missing: add size:, or zones: where it has several"
            )
        else:
            spell_zone(lines, zone, others)
            if "form" not in zone.told and not self._is_wrong_at(place):
                self.findings.add(
                    (*place, AT_KEY) if at_key else place,
                    no_form(str(written)) or f"{name} has no size: add size:, such as round 12, long 50",
                )
        if self._is_wrong_at(place) or not lines:
            drawing.told[name] = ""

    def _lines(self, written: object, place: Path) -> list[Line]:
        """The lines of a zone: the one it has, or one for each of its keys."""
        if isinstance(written, str):
            return [Line.of(written, place, self.findings, self.unit)]
        if not isinstance(written, dict):
            return []
        lines: list[Line] = []
        for key, text in written.items():
            here = (*place, key)
            if not isinstance(text, str):
                self.findings.add(here, "one text belongs here, not a list or names with values")
            elif key == "size":
                lines.insert(0, Line.of(text, here, self.findings, self.unit))
            else:
                lines.append(Line.of_key(words.word(key), text, here, self.findings, self.unit))
        return lines

    def _is_wrong_at(self, place: Path) -> bool:
        return any(slip.path[: len(place)] == place for slip in self.findings.found)

    # ── steps ───────────────────────────────────────────────────────────────────────────────────

    def _steps(self, alike: Alike) -> object:
        rows = self.tree["steps"]
        if not isinstance(rows, list):
            return rows
        drawn = Drawn(self.forms, dict(self.zones_now.of))
        read = [read_row(row, at, alike, drawn, self.findings) for at, row in enumerate(rows)]
        refuse_done_for_all(read, alike, self.findings)
        steps: list[object] = []
        for at, (who,) in turns(read, alike):
            step = read[at]
            if step is None:
                self.origins.values[("steps", len(steps))] = ("steps", at)
            steps.append([] if step is None else self._one(step, who, len(steps), alike))
        return steps

    def _one(self, step: StepRow, who: int, index: int, alike: Alike) -> object:
        """One step spelt out; where a part of it could not be read only its zones, which are then let be."""
        spelt = Spelt(("steps", index), self.origins, self.findings)
        row, path, key, todo, worked = step.row, step.path, step.key, step.todo, step.worked
        origin = (*path, key)
        self.origins.values[spelt.path] = path
        spelt.put("do", todo.NAME, (*origin, AT_KEY), (*origin, AT_KEY))
        self.origins.keys[spelt.path] = origin
        text = row[key]
        assert isinstance(text, str)
        lines = [Line.of(text, origin, self.findings, self.unit)]
        for name, value in row.items():
            if name in (key, JOIN) or name in operation_words():
                continue
            if name in ADVICE:
                self._advice(spelt, name, value, (*path, name))
            elif isinstance(value, str):
                lines.append(Line.of_key(words.word(name), value, (*path, name), self.findings, self.unit))
            else:
                message = "one text belongs here, not a list or names with values"
                self.findings.add((*path, name), message)
        known, zones_of = (
            [*dict.fromkeys((*self.forms, *alike.families))],
            alike.zones_by_piece(self.zones_now.of, who),
        )
        reading = StepLines(todo, spelt, zones_of, known)
        reading.read(lines)
        if any(line.faulty for line in lines) or self._is_wrong_at(path):
            told = {slip.path for slip in self.findings.found}
            unknown = unknown_names(text, origin, known, zones_of)
            self.findings.found += [slip for slip in unknown if slip.path not in told]
            return [name for name in (spelt.told.get("zone"), spelt.told.get("lay")) if name]
        if (which := alike.which(worked, who)) and isinstance(title := spelt.told.get("title"), str):
            spelt.told["title"] = f"{title}: {which}"
        alike.choose(spelt.told, who)
        for others in {"holds", "tried_on"} & spelt.told.keys():
            spelt.told[others] = alike.all_of(spelt.told[others], worked, who)
        if isinstance(checks := spelt.told.get("check"), list):
            spelt.told["check"] = [one for check in checks for one in alike.measured(check, worked, who)]
        if Does.PARTS in todo.DOES:
            self.zones_now.split(str(spelt.told.get("zone")))
        if not reading.as_it_is:
            self._form_alone(spelt, todo)
        self._usual(spelt, todo, alike)
        return spelt.told

    def _form_alone(self, spelt: Spelt, todo: Operation) -> None:
        """A form that is named without a size, and is the drawing's, means the drawing's sizes too."""
        told = spelt.told
        drawn = self.forms.get(str(told.get("zone")))
        says_size = any(name in told for name in ("to", "section", "stations", "hole", "free"))
        if todo.SCOPE is not Scope.ZONE or says_size or (todo.FIXES and "loses" in told):
            return
        if isinstance(drawn, str) and told.get("form") in (drawn, drawn.removeprefix("round ")):
            told["form"] = drawn  # a ring of round bar is a ring as well
            spelt.put("to", words.DRAWING, self.origins.of((*spelt.path, "form")), None)

    def _advice(self, spelt: Spelt, name: str, value: object, place: Path) -> None:
        self._as_written((*spelt.path, name), value, place)
        if name == "check" and isinstance(value, str):
            self._check(spelt, value, place)
        else:
            spelt.told[name] = value

    def _check(self, spelt: Spelt, value: str, place: Path) -> None:
        """What is to be measured, in one line with commas; none asks for nothing."""
        line = Line.of(value, place, self.findings, self.unit)
        found: list[object] = []
        while not line.is_read:
            at = line.place()
            text = line.take_part()
            if text and words.word(text) != words.NONE:
                spelt.place_of("check", len(found), at)
                found.append(text)
            line.next_part()
        spelt.told["check"] = found

    def _usual(self, spelt: Spelt, todo: Operation, alike: Alike) -> None:
        """Fill in what the recipe says once for all its steps, and what it says of a piece."""
        usual = self.tree.get("usual")
        usual = usual if isinstance(usual, dict) else {}
        told = spelt.told
        kind = told.get("heat", todo.HEAT_KIND)
        heats = bool(todo.HEATS) or told.get("heats", "0") != "0"
        if heats and "colour" not in told and "temperature" not in told:
            if kind == HeatKind.FORGING:
                if found := alike.heat_of(str(told.get("zone", ""))):
                    self._usual_heat(spelt, *found)
                self._usual_heat(spelt, usual.get("at"), ("usual", "at"))
            elif kind == HeatKind.WELDING:
                self._usual_heat(spelt, usual.get("weld_at"), ("usual", "weld_at"))
        for name in ("kerf", "skin") if kind == HeatKind.COLD else ("skin",):  # nothing is sawn hot
            if isinstance(usual.get(name), str) and name in todo.AMOUNTS and name not in told:
                spelt.put(name, usual[name], ("usual", name), ("usual", name))
        if isinstance(usual.get("gauge"), str) and "gauge" not in told and todo.RESHAPES:
            spelt.put("gauge", usual["gauge"], ("usual", "gauge"), ("usual", "gauge"))
        if isinstance(usual.get("flux"), str) and "flux" not in told and todo.DOES & _FLUXED:
            spelt.put("flux", usual["flux"], ("usual", "flux"), ("usual", "flux"))

    def _usual_heat(self, spelt: Spelt, value: object, place: Path) -> None:
        if not isinstance(value, str) or "colour" in spelt.told or "temperature" in spelt.told:
            return
        if any(sign.isdigit() for sign in value):
            spelt.put("temperature", value, place, place)
        else:
            spelt.put("colour", value, place, place)


def spelt_out(text: str, source: str) -> dict[str, Any]:
    """The recipe of a text spelt out; raises RecipeFaults where it cannot be taken apart."""
    from coach.recipe.tree import read_laid_out

    plain = read_laid_out(text.removeprefix("\ufeff"), source)
    return Speller(plain.tree, unit_of(plain.tree)).spell()
