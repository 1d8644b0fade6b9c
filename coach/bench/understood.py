"""What a recipe is taken to say, line by line: each bar, each zone with its finished sizes, each step."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from coach.bench.in_file import places_of
from coach.forms import label, said
from coach.ledger.plan import Plan
from coach.ledger.working import targets_of
from coach.operations import operation
from coach.quantities.figure import Figure, Kind, Wanted, celsius, grams, mm
from coach.quantities.limits import Limits
from coach.quantities.words import NOTHING, Words, counted, run_on, say
from coach.recipe.model import Loss, Piece, Step, ZoneDrawing, spoken_of
from coach.recipe.shapes import a


class Understood(NamedTuple):
    """What one line is taken to say."""

    line: int  # in the recipe's file; 0 where that is not known
    column: int
    what: str  # `bar of body`, `poll`, `step 3`
    words: Words  # its sizes and choices, those that were left out with them


def understood(plan: Plan) -> tuple[Understood, ...]:
    """Every line of a recipe that says a size, in the order of its pieces and steps."""
    recipe, where = plan.recipe, places_of(plan.recipe)
    found = []
    for piece in recipe.pieces.values():
        place = where.of_bar(piece.name) if where else (0, 0)
        found.append(Understood(*place, f"bar of {piece.name}", _bar(piece)))
        for zone in piece.every_zone:
            place = where.of(0, zone) if where else (0, 0)
            words = _listed((_zone(recipe.drawing[zone], piece), *_branches(piece, zone)))
            found.append(Understood(*place, zone, words))
    for step in recipe.steps:
        place = where.of(step.number) if where else (0, 0)
        found.append(Understood(*place, f"step {step.number}", _listed(_step(plan, step))))
    return tuple(found)


def _listed(parts: Iterable[Words | str]) -> Words:
    return run_on(parts, ", ")


def _bar(piece: Piece) -> Words:
    stock = piece.stock
    sizes = (say("{} {}", said(name), mm(size)) for name, size in stock.sizes_mm.items())
    long = say("{} long", mm(stock.length_mm)) if stock.length_mm is not None else NOTHING
    return run_on((piece.metal, stock.shape.kind, *sizes, long), ", ")


def _zone(drawn: ZoneDrawing, piece: Piece) -> Words:
    return _listed((*_of_zone(drawn), _runs(drawn, piece)))


def _branches(piece: Piece, zone: str) -> Iterator[Words | str]:
    into = piece.branches.get(zone)
    if into:
        shares = (say("{} {}", one.zone, Figure(one.share, Kind.SHARE)) for one in into)
        yield say("splits into {}", run_on(shares, " and "))


def _of_zone(drawn: ZoneDrawing) -> Iterator[Words | str]:
    yield drawn.shape.kind
    yield from _choices(drawn.shape.options)
    for name in spoken_of(drawn.shape, drawn.limits):
        yield say("{} {}", said(name), _within(drawn.limits[name]))
    if drawn.shape.stations:
        sizes = [drawn.limits[name].nominal for name in ("length", "width", "thickness")]
        rows = (
            [mm(share * size) for share, size in zip(row, sizes, strict=True)] for row in drawn.shape.stations
        )
        yield run_on((say("{} × {} at {}", wide, thick, at) for at, wide, thick in rows), ", then ")
    yield f"takes up {' then '.join(map(said, drawn.take_up))}" if drawn.take_up else ""
    if drawn.allowance_share:
        yield say("allowance {}", Figure(drawn.allowance_share, Kind.SHARE))
    if drawn.remains_mm is not None:
        yield say("remains {}", mm(drawn.remains_mm))


def _runs(drawn: ZoneDrawing, piece: Piece) -> str:
    """Which way a zone runs that has other sizes at its end: from its first sizes to those."""
    if drawn.zone not in piece.zones:
        return f"from where it is split from the {piece.split_from(drawn.zone)} out to its end"
    if len(piece.zones) == 1 or not any(f"end_{name}" in drawn.limits for name in drawn.limits):
        return ""
    at = piece.zones.index(drawn.zone)
    before, after = piece.zones[:at][-1:], piece.zones[at + 1 :][:1]
    if before and after:
        return f"from where it meets {before[0]} to where it meets {after[0]}"
    return f"from where it meets {(*before, *after)[0]} out to its end"


def _within(limits: Limits, kind: Kind | None = None) -> Wanted:
    """Limits as they count, those that nobody wrote with them."""
    return Wanted(Limits(limits.nominal, limits.low, limits.high, stated=True), kind or Kind.LENGTH)


def _choices(options: object) -> Iterator[str]:
    if isinstance(options, dict):
        yield from (f"{said(name)} {chosen}" for name, chosen in options.items())


def _step(plan: Plan, step: Step) -> Iterator[Words | str]:
    todo = operation(step.operation)
    yield f"{step.operation} {' and '.join(step.zones)}{f' with {step.lays}' if step.lays else ''}"
    if step.parts:
        yield f"into {' and '.join(step.parts)}"
    if step.shape is not None:
        yield f"to {a(step.shape.kind)}"
        yield from _choices(step.shape.options)
    shown = spoken_of(step.shape, step.targets)
    for name in shown:
        yield say("{} {}", said(name), _within(step.targets[name], todo.kind_of(name)))
    for zone, stage in plan.by_step[step.number].items():
        free = stage.after.free
        sizes = stage.form_after.sizes_mm()
        if zone in step.zones and targets_of(step, zone) and free in sizes and free not in shown:
            yield say("{} {} by the metal", said(free), mm(sizes[free]))
    if step.heats:
        yield f"{counted(step.heats, f'{step.heat_kind} heat')}{'' if step.heats_said else ' as reckoned'}"
    yield f"at {step.colour}" if step.colour else ""
    if step.temperature_c is not None and "temperature" not in step.targets:
        yield say("at {}", celsius(step.temperature_c))
    also = [zone for zone in step.heated if zone not in (*step.zones, *step.parts, step.lays)]
    yield f"also hot {' and '.join(also)}" if also else ""
    for name, amount in step.amounts.items():
        what, _, unit = name.rpartition("_")
        yield say("{} {}", said(what), mm(amount) if unit == "mm" else Figure(amount, Kind.SHARE))
    yield _loses(step.loses)
    yield f"quench {step.quench}" if step.quench else ""
    if step.checks:
        yield f"check {', '.join(_check(step, *one.rpartition('.')[::2]) for one in step.checks)}"


def _check(step: Step, zone: str, dimension: str) -> str:
    return said(dimension) if step.zones == (zone,) else label(zone, dimension)


def _loses(loses: Loss) -> Words:
    if loses.share is not None:
        return say("loses {}", Figure(loses.share, Kind.SHARE))
    if loses.mass_g is not None:
        return say("loses {}", grams(loses.mass_g))
    return say("loses {}", mm(loses.length_mm)) if loses.length_mm is not None else NOTHING
