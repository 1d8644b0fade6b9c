"""A hardness harder than an earlier, hotter temper can have left: no cooler one makes it harder again."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import Final

from coach.ledger.course import Course, Outcome
from coach.ledger.hot_work import steels_of
from coach.ledger.hottest_temper import ReadIn, hottest_temper, soaked_at
from coach.ledger.own_curves import HARDNESS, most_read_hrc, treatment_before
from coach.ledger.plan import Plan
from coach.ledger.tempered import row_of
from coach.operations import Does
from coach.quantities import NOTHING, Figure, Kind, Words, celsius, say

_DRAWN: Final = (
    "step {}, {}, drew it at {} since its quench, that leaves its steel {} at most, and no cooler temper "
    "makes it harder again"
)


def questioned_as_drawn(plan: Plan, course: Course, before: Sequence[Course]) -> Course:
    """A step with each hardness questioned that a hotter temper before the last one leaves nothing of.

    The same reading twice stands, and so does one that was insisted on.
    """
    read_in = [(one.step, one.outcomes) for one in (*before, course)]
    found: list[Outcome] = []
    for outcome in course.outcomes:
        zone, dimension, hrc = outcome.mark.reading[:3]
        stands = outcome.mark.insisted or outcome.questioned or dimension != HARDNESS
        again = any(one.questioned and one.mark.reading[:3] == outcome.mark.reading[:3] for one in found)
        against = NOTHING if stands or again else _against(plan, course, zone, hrc, read_in)
        found.append(outcome._replace(questioned=True, judged=None, against=against) if against else outcome)
    return course._replace(outcomes=tuple(found))


def _against(plan: Plan, course: Course, zone: str, hrc: float, read_in: ReadIn) -> Words:
    treated = treatment_before(plan, course.step, zone)
    if treated is None or not treated.does(Does.TEMPERS):
        return NOTHING
    last = treated._replace(zones=(zone,))
    most_hrc, drawn = -inf, last
    for metal in steels_of(plan, last):
        row = row_of(plan, last, metal)
        ruling = hottest_temper(plan, last, row, read_in) if row is not None else last
        if row is None or ruling is last:
            return NOTHING
        each_hrc = most_read_hrc(row, ruling, metal, read_in)
        if each_hrc is None:
            return NOTHING
        most_hrc, drawn = max(most_hrc, each_hrc), ruling
    soaked = soaked_at(drawn, read_in)
    if drawn is last or soaked is None or hrc <= most_hrc or round(hrc, 1) <= round(most_hrc):
        return NOTHING
    most = Figure(most_hrc, Kind.HARDNESS)
    return say(_DRAWN, drawn.number, drawn.title, celsius(soaked[0]), most)
