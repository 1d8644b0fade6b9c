"""Looking back: from the finished sizes to the stock, the marks and the lengths to cut."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import chain

from coach.ledger.hot_work import with_reckoned_heats
from coach.ledger.layers import layers_of
from coach.ledger.nominal import Stage, surplus_mm3, walk, zone_steps
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
from coach.ledger.room_for_scale import left_by_scale, with_room_for_scale
from coach.ledger.working import LedgerError, bar_form, piece_density_g_mm3
from coach.operations import Does
from coach.quantities import Figure, Kind, grams, mm
from coach.recipe.model import Recipe

#: How finely is sought (our choice).
_ROUNDS = 60
_DOUBLINGS = 10
#: A zone's start is found when the finish is right to this share of its volume (our choice).
_CLOSE_SHARE = 1e-10


def look_back(recipe: Recipe) -> Plan:
    """Walk from the finished sizes back to the stock.

    Where a recipe says no heats they are reckoned from the work, the operation's usual ones to begin with.
    Raises LedgerError, in one sentence, where the recipe asks for what the metal cannot give.
    """
    plan = _looked_back(recipe)
    if all(step.heats_said for step in recipe.steps):
        return plan
    heats = {step.number: step.heats for step in with_reckoned_heats(plan).steps}
    reckoned = recipe._replace(steps=tuple(step._replace(heats=heats[step.number]) for step in recipe.steps))
    return plan if reckoned == recipe else _looked_back(reckoned)


def _looked_back(as_written: Recipe) -> Plan:
    """The plan with the heats as they stand.

    Each zone's starting volume is the one that comes out at the finished nominal volume after every loss
    of every step, found by walking forward and closing in; so the plan and the forecast cannot disagree.
    """
    recipe = with_room_for_scale(as_written)
    wanted, least, worn = {}, {}, {}
    for zone in recipe.drawing:
        beside, off = left_by_scale(recipe, zone)
        wanted[zone] = finished_form(recipe, zone, beside_mm=beside).volume_mm3()
        least[zone] = finished_form(recipe, zone, least=True, beside_mm=beside).volume_mm3()
        full = finished_form(recipe, zone, least=True).volume_mm3()
        worn[zone] = full - finished_form(recipe, zone, least=True, beside_mm=off).volume_mm3()
    at_weld: dict[str, float] = {}
    start: dict[str, float] = {}
    stages: dict[str, tuple[Stage, ...]] = {}
    for zone in sorted(recipe.drawing, key=lambda zone: zone not in recipe.welds):  # what is laid on first
        start[zone] = _start_volume(recipe, zone, wanted[zone], at_weld)
        start[zone] *= 1.0 + recipe.drawing[zone].allowance_share
        way = walk(recipe, zone, start[zone], at_weld)
        stages[zone] = tuple(way)
        at_weld[zone] = way[-1].after_mm3 if way else start[zone]
    by_step: dict[int, dict[str, Stage]] = {step.number: {} for step in recipe.steps}
    for stage in chain.from_iterable(stages.values()):
        by_step[stage.step.number][stage.zone] = stage
    pieces = {name: _piece(recipe, name, start, stages) for name in recipe.pieces}
    rows = [_row(recipe, pieces, names) for names in _of_one_bar(recipe) if len(names) > 1]
    for row in rows:
        for one in row.pieces:
            pieces[one.piece] = pieces[one.piece]._replace(left_over=row.left_over, in_row=True)
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


def _start_volume(recipe: Recipe, zone: str, wanted_mm3: float, at_weld: Mapping[str, float]) -> float:
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
        return surplus_mm3(recipe, zone, walk(recipe, zone, volume_mm3, at_weld), wanted_mm3)

    # A tenth of spare, and steps from there: where the search begins (our choice).
    one, found = _first_guess(surplus, (wanted_mm3 - laid) * 1.1)
    other = max(one - found * 1.05, 0.05 * one)
    for _ in range(_ROUNDS):
        try:
            found_other = surplus(other)
        except LedgerError:
            other = 0.5 * (one + other)  # too little to come through its steps at all
            continue
        if abs(found_other) <= _CLOSE_SHARE * wanted_mm3:
            return other
        if found_other == found:
            break
        following = other - found_other * (other - one) / (found_other - found)
        one, found = other, found_other
        other = following if following > 0.0 else 0.5 * one
    raise LedgerError(
        f"No amount of metal for {zone} comes out at its finished sizes: look at its steps from the first "
        f"that sets every dimension."
    ).at(zone=zone)


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
        marks.append(MarkOnBar(mm(at), zone, following, None if following else _cut_in(recipe, zone)))
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
        layers=max(layers_of(recipe, zone, stages) for zone in piece.zones),
        source=piece.source,
    )


def _of_one_bar(recipe: Recipe) -> list[list[str]]:
    """The pieces that are taken from one bar together, in their order."""
    found: dict[str, list[str]] = {}
    for piece in recipe.pieces.values():
        found.setdefault(f"from {piece.source}" if piece.source else piece.row, []).append(piece.name)
    return list(found.values())


def _row(recipe: Recipe, pieces: Mapping[str, PlannedPiece], names: list[str]) -> Row:
    """Those pieces one after the other; each is as long on the bar as it is marked out, its kerf included."""
    at, ends = 0.0, []
    for name in names:
        at += pieces[name].length.value
        ends.append(OneOfRow(name, mm(at), pieces[name].marks[-1].cut_in))
    bar = pieces[names[0]].bar
    return Row(tuple(ends), mm(at), bar, None if bar is None else mm(bar.value - at))


def _cut_in(recipe: Recipe, zone: str) -> int | None:
    """The first step that cuts a zone, which leaves its piece on the bar as a handle until then."""
    cuts = (step.number for step in recipe.steps if step.does(Does.CUTS_FREE) and zone in step.zones)
    return next(cuts, None)


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
