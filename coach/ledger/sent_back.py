"""A heat to quench from that was too short: the piece goes back in, and it is the same hardening."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from coach.ledger.course import HeatMark, Mark, ReadingMark
from coach.operations import Does
from coach.operations.shop_tests import SHOP_TESTS
from coach.recipe.model import Step

_HARDNESS, _SOAK, _WARP = "hardness", "soak", "warp"


def is_read_of_quenched(dimension: str) -> bool:
    """Whether it is read of steel that was quenched, and of no other."""
    test = SHOP_TESTS.get(dimension)
    return not test.as_it_heats if test is not None else dimension in (_HARDNESS, _WARP)


def short_of_soak(step: Step, marks: Sequence[Mark]) -> HeatMark | None:
    """The last heat of a step that quenches where by the clock it lay shorter than it is to soak.

    None where a soak that is long enough was read since the heat before, or anything that tells that the
    piece was quenched after all.
    """
    soak = step.targets.get(_SOAK)
    at = max((at for at, mark in enumerate(marks) if isinstance(mark, HeatMark)), default=-1)
    if soak is None or at < 0 or not step.does(Does.QUENCHES):
        return None
    heat = marks[at]
    if not isinstance(heat, HeatMark) or heat.lay_s is None or heat.lay_s >= soak.low:
        return None
    before = [*takewhile(lambda mark: not isinstance(mark, HeatMark), reversed(marks[:at]))]
    read = [one.reading for one in (*reversed(before), *marks[at + 1 :]) if isinstance(one, ReadingMark)]
    soaks = [one.size_mm for one in read if one.dimension == _SOAK]
    if soaks and soaks[-1] >= soak.low:
        return None
    since = (one.reading for one in marks[at + 1 :] if isinstance(one, ReadingMark))
    return None if any(is_read_of_quenched(one.dimension) for one in since) else heat


def with_sent_back(step: Step, marks: Sequence[Mark]) -> list[Mark]:
    """The same marks once the piece is in the fire again: a last heat that was too short was sent back."""
    short = short_of_soak(step, marks)
    return [mark._replace(sent_back=True) if mark is short else mark for mark in marks]
