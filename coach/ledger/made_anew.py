"""Marks on a bar, and what is cut, sawn or filed, read once more: the later reading is of what is there."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby
from math import fsum, hypot
from typing import NamedTuple

from coach.ledger.course import AmendmentMark, Mark, Outcome, ReadingMark
from coach.ledger.plan import Plan, Row
from coach.ledger.possible import takes_off
from coach.ledger.read_again import AGREE_WITHIN, comes_off
from coach.ledger.reading import cold_reading
from coach.ledger.wanting import wanted
from coach.ledger.workpiece import Workpiece
from coach.operations import Does
from coach.operations.measures import MARK
from coach.quantities import Limits
from coach.recipe.model import Step


class TakenAnew(NamedTuple):
    """What later readings of sizes that a step takes metal off for say of those before them."""

    doubted: frozenset[int]  # entries that cannot be right
    anew: Mapping[int, int]  # entries of what has come off since, each with that of what is there


def taken_anew(plan: Plan, step: Step, marks: Sequence[Mark], outcomes: Sequence[Outcome]) -> TakenAnew:
    """Sizes that a step takes metal off for, and that were read more than once with nothing between.

    What is cut, sawn or filed does not grow: of two readings the earlier is doubted where the later is more
    by more than their gauges can tell, unless it was stood by. Where the later is less, so much more has come
    off since, and what was read before says nothing of what is there. The marks are those of
    `coach.ledger.read_again`, in which what agrees is one reading already.
    """
    believed = {one.mark.entry for one in outcomes if not one.questioned}
    doubted: set[int] = set()
    anew: dict[int, int] = {}
    for is_read, some in groupby(marks, key=lambda mark: isinstance(mark, ReadingMark)):
        by_size: dict[tuple[str, str], list[ReadingMark]] = {}
        for mark in some if is_read else ():
            if isinstance(mark, ReadingMark) and mark.entry in believed and _takes_off(plan, step, mark):
                by_size.setdefault(mark.reading[:2], []).append(mark)
        for readings in by_size.values():
            _weigh(readings, doubted, anew)
    return TakenAnew(frozenset(doubted), anew)


def _takes_off(plan: Plan, step: Step, mark: ReadingMark) -> bool:
    zone, dimension = mark.reading[:2]
    stage = plan.by_step[step.number].get(zone)
    if stage is None or dimension not in stage.after.shape.dimensions:
        return False
    return takes_off(stage, dimension) and comes_off(stage, dimension)


def _weigh(readings: Iterable[ReadingMark], doubted: set[int], anew: dict[int, int]) -> None:
    """One size as it was read, one time after the other."""
    stands: list[ReadingMark] = []  # those that agree on what is there
    for mark in readings:
        by = _off(mark, stands)
        if by <= 0.0:
            if by < 0.0:
                anew.update(dict.fromkeys((one.entry for one in stands), mark.entry))
                stands = []
            stands.append(mark)
        elif any(one.insisted for one in stands) and not mark.insisted:
            doubted.add(mark.entry)
        else:
            doubted |= {one.entry for one in stands}
            stands = [mark]


def _off(mark: ReadingMark, others: Sequence[ReadingMark]) -> float:
    """By how much a reading is more than others, mm; nothing where their gauges cannot tell."""
    if not others:
        return 0.0
    cold, there = cold_reading(mark.reading), [cold_reading(one.reading) for one in others]
    off_mm = cold.size_mm - fsum(one.size_mm for one in there) / len(there)
    return off_mm if abs(off_mm) > AGREE_WITHIN * hypot(cold.chance_mm, there[-1].chance_mm) else 0.0


def marks_made_anew(marks: Sequence[Mark], outcomes: Sequence[Outcome]) -> Mapping[int, int]:
    """The entries of marks that were made anew or read once more, each with the last entry of that mark.

    A mark is made or read cold, and nothing moves it but a heat or a way back. So what was read of it before
    says nothing of the metal, once a later reading of it is believed.
    """
    believed = {one.mark.entry for one in outcomes if not one.questioned}
    found: dict[int, int] = {}
    since: dict[str, list[int]] = {}
    for mark in marks:
        if not isinstance(mark, ReadingMark):
            since.clear()
        elif mark.reading.dimension == MARK and mark.entry in believed:
            before = since.setdefault(mark.reading.zone, [])
            found.update(dict.fromkeys(before, mark.entry))
            before.append(mark.entry)
    return found


def marked_there(
    limits: Limits | None,
    plan: Plan,
    now: Workpiece,
    step: Step,
    size: tuple[str, str],
    marks: Sequence[Mark],
) -> Limits | None:
    """What is wanted of a mark, or of the length between two while they are made, once ways back moved them.

    Args:
        limits: what the plan wants of it; None where nothing is wanted.
        plan: of the job.
        now: what it is read on.
        step: that it is read in.
        size: its zone and dimension.
        marks: of the step up to then, the ways back among them.
    """
    zone, dimension = size
    moved_mm = marks_moved_to_mm(marks)
    if limits is None or not moved_mm:
        return limits
    if dimension == MARK:
        return limits.moved(moved_mm[zone] - limits.nominal) if zone in moved_mm else limits
    if not step.does(Does.MARKS_OUT) or dimension != now.zones[zone].free:
        return limits
    before = _ends_before(plan, zone)
    ends, begins = (_moved_by_mm(plan, now, step, one, moved_mm) for one in (zone, before))
    return limits.moved(ends - begins)


def marks_moved_to_mm(marks: Iterable[Mark]) -> dict[str, float]:
    """Where ways back among `marks` have put the marks that end zones; of several of one the last."""
    ways = (mark.amendment for mark in marks if isinstance(mark, AmendmentMark))
    return {one.zone: one.size_mm for way in ways for one in way.regained if one.dimension == MARK}


def _moved_by_mm(plan: Plan, now: Workpiece, step: Step, zone: str, moved_mm: Mapping[str, float]) -> float:
    """How much further along the mark at a zone's end is wanted than the plan has it."""
    limits = wanted(plan, now, step, zone, MARK)[0] if zone in moved_mm else None
    return moved_mm[zone] - limits.nominal if limits is not None else 0.0


def _ends_before(plan: Plan, zone: str) -> str:
    """The zone whose mark is where this one begins; empty where that is the end of the bar."""
    piece = plan.recipe.piece_of(zone)
    zones = piece.zones
    if zone not in zones:
        return ""
    if at := zones.index(zone):
        return zones[at - 1]
    names = next((names for row in plan.rows if piece.name in (names := _names(row))), [])
    before = names[: names.index(piece.name)] if names else []
    return plan.recipe.pieces[before[-1]].zones[-1] if before else ""


def _names(row: Row) -> list[str]:
    return [one.piece for one in row.pieces]
