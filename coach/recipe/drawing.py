"""The drawing of a recipe: what each zone is to become."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from coach.forms import FormError, kinds, said
from coach.operations import Shape
from coach.quantities import Kind, Limits, mm, read_length_mm, read_share, say
from coach.recipe import words
from coach.recipe.model import Piece, ZoneDrawing
from coach.recipe.naming import short
from coach.recipe.nodes import Node
from coach.recipe.shapes import a, is_bent, no_such_size, option_names, shape_told
from coach.recipe.sizes import default_limits, limits_reader

#: Keys of a zone's drawing that are neither sizes nor choices.
DRAWING_WORDS = frozenset({"form", "stations", "take_up", "allowance", "remains", "splits_into"})


def read_drawing(node: Node, pieces: dict[str, Piece]) -> dict[str, ZoneDrawing | None]:
    """Every zone's drawing, in the order of the pieces; None for one that cannot be read."""
    homes = {zone: piece.name for piece in pieces.values() for zone in piece.zones}
    told = dict(node.items())
    if not node.is_names or not homes:
        return dict.fromkeys(homes)
    for name, zone in told.items():
        if name not in homes:
            zone.stray(f"no piece has a zone {words.echo(name)}: {words.hint(name, homes)}")
    drawing: dict[str, ZoneDrawing | None] = dict.fromkeys(homes)
    for name, piece in homes.items():
        if name not in told:
            node.get(name).missing(f"the zone {name} of {piece} has no drawing: give its finished sizes")
        elif kind := told[name].get("form").word("form", kinds()):
            drawing[name] = _ZoneReader(told[name], name, piece, kind).drawing()
    return drawing


@dataclass(frozen=True, slots=True)
class _ZoneReader:
    """Reads the drawing of a zone whose form is known."""

    node: Node
    zone: str
    piece: str
    kind: str

    def drawing(self) -> ZoneDrawing | None:
        """The drawing; None, with its findings, where the zone cannot be drawn."""
        shape, by_stations_mm = shape_told(self.node, self.kind, None)
        drawn = {name: default_limits(name, size) for name, size in by_stations_mm.items()}
        stated = {**drawn, **self._stated()}
        self._check_stations(by_stations_mm, stated.get("length"))
        follows = self._length_follows(stated)
        if follows:
            stated["length"] = default_limits("length", 1.0)
        share = self.node.get("allowance").size(read_share)
        remains_mm = self.node.get("remains").in_unit(read_length_mm)
        take_up = _take_up(self.node.get("take_up"), self.kind)
        limits = self._every_size(shape, stated) if shape is not None else None
        if shape is None or limits is None:
            return None
        free = take_up or (shape.usual_free,)
        if not self._can_be_least(shape, limits, free):
            return None
        if follows:
            limits, free = {name: one for name, one in limits.items() if name != "length"}, ()
        return ZoneDrawing(self.zone, self.piece, shape, limits, free, share or 0.0, remains_mm)

    def _check_stations(self, by_stations_mm: Mapping[str, float], stated: Limits | None) -> None:
        """A finding where the last station stands elsewhere than at the length that is said."""
        at_mm = by_stations_mm.get("length")
        if at_mm is None or stated is None or stated.contains(at_mm) or stated.nominal == at_mm:
            return
        words = "the last section stands at {}, and the zone is {} long: write the one at its end, at {}"
        self.node.get("stations").fault(say(words, mm(at_mm), mm(stated.nominal), mm(stated.nominal)))

    def _length_follows(self, stated: Mapping[str, Limits | None]) -> bool:
        """Whether it is as long as its branches need: a zone that is split, with no length said."""
        has_length = "length" in kinds()[self.kind].DIMENSIONS
        return bool(self.node.get("splits_into")) and has_length and "length" not in stated

    def _can_be_least(self, shape: Shape, limits: Mapping[str, Limits], take_up: tuple[str, ...]) -> bool:
        """Whether it can be made with what may run short at its low limit; if not, a finding."""
        sizes = {
            name: one.low if name in take_up and one.low > 0.0 else one.nominal
            for name, one in limits.items()
        }
        try:
            shape.form(sizes)
        except FormError as error:
            words = say("{} cannot be made where it runs short: {}", self.zone, error.words)
            self._size_in(error, limits).fault(words)
            return False
        return True

    def _stated(self) -> dict[str, Limits | None]:
        """The limits of every size that is said; None for one that cannot be read."""
        found: dict[str, Limits | None] = {}
        for name, size in self.node.items():
            if name in kinds()[self.kind].DIMENSIONS:
                found[name] = size.in_unit(limits_reader(name, Kind.LENGTH))
            elif name not in DRAWING_WORDS and name not in option_names():
                holes = [self.node.get(one) for one in ("hole", "holes")]
                if not (name.startswith("hole") and is_bent(self.kind) and any(holes)):  # which is told there
                    size.stray(no_such_size(self.kind, name))
        return found

    def _every_size(self, shape: Shape, stated: Mapping[str, Limits | None]) -> dict[str, Limits] | None:
        """The limits of every dimension of the shape, those that are not said from those that are."""
        form = kinds()[self.kind]
        filled = form.filled(dict.fromkeys(stated, 1.0), shape.options)
        for name in form.DIMENSIONS:
            if name not in filled and name not in form.FALLBACKS:
                self.node.get(name).missing(
                    f"{a(self.kind)} needs its {said(name)}: write {short(name)} and its size"
                )
        limits = {name: one for name, one in stated.items() if one is not None}
        if len(limits) < len(stated) or not filled.keys() >= set(form.DIMENSIONS):
            return None
        try:
            made = shape.form({name: one.nominal for name, one in limits.items()})
        except FormError as error:
            self._size_in(error, stated).fault(say("{} cannot be made: {}", self.zone, error.words))
            return None
        for name, size_mm in made.sizes_mm().items():
            if name not in limits:
                limits[name] = _same(limits, shape, name, size_mm)
        return {name: limits[name] for name in form.DIMENSIONS}

    def _size_in(self, error: FormError, sizes: Iterable[str]) -> Node:
        """The size that a form's refusal names first, where the zone says one; else the zone."""
        told = f" {words.clause(error)} "
        named = [(told.find(f" {said(name)} "), name) for name in sizes if name in dict(self.node.items())]
        first = min((one for one in named if one[0] >= 0), default=None)
        return self.node if first is None else self.node.get(first[1])


def _same(limits: Mapping[str, Limits], shape: Shape, name: str, size_mm: float) -> Limits:
    """The limits of a size that goes with another one: those of the one it takes its size from."""
    for source in shape.sources(name):
        if source in limits and limits[source].nominal == size_mm:
            return limits[source]
    return default_limits(name, size_mm)


def _take_up(node: Node, kind: str) -> tuple[str, ...]:
    dimensions = kinds()[kind].DIMENSIONS
    found: list[str] = []
    for row in node.rows():
        name = words.key(row.text())
        if name not in dimensions:
            row.fault(
                f"the take-up {words.echo(row.text())} is no dimension of {a(kind)}: "
                f"{words.hint(said(name), map(said, dimensions))}"
            )
        elif name in found:
            row.fault(f"the {said(name)} stands twice in the take-up")
        else:
            found.append(name)
    return tuple(found)
