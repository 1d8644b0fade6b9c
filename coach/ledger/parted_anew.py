"""Bars that are parted into other zones while nothing of those is worked yet: the metal goes over to them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import NamedTuple

from coach.ledger.belief import Belief, Change
from coach.ledger.plan import Plan
from coach.ledger.workpiece import Workpiece, at_stock, size_name, volume_name


class Stretch(NamedTuple):
    """A length of a piece's bar that is marked and not worked, with its zones as they were and are."""

    piece: str
    was: tuple[str, ...]
    now: tuple[str, ...]
    is_open: bool = (
        False  # whether its end is still in the bar, and a cut ahead takes it off where it is to end
    )


class PartedAnew(NamedTuple):
    """What of a job's bars is parted otherwise by another recipe."""

    pieces: frozenset[str] = frozenset()  # that nothing was done to: they begin as that recipe has them
    gone: frozenset[str] = frozenset()  # pieces that nothing was done to, and that are made no more
    stretches: tuple[Stretch, ...] = ()  # of pieces that are marked out: what is marked there stays together

    @property
    def is_none(self) -> bool:
        """Whether every piece and zone is what it was."""
        return not (self.pieces or self.gone or self.stretches)

    def zones_of(self, zone: str) -> tuple[str, ...]:
        """The zones that one is now, or was once part of; itself where nothing is parted."""
        return next((one.now for one in self.stretches if zone in one.was), (zone,))


def parted_anew(workpiece: Workpiece, plan: Plan, parted: PartedAnew) -> Workpiece:
    """The same metal in the zones of another plan.

    A piece that begins anew is the marked bar of that plan. A stretch keeps its metal, of which each zone has
    the share that the plan gives it, by a mark that is made anew, with the doubt of one. Where its end is
    still in the bar it has all the metal that the plan gives it.
    """
    stock, recipe = at_stock(plan), plan.recipe
    moved = {zone for one in parted.stretches for zone in one.was}
    gone = {
        zone
        for zone, state in workpiece.zones.items()
        if zone in moved or state.piece in parted.pieces or state.piece not in recipe.pieces
    }
    new = {zone for one in parted.stretches for root in one.now for zone in _with_branches(plan, root)}
    fresh = {zone for name in parted.pieces for zone in recipe.pieces[name].every_zone}
    changes: dict[str, Change] = {}
    for stretch in parted.stretches:
        changes |= dict(_shared_out(workpiece, plan, stretch))
    changes |= {name: _as_at(stock.belief, name) for zone in fresh for name in _names_of(stock, zone)}
    left = {name for zone in gone for name in _names_of(workpiece, zone)} - changes.keys()
    belief = workpiece.belief.predict(changes, dropped=left)
    for stretch in parted.stretches:
        area_mm2 = plan.bar_of(stretch.now[0]).end_area_mm2("finish")
        for one, other in pairwise(stretch.now):
            variance = (recipe.mark_doubt_mm * area_mm2) ** 2
            belief = belief.exchanged(volume_name(one), volume_name(other), variance)
    zones = {
        zone: state if zone in new | fresh else workpiece.zones.get(zone, state)
        for zone, state in stock.zones.items()
    }
    return workpiece._replace(zones=zones, belief=belief)


def _with_branches(plan: Plan, root: str) -> Iterator[str]:
    piece = plan.recipe.piece_of(root)
    return (zone for zone in piece.every_zone if piece.root_of(zone) == root)


def _shared_out(workpiece: Workpiece, plan: Plan, stretch: Stretch) -> Iterator[tuple[str, Change]]:
    """Each new zone's share of the metal, and its section as the bar has it there."""
    whole_mm3 = sum(workpiece.volume_mm3(zone) for zone in stretch.was)
    planned_mm3 = sum(plan.start_mm3[zone] for zone in stretch.now)
    like = workpiece.zones[stretch.was[0]]
    shared_mm3 = whole_mm3 if stretch.is_open else planned_mm3
    for zone in stretch.now:
        share = plan.start_mm3[zone] / shared_mm3
        slopes: Mapping[str, float] = {volume_name(one): share for one in stretch.was}
        yield volume_name(zone), Change(share * whole_mm3, slopes)
        for dimension in like.shape.dimensions:
            name = size_name(like.zone, dimension)
            if dimension != like.free and name in workpiece.belief:
                yield size_name(zone, dimension), Change(workpiece.belief.mean(name), {name: 1.0})


def _names_of(workpiece: Workpiece, zone: str) -> Iterator[str]:
    names = volume_name(zone), *(size_name(zone, one) for one in workpiece.zones[zone].shape.dimensions)
    return (name for name in names if name in workpiece.belief)


def _as_at(belief: Belief, name: str) -> Change:
    return Change(belief.mean(name), {}, belief.variance(name))
