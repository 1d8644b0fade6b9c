"""The steps of a recipe, read in order, each against what the ones before it leave."""

from __future__ import annotations

from dataclasses import dataclass

from coach.fire.colours import HEAT_COLOURS
from coach.forms import listed, said
from coach.metals.quenches import QUENCHES
from coach.operations import Does, Operation, operations
from coach.operations.does import HeatKind, Scope
from coach.operations.gauges import GAUGES
from coach.operations.hazards import cautions_of, is_hot_blow
from coach.operations.measures import MARK
from coach.operations.shop_tests import SHOP_TESTS
from coach.quantities import Kind
from coach.quantities.refusal import NotKnown
from coach.recipe import words
from coach.recipe.aims import Aim, read_aim, refuse_aim
from coach.recipe.colour_words import meant_by
from coach.recipe.model import Loss, Step, spoken_of
from coach.recipe.nodes import Node
from coach.recipe.progress import Progress, ZoneSoFar, of_branch, rows_besides
from coach.recipe.shapes import a, option_names
from coach.recipe.sizes import amount_reader, known_amounts, read_heat_c, read_heats, read_loss
from coach.recipe.titles import title_of


def read_steps(node: Node, progress: Progress) -> tuple[Step, ...]:
    """Every step that can be read; what is wrong with one, or between them, is a finding."""
    rows = node.rows() if node.is_list else []
    if node.is_list and not rows:
        node.fault("there are no steps in the list")
    steps = []
    for number, row in enumerate(rows, start=1):
        if row.is_names:
            steps.append(_StepReader(row, number, progress).step())
        else:
            _let_be(row, progress)
    if rows:
        progress.finish(node.findings)
    return tuple(step for step in steps if step is not None)


def _let_be(row: Node, progress: Progress) -> None:
    """Reckon no further with the zones of a step that could not be read."""
    progress.astray = True
    for name in row.rows():
        if (zone := progress.zones.get(name.line())) is not None:
            zone.shape = None


@dataclass(frozen=True, slots=True)
class _StepReader:
    """Reads one step; the zones it works on come on by it."""

    node: Node
    number: int
    progress: Progress

    def step(self) -> Step | None:
        """The step; None where its operation is not known."""
        node = self.node
        name = node.get("do").word("operation", operations())
        todo = operations()[name] if name else None
        self.progress.astray = self.progress.astray or todo is None
        zones = self._zones(todo)
        laid = self._laid(todo, zones)
        parts = self._parts(todo, zones)
        aim = Aim() if parts else self._aim(todo, zones)
        heated = self._heated(zones, laid, parts)
        laid_on = [laid.zone] if laid else []
        together = heated[1 : 1 + int(node.get("together").text() or 0)]
        kind, heats, heat_names = self._heats(todo)
        colour, temperature_c = self._colour(kind, aim)
        amounts = self._amounts(todo)
        loses = node.get("loses").in_unit(read_loss) or Loss()
        self._refuse_length_of(loses, zones)
        gauge, rest = node.get("gauge").word("gauge", GAUGES), node.get("rest").yes()
        quench = self._quench(todo)
        if todo is None:
            return None
        self._come_on(todo, zones, laid, aim, heats)
        names = tuple(zone.zone for zone in zones)
        checks = self._checks(todo, parts or zones, aim, parted=bool(parts))
        return Step(
            number=self.number,
            operation=todo.NAME,
            zones=names,
            title=node.get("title").line() or title_of(todo, zones, together, laid, parts, self.progress),
            lays=laid.zone if laid else None,
            holds=tuple(node.get("holds").texts()),
            tried_on=tuple(node.get("tried_on").texts()),
            parts=tuple(part.zone for part in parts),
            shape=aim.shape,
            targets=aim.targets,
            free=aim.free_told,
            amounts=amounts,
            loses=loses,
            heats=heats,
            heats_said=bool(node.get("heats")),
            heat_kind=kind,
            heated=heated,
            together=together,
            colour=colour,
            temperature_c=temperature_c,
            heat_names=heat_names,
            quench=quench,
            flux=node.get("flux").line(),
            keep=tuple(" ".join(text.split()) for text in node.get("keep").texts()),
            how="\n".join(node.get("how").texts()),
            watch="\n".join(node.get("watch").texts()),
            cautions=self._cautions(
                todo, kind, heats, quench, checks, [*zones, *([laid] if laid else [])], amounts
            ),
            checks=checks,
            gauge=gauge or todo.GAUGE,
            may_rest=self._may_rest(todo, names, (*heated, *names, *laid_on), rest),
        )

    def _cautions(
        self,
        todo: Operation,
        kind: HeatKind,
        heats: int,
        quench: str,
        checks: tuple[str, ...],
        worked: list[ZoneSoFar],
        amounts: dict[str, float],
    ) -> tuple[str, ...]:
        """What can hurt at the step, then what the recipe says of it; what it repeats stands in its place."""
        own = [" ".join(text.split()) for text in self.node.get("caution").texts()]
        usual = [QUENCHES[quench]] if quench else []
        if not quench and Does.QUENCHES in todo.DOES:
            usual = list(dict.fromkeys(QUENCHES.values()))[:2]
        tests = [name for _, _, name in (one.rpartition(".") for one in checks) if name in SHOP_TESTS]
        first_blow = is_hot_blow(kind, heats) and not self.progress.struck_hot
        self.progress.struck_hot = self.progress.struck_hot or first_blow
        metals = {metal for zone in worked for metal in self.progress.pieces[zone.piece].shares}
        how = " ".join(self.node.get("how").texts())
        known = cautions_of(
            todo, kind, heats, tests, first_blow=first_blow, metals=metals, amounts=amounts, how=how
        )
        found = (*usual, *known)
        first = [text for text in found if not any(_is_said_in(text, told) for told in own)]
        return tuple(dict.fromkeys((*first, *own)))

    # ── which zones ─────────────────────────────────────────────────────────────────────────────

    def _zones(self, todo: Operation | None) -> list[ZoneSoFar]:
        piece, zone = self.node.get("piece"), self.node.get("zone")
        if todo is not None and todo.SCOPE is Scope.PIECE:
            if zone:
                zone.stray(f"{todo.NAME} goes over a whole piece: name that")
            elif not piece:
                piece.missing(f"{todo.NAME} does not say of which piece: write its name behind the colon")
            return self.progress.zones_of_piece(piece)
        if todo is not None and piece:
            message = f"{todo.NAME} works on one zone: name that, and others in the fire behind also hot"
            piece.stray(message)
        elif todo is not None and not zone:
            zone.missing(f"{todo.NAME} does not say where: write a zone's name behind the colon")
        found = self.progress.zone(zone)
        self.progress.astray = self.progress.astray or found is None
        return [found] if found else []

    def _laid(self, todo: Operation | None, zones: list[ZoneSoFar]) -> ZoneSoFar | None:
        node = self.node.get("lay")
        if todo is not None and todo.SCOPE is not Scope.JOIN:
            if node:
                node.stray(
                    f"{todo.NAME} lays nothing on, a weld does: name what lies in the fire behind also hot"
                )
            return None
        if todo is not None and not node:
            node.missing(f"{todo.NAME} does not say what it lays on: write with and a zone of another piece")
        laid = self.progress.zone(node)
        for host in zones:
            if laid is not None and laid.piece == host.piece:
                same = "itself" if laid is host else f"{host.zone}, of the same piece"
                node.fault(f"{laid.zone} cannot be laid on {same}: a weld lays on a zone of another piece")
                return None
        return laid

    def _parts(self, todo: Operation | None, zones: list[ZoneSoFar]) -> list[ZoneSoFar]:
        """The zones that there are from this step on in the place of its own; none where it parts nothing."""
        into = self.progress.branches_of(zones[0]) if zones else ()
        if todo is None or not into or Does.PARTS not in todo.DOES:
            return []
        whole, node = zones[0], self.node
        for name in ("to", "form", "section", "stations", "free", *sorted(option_names())):
            if (told := node.get(name)) and not (name == "to" and told.is_text):
                told.stray(f"{whole.zone} is split into other zones: say their sizes in their own steps")
                break
        if whole.carries:
            node.get("do").fault(f"{whole.carries} is welded on {whole.zone}: split that before the weld")
        shape = todo.branch(whole.shape) if whole.shape is not None else None
        if whole.shape is not None and shape is None:
            fits = f"{a(whole.shape.kind)} cannot be split into zones: make it flat, square or a taper before"
            node.get("do").fault(fits)
        else:
            self.progress.compare_with_drawing(whole, node.get("do").path, node.findings, "this splits")
        whole.split_in, whole.worked_in = self.number, whole.worked_in or self.number
        parts = [self.progress.zones[branch.zone] for branch in into]
        for part in parts:
            part.shape, part.split_from, part.worked_in = shape, None, self.number
        return parts

    def _heated(
        self, zones: list[ZoneSoFar], laid: ZoneSoFar | None, parts: list[ZoneSoFar]
    ) -> tuple[str, ...]:
        """What lies in the fire: of a zone that is split, what it is split into."""
        node = self.node.get("heated")
        rows = rows_besides(node, zones[0], parts) if parts else list(node.rows())
        found = [self.progress.zone(row) for row in rows] if node else [*([] if parts else zones), laid]
        return tuple(dict.fromkeys(zone.zone for zone in (*parts, *found) if zone is not None))

    # ── what becomes of them ────────────────────────────────────────────────────────────────────

    def _aim(self, todo: Operation | None, zones: list[ZoneSoFar]) -> Aim:
        if todo is None:
            for zone in zones:
                zone.shape = None
        elif todo.SCOPE is Scope.PIECE:
            refuse_aim(self.node, todo)
        elif zones:
            return read_aim(self.node, todo, zones[0], self.progress)
        return Aim()

    def _come_on(
        self, todo: Operation, zones: list[ZoneSoFar], laid: ZoneSoFar | None, aim: Aim, heats: int
    ) -> None:
        if Does.MARKS_OUT in todo.DOES:
            worked = [(zone.worked_in, zone.zone) for zone in zones if zone.worked_in is not None]
            if worked:
                step, name = min(worked)
                message = f"{name} was worked in step {step}: mark out before that, on the cold bar"
                self.node.get("do").fault(message)
        self.progress.fastened = self.progress.fastened or Does.FASTENS in todo.DOES
        for zone in zones:
            zone.shape = aim.shape or zone.shape
            sawn = Does.CUTS_FREE in todo.DOES and not heats  # the bar is as cold and as straight as it was
            if zone.worked_in is None and (todo.RESHAPES or heats) and not sawn:
                zone.worked_in = self.number
        if laid is not None:
            lay = self.node.get("lay")
            self.progress.compare_with_drawing(laid, lay.path, lay.findings, "this lays on")
            laid.laid_in = self.number
            for zone in zones:
                zone.carries = laid.zone
            self.progress.joined |= {laid.piece, *(zone.piece for zone in zones)}

    # ── the fire and the metal taken ────────────────────────────────────────────────────────────

    def _heats(self, todo: Operation | None) -> tuple[HeatKind, int, tuple[str, ...]]:
        """The kind of heat, how many, and what each is for where the recipe tells them apart."""
        told = self.node.get("heats")
        word = self.node.get("heat").word("kind of heat", HeatKind)
        kind = HeatKind(word) if word else todo.HEAT_KIND if todo else HeatKind.FORGING
        names = self._heat_names(told, todo) if told.is_names else ()
        heats = len(names) if told.is_names else told.size(read_heats)
        if kind is HeatKind.COLD and heats and todo is not None:
            told.fault("cold work takes no heats: leave them out, or leave out cold")
        if heats is None:
            heats = todo.HEATS if todo and kind is not HeatKind.COLD else 0
        return kind, heats, names

    def _heat_names(self, told: Node, todo: Operation | None) -> tuple[str, ...]:
        found: list[str] = []
        for key, row in told.items():
            heats = row.size(read_heats)
            known = todo.HEAT_NAMES if todo is not None else ()
            if todo is not None and not known:
                told.fault(f"the heats of {todo.NAME} have no names: write how many there are")
                break
            name = words.word(key)
            if todo is not None and name not in known:
                row.stray(f"{todo.NAME} has no heat called {words.echo(name)}: {words.hint(name, known)}")
            found += [name] * (heats or 0)
        return tuple(found)

    def _quench(self, todo: Operation | None) -> str:
        node = self.node.get("quench")
        if node and todo is not None and Does.QUENCHES not in todo.DOES:
            node.stray(f"{todo.NAME} quenches nothing: leave quench out, or tell it under how")
        return node.word("quench", QUENCHES) or ""

    def _colour(self, kind: HeatKind, aim: Aim) -> tuple[str, float | None]:
        """The colour and its temperature in °C.

        A colour with its temperature beside it may be any that is no misspelt one, and so may one of cold
        work: there it is the colour of an oxide film, not of glowing steel.
        """
        node, told = self.node.get("colour"), self.node.get("temperature")
        colour = node.line()
        temperature_c = told.in_unit(read_heat_c)
        if colour and not told and kind is not HeatKind.COLD:
            try:
                temperature_c = HEAT_COLOURS.temperature_c(colour)
            except NotKnown as error:
                node.fault(
                    f"{words.clause(error)}; any other needs its temperature beside it, as in hay, 1090 °C"
                )
        elif colour and (meant := meant_by(colour)):
            node.fault(f"{words.echo(colour)} is no colour: did you mean {meant}?")
        if temperature_c is None and "temperature" in aim.targets:
            temperature_c = aim.targets["temperature"].nominal
        return colour, temperature_c

    def _amounts(self, todo: Operation | None) -> dict[str, float]:
        amounts: dict[str, float] = {}
        for name in sorted(known_amounts()):
            told = self.node.get(name)
            if not told or todo is None:
                continue
            if name not in todo.AMOUNTS:
                takes = f"it takes {listed(todo.AMOUNTS)}" if todo.AMOUNTS else "use loses instead"
                told.stray(f"{todo.NAME} has no {said(name)}: {takes}")
                continue
            kind = todo.AMOUNTS[name]
            amount = told.in_unit(amount_reader(kind))
            if amount is not None:
                amounts[f"{name}_{'mm' if kind is Kind.LENGTH else 'share'}"] = amount
        return amounts

    def _refuse_length_of(self, loses: Loss, zones: list[ZoneSoFar]) -> None:
        """Note it where a length is to be lost of what has none."""
        for zone in zones:
            if (
                loses.length_mm is not None
                and zone.shape is not None
                and "length" not in zone.shape.dimensions
            ):
                kind = a(zone.shape.kind)
                self.node.get("loses").fault(
                    f"{kind} has no length to lose: write a mass or a share, 5 g or 2 %"
                )

    # ── the checkpoint and the rest ─────────────────────────────────────────────────────────────

    def _checks(
        self, todo: Operation, zones: list[ZoneSoFar], aim: Aim, *, parted: bool = False
    ) -> tuple[str, ...]:
        node = self.node.get("check")
        if not node:
            if todo.SCOPE is Scope.PIECE:
                return tuple(f"{zone.zone}.{MARK}" for zone in zones)
            if parted:  # how wide each came out tells how true the cut was
                wide = [(zone.zone, zone.shape.dimensions[0]) for zone in zones if zone.shape is not None]
                return tuple(f"{zone}.{name}" for zone, name in wide)
            asked = [name for zone in zones for name in spoken_of(zone.shape, aim.targets)]
            asked.sort(key=lambda name: name == aim.free)
            return tuple(f"{zone.zone}.{name}" for zone in zones for name in asked)
        found = [self._check(row, todo, zones, parted=parted) for row in node.rows()]
        return tuple(dict.fromkeys(check for check in found if check is not None))

    def _check(self, row: Node, todo: Operation, zones: list[ZoneSoFar], *, parted: bool) -> str | None:
        zone_name, dot, name = row.text().rpartition(".")
        if dot:
            zone = self.progress.zone(row, zone_name)
        elif todo.SCOPE is Scope.PIECE:
            if zones:
                row.fault(f"say of which zone, as in {zones[0].zone}.{MARK}")
            return None
        elif parted:
            row.fault(f"say of which branch, as in {of_branch(row.text(), zones)}")
            return None
        else:
            zone = zones[0] if zones else None
        if zone is None or zone.shape is None:
            return None
        known = [*zone.shape.dimensions, *(todo.EXTRAS if zone in zones else ()), *SHOP_TESTS]
        dimension = words.key(name)
        if dimension in known:
            return f"{zone.zone}.{zone.shape.one_with(dimension) or dimension}"
        if apart := words.names_apart(name, map(said, known)):
            row.fault(f"a comma belongs between what is checked: write {', '.join(apart)}")
            return None
        hint = words.hint(said(dimension), map(said, known))
        row.fault(f"{zone.zone} has no {words.echo(name)} to check here: {hint}")
        return None

    def _may_rest(
        self, todo: Operation, zones: tuple[str, ...], reached: tuple[str, ...], told: bool | None
    ) -> bool:
        self.progress.rests(todo, self.number, zones, reached, self.node.path)
        unsafe = next(iter(self.progress.unsafe.values()), None)
        if unsafe is None:
            return told is not False
        if told:
            self.node.get("rest").fault(f"the job may not rest here: {unsafe}")
        return False


def _is_said_in(one: str, other: str) -> bool:
    return one.casefold().strip(" .") in other.casefold()
