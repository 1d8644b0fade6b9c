"""How far a bar may be from its nominal section: what a reading of it is held against."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coach.ledger.belief import Change
from coach.ledger.plan import Plan
from coach.ledger.reading import Reading, cold_reading
from coach.ledger.working import reshapes
from coach.ledger.workpiece import Workpiece, size_name
from coach.recipe.model import Step

_Table = Sequence[tuple[float, float]]  # up to that size, mm, it may be so far off, mm

#: EN 10059, squares (confirmed second-hand: summaries of the standards by a trade association).
_SQUARE: _Table = ((14.0, 0.4), (25.0, 0.5), (35.0, 0.6), (50.0, 0.8), (90.0, 1.0))
#: EN 10060:2003, rounds (confirmed second-hand: a mill's digest of it).
_ROUND: _Table = ((15.0, 0.4), (25.0, 0.5), (35.0, 0.6), (50.0, 0.8), (80.0, 1.0), (100.0, 1.3), (120.0, 1.5))
#: EN 10061, hexagons across flats (confirmed second-hand: summaries by a trade association); octagons have no
#: standard of their own and are taken as they are (our choice).
_HEXAGON: _Table = ((15.0, 0.4), (23.5, 0.5), (33.5, 0.6), (47.5, 0.8), (78.0, 1.0))
#: EN 10058:2018, table 2, flats (confirmed second-hand: summaries by a trade association).
_WIDE: _Table = ((40.0, 0.75), (80.0, 1.0), (100.0, 1.5), (120.0, 2.0), (150.0, 2.5))
_THICK: _Table = ((20.0, 0.5), (40.0, 1.0), (80.0, 1.5))
_BY_SIZE: Mapping[str, _Table] = {
    "side": _SQUARE,
    "diameter": _ROUND,
    "across_flats": _HEXAGON,
    "width": _WIDE,
    "thickness": _THICK,
}
#: Larger bars than the tables tell may be this share of their size off (judgement).
_BEYOND_SHARE = 0.02
#: A tolerance of a standard is two standard uncertainties: nineteen bars in twenty lie within (judgement).
_TOLERANCE_DOUBTS = 2.0
#: Of how far off a bar was read, squared, at least this share is the bar's own and no more than the rest its
#: gauge's (our choice). With none where the gauge might have made all of it, a bar read a gauge's doubt off
#: would be known better than at its nominal, and a hundredth of a millimetre more tell of three.
_OWN_SHARE = 0.64


def rolled_doubt_mm(dimension: str, size_mm: float) -> float:
    """Standard uncertainty of a size of a rolled bar, by the tolerance of its standard.

    >>> rolled_doubt_mm("side", 10.0), rolled_doubt_mm("width", 40.0)
    (0.2, 0.375)
    """
    for most_mm, tolerance_mm in _BY_SIZE.get(dimension, ()):
        if size_mm <= most_mm:
            return tolerance_mm / _TOLERANCE_DOUBTS
    return _BEYOND_SHARE * size_mm / _TOLERANCE_DOUBTS


def as_rolled(plan: Plan, workpiece: Workpiece, step: Step, reading: Reading) -> Workpiece:
    """The workpiece before the first reading of its bar, which may be as far off as its standard allows.

    A plan goes by a truer bar, or none could be told surely. As far as a gauge speaks against that, the bar
    is doubted by so much more, up to its tolerance, and with it all of its zones. Where anything was forged
    of it already, or the bar was read before, it stays as it is.
    """
    zone, dimension = reading.zone, reading.dimension
    piece = plan.recipe.piece_of(zone)
    told = f"the bar's {dimension} is read, {piece.name}"
    belief, name = workpiece.belief, size_name(zone, dimension)
    if dimension not in piece.stock.sizes_mm or told in belief or name not in belief:
        return workpiece
    if any(reshapes(one.step, zone) for one in plan.stages[zone] if one.step.number <= step.number):
        return workpiece
    cold = cold_reading(reading)
    read_mm2 = (cold.size_mm - belief.mean(name)) ** 2
    off_mm2 = max(read_mm2 - cold.doubt_mm**2, _OWN_SHARE * read_mm2)
    most_mm2 = rolled_doubt_mm(dimension, piece.stock.sizes_mm[dimension]) ** 2
    belief = belief.widened(name, min(off_mm2, most_mm2)).predict({told: Change(1.0)})
    return workpiece._replace(belief=belief)
