"""A size that is good for the drawing, and leaves the stone less than the steel's skin is deep."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from coach.bench.checks import Check
from coach.bench.skin import SteelSkin
from coach.ledger.verdict import Verdict
from coach.quantities import mm

_INSIDE: Final = (Verdict.GOOD, Verdict.UNSURE)


def beside_skins(checks: Iterable[Check], skins: Sequence[SteelSkin]) -> tuple[Check, ...]:
    """The sizes of a step, each with what the skin of its steel wants more for the stone, if that lacks any.

    Only what was read and may be left so: anything else has more to be done about it.
    """
    lacks = {(one.zone, one.dimension): one.lacks_mm for one in skins if one.lacks_mm}
    return tuple(
        one._replace(for_stone=mm(lacks_mm))
        if (lacks_mm := lacks.get((one.zone, one.dimension))) and one.verdict in _INSIDE and not one.is_open
        else one
        for one in checks
    )
