"""Looking back: from the finished sizes to the stock, the marks and the lengths to cut."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import chain
from math import inf

from coach.forms import FormError, said
from coach.ledger.hot_work import MOST_HEATS, with_reckoned_heats
from coach.ledger.layers import layers_of
from coach.ledger.nominal import Stage, surplus_mm3, walk
from coach.ledger.plan import (
    BarOfZone,
    HoleCentre,
    MarkOnBar,
    OneOfRow,
    Plan,
    PlannedCut,
    PlannedPiece,
    Row,
    StackedBar,
    Stock,
    finished_form,
)
from coach.ledger.room_for_scale import left_by_scale, with_aims_that_are_left, with_room_for_scale
from coach.ledger.working import LedgerError, bar_form, piece_density_g_mm3, zone_steps
from coach.operations import Does, operation
from coach.quantities import Figure, Kind, grams, mm
from coach.recipe.model import Recipe
from coach.recipe.one_bar import before_on_bar, cut_off_in, is_handle, pieces_by_bar

#: How finely is sought (our choice).
_ROUNDS = 60
_DOUBLINGS = 10
#: A zone's start is found when the finish is right to this share of its volume (our choice).
_CLOSE_SHARE = 1e-10


_NOT_AS_LEFT = "{} cannot be made where it runs short, as the scale of its heats leaves it: {}."

#: What a step does not get through with the metal that the finished zone holds, and more would be too much.
_TOO_LITTLE = "{}. The finished {} holds no more metal than that; ask for less there, or draw it larger."


def look_back(recipe: Recipe) -> Plan:
    """Walk from the finished sizes back to the stock.

    Where a recipe says no heats they are reckoned from the work, the operation's usual ones to begin with.
    Raises LedgerError, in one sentence, where the recipe asks for what the metal cannot give.
    """
    plan = _looked_back(recipe)
    if all(step.heats_said for step in recipe.steps):
        return plan
    try:
        return _with_heats(recipe, plan, inf)
    except LedgerError:  # so many heats leave nothing of it: the question about them tells how many
        return _with_heats(recipe, plan, MOST_HEATS)


def _with_heats(recipe: Recipe, plan: Plan, most: float) -> Plan:
    heats = {step.number: step.heats for step in with_reckoned_heats(plan, most).steps}
    reckoned = recipe._replace(steps=tuple(step._replace(heats=heats[step.number]) for step in recipe.steps))
    return plan if reckoned == recipe else _looked_back(reckoned)


def _looked_back(as_written: Recipe) -> Plan:
    """The plan with the heats as they stand.

    Each zone's starting volume is the one that comes out at the finished nominal volume after every loss
    of every step, found by walking forward and closing in; so the plan and the forecast cannot disagree.
    """
    recipe = with_aims_that_are_left(with_room_for_scale(as_written))
    wanted, least, worn = {}, {}, {}
    for zone in chain.from_iterable(piece.finished_zones for piece in recipe.pieces.values()):
        beside, off = left_by_scale(recipe, zone)
        try:
            wanted[zone] = finished_form(recipe, zone, beside_mm=beside).volume_mm3()
            least[zone] = finished_form(recipe, zone, least=True, beside_mm=beside).volume_mm3()
            full = finished_form(recipe, zone, least=True).volume_mm3()
            worn[zone] = full - finished_form(recipe, zone, least=True, beside_mm=off).volume_mm3()
        except FormError as error:
            raise LedgerError(_NOT_AS_LEFT, zone, error.words).at(zone=zone) from None
    ways = _Ways(recipe, wanted, least)
    for zone in _laid_first(recipe):
        ways.of(zone)
    start, stages = ways.start, ways.stages
    by_step: dict[int, dict[str, Stage]] = {step.number: {} for step in recipe.steps}
    for stage in chain.from_iterable(stages.values()):
        by_step[stage.step.number][stage.zone] = stage
    pieces = {name: _piece(recipe, name, start, stages) for name in recipe.pieces}
    rows = [_row(recipe, pieces, names) for names in pieces_by_bar(recipe) if len(names) > 1]
    for row in rows:
        for one in row.pieces:
            pieces[one.piece] = pieces[one.piece]._replace(left_over=row.left_over, in_row=True)
    pieces = {name: _in_its_place(recipe, pieces, name) for name in pieces}
    return Plan(
        recipe=recipe,
        as_written=as_written,
        start_mm3=start,
        stages=stages,
        by_step=by_step,
        wanted_mm3=wanted,
        least_mm3=least,
        worn_mm3=worn,
        pieces=pieces,
        cuts=_cut_lengths(recipe, stages),
        rows=tuple(rows),
    )


def _laid_first(recipe: Recipe) -> list[str]:
    """The zones along the bars, those first that are laid on others or are split into what is."""
    zones = [zone for piece in recipe.pieces.values() for zone in piece.zones]
    laid = {recipe.piece_of(zone).root_of(zone) for zone in recipe.welds}
    return sorted(zones, key=lambda zone: zone not in laid)


class _Ways:
    """Every zone's start and its way from there, found one after the other."""

    def __init__(self, recipe: Recipe, wanted_mm3: dict[str, float], least_mm3: dict[str, float]) -> None:
        self.start: dict[str, float] = {}
        self.stages: dict[str, tuple[Stage, ...]] = {}
        self._recipe = recipe
        self._wanted, self._least = wanted_mm3, least_mm3  # of what is split: what its branches must have
        self._at_weld: dict[str, float] = {}

    def of(self, zone: str) -> None:
        """The way of a zone along the bar, and of what it is split into."""
        self._walked(zone, self._needed(zone, None), None)

    def _needed(self, zone: str, split: Stage | None) -> float:
        """What it must start with, its allowance with it."""
        into = self._recipe.piece_of(zone).branches.get(zone, ())
        allowed = 1.0 + self._recipe.drawing[zone].allowance_share
        if not into:
            return allowed * _start_volume(self._recipe, zone, self._wanted[zone], self._at_weld, split)
        # What the branches need hangs on the section that they are cut from, and that hardly on the volume.
        goal = sum(self._finished(one.zone) for one in into)
        for _ in range(_ROUNDS):
            start = _start_volume(self._recipe, zone, goal, self._at_weld, split)
            cut = _cut_of(zone, walk(self._recipe, zone, start, self._at_weld, split))
            needed = {one.zone: self._needed(one.zone, cut) / one.share for one in into}
            if abs(max(needed.values()) - goal) <= _CLOSE_SHARE * goal:
                break
            goal = max(needed.values())
        self._wanted[zone] = goal
        self._least[zone] = max(
            all_mm3 * self._least[one] / self._wanted[one] for one, all_mm3 in needed.items()
        )
        return allowed * start

    def _finished(self, zone: str) -> float:
        """The finished metal of a zone or of all its branches."""
        return sum(self._wanted[one] for one in self._recipe.piece_of(zone).leaves_of(zone))

    def _walked(self, zone: str, start_mm3: float, split: Stage | None) -> None:
        way = walk(self._recipe, zone, start_mm3, self._at_weld, split)
        self.start[zone], self.stages[zone] = start_mm3, tuple(way)
        self._at_weld[zone] = way[-1].after_mm3 if way else start_mm3
        for one in self._recipe.piece_of(zone).branches.get(zone, ()):
            self._walked(one.zone, one.share * way[-1].after_mm3, way[-1])


def _cut_of(zone: str, way: list[Stage]) -> Stage:
    """The stage that splits a zone."""
    if not way or not way[-1].step.parts:
        raise LedgerError("No step splits {}.", zone).at(zone=zone)
    return way[-1]


def _start_volume(
    recipe: Recipe, zone: str, wanted_mm3: float, at_weld: Mapping[str, float], split: Stage | None = None
) -> float:
    if not zone_steps(recipe, zone):
        return wanted_mm3
    laid = sum(at_weld[step.lays] for step in zone_steps(recipe, zone) if step.lays and zone in step.zones)
    if laid >= wanted_mm3:
        raise LedgerError(
            "The steel laid on {} ({}) is as much as the whole finished {} ({}); make the laid steel smaller "
            "or the drawing bigger.",
            zone,
            Figure(laid, Kind.VOLUME),
            zone,
            Figure(wanted_mm3, Kind.VOLUME),
        ).at(zone=zone)

    def surplus(volume_mm3: float) -> float:
        return surplus_mm3(recipe, zone, walk(recipe, zone, volume_mm3, at_weld, split), wanted_mm3)

    # A tenth of spare, and steps from there: where the search begins (our choice).
    one, found = _first_guess(surplus, (wanted_mm3 - laid) * 1.1)
    other = max(one - found * 1.05, 0.05 * one)
    refused: LedgerError | None = None
    most = found
    for _ in range(_ROUNDS):
        try:
            found_other = surplus(other)
        except LedgerError as error:
            refused = error
            other = 0.5 * (one + other)  # too little to come through its steps at all
            continue
        most = max(most, found_other)
        if abs(found_other) <= _CLOSE_SHARE * wanted_mm3:
            return other
        if found_other == found:
            break
        following = other - found_other * (other - one) / (found_other - found)
        one, found = other, found_other
        other = following if following > 0.0 else 0.5 * one
    if most < 0.0 and (never := _never_so_large(recipe, zone)) is not None:
        raise never
    if refused is not None:
        refused = _refusal(surplus, one - found) or refused
        raise LedgerError(_TOO_LITTLE, refused.words, zone).at(refused.step, refused.zone or zone)
    raise LedgerError(
        f"No amount of metal for {zone} comes out at its finished sizes: look at its steps from the first "
        f"that sets every dimension."
    ).at(zone=zone)


def _never_so_large(recipe: Recipe, zone: str) -> LedgerError | None:
    """What is to be taken off a size that no metal makes so large: it follows from another step's sizes."""
    for step in reversed(zone_steps(recipe, zone)):
        fixes = operation(step.operation).FIXES and zone in step.zones
        for name, limits in step.targets.items() if fixes else ():
            before = (one for one in zone_steps(recipe, zone) if one.number < step.number)
            makes = [one for one in before if name in (one.free, operation(one.operation).FREE)]
            if not makes or name == "length":
                continue
            return LedgerError(
                "Step {}, {}: the {} of {} is to be {}, and however much metal it has, step {}, {}, leaves "
                "it narrower: it follows from the metal there. Write its {} there, and long free.",
                *(step.number, step.title, said(name), zone, mm(limits.nominal)),
                *(makes[-1].number, makes[-1].title, said(name)),
            ).at(step.number, zone)
    return None


def _refusal(surplus: Callable[[float], float], volume_mm3: float) -> LedgerError | None:
    """Why so much metal does not come through its steps; None where it does, or there is none."""
    if volume_mm3 <= 0.0:
        return None
    try:
        surplus(volume_mm3)
    except LedgerError as error:
        return error
    return None


def _first_guess(surplus: Callable[[float], float], volume_mm3: float) -> tuple[float, float]:
    """A volume that comes through its steps, and its surplus: doubled while the losses are more than it."""
    first: LedgerError | None = None
    for _ in range(_DOUBLINGS):
        try:
            return volume_mm3, surplus(volume_mm3)
        except LedgerError as error:
            first = first or error
            volume_mm3 *= 2.0
    assert first is not None
    raise first


def _piece(
    recipe: Recipe, name: str, start_mm3: Mapping[str, float], stages: Mapping[str, tuple[Stage, ...]]
) -> PlannedPiece:
    piece = recipe.pieces[name]
    zones, marks, centres = [], [], []
    at = 0.0
    for zone, following in zip(piece.zones, (*piece.zones[1:], None), strict=True):
        bar = bar_form(recipe, zone, start_mm3[zone])
        zones.append(BarOfZone(zone, mm(bar.length_mm), Figure(bar.volume_mm3(), Kind.VOLUME)))
        if any(step.does(Does.PUNCHES) and zone in step.zones for step in recipe.steps):
            centres.append(HoleCentre(zone, mm(at + bar.length_mm / 2.0)))
        at += bar.length_mm
        marks.append(MarkOnBar(mm(at), zone, following, None if following else cut_off_in(recipe, name)))
    volume, bar_mm = sum(start_mm3[zone] for zone in piece.zones), piece.stock.length_mm
    return PlannedPiece(
        piece=name,
        metal=piece.metal,
        stock=Stock(piece.stock.shape.kind, tuple(map(mm, piece.stock.sizes_mm.values()))),
        length=mm(at),
        mass=grams(volume * piece_density_g_mm3(piece)),
        zones=tuple(zones),
        marks=tuple(marks),
        centres=tuple(centres),
        bar=None if bar_mm is None else mm(bar_mm),
        left_over=None if bar_mm is None else mm(bar_mm - at),
        stack=tuple(
            StackedBar(one.metal, (mm(piece.stock.sizes_mm["width"]), mm(one.thickness_mm)))
            for one in (() if piece.source else piece.layers)
        ),
        layers=max(layers_of(recipe, zone, stages) for zone in piece.finished_zones),
        source=piece.source,
    )


def _in_its_place(recipe: Recipe, pieces: Mapping[str, PlannedPiece], name: str) -> PlannedPiece:
    """A piece with its marks measured from the end of its bar, across those that lie before it there."""
    piece = pieces[name]
    begins_mm = sum(pieces[one].length.value for one in before_on_bar(recipe, name))
    if not begins_mm:
        return piece
    return piece._replace(
        begins=mm(begins_mm),
        marks=tuple(one._replace(at=mm(begins_mm + one.at.value)) for one in piece.marks),
        centres=tuple(one._replace(at=mm(begins_mm + one.at.value)) for one in piece.centres),
    )


def _row(recipe: Recipe, pieces: Mapping[str, PlannedPiece], names: list[str]) -> Row:
    """Those pieces one after the other; each is as long on the bar as it is marked out, its kerf included."""
    at, ends = 0.0, []
    for name in names:
        at += pieces[name].length.value
        ends.append(OneOfRow(name, mm(at), pieces[name].marks[-1].cut_in))
    bar = pieces[names[0]].bar
    left = None if bar is None else mm(bar.value - at)
    return Row(tuple(ends), mm(at), bar, left, any(is_handle(recipe, name) for name in names[:-1]))


def _cut_lengths(recipe: Recipe, stages: Mapping[str, tuple[Stage, ...]]) -> tuple[PlannedCut, ...]:
    found = []
    for stage in chain.from_iterable(stages.values()):
        step, zone = stage.step, stage.zone
        if step.does(Does.CUTS_FREE) and zone in step.zones:
            finished = recipe.drawing[zone].limits.get("length")
            cut_mm = stage.form_after.size_mm("length")
            finished_mm = finished.nominal if finished else cut_mm
            found.append(PlannedCut(step.number, zone, mm(cut_mm), mm(finished_mm), mm(finished_mm - cut_mm)))
    return tuple(sorted(found, key=lambda cut: cut.step))
