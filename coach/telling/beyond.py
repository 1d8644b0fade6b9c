"""How far a size is from a limit or from its aim, and that one, so that the three agree as they are told."""

from __future__ import annotations

from math import isfinite

from coach.bench.checks import SizeRead
from coach.bench.judgement import Judgement
from coach.quantities.figure import Figure, Kind, Limit
from coach.telling.bounds import as_told, bound_as_told, is_by_calliper, is_in_64ths, off_bound, write_bound
from coach.telling.figures import by_doubt, rounded, write_figure
from coach.telling.limits import told_limits, write_aim
from coach.telling.writing import Shown


def off_limit(reading: SizeRead, judged: Judgement, shown: Shown) -> tuple[Figure, str]:
    """How far a reading is beyond its limit, and the limit as it is told."""
    limit = Limit(judged.wanted, low=judged.below)
    kind = judged.wanted.kind
    if kind is not Kind.LENGTH or not isfinite(limit.figure.value):
        return judged.beyond, write_bound(limit, shown)
    fine = is_by_calliper(limit, shown) or _is_hair(_off(reading, judged.beyond, limit, shown), shown)
    fine = fine and shown.system == "in"
    return _off(reading, judged.beyond, limit, shown, fine=fine), write_bound(limit, shown, fine=fine)


def off_aim(reading: SizeRead, judged: Judgement, shown: Shown) -> tuple[Figure, str]:
    """How far a reading has to go to what is aimed at, and that as it is told."""
    limits, kind = judged.wanted
    if kind is not Kind.LENGTH:
        return judged.to_go, write_figure(Figure(limits.nominal, kind), shown)
    told = told_limits(limits, shown)
    aim, true = as_told(told.middle, told, shown), Figure(limits.nominal)
    if reading.hot is not None:
        off = abs(rounded(reading.cold._replace(kind=aim.kind), shown) - aim.value)
    else:
        shift = aim.value - true.value
        off = judged.to_go.value + (shift if reading.cold.value < true.value else -shift)
    return _told(max(off, 0.0), aim, shown), write_aim(limits, shown)


def _off(reading: SizeRead, beyond: Figure, limit: Limit, shown: Shown, *, fine: bool = False) -> Figure:
    if reading.hot is not None:
        return off_bound(reading.cold, limit, shown, fine=fine)
    bound = bound_as_told(limit, shown, fine=fine)
    return _told(beyond.value + abs(bound.value - limit.figure.value), bound, shown)


def _told(off_mm: float, beside: Figure, shown: Shown) -> Figure:
    """A distance that is told as finely as what stands beside it; in thousandths where it is no fraction."""
    off = Figure(off_mm, beside.kind)
    by_rule = shown.system == "mm" or beside.kind is Kind.FINE or is_in_64ths(off, shown)
    return off if by_rule else off._replace(kind=Kind.FINE)


def _is_hair(off: Figure, shown: Shown) -> bool:
    return not by_doubt(off, shown) or write_figure(off, shown, "hair") == "a hair"
