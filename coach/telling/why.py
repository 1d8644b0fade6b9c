"""Why a zone, a whole job or the plan of one stands as it does, with its chance."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.forms import said
from coach.ledger.verdict import PlanState, Reason, Why, plan_state
from coach.quantities import Apart, Words, say
from coach.quantities.words import run_on
from coach.telling.chance import chance_text
from coach.telling.words import sentence
from coach.telling.writing import METRIC, Shown

if TYPE_CHECKING:
    from coach.bench.planned import Planned
    from coach.bench.sheet import Sheet
    from coach.bench.standing import Standing
    from coach.bench.stood import Stood


def reason_text(reason: Reason | Words, shown: Shown = METRIC) -> str:
    """Return why a zone or a job stands as it does, or why it cannot be reckoned.

    >>> from coach.quantities.figure import mm
    >>> reason_text(Reason(Why.UNDER, "strap", "thickness", mm(-0.9, 0.1), mm(7.5)))
    'Strap: the thickness comes out at 6.6 mm, 0.9 mm under the 7.5 mm the drawing allows, and no step ahead \
puts it right.'
    """
    if not isinstance(reason, Reason):
        return sentence(reason, shown)
    told = [sentence(run_on((reason.before, _words(reason)), "; "), shown)]
    if reason.fire is not None:
        told.append(f"As far as is known, the fire takes {reason.fire.value:.1f} times the scale reckoned.")
    if reason.besides:
        told.append(sentence(reason.besides, shown))
    return " ".join(told)


def _words(reason: Reason) -> Words:
    zone, size, beyond = reason.zone, said(reason.dimension), reason.beyond
    if reason.why is Why.ENOUGH:
        return say("the metal is enough for every zone")
    if reason.why is Why.TIGHTEST:
        return say(
            "the metal is enough: the tightest is {}, with {} to spare in its {} (at least {})",
            zone,
            beyond,
            size,
            beyond.at_least,
        )
    off = beyond._replace(value=abs(beyond.value))
    if reason.of_several and reason.why is Why.NEAR:
        return say(
            "each size is likely enough inside, but not all of them together: the least sure is the {} of "
            "{}, at {:±}, near the {} the drawing allows",
            size,
            zone,
            reason.size,
            reason.limit,
        )
    if reason.of_several and reason.why is Why.SHORT and beyond.value >= 0.0:
        return say(
            "each zone has likely enough metal, but not all of them together: the least sure is {}, {:±} "
            "above the least {} the drawing allows",
            zone,
            off,
            size,
        )
    if reason.why is Why.FULL:
        return say(
            "the metal is enough, but the {} of {} comes out {:hair} short of its least unless the section "
            "is worked nearer to the size drawn",
            size,
            zone,
            off,
        )
    if reason.why is Why.SHORT:
        clause = "{}: the metal makes the {} {:±} short of the least the drawing allows"
        if beyond.value >= 0.0:
            clause = "{}: the metal makes the {} only {:±} above the least the drawing allows: "
            clause += "it may be short"
        return say(clause, zone, size, off)
    if reason.measure and reason.is_read:
        told = reason.comes_to or reason.read_as or reason.size
        comes = say(" and comes out at {:±}", told) if reason.comes_to is not None else ""
        return say(
            "{}: the {} was read as {:±}{}, {:hair} {} the {} the drawing allows, and does not agree with "
            "the other sizes that were read. Nobody has measured the {} as it is now: measure the {}, which "
            "decides",
            zone,
            size,
            reason.read_as or reason.size,
            comes,
            Apart(told, reason.limit),
            "under" if reason.why is Why.UNDER else "over",
            reason.limit,
            *2 * (said(reason.measure.removeprefix(f"{zone}.")),),
        )
    if reason.measure:
        sides = {Why.UNDER: "under", Why.OVER: "over"}
        return say(
            "{}: the {} would be {:±} by what was read, {} the {} the drawing allows. Nobody has measured "
            "it as it is now: measure the {}, which decides",
            zone,
            size,
            reason.size,
            sides.get(reason.why, "too near"),
            reason.limit,
            said(reason.measure.removeprefix(f"{zone}.")),
        )
    if reason.why is Why.NEAR:
        return say(
            "{}: the {} comes out at {:±}, too near the {} the drawing allows to be sure of",
            zone,
            size,
            reason.size,
            reason.limit,
        )
    return say(
        "{}: the {} comes out at {}, {:hair} {} the {} the drawing allows, and no step ahead puts it right",
        zone,
        size,
        reason.size,
        Apart(reason.size, reason.limit),
        "under" if reason.why is Why.UNDER else "over",
        reason.limit,
    )


def chance_beside(verdict: PlanState, chance: float) -> str:
    """Return the chance as it is told beside a verdict; "" where that is worse than the chance makes it.

    A job that is held back by a failed test or by a bend left wrong is tight, however sure its metal is. One
    whose size was read outside is off plan for that reading, though most hands stop inside and it may be.

    >>> chance_beside(PlanState.TIGHT, 0.9), chance_beside(PlanState.TIGHT, 0.97)
    ('90 %', '')
    >>> chance_beside(PlanState.OFF_PLAN, 0.47), chance_beside(PlanState.OFF_PLAN, 0.99)
    ('47 %', '')
    """
    order = list(PlanState)
    return "" if order.index(plan_state(chance)) < order.index(verdict) else chance_text(chance)


def stands_text(standing: Standing | Planned | Sheet | Stood, shown: Shown) -> str:
    """On plan, tight or off plan, the chance, and why."""
    chance = chance_beside(standing.verdict, standing.chance)
    told = f"{standing.verdict.capitalize()}{f', {chance}' if chance else ''}"
    return f"{told}: {reason_text(standing.reason, shown)}"
