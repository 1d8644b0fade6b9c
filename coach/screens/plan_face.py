"""What the face of a plan says: the bar to take, the heats, the hours at the fire, and how it stands."""

from __future__ import annotations

from coach.bench.planned import Planned
from coach.screens.shop_rows import UNKNOWN, VERDICTS
from coach.screens.widgets.face import Block, Weight
from coach.telling.figures import write_figure
from coach.telling.plan import section_text
from coach.telling.why import chance_text
from coach.telling.writing import Shown

_HOUR_S, _MINUTE_S = 3600.0, 60.0


def face_of_plan(plan: Planned, shown: Shown) -> list[Block]:
    """Its four blocks; of several bars the first, for that of the others stands on the page."""
    sign, ink = VERDICTS.get(plan.verdict, UNKNOWN)
    stands = Block(plan.verdict.upper(), sign, ink, caption=chance_text(plan.chance), weight=Weight.SIGN)
    return [_bar(plan, shown), Block("heats", str(plan.heats)), _hours(plan), stands]


def _bar(plan: Planned, shown: Shown) -> Block:
    piece, *others = plan.pieces
    number = write_figure(piece.length, shown, "n")
    unit = write_figure(piece.length, shown).removeprefix(number).strip()
    label = f"{piece.piece}, 1 of {len(others) + 1} bars" if others else "bar"
    return Block(label, number, last=unit, caption=section_text(piece, shown))


def _hours(plan: Planned) -> Block:
    """The hours that so many heats take; a single figure in minutes where they are few."""
    low, high = plan.at_the_fire.low, plan.at_the_fire.high
    if not plan.heats:
        return Block("hours", lines=("none",), caption="at the fire")
    if low:
        return Block("hours", f"{low / _HOUR_S:.0f}-{high / _HOUR_S:.0f}", caption="at the fire")
    return Block("minutes at most", f"{high / _MINUTE_S:.0f}", caption="at the fire")
