"""Which steps of a recipe's changed file are still ahead of a job, and the recipe that it follows by them."""

from __future__ import annotations

import json
from collections.abc import Collection, Hashable, Mapping, Sequence
from difflib import SequenceMatcher
from typing import Final, NamedTuple

from coach.bench.zones_matched import CannotFollow, as_parted, begun_of, parted_between
from coach.ledger.looking_back import look_back
from coach.ledger.parted_anew import PartedAnew
from coach.ledger.plan import Plan
from coach.log.kinds.amended import Amended
from coach.operations import Does
from coach.quantities import NOTHING, Limits, Words, mm, run_on, say
from coach.recipe.freezing import NotThawed, hangs_together, thawed
from coach.recipe.model import Recipe, Step, Stock, ZoneDrawing


class Matched(NamedTuple):
    """A job's recipe with its file's steps ahead."""

    recipe: Recipe  # with the job's steps that are done, and the file's that are ahead
    cut: int  # so many of the file's steps stand before those ahead
    to_file: dict[int, int]  # where the job's steps stand in the file, both from 0
    moved: frozenset[int]  # those of the job's that stand in another order there
    parted: PartedAnew = PartedAnew()  # the bars that have other zones from then on


def amended_recipe(
    old: Recipe, new: Recipe, done: int, *, begun: bool, waiting: Collection[int] = ()
) -> Matched:
    """The recipe that a job follows once it takes its file's steps ahead.

    `begun` is whether the step in hand has entries, and `waiting` the steps ahead that have some. Raises
    CannotFollow where the file is of another tool, or another bar, or has lost the step in hand.
    """
    parted = parted_between(old, new, begun_of(old, done, begun=begun, waiting=waiting))
    to_file = _matched(old.steps, new.steps, done + begun)
    behind = [to_file[at] for at in range(done) if at in to_file]
    if done and not behind:
        raise CannotFollow("None of the steps that are done stands in the file: is it that of another job?")
    cut = max(behind, default=-1) + 1
    moved = _moved(old.steps, new.steps, to_file, done, cut)
    to_file |= moved
    if begun:
        in_hand, at = old.steps[done], to_file.get(done, -1)
        # Work on another piece may come before what is begun; on the same one it would be worked in between.
        comes_later = all(are_apart(in_hand, step) for step in new.steps[cut:at])
        if at < cut or (done in moved and not comes_later):
            raise CannotFollow(
                f"Step {in_hand.number}, {in_hand.title}, is begun and the file has it no more: strike out "
                f"what is entered of it, or leave it in the file."
            )
        cut = cut if comes_later else at
    steps = (*as_parted(old.steps[:done], new, parted), *new.steps[cut:])
    numbered = tuple(step._replace(number=at) for at, step in enumerate(steps, 1))
    drawing = {
        zone: drawn._replace(taken_back_mm=old.drawing[zone].taken_back_mm) if zone in old.drawing else drawn
        for zone, drawn in new.drawing.items()
    }
    return Matched(
        new._replace(steps=numbered, drawing=drawing, marks_in_row=old.marks_in_row),
        cut,
        to_file,
        frozenset(at for at in moved if moved[at] >= cut),
        parted,
    )


def are_apart(one: Step, other: Step) -> bool:
    """Whether two steps have no metal in common, in the hand or in the fire."""
    return one.metal.isdisjoint(other.metal)


def _same(step: Step) -> Hashable:
    """What a step is known by wherever it stands."""
    return *_work(step), step.title


def _work(step: Step) -> tuple[Hashable, ...]:
    """What is done in a step; a piece that is marked out may have other zones by now."""
    return step.operation, step.title if step.does(Does.MARKS_OUT) else step.zones, step.lays


def _moved(
    old: Sequence[Step], new: Sequence[Step], to_file: Mapping[int, int], done: int, cut: int
) -> dict[int, int]:
    """The steps ahead that stand in another order in the file, where each is the only one of its kind."""
    left = {at: _same(old[at]) for at in range(done, len(old)) if at not in to_file}
    known = set(to_file.values())
    there = {at: _same(new[at]) for at in range(cut, len(new)) if at not in known}
    once = [key for key in left.values() if [*left.values(), *there.values()].count(key) == 2]
    at_key = {key: at for at, key in there.items()}
    return {at: at_key[key] for at, key in left.items() if key in once and key in at_key}


def stands_now(old: Sequence[Step], new: Sequence[Step], number: int) -> int | None:
    """The number that a step ahead has once others are done before it; None where it is there no more.

    Of several that are alike the first is the first.
    """
    key = _same(old[number - 1])
    place = [at for at, step in enumerate(old, 1) if _same(step) == key].index(number)
    found = [at for at, step in enumerate(new, 1) if _same(step) == key]
    return found[place] if place < len(found) else None


def is_another_bar_possible(recipe: Recipe, done: int) -> bool:
    """Whether a job can still go on from another bar: it is being marked out, and no step is done."""
    return not done and bool(recipe.steps) and recipe.steps[0].does(Does.MARKS_OUT)


def begins_a_bar(recipe: Recipe, piece: str, step: Step, *, is_done: bool) -> bool:
    """Whether another bar is too late for a piece by a step that is done, or is in hand with entries."""
    row = recipe.pieces[piece].row
    zones = {zone for one in recipe.pieces.values() if one.row == row for zone in one.every_zone}
    return bool(zones & {*step.metal}) and (is_done or not step.does(Does.MARKS_OUT))


#: Why the bar of a piece that is begun stays as it was told.
BAR_IS_BEGUN: Final = (
    "It is marked out or worked, and is past being another: where another one lies there, set the job aside "
    "and begin a new one from that."
)


class BarChanged(NamedTuple):
    """One piece that is taken from a bar of another section or length."""

    piece: str
    was: Words
    now: Words


def bars_changed(
    old: Recipe, new: Recipe, parted: PartedAnew, *, late: bool = False
) -> tuple[BarChanged, ...]:
    """The pieces taken from a bar of another section or length, before anything is done to them.

    Or, where that is asked for, those that are begun, whose bar it is too `late` to change.
    """
    both = (
        (name, piece.stock, new.pieces[name].stock)
        for name, piece in old.pieces.items()
        if name in new.pieces and (name in parted.pieces) is not late
    )
    return tuple(
        BarChanged(name, _bar(was), _bar(now))
        for name, was, now in both
        if (was.shape, was.sizes_mm, was.length_mm) != (now.shape, now.sizes_mm, now.length_mm)
    )


def _bar(stock: Stock) -> Words:
    """What a bar is called, and how long it is where that is known."""
    *across, last = (mm(size_mm) for size_mm in stock.sizes_mm.values())
    sizes = run_on([*(say("{:n}", size) for size in across), say("{}", last)], " × ")
    long = say("{} long", mm(stock.length_mm)) if stock.length_mm is not None else NOTHING
    return run_on((say("{} {}", stock.shape.kind, sizes), long), ", ")


def _matched(old: Sequence[Step], new: Sequence[Step], held: int) -> dict[int, int]:
    """Which step of the file each step is, both from 0; the titles help to tell them apart.

    The first of them, so many as are `held`, are done or begun: while the file begins as the job did, those
    are they, whatever other step of the same title follows.
    """
    rows = [[_same(one) for one in steps] for steps in (old, new)]
    alike = (at for at, (was, now) in enumerate(zip(*rows, strict=False)) if at == held or was != now)
    first = next(alike, min(held, len(new)))
    ahead = _blocks(rows[0][first:], rows[1][first:])
    found = {at: at for at in range(first)} | {first + at: first + to for at, to in ahead.items()}
    plain = [[_work(one) for one in steps] for steps in (old, new)]
    left = [at for at in range(len(old)) if at not in found]
    for at in left:  # the same work under another title, where its neighbours leave room for it
        low = max((found[one] for one in found if one < at), default=-1)
        high = min((found[one] for one in found if one > at), default=len(new))
        there = [to for to in range(low + 1, high) if plain[1][to] == plain[0][at]]
        if there:
            found[at] = there[0]
    return found


def _blocks(one: Sequence[Hashable], other: Sequence[Hashable]) -> dict[int, int]:
    blocks = SequenceMatcher(None, one, other, autojunk=False).get_matching_blocks()
    return {block.a + at: block.b + at for block in blocks for at in range(block.size)}


def followed_from(
    plan: Plan, body: Amended, done: int, *, begun: bool, waiting: Collection[int] = ()
) -> Plan:
    """The plan that a job follows once its amendment was taken; raises Refusal where that cannot be."""
    try:
        recipe = thawed(json.loads(body.recipe), body.text, body.source)
    except (NotThawed, ValueError, RecursionError):  # another version wrote it: its file is read again
        from coach.recipe.reader import read_recipe

        new = read_recipe(body.text, body.source)
        recipe = amended_recipe(plan.as_written, new, done, begun=begun, waiting=waiting).recipe
    if not hangs_together(recipe):
        raise NotThawed("It speaks of zones, pieces or steps that it has not.")
    return look_back(recipe)


def drawn_anew(
    was: Mapping[str, ZoneDrawing], now: Mapping[str, ZoneDrawing]
) -> dict[tuple[str, str], Limits]:
    """The sizes that another drawing asks for otherwise, by zone and dimension."""
    return {
        (zone, dimension): limits
        for zone, drawn in now.items()
        if zone in was
        for dimension, limits in drawn.limits.items()
        if was[zone].limits.get(dimension) != limits
    }
