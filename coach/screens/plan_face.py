"""What the face of a plan says: the bar to take, the heats, the hours at the fire, and how it stands."""

from __future__ import annotations

from coach.bench.planned import Planned
from coach.screens.shop_rows import UNKNOWN, VERDICTS
from coach.screens.widgets.face import Block, Weight, places_at
from coach.screens.wording import in_signs
from coach.telling.chance import chance_text
from coach.telling.figures import write_figure
from coach.telling.plan import section_text
from coach.telling.writing import Shown

_HOUR_S, _MINUTE_S = 3600.0, 60.0


def face_of_plan(plan: Planned, shown: Shown, width: int) -> list[Block]:
    """Its four blocks in a window so wide; of several bars the first, for the others stand on the page."""
    sign, ink = VERDICTS.get(plan.verdict, UNKNOWN)
    stands = Block(
        plan.verdict.upper(), sign, ink, caption=in_signs(chance_text(plan.chance)), weight=Weight.SIGN
    )
    return [_bar(plan, shown, width), Block("heats", str(plan.heats)), _hours(plan), stands]


def _bar(plan: Planned, shown: Shown, width: int) -> Block:
    piece, *others = plan.pieces
    number = write_figure(piece.length, shown, "n")
    unit = write_figure(piece.length, shown).removeprefix(number).strip()
    label = f"bar 1 of {len(others) + 1}" if others else "bar"
    first, second, *_ = places_at(width).at
    section = section_text(piece, shown)
    caption = section if len(section) < second - first else ""
    return Block(label, number, last=unit, lines=(f"{number} {unit}",), caption=caption)


def _hours(plan: Planned) -> Block:
    """The hours that so many heats take; a single figure in minutes where they are few."""
    low, high = plan.at_the_fire.low, plan.at_the_fire.high
    if not plan.heats:
        return Block("hours", lines=("none",), caption="at the fire")
    if low:
        return Block("hours", f"{low / _HOUR_S:.0f}-{high / _HOUR_S:.0f}", caption="at the fire")
    return Block("minutes at most", f"{high / _MINUTE_S:.0f}", caption="at the fire")
