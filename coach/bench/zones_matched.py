"""Which pieces and zones of a recipe's changed file a job can still go over to, by what is done of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain
from typing import NamedTuple

from coach.forms import listed
from coach.ledger.parted_anew import PartedAnew, Stretch
from coach.operations import Does
from coach.quantities.refusal import Refusal
from coach.recipe.model import Piece, Recipe, Step


class CannotFollow(Refusal):
    """A job that cannot follow a file: what is done is not in it, or it is of another piece."""


class PieceChanged(NamedTuple):
    """One piece that the file has with other zones, or that only the job or only the file has."""

    piece: str
    was: tuple[str, ...]  # its zones in the job; none where it has not got it
    now: tuple[str, ...]  # in the file


def pieces_changed(old: Recipe, new: Recipe) -> tuple[PieceChanged, ...]:
    """The pieces with other zones than before, those added and those gone."""
    names = dict.fromkeys((*old.pieces, *new.pieces))
    found = (PieceChanged(name, _every(old, name), _every(new, name)) for name in names)
    return tuple(one for one in found if one.was != one.now)


def _every(recipe: Recipe, name: str) -> tuple[str, ...]:
    return recipe.pieces[name].every_zone if name in recipe.pieces else ()


def begun_of(recipe: Recipe, done: int, *, begun: bool, waiting: Iterable[int] = ()) -> list[Step]:
    """The steps that something was done in; marks that are still being made can be made anew."""
    in_hand = recipe.steps[done : done + 1] if begun else ()
    later = (recipe.steps[number - 1] for number in waiting if number <= len(recipe.steps))
    return [*recipe.steps[:done], *(one for one in (*in_hand, *later) if not one.does(Does.MARKS_OUT))]


def parted_between(old: Recipe, new: Recipe, begun: Sequence[Step]) -> PartedAnew:
    """What of the bars is parted otherwise; raises CannotFollow where what is done stands against it."""
    if made_again := next((name for name in old.given_up if name not in new.given_up), None):
        raise CannotFollow(
            f"The {made_again} is given up in this job, and the file makes it: strike that out first, or say "
            f"what is otherwise in a line (Change)."
        )
    if old.pieces.keys().isdisjoint(new.pieces):
        raise CannotFollow(
            f"The file makes the {listed(new.pieces)}, and this job the {listed(old.pieces)}: begin a new "
            f"job by it."
        )
    anew, gone = set[str](), set[str]()
    stretches: list[Stretch] = []
    for name in dict.fromkeys((*old.pieces, *new.pieces)):
        was, now = old.pieces.get(name), new.pieces.get(name)
        steps = _done_of(old, new, name, begun)
        if not steps:
            if was is None or now is None or _begins(was) != _begins(now):
                (gone if now is None else anew).add(name)
        elif now is None or was is None:
            raise CannotFollow(_not_now(steps[-1], name, is_new=was is None))
        else:
            _check_bar(was, now)
            is_alone = len([one for one in new.pieces.values() if one.row == now.row]) == 1
            off = [step for step in new.steps if step.does(Does.CUTS_FREE) and now.zones[-1] in step.zones]
            stretches += _stretches(was, now, steps, has_bar=is_alone and bool(off))
    return PartedAnew(frozenset(anew), frozenset(gone), tuple(stretches))


def _begins(piece: Piece) -> tuple[object, ...]:
    """All that a piece begins with, but for how surely its bar is known."""
    return piece._replace(stock=piece.stock._replace(doubt_share=0.0), given_up=False)


def _done_of(old: Recipe, new: Recipe, name: str, begun: Sequence[Step]) -> list[Step]:
    """The steps that were done to a piece, to one on the same bar, or to what it is taken from."""
    pieces = [recipe.pieces[name] for recipe in (old, new) if name in recipe.pieces]
    rows, sources = {one.row for one in pieces}, {one.source for one in pieces if one.source}
    own = [one for one in old.pieces.values() if one.row in rows or one.name in sources]
    zones = {one.name for one in own} | {zone for one in own for zone in one.every_zone}
    return [step for step in begun if not zones.isdisjoint(_named(step))]


def _named(step: Step) -> Iterator[str]:
    checked = (check.partition(".")[0] for check in step.checks)
    return chain(step.metal, step.parts, step.tried_on, step.holds, checked)


def _not_now(last: Step, name: str, *, is_new: bool) -> str:
    done = f"step {last.number}, {last.title}, is done"
    if is_new:
        return f"The {name} cannot be added to a bar that is begun: {done}; give it a bar of its own."
    return (
        f"The {name} is not in the file, and {done}: leave it in the file, or give it up "
        f"(`coach change JOB 'give up {name}'`)."
    )


def _check_bar(was: Piece, now: Piece) -> None:
    """Raise CannotFollow where the bar is another than that which was begun."""
    if now.metal != was.metal and (was.layers or was.source):
        raise CannotFollow(
            f"The {was.name} is {was.metal} in this job and {now.metal} in the file: begin a new one."
        )
    if (now.stock.shape, now.stock.sizes_mm) != (was.stock.shape, was.stock.sizes_mm):
        raise CannotFollow(f"The bar of {was.name} in the file is another than this job's: begin a new one.")


def _stretches(was: Piece, now: Piece, steps: Sequence[Step], *, has_bar: bool) -> Iterator[Stretch]:
    """The lengths of a marked bar that have other zones now, between those that are worked.

    `has_bar` is whether what is behind the last zone is bar of its own, until that is cut off.
    """
    if (was.zones, was.branches) == (now.zones, now.branches):
        return
    at_work = [step for step in steps if not step.does(Does.MARKS_OUT)]
    by_root = {was.root_of(zone): step for step in at_work for zone in was.every_zone if zone in _works(step)}
    worked = [zone for zone in was.zones if zone in by_root]
    for zone in worked:
        kept = was.branches.get(zone) == now.branches.get(zone) and zone in now.zones
        if not kept or [one for one in now.zones if one in by_root] != worked:
            step = by_root[zone]
            raise CannotFollow(
                f"Step {step.number}, {step.title}, is done, and the file has the zones of the {was.name} "
                f"otherwise there: what is worked stays {listed(worked)}, in this order."
            )
    for old, new in zip(_runs(was.zones, worked), _runs(now.zones, worked), strict=True):
        if old == new and all(was.branches.get(one) == now.branches.get(one) for one in old):
            continue
        if not old:
            raise CannotFollow(
                f"There is no bar for the {listed(new)}: what lies next to it is worked by now; leave it "
                f"out, or weld it on as a piece of its own."
            )
        if not new:
            raise CannotFollow(
                f"The bar of the {listed(old)} is still there, and the file has no zone for it: leave it in "
                f"the file, and cut it off in a step."
            )
        yield Stretch(was.name, old, new, has_bar and old[-1] == was.zones[-1])


def _works(step: Step) -> frozenset[str]:
    return step.worked | {*step.parts, *step.tried_on, *step.holds}


def _runs(zones: Sequence[str], worked: Sequence[str]) -> list[tuple[str, ...]]:
    """The zones before, between and behind those that are worked."""
    found: list[list[str]] = [[]]
    for zone in zones:
        if zone in worked:
            found.append([])
        else:
            found[-1].append(zone)
    return [tuple(run) for run in found]


def as_parted(steps: Iterable[Step], recipe: Recipe, parted: PartedAnew) -> tuple[Step, ...]:
    """Steps that are done, by the zones that there are now."""
    if not parted.stretches:
        return tuple(steps)

    def now(zones: Iterable[str]) -> tuple[str, ...]:
        there = list(dict.fromkeys(chain.from_iterable(map(parted.zones_of, zones))))
        order = [zone for piece in recipe.pieces.values() for zone in piece.every_zone]
        return tuple(sorted(there, key=order.index)) if all(one in order for one in there) else tuple(there)

    return tuple(
        step._replace(
            zones=now(step.zones) if step.does(Does.MARKS_OUT) else step.zones,
            heated=now(step.heated),
            together=now(step.together),
            checks=tuple(_checks(step.checks, recipe, parted)),
        )
        for step in steps
    )


def _checks(checks: Iterable[str], recipe: Recipe, parted: PartedAnew) -> Iterator[str]:
    for check in checks:
        zone, dot, dimension = check.partition(".")
        there = parted.zones_of(zone)
        if zone in (*recipe.drawing, *recipe.pieces):
            yield check
        elif len(there) == 1:
            yield f"{there[0]}{dot}{dimension}"
