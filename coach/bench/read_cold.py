"""What is read on cold steel alone, and how hot steel that is hard can be when a size is read of it."""

from __future__ import annotations

from coach.bench.entering import AsTyped, EntryFault
from coach.forms import said
from coach.ledger.own_curves import FILE_TEST, treatment_before
from coach.ledger.plan import Plan
from coach.log.kinds.reading import Reading
from coach.metals.tempering import HIGHEST_C
from coach.operations import Does
from coach.operations.does import HeatKind
from coach.operations.measures import HARDNESS
from coach.quantities.figure import celsius
from coach.quantities.words import say
from coach.recipe.model import Step

#: What a tester or a file tells of is cold steel (common practice, no source).
_COLD_ALONE = (HARDNESS, FILE_TEST)


def refuse_too_hot(plan: Plan, step: Step, read: Reading, typed: AsTyped) -> None:
    """Raise EntryFault for a hardness or a file test said to be read hot, and for a size of hard steel read
    hotter than any temper, for it would be hard no more; what is insisted on stands.
    """
    if typed.insist:
        return
    if typed.hot is not None and read.dimension in _COLD_ALONE:
        told = "The {} of {} is read on cold steel: let it cool, then read it without --hot, or F7 off."
        raise EntryFault(say(told, said(read.dimension), read.zone))
    treated = treatment_before(plan, step, read.zone)
    if treated is None or read.hot_c is None or read.hot_c <= HIGHEST_C:
        return
    if step.does(Does.TEMPERS) or step.heat_kind is HeatKind.COLD:
        told = (
            "The {} is hard from step {}, {}, and at {} it would be hard no more: say how hot it is now, or "
            "read the {} cold."
        )
        heat = celsius(read.hot_c)
        raise EntryFault(say(told, read.zone, treated.number, treated.title, heat, said(read.dimension)))
