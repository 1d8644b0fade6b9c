"""Whether a tool will pass: the chance of every size of its drawing, what this hand leaves of it at best."""

from __future__ import annotations

from coach.ledger.will_pass import WillPass
from coach.quantities import say
from coach.telling.words import write
from coach.telling.writing import METRIC, Shown


def in_hundred(chance: float) -> str:
    """Return a chance in whole pieces of a hundred; never told as certain, nor as hopeless.

    >>> in_hundred(0.62), in_hundred(0.999), in_hundred(0.001)
    ('62 in 100', 'over 99 in 100', 'under 1 in 100')
    """
    whole = round(100.0 * chance)
    return "over 99 in 100" if whole >= 100 else "under 1 in 100" if whole <= 0 else f"{whole} in 100"


def as_made_text(will: WillPass | None, unread: int) -> str:
    """Return what is told of a tool that nothing shapes any more, where so many sizes were not measured.

    The verdict is of each size by itself; this is of all of them at once. "" where every one was measured.

    >>> from coach.ledger.will_pass import LeastSure
    >>> as_made_text(WillPass(0.62, None, LeastSure("eye.length", "eye", "length", 0.94)), 3)
    'all sizes at once, with the 3 that nobody measured: 62 in 100; least sure: eye length, 94 in 100'
    >>> as_made_text(WillPass(0.95, None, None), 1)
    'all sizes at once, with the one that nobody measured: 95 in 100'
    """
    if will is None or not unread:
        return ""
    many = "one" if unread == 1 else str(unread)
    told = f"all sizes at once, with the {many} that nobody measured: {in_hundred(will.chance)}"
    if will.least is None:
        return told
    return f"{told}; least sure: {will.least.label}, {in_hundred(will.least.chance)}"


def will_pass_text(will: WillPass | None, shown: Shown = METRIC, *, tells_apart: bool = True) -> str:
    """Return what is told of it beside the verdict; "" where there is nothing to tell.

    `tells_apart` says why it is not the chance of the verdict, where nothing else beside it does.

    >>> from coach.ledger.will_pass import LeastSure
    >>> will_pass_text(WillPass(0.62, 0.7, LeastSure("eye.length", "eye", "length", 0.83)))
    '62 in 100, all that is still to be worked counted in (the verdict counts only what is done); least \
sure: eye length, 83 in 100; this hand keeps them all 70 in 100 at best'
    """
    if will is None:
        return ""
    told = [in_hundred(will.chance)]
    if will.ceiling is not None:  # so that it does not read as another answer to what is so far
        told[0] += ", all that is still to be worked counted in"
        told[0] += " (the verdict counts only what is done)" if tells_apart else ""
    if will.least is not None:
        told.append(f"least sure: {will.least.label}, {in_hundred(will.least.chance)}")
        if will.least.kept is not None:
            told[-1] += write(say(" (±{} would be kept nine times in ten)", will.least.kept), shown)
    if will.ceiling is not None:
        told.append(f"this hand keeps them all {in_hundred(will.ceiling)} at best")
    return "; ".join(told)
